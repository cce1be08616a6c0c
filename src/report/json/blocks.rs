//! What the reports have in common: which scenario, where, the plan, the wind, a margin, and how every report ends.

use glam::DVec2;
use serde::Serialize;
use serde_json::{Map, Value};

use crate::VERSION;
use crate::brief::origins::{Unmeasured, unmeasured};
use crate::error::Fault;
use crate::margins::{MarginUnit, Verdict};
use crate::recovery::{FailsafeAction, Gain, Guidance, Turn};
use crate::run::Scenario;
use crate::words::cautions;

#[derive(Serialize)]
pub(super) struct Head<'a> {
    report: &'static str,
    peewit_version: &'static str,
    scenario: &'a str,
    scenario_hash: String,
    date: &'a str,
    seed: u64,
}

#[derive(Serialize)]
pub(super) struct Tail<'a> {
    changes: &'a [String],
    unmeasured: Unmeasured,
    warnings: Vec<String>,
    cautions: [&'static str; cautions::ALL.len()],
}

/// East and north of the datum.
#[derive(Serialize)]
pub(super) struct Point {
    x_m: f64,
    y_m: f64,
}

/// The same in degrees as well, WGS84.
#[derive(Serialize)]
pub(super) struct Place {
    #[serde(flatten)]
    point: Point,
    latitude_deg: f64,
    longitude_deg: f64,
}

#[derive(Serialize)]
pub(super) struct Plan<'a, P> {
    failsafe_action: FailsafeAction,
    authorised_by: &'a str,
    authorised_for: &'a str,
    authority_counts: bool,
    radius_m: f64,
    height_m: f64,
    turn: Turn,
    guidance: Guidance,
    gain: Gain,
    centre: P,
}

#[derive(Serialize)]
pub(super) struct WindSheet {
    from_deg: f64,
    mean_mps: f64,
    gust_mps: f64,
    gust_assumed: bool,
    measured_at_m: f64,
    mean_at_circle_mps: f64,
    gust_at_circle_mps: f64,
}

/// What is left of a limit and what was asked for, in its own unit: `margin_m` and `buffer_m`, or `counted_s`.
pub(in crate::report) fn amounts(unit: MarginUnit, verdict: Verdict, [margin, buffer]: [f64; 2]) -> Map<String, Value> {
    let pairs: &[(&str, f64)] = match verdict {
        Verdict::Counted => &[("counted", margin)],
        _ => &[("margin", margin), ("buffer", buffer)],
    };
    pairs.iter().map(|&(name, amount)| (in_unit(name, unit), amount.into())).collect()
}

/// A key that ends in the unit of a limit.
pub(super) fn in_unit(name: &str, unit: MarginUnit) -> String {
    format!("{name}_{}", unit.ending())
}

impl<'a> Head<'a> {
    pub(super) fn new(report: &'static str, scenario: &'a Scenario) -> Self {
        let file = &scenario.file;
        Self {
            report,
            peewit_version: VERSION,
            scenario: &file.name,
            scenario_hash: scenario.hash(),
            date: &file.date,
            seed: file.seed,
        }
    }
}

impl<'a> Tail<'a> {
    pub(super) fn new(scenario: &Scenario, changes: &'a [String], warnings: &[Fault]) -> Self {
        Self {
            changes,
            unmeasured: unmeasured(&scenario.file),
            warnings: warnings.iter().map(ToString::to_string).collect(),
            cautions: cautions::ALL,
        }
    }
}

impl From<DVec2> for Point {
    fn from(at: DVec2) -> Self {
        Self { x_m: at.x, y_m: at.y }
    }
}

impl Place {
    pub(super) fn new(scenario: &Scenario, at: DVec2) -> Self {
        let (latitude_deg, longitude_deg) = scenario.field.plane.to_degrees(at);
        Self { point: at.into(), latitude_deg, longitude_deg }
    }
}

impl<'a, P> Plan<'a, P> {
    pub(super) fn new(scenario: &'a Scenario, centre: P) -> Self {
        let plan = &scenario.file.recovery;
        Self {
            failsafe_action: plan.failsafe_action,
            authorised_by: &plan.authorised_by,
            authorised_for: &plan.authorised_for,
            authority_counts: scenario.file.authority().counts(),
            radius_m: plan.radius.m(),
            height_m: plan.height.m(),
            turn: plan.turn,
            guidance: plan.guidance,
            gain: plan.gain,
            centre,
        }
    }
}

impl WindSheet {
    pub(super) fn new(scenario: &Scenario) -> Self {
        let (wind, [mean_at_circle_mps, gust_at_circle_mps]) = (&scenario.file.wind, scenario.wind_at_circle());
        Self {
            from_deg: wind.from.deg(),
            mean_mps: wind.mean.mps(),
            gust_mps: wind.gust().mps(),
            gust_assumed: wind.gust_is_assumed(),
            measured_at_m: wind.measured_at.m(),
            mean_at_circle_mps,
            gust_at_circle_mps,
        }
    }
}
