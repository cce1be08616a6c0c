//! The radius study's own part of the JSON.

use serde_json::{Value, json};

use super::{demand, number, perhaps, perhaps_verdict, score, tally};
use crate::ledger::LimitInfo;
use crate::report::json::{name, tidy};
use crate::study::radius::{Band, Choice, RadiusStudy};

pub(super) fn answer(study: &RadiusStudy) -> Value {
    let (limits, ask) = (&study.limits, &study.ask);
    let [still, mean, gust] = study.closed.smallest_m.map(number);
    let [slow, fast] = study.closed.speed_window_mps.map(number);
    let choice =
        |choice: &Option<Choice>| choice.as_ref().map_or(Value::Null, |one| chosen(one, limits, ask.confidence));
    json!({
        "cases": ask.cases,
        "confidence": ask.confidence,
        "first_look": ask.first_look,
        "demand": demand(&study.demand),
        "plan_verdict": perhaps_verdict(study.plan.as_ref()),
        "choice": choice(&study.choice),
        "least_bad": choice(&study.least_bad),
        "not_met_before_it_acts": study.already,
        "bands": {
            "mean": bands(&study.bands.mean, limits),
            "gust": bands(&study.bands.gust, limits),
            "cases": bands(&study.bands.cases, limits),
            "undecided": bands(&study.bands.undecided, limits),
        },
        "points": study.points.iter().map(|point| json!({
            "radius_m": tidy(point.radius_m),
            "turn": name(point.turn),
            "mean": score(&point.mean, limits),
            "gust": score(&point.gust, limits),
            "cases": tally(&point.cases, limits, ask.confidence),
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
            "wind_ceiling_mps": number(study.closed.wind_ceiling_mps),
        },
        "room": {
            "free_m": number(study.free_m),
            "free_to": study.free_to,
            "falls_m": number(study.falls_m),
            "buffers": study.buffers.iter().map(|buffer| json!({
                "name": buffer.name,
                "buffer_m": number(buffer.metres),
                "origin": buffer.origin,
            })).collect::<Vec<_>>(),
        },
        "looked_at": { "radius_m": tidy(study.looked_at.0), "turn": name(study.looked_at.1) },
        "sensitivity": study.sensitivity.iter().map(|moved| json!({
            "input": moved.input,
            "values": moved.values,
            "outermost_m": moved.outermost_m.map(perhaps),
            "spare_m": moved.spare_m.map(number),
            "smallest_m": moved.smallest_m.map(number),
        })).collect::<Vec<_>>(),
        "family": study.family.iter().map(|member| json!({
            "guidance": name(member.guidance),
            "firmness": name(member.firmness),
            "mean": score(&member.mean, limits),
        })).collect::<Vec<_>>(),
        "openers": study.openers.iter().map(|opener| json!({
            "change": opener.change,
            "mean": bands(&opener.bands, limits),
            "gust": bands(&opener.gust, limits),
        })).collect::<Vec<_>>(),
        "best_hub": study.best_hub.as_ref().map_or(Value::Null, |best| json!({
            "hub": { "x_m": tidy(best.hub.x), "y_m": tidy(best.hub.y) },
            "radius_m": tidy(best.radius_m),
            "turn": name(best.turn),
            "bands": bands(&best.bands, limits),
            "mean": score(&best.mean, limits),
        })),
    })
}

fn bands(bands: &[Band], limits: &[LimitInfo]) -> Value {
    let limit = |limit| limits.iter().find(|info| Some(info.limit) == limit).map(|info| info.name.as_str());
    bands
        .iter()
        .map(|band| {
            json!({
                "turn": name(band.turn),
                "low_m": tidy(band.low.radius_m),
                "low_limit": limit(band.low.limit),
                "low_reason": band.low.reason,
                "high_m": tidy(band.high.radius_m),
                "high_limit": limit(band.high.limit),
                "high_reason": band.high.reason,
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
        "cases": tally(&choice.cases, limits, confidence),
        "verdict": perhaps_verdict(choice.verdict.as_ref()),
        "closest": closest.map(|info| info.name.as_str()).collect::<Vec<_>>(),
    })
}
