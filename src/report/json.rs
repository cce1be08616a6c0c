//! A recovery for other programs: everything the text says and the numbers behind it, SI with the unit in the key.

use serde::Serialize;
use serde_json::{Map, Value};

use crate::brief::origins::{Unmeasured, unmeasured};
use crate::brief::{People, Recovery, spans};
use crate::margins::{Figures, MarginRow, Verdict};
use crate::report::values::{name, si, tidy};
use crate::words::cautions;
use crate::{Error, Result, VERSION, words};

/// A row's numbers with their unit in the key: `margin_m` and `buffer_m`, or `counted_s`.
pub(super) fn amounts(row: &MarginRow) -> Map<String, Value> {
    let unit = row.unit.ending();
    let pairs = match row.verdict {
        Verdict::Counted => vec![(format!("counted_{unit}"), row.margin)],
        _ => vec![(format!("margin_{unit}"), row.margin), (format!("standoff_{unit}"), row.buffer)],
    };
    pairs.into_iter().map(|(key, value)| (key, tidy(value).into())).collect()
}

#[derive(Serialize)]
struct Report<'a> {
    report: &'static str,
    peewit_version: &'static str,
    scenario: &'a str,
    scenario_hash: String,
    date: &'a str,
    seed: u64,
    trial: u64,
    wind: &'static str,
    verdict: &'static str,
    crossed: bool,
    buffer_used: bool,
    plan_verdict: Value,
    about: String,
    headline: String,
    ending: &'static str,
    end_s: f64,
    loss: Loss,
    plan: Plan<'a>,
    wind_sheet: Wind,
    margins: Vec<Margin<'a>>,
    people: Near,
    stretches: Vec<Part>,
    figures: Numbers,
    remarks: &'a [String],
    changes: &'a [String],
    unmeasured: Unmeasured,
    warnings: Vec<String>,
    cautions: [&'static str; cautions::ALL.len()],
}

#[derive(Serialize)]
struct Place {
    x_m: f64,
    y_m: f64,
    latitude_deg: f64,
    longitude_deg: f64,
}

#[derive(Serialize)]
struct Loss {
    kind: Value,
    at: Place,
    height_m: f64,
    airspeed_mps: f64,
    heading_deg: f64,
}

#[derive(Serialize)]
struct Plan<'a> {
    failsafe_action: Value,
    authorised_by: &'a str,
    authorised_for: &'a str,
    authority_counts: bool,
    radius_m: f64,
    height_m: f64,
    turn: Value,
    guidance: Value,
    gain: Value,
    centre: Place,
}

#[derive(Serialize)]
struct Wind {
    from_deg: f64,
    mean_mps: f64,
    gust_mps: f64,
    gust_assumed: bool,
    measured_at_m: f64,
    mean_at_circle_mps: f64,
    gust_at_circle_mps: f64,
}

#[derive(Serialize)]
struct Margin<'a> {
    limit: &'a str,
    verdict: &'static str,
    #[serde(flatten)]
    amounts: Map<String, Value>,
    at_s: f64,
    at: Place,
    height_m: f64,
    stretch: &'static str,
}

#[derive(Serialize)]
pub(in crate::report) struct Near {
    told: String,
    nearest_m: f64,
    to: String,
    fall_nearest_m: f64,
    fall_to: String,
    fall_share: Option<f64>,
    glide_share: Option<f64>,
    areas: usize,
}

#[derive(Serialize)]
struct Part {
    stretch: &'static str,
    from_s: f64,
    to_s: f64,
    along_m: f64,
}

#[derive(Serialize)]
struct Numbers {
    turn_back_m: f64,
    furthest_m: Option<f64>,
    joining_overshoot_m: Option<f64>,
    drift_m: f64,
    smallest_radius_still_m: f64,
    smallest_radius_mean_m: f64,
    smallest_radius_gust_m: f64,
    home_s: Option<f64>,
    lap_s: Option<f64>,
    saturated_share: Option<f64>,
    lap_energy_wh: Option<f64>,
    energy_left_wh: f64,
    laps_to_reserve: Option<f64>,
    glide_footprint_m: f64,
    fall_footprint_m: f64,
}

/// The whole report, indented, with a line end.
pub(super) fn recovery(recovery: &Recovery) -> Result<String> {
    let text = serde_json::to_string_pretty(&report(recovery));
    text.map(|text| text + "\n").map_err(|why| Error::Asked(format!("can't write the report as JSON: {why}")))
}

fn report<'a>(recovery: &Recovery<'a>) -> Report<'a> {
    let (scenario, margins, trace) = (recovery.scenario, recovery.margins, &recovery.run.trace);
    let (file, plan, loss, wind) = (&scenario.file, &scenario.file.recovery, &scenario.file.loss, &scenario.file.wind);
    let [mean_at_circle_mps, gust_at_circle_mps] = margins.figures.wind_at_circle_mps.map(tidy);
    let place = |at: glam::DVec2| {
        let (latitude, longitude) = scenario.field.plane.to_degrees(at);
        let degrees = |value: f64| (value * 1e9).round() / 1e9;
        Place { x_m: tidy(at.x), y_m: tidy(at.y), latitude_deg: degrees(latitude), longitude_deg: degrees(longitude) }
    };
    Report {
        report: "recovery",
        peewit_version: VERSION,
        scenario: &file.name,
        scenario_hash: scenario.hash(),
        date: &file.date,
        seed: file.seed,
        trial: recovery.run.trial,
        wind: words::wind_key(recovery.wind),
        verdict: margins.verdict().name(),
        crossed: margins.verdict() == Verdict::Crossed,
        buffer_used: margins.verdict() >= Verdict::InsideBuffer,
        plan_verdict: recovery.trials.map_or(Value::Null, |trials| super::study::verdict_json(&trials.verdict)),
        about: scenario.loss_told(recovery.run.trial),
        headline: recovery.headline(),
        ending: words::ending_key(margins.ending),
        end_s: tidy(margins.end_s),
        loss: Loss {
            kind: name(loss.kind),
            at: place(loss.at_m.into()),
            height_m: si(loss.height),
            airspeed_mps: si(loss.speed),
            heading_deg: tidy(loss.heading.deg()),
        },
        plan: Plan {
            failsafe_action: name(plan.failsafe_action),
            authorised_by: &plan.authorised_by,
            authorised_for: &plan.authorised_for,
            authority_counts: file.authority().counts(),
            radius_m: si(plan.radius),
            height_m: si(plan.height),
            turn: name(plan.turn),
            guidance: name(plan.guidance),
            gain: name(plan.gain),
            centre: place(scenario.field.centre),
        },
        wind_sheet: Wind {
            from_deg: tidy(wind.from.deg()),
            mean_mps: si(wind.mean),
            gust_mps: si(wind.gust()),
            gust_assumed: wind.gust_is_assumed(),
            measured_at_m: si(wind.measured_at),
            mean_at_circle_mps,
            gust_at_circle_mps,
        },
        margins: margins
            .rows
            .iter()
            .map(|row| Margin {
                limit: &row.name,
                verdict: row.verdict.name(),
                amounts: amounts(row),
                at_s: tidy(row.at_s),
                at: place(row.at),
                height_m: tidy(row.height_m),
                stretch: row.stretch.name(),
            })
            .collect(),
        people: near(recovery.people()),
        stretches: spans(trace)
            .into_iter()
            .map(|span| Part {
                stretch: span.stretch.name(),
                from_s: tidy(trace.time_s(span.from)),
                to_s: tidy(trace.time_s(span.to)),
                along_m: tidy(span.along_m(trace)),
            })
            .collect(),
        figures: numbers(&margins.figures),
        remarks: &margins.remarks,
        changes: recovery.changes,
        unmeasured: unmeasured(file),
        warnings: recovery.warnings.iter().map(ToString::to_string).collect(),
        cautions: cautions::ALL,
    }
}

/// How near people it passes, in words and numbers.
pub(in crate::report) fn near(people: People) -> Near {
    Near {
        told: words::people(&people),
        nearest_m: tidy(people.nearest_m),
        fall_nearest_m: tidy(people.fall_nearest_m),
        fall_share: people.fall_share.map(tidy),
        glide_share: people.glide_share.map(tidy),
        to: people.to,
        fall_to: people.fall_to,
        areas: people.areas,
    }
}

fn numbers(figures: &Figures) -> Numbers {
    let [still, mean, gust] = figures.smallest_radius_m.map(tidy);
    let wh = |joules: f64| tidy(joules / 3600.0);
    Numbers {
        turn_back_m: tidy(figures.turn_back_m),
        furthest_m: figures.furthest_m.map(tidy),
        joining_overshoot_m: figures.joining_overshoot_m.map(tidy),
        drift_m: tidy(figures.drift_m),
        smallest_radius_still_m: still,
        smallest_radius_mean_m: mean,
        smallest_radius_gust_m: gust,
        home_s: figures.home_s.map(tidy),
        lap_s: figures.lap_s.map(tidy),
        saturated_share: figures.saturated_share.map(tidy),
        lap_energy_wh: figures.lap_energy_j.map(wh),
        energy_left_wh: wh(figures.energy_left_j),
        laps_to_reserve: figures.laps_to_reserve.map(tidy),
        glide_footprint_m: tidy(figures.glide_footprint_m),
        fall_footprint_m: tidy(figures.fall_footprint_m),
    }
}
