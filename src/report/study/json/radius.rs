//! The radius study's own part of the JSON.

use serde_json::{Value, json};

use super::{demand, number, perhaps, perhaps_verdict, score, tally};
use crate::margins::LimitInfo;
use crate::report::values::{name, tidy};
use crate::study::radius::{Choice, RadiusRange, RadiusStudy};
use crate::words;

pub(super) fn answer(study: &RadiusStudy) -> Value {
    let (limits, ask) = (&study.limits, &study.ask);
    let [still, mean, gust] = study.closed.smallest_m.map(number);
    let [slow, fast] = study.closed.speed_window_mps.map(number);
    let choice =
        |choice: &Option<Choice>| choice.as_ref().map_or(Value::Null, |one| chosen(one, limits, ask.confidence));
    json!({
        "trials": ask.trials,
        "confidence": ask.confidence,
        "first_look": ask.first_look,
        "demand": demand(&study.demand),
        "plan_verdict": perhaps_verdict(study.plan.as_ref()),
        "choice": choice(&study.choice),
        "least_bad": choice(&study.least_bad),
        "not_met_before_it_acts": study.already.iter().map(words::shortfall).collect::<Vec<_>>(),
        "usable_radii": {
            "mean": usable(&study.usable.mean, limits),
            "gust": usable(&study.usable.gust, limits),
            "trials": usable(&study.usable.trials, limits),
            "undecided": usable(&study.usable.undecided, limits),
        },
        "points": study.points.iter().map(|point| json!({
            "radius_m": tidy(point.radius_m),
            "turn": name(point.turn),
            "mean": score(&point.mean, limits),
            "gust": score(&point.gust, limits),
            "trials": tally(&point.trials, limits, ask.confidence),
            "verdict": perhaps_verdict(point.verdict.as_ref()),
        })).collect::<Vec<_>>(),
        "closed_form": {
            "smallest_still_m": still,
            "smallest_mean_m": mean,
            "smallest_gust_m": gust,
            "largest_m": number(study.closed.largest_m),
            "largest_reason": study.closed.largest_reason,
            "slowest_mps": slow,
            "fastest_mps": fast,
            "wind_limit_mps": number(study.closed.wind_limit_mps),
        },
        "room": {
            "free_m": number(study.free_m),
            "free_to": study.free_to,
            "falls_m": number(study.falls_m),
            "lines": study.budget.iter().map(|part| json!({
                "name": part.name,
                "takes_m": number(part.metres),
                "origin": part.origin,
            })).collect::<Vec<_>>(),
        },
        "looked_at": { "radius_m": tidy(study.looked_at.0), "turn": name(study.looked_at.1) },
        "sensitivity": study.sensitivity.iter().map(|moved| json!({
            "input": moved.input,
            "values": moved.values,
            "furthest_m": moved.furthest_m.map(perhaps),
            "spare_m": moved.spare_m.map(number),
            "smallest_m": moved.smallest_m.map(number),
        })).collect::<Vec<_>>(),
        "family": study.family.iter().map(|member| json!({
            "guidance": name(member.guidance),
            "gain": name(member.gain),
            "mean": score(&member.mean, limits),
        })).collect::<Vec<_>>(),
        "what_would_help": study.remedies.iter().map(|remedy| json!({
            "change": remedy.change,
            "mean": usable(&remedy.usable, limits),
            "gust": usable(&remedy.gust, limits),
        })).collect::<Vec<_>>(),
        "best_centre": study.best_centre.as_ref().map_or(Value::Null, |best| json!({
            "centre": { "x_m": tidy(best.centre.x), "y_m": tidy(best.centre.y) },
            "radius_m": tidy(best.radius_m),
            "turn": name(best.turn),
            "usable_radii": usable(&best.usable, limits),
            "mean": score(&best.mean, limits),
        })),
    })
}

fn usable(usable: &[RadiusRange], limits: &[LimitInfo]) -> Value {
    let limit = |limit| limits.iter().find(|info| Some(info.limit) == limit).map(|info| info.name.as_str());
    usable
        .iter()
        .map(|range| {
            json!({
                "turn": name(range.turn),
                "low_m": tidy(range.low.radius_m),
                "low_limit": limit(range.low.reason.limit()),
                "low_reason": words::end(&range.low),
                "high_m": tidy(range.high.radius_m),
                "high_limit": limit(range.high.reason.limit()),
                "high_reason": words::end(&range.high),
            })
        })
        .collect()
}

fn chosen(choice: &Choice, limits: &[LimitInfo], confidence: f64) -> Value {
    let closest = choice.closest.iter().filter_map(|&index| limits.get(index));
    json!({
        "radius_m": tidy(choice.radius_m),
        "turn": name(choice.turn),
        "mean": score(&choice.mean, limits),
        "gust": score(&choice.gust, limits),
        "trials": tally(&choice.trials, limits, confidence),
        "verdict": perhaps_verdict(choice.verdict.as_ref()),
        "closest": closest.map(|info| info.name.as_str()).collect::<Vec<_>>(),
    })
}
