//! The wind limits' own part of the JSON.

use serde::Serialize;

use super::trials::{Demand, Tally};
use crate::recovery::Turn;
use crate::run::Scenario;
use crate::study;
use crate::study::wind_limit::{WindLimitStudy, here};

#[derive(Serialize)]
pub(super) struct WindLimit<'a> {
    radius_m: f64,
    turn: Turn,
    trials: u64,
    confidence: f64,
    demand: Demand,
    worst_from_deg: Option<f64>,
    today_from_deg: Option<f64>,
    loss_too_near: Option<&'a str>,
    bank_mps: f64,
    directions: Vec<Direction<'a>>,
}

#[derive(Serialize)]
struct Direction<'a> {
    from_deg: f64,
    wind_limit_mps: Option<f64>,
    gust_mps: Option<f64>,
    plan_mps: Option<f64>,
    hand_meter_mps: Option<[f64; 2]>,
    fails_mps: Option<f64>,
    undecided_mps: Option<[f64; 2]>,
    limit: Option<&'a str>,
    held: Option<Tally<'a>>,
    failed: Option<Tally<'a>>,
}

impl<'a> WindLimit<'a> {
    pub(super) fn new(scenario: &Scenario, study: &'a WindLimitStudy) -> Self {
        let (ask, limits) = (&study.ask, study.limits.as_slice());
        let named = |index: Option<usize>| index.and_then(|index| limits.get(index)).map(|info| info.name.as_str());
        let counts = |part: &Option<study::Tally>| part.as_ref().map(|part| Tally::new(part, limits, ask.confidence));
        let directions = study.directions.iter().map(|found| Direction {
            from_deg: found.from_deg,
            wind_limit_mps: found.wind_limit_mps,
            gust_mps: found.gust_mps,
            plan_mps: found.plan_mps,
            hand_meter_mps: found.at_2m_mps,
            fails_mps: found.fails_mps,
            undecided_mps: found.undecided_mps,
            limit: named(found.limit),
            held: counts(&found.held),
            failed: counts(&found.failed),
        });
        Self {
            radius_m: ask.radius_m,
            turn: ask.turn,
            trials: ask.trials,
            confidence: ask.confidence,
            demand: (&study.demand).into(),
            worst_from_deg: study.worst.and_then(|index| study.directions.get(index)).map(|found| found.from_deg),
            today_from_deg: here(study, scenario.file.wind.from).map(|found| found.from_deg),
            loss_too_near: named(study.loss_too_near),
            bank_mps: study.bank_mps,
            directions: directions.collect(),
        }
    }
}
