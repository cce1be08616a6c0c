//! Once round the circle: what the jet does at every bearing from the centre, beside what a circle held exactly would
//! take.

use glam::DVec2;

use super::clock::{Clock, position};
use super::figures::{AT_LIMIT, Round};
use super::gauge::LEAST_LOAD;
use super::judge::Judge;
use crate::jet::turn;
use crate::recovery::Turn;
use crate::run::{Run, Scenario, Trace, Trial, setting};
use crate::units::Bearing;

/// Bearings at which a lap is told: every 5 degrees.
const BEARINGS: u32 = 72;

/// The last whole lap of a recovery, by the bearing of the jet from the centre: one entry a bearing in every list,
/// clockwise from north.
#[derive(Debug, Clone, PartialEq)]
pub struct Lap {
    /// Way round.
    pub turn: Turn,
    /// Bearing from the centre, degrees.
    pub at_deg: Vec<f64>,
    /// Bank, degrees, positive into the turn.
    pub bank_deg: Vec<f64>,
    /// Bank that holds the commanded circle exactly at that bearing, in closed form, degrees: in the wind at circle height,
    /// without turbulence, at the return speed. 90 where that wind is no less than the return speed.
    pub needed_bank_deg: Vec<f64>,
    /// Load factor.
    pub load: Vec<f64>,
    /// Speed over the ground, m/s.
    pub ground_speed_mps: Vec<f64>,
    /// Airspeed, m/s.
    pub airspeed_mps: Vec<f64>,
    /// Airspeed over the one asked for, m/s: over the stall speed at that load times the stall factor.
    pub stall_margin_mps: Vec<f64>,
    /// Distance from the centre, metres.
    pub distance_m: Vec<f64>,
    /// Where, metres.
    pub place: Vec<DVec2>,
    /// Height above home, metres.
    pub height_m: Vec<f64>,
    /// When, seconds since the loss; the lap begins and ends between two bearings.
    pub at_s: Vec<f64>,
    /// Whether the bank is at its limit.
    pub saturated: Vec<bool>,
}

/// The last whole lap of a run of a scenario; none where no whole lap of the circle was flown.
pub fn lap(scenario: &Scenario, run: &Run) -> Option<Lap> {
    let trace = &run.trace;
    let from = lap_began(scenario, run)?;
    let centre = DVec2::new(run.drawn.plan.centre_x, run.drawn.plan.centre_y);
    let turn = if run.drawn.plan.turn > 0.0 { Turn::Clockwise } else { Turn::Anticlockwise };
    let mut lap = Lap {
        turn,
        at_deg: Vec::new(),
        bank_deg: Vec::new(),
        needed_bank_deg: Vec::new(),
        load: Vec::new(),
        ground_speed_mps: Vec::new(),
        airspeed_mps: Vec::new(),
        stall_margin_mps: Vec::new(),
        distance_m: Vec::new(),
        place: Vec::new(),
        height_m: Vec::new(),
        at_s: Vec::new(),
        saturated: Vec::new(),
    };
    for index in 0..BEARINGS {
        let at_deg = 360.0 * f64::from(index) / f64::from(BEARINGS);
        let at = crossing(trace, centre, Bearing::from_deg(at_deg).unit(), turn, from)?;
        lap.note(scenario, run, at_deg, at, centre);
    }
    Some(lap)
}

/// The sample number with a fraction at which the last whole lap of a run began; it ends with the run. None where no whole
/// lap of the circle was flown.
pub fn lap_began(scenario: &Scenario, run: &Run) -> Option<f64> {
    let (judge, trace) = (Judge::new(scenario), &run.trace);
    let setting = setting(scenario);
    let mut gauge = judge.gauge::<f64>(trace.step_s);
    trace.show(&mut gauge);
    let flown = judge.flown(&setting, &run.drawn, gauge.lane(0), Clock::Steps(trace.step_s));
    Round::last(&flown, flown.seen.circle?).from
}

/// The sample number with a fraction at which a path first crosses a ray from the centre the way it turns.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
fn crossing(trace: &Trace, centre: DVec2, ray: DVec2, turn: Turn, from: f64) -> Option<f64> {
    // Beyond the ray is to its right on the way clockwise.
    let beyond = |at: DVec2| if turn == Turn::Clockwise { -ray.perp_dot(at) } else { ray.perp_dot(at) };
    let place = |index: usize| trace.point(index) - centre;
    // The lap begins and ends on one ray, which rounding might take out of it at both ends, but for the step before.
    for index in (from as usize).saturating_sub(1)..trace.len() - 1 {
        let (before, after) = (place(index), place(index + 1));
        let (short, past) = (beyond(before), beyond(after));
        if short <= 0.0 && past > 0.0 {
            let share = short / (short - past);
            if ray.dot(before + (after - before) * share) > 0.0 {
                return Some(position(index) + share);
            }
        }
    }
    None
}

impl Lap {
    /// Notes down what the jet does at a sample number with a fraction.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
    fn note(&mut self, scenario: &Scenario, run: &Run, at_deg: f64, at: f64, centre: DVec2) {
        let (trial, trace) = (&run.drawn, &run.trace);
        let value = |list: &[f64]| Trace::between(list, at);
        let (bank, load, airspeed) = (value(&trace.bank_rad), value(&trace.load), value(&trace.airspeed_mps));
        let sample = (at as usize).min(trace.len() - 2);
        let step = trace.point(sample + 1) - trace.point(sample);
        let stall = trial.jet.stall_speed(load.max(LEAST_LOAD));
        self.at_deg.push(at_deg);
        self.bank_deg.push((bank * trial.plan.turn).to_degrees());
        self.needed_bank_deg.push(needed_bank(scenario, trial, at_deg).to_degrees());
        self.load.push(load);
        self.ground_speed_mps.push(step.length() / trace.step_s);
        self.airspeed_mps.push(airspeed);
        self.stall_margin_mps.push(airspeed - scenario.file.limits.stall_factor * stall);
        self.distance_m.push(trace.point_between(at).distance(centre));
        self.place.push(trace.point_between(at));
        self.height_m.push(value(&trace.height_m));
        self.at_s.push(at * trace.step_s);
        self.saturated.push(bank.abs() >= trial.jet.maximum_bank - AT_LIMIT);
    }
}

/// Bank that holds the commanded circle exactly at a bearing from the centre, rad.
fn needed_bank(scenario: &Scenario, trial: &Trial, at_deg: f64) -> f64 {
    let wind = trial.wind.at(scenario.file.wind.profile, trial.plan.height);
    let (wind, speed) = (DVec2::new(wind.x, wind.y), trial.jet.return_speed);
    if wind.length() >= speed {
        return std::f64::consts::FRAC_PI_2;
    }
    let out = Bearing::from_deg(at_deg).unit();
    // The course is a quarter turn ahead of the bearing: to the right of the way out on the way clockwise.
    let course = if trial.plan.turn > 0.0 { -out.perp() } else { out.perp() };
    turn::on_circle(speed, wind.length(), trial.plan.radius, wind.perp_dot(course).atan2(wind.dot(course))).1
}
