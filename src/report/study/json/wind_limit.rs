//! The wind limits' own part of the JSON.

use serde_json::{Value, json};

use super::{demand, number, perhaps, tally};
use crate::report::values::{name, tidy};
use crate::run::Scenario;
use crate::study::Tally;
use crate::study::wind_limit::{Direction, WindLimitStudy, here};

pub(super) fn answer(scenario: &Scenario, study: &WindLimitStudy) -> Value {
    let direction = |found: &Direction| {
        let counts = |part: &Option<Tally>| {
            part.as_ref().map_or(Value::Null, |part| tally(part, &study.limits, study.ask.confidence))
        };
        json!({
            "from_deg": tidy(found.from_deg),
            "wind_limit_mps": perhaps(found.wind_limit_mps),
            "gust_mps": perhaps(found.gust_mps),
            "plan_mps": perhaps(found.plan_mps),
            "hand_meter_mps": found.at_2m_mps.map(|ends| ends.map(number)),
            "fails_mps": perhaps(found.fails_mps),
            "undecided_mps": found.undecided_mps.map(|ends| ends.map(number)),
            "limit": found.limit.and_then(|index| study.limits.get(index)).map(|info| info.name.as_str()),
            "held": counts(&found.held),
            "failed": counts(&found.failed),
        })
    };
    let from = |found: Option<&Direction>| found.map_or(Value::Null, |found| tidy(found.from_deg).into());
    json!({
        "radius_m": tidy(study.ask.radius_m),
        "turn": name(study.ask.turn),
        "trials": study.ask.trials,
        "confidence": study.ask.confidence,
        "demand": demand(&study.demand),
        "worst_from_deg": from(study.worst.and_then(|index| study.directions.get(index))),
        "today_from_deg": from(here(study, scenario.file.wind.from)),
        "loss_too_near": study.loss_too_near.and_then(|index| study.limits.get(index)).map(|info| info.name.as_str()),
        "bank_mps": number(study.bank_mps),
        "directions": study.directions.iter().map(direction).collect::<Vec<_>>(),
    })
}
