//! A study for other programs: everything the text says and the numbers behind it, SI with the unit in the key.

mod losses;
mod radius;
mod wind_limit;

use serde_json::{Map, Value, json};

use crate::brief::origins::unmeasured;
use crate::brief::{Answer, StudyReport};
use crate::margins::{self, Gap, LimitInfo, MarginUnit, Outcome, Score};
use crate::report::values::{name, si, tidy};
use crate::study::Tally;
use crate::study::stats::Share;
use crate::study::verdict::{Demand, Verdict};
use crate::words::cautions;
use crate::{Error, Result, VERSION, words};

/// The whole report, indented, with a line end.
pub(super) fn study(report: &StudyReport) -> Result<String> {
    let (kind, answer) = match report.answer {
        Answer::Radius(study) => ("radius", radius::answer(study)),
        Answer::WindLimit(study) => ("wind-limit", wind_limit::answer(report.scenario, study)),
        Answer::Losses(study) => ("losses", losses::answer(study)),
    };
    let file = &report.scenario.file;
    let (plan, wind, centre) = (&file.recovery, &file.wind, report.scenario.field.centre);
    let mut all = json!({
        "report": kind,
        "peewit_version": VERSION,
        "scenario": file.name,
        "scenario_hash": report.scenario.hash(),
        "date": file.date,
        "seed": file.seed,
        "partial": report.partial(),
        "about": report.scenario.losses_told(),
        "headline": report.headline(),
        "plan": {
            "failsafe_action": name(plan.failsafe_action),
            "authorised_by": plan.authorised_by,
            "authorised_for": plan.authorised_for,
            "authority_counts": file.authority().counts(),
            "radius_m": si(plan.radius),
            "height_m": si(plan.height),
            "turn": name(plan.turn),
            "guidance": name(plan.guidance),
            "gain": name(plan.gain),
            "centre": { "x_m": tidy(centre.x), "y_m": tidy(centre.y) },
        },
        "wind_sheet": {
            "from_deg": tidy(wind.from.deg()),
            "mean_mps": si(wind.mean),
            "gust_mps": si(wind.gust()),
            "gust_assumed": wind.gust_is_assumed(),
            "measured_at_m": si(wind.measured_at),
            "mean_at_circle_mps": tidy(report.scenario.wind_at_circle()[0]),
            "gust_at_circle_mps": tidy(report.scenario.wind_at_circle()[1]),
        },
    });
    let end = json!({
        "changes": report.changes,
        "unmeasured": unmeasured(file),
        "warnings": report.warnings.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "cautions": cautions::ALL,
    });
    if let (Some(all), Value::Object(answer), Value::Object(end)) = (all.as_object_mut(), answer, end) {
        all.extend(answer);
        all.extend(end);
    }
    let text = serde_json::to_string_pretty(&all);
    text.map(|text| text + "\n").map_err(|why| Error::Asked(format!("can't write the study as JSON: {why}")))
}

/// A number, or null where there is none.
fn number(value: f64) -> Value {
    if value.is_finite() { tidy(value).into() } else { Value::Null }
}

fn perhaps(value: Option<f64>) -> Value {
    value.map_or(Value::Null, number)
}

fn key(start: &str, unit: MarginUnit) -> String {
    format!("{start}_{}", unit.ending())
}

/// Counts of every outcome.
fn outcomes(counts: &[u64; Outcome::ALL.len()]) -> Value {
    let pairs = Outcome::ALL.iter().zip(counts);
    Value::Object(pairs.map(|(outcome, count)| (outcome.name().replace(' ', "_"), (*count).into())).collect())
}

/// The interval of a share by Wilson, as if the number of trials had been fixed beforehand.
fn interval(count: u64, of: u64, confidence: f64) -> Value {
    if of == 0 {
        return Value::Null;
    }
    let share = Share { count, of }.wilson(confidence);
    json!({ "low_share": tidy(share.low), "high_share": tidy(share.high) })
}

/// What is asked of trials.
fn demand(demand: &Demand) -> Value {
    json!({
        "crossed_at_most_share": tidy(demand.crossed_at_most),
        "kept_at_least_share": tidy(demand.kept_at_least),
        "confidence": demand.confidence,
        "most_trials": demand.most,
    })
}

/// A verdict in all its parts.
pub(in crate::report) fn verdict(verdict: &Verdict) -> Value {
    let interval = |share: Share| {
        let interval = verdict.demand.interval(share);
        json!({ "low_share": tidy(interval.low), "high_share": tidy(interval.high) })
    };
    json!({
        "answer": verdict.answer.name(),
        "not_crossing": verdict.not_crossing.name(),
        "keeping": verdict.keeping.name(),
        "trials": verdict.trials,
        "crossed": verdict.crossed.count,
        "crossed_interval": interval(verdict.crossed),
        "kept": verdict.kept.count,
        "kept_interval": interval(verdict.kept),
        "held": verdict.held.count,
        "held_interval": interval(verdict.held),
        "demand": demand(&verdict.demand),
        "told": verdict.in_words(),
    })
}

/// The same, or null where nothing was judged.
fn perhaps_verdict(found: Option<&Verdict>) -> Value {
    found.map_or(Value::Null, verdict)
}

fn tally(tally: &Tally, limits: &[LimitInfo], confidence: f64) -> Value {
    let of = |hits| interval(hits, tally.trials, confidence);
    let rows = limits.iter().zip(&tally.limits).map(|(info, limit)| {
        let mut row = Map::new();
        row.insert("limit".into(), info.name.clone().into());
        row.insert("crossed".into(), limit.crossed.into());
        row.insert("crossed_interval".into(), of(limit.crossed));
        row.insert("inside_buffer".into(), limit.inside_buffer.into());
        row.insert(key("least", info.unit), number(limit.least));
        row.insert("least_trial".into(), limit.least_trial.into());
        Value::Object(row)
    });
    json!({
        "trials": tally.trials,
        "crossed": tally.crossed,
        "crossed_interval": of(tally.crossed),
        "kept": tally.kept,
        "kept_interval": of(tally.kept),
        "held": tally.held,
        "held_interval": of(tally.held),
        "outcomes": outcomes(&tally.outcomes),
        "limits": rows.collect::<Vec<_>>(),
    })
}

fn score(score: &Score, limits: &[LimitInfo]) -> Value {
    json!({
        "outcome": score.outcome.name(),
        "crossed": score.crossed,
        "kept": score.kept,
        "held": score.held,
        "ending": words::ending_key(score.ending),
        "end_s": number(score.end_s),
        "furthest_m": perhaps(score.furthest_m),
        "joining_overshoot_m": perhaps(score.joining_overshoot_m),
        "turn_back_m": number(score.turn_back_m),
        "lap_s": perhaps(score.lap_s),
        "saturated_share": perhaps(score.saturated_share),
        "home_s": perhaps(score.home_s),
        "energy_home_wh": number(score.energy_home_j / 3600.0),
        "laps_to_reserve": perhaps(score.laps_to_reserve),
        "margins": limits.iter().zip(&score.gaps).map(|(info, found)| gap(info, found)).collect::<Vec<_>>(),
    })
}

fn gap(info: &LimitInfo, gap: &Gap) -> Value {
    let mut row = Map::new();
    row.insert("limit".into(), info.name.clone().into());
    row.insert("verdict".into(), gap.verdict.name().into());
    if gap.verdict == margins::Verdict::Counted {
        row.insert(key("counted", info.unit), number(gap.margin));
    } else {
        row.insert(key("margin", info.unit), number(gap.margin));
        row.insert(key("buffer", info.unit), number(gap.buffer));
    }
    row.insert("at_s".into(), number(gap.at_s));
    Value::Object(row)
}
