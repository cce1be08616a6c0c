//! What does a recovery that was flown say of the numbers of the sheet, each within an interval, or why does it not say?

use std::ops::Range;

use glam::DVec2;

use super::estimate::{Estimate, Told, deviation, lasting, mean};
use super::laps::Laps;
use super::motion::Motion;
use super::roll::{bank_limit, roll_lag};
use super::{Marks, Steering};
use crate::jet::JetNumbers;
use crate::recovery::SpeedHold;
use crate::run::{Scenario, Track};

/// Half the time over which motion is taken, s.
const HALF_S: f64 = 1.0;
/// Time over which turbulence changes a speed that is held, s (judgement: a hold's own time is some 2 s).
const SPEED_OVER_S: f64 = 3.0;
/// What a speed is off by that nothing in the track shows, m/s: the wind that was fitted, or the probe (judgement).
const SPEED_MPS: f64 = 0.3;
/// Error of a current and voltage that were logged, as a share of the power (judgement: a hobby meter).
const METER: f64 = 0.03;
/// How much sooner than the mark of a turn home it may have begun, s: what levelling and rolling in take.
const ROLLS_IN_S: f64 = 2.0;
/// And how much of that has mostly passed where the mark is set, s (judgement; held to flights of this tool).
const ROLLED_IN_S: f64 = 0.5;
/// A height is settled within so many of its later deviations, and of so many metres (judgement).
const SETTLED: f64 = 2.0;
const SETTLED_M: f64 = 1.5;
/// No wander of a height is told finer than this, m (judgement: a barometer in flight).
const FINEST_M: f64 = 0.1;
/// From the order until a bank has moved so far that it is seen, s (judgement).
const LAG_S: f64 = 0.2;
/// A change of bank that shows that something has acted, rad.
const MOVED_RAD: f64 = 0.05;

/// What a recovery that was flown tells, in SI.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Speed that was held on the circle: through the air, or over the ground where the plan holds that, m/s.
    pub return_speed: Told,
    /// Steepest bank, rad.
    pub maximum_bank: Told,
    /// Time constant of the bank, s.
    pub roll_lag: Told,
    /// Mean height of the laps above home, m.
    pub circle_height: Told,
    /// Standard deviation of the height about it, m.
    pub height_wander: Told,
    /// Time from the loss until the jet acted, s.
    pub failsafe_delay: Told,
    /// Battery power in level flight at the return speed, W.
    pub return_power: Told,
    /// Mean distance of the laps from the middle of the circle as planned, m.
    pub radius: Told,
}

/// What a recovery tells, flown in a wind in m/s, the way it blows, at the height of the circle; by what steered it, where
/// that was asked.
pub fn learned(track: &Track, marks: &Marks, scenario: &Scenario, wind: DVec2, steering: Option<&Steering>) -> Learned {
    let circling = marks.circling.clone().filter(|range| range.len() > 10 && range.end <= track.time_s().len());
    let circle = circling.ok_or("it never came onto the circle").map(|range| Circle::of(track, range, wind));
    let on = |tell: &dyn Fn(&Circle) -> Told| circle.as_ref().map_err(|why| *why).and_then(tell);
    let maximum_bank = bank_limit(track, marks, wind, steering.and_then(|steering| steering.asks_bank_rad));
    Learned {
        return_speed: on(&|circle| circle.return_speed(track, scenario)),
        roll_lag: maximum_bank.and_then(|limit| roll_lag(track, marks, limit.value)),
        maximum_bank,
        circle_height: on(&|circle| circle.height(track, scenario)),
        height_wander: on(&|circle| circle.wander(track, scenario)),
        failsafe_delay: failsafe_delay(track, marks, scenario),
        return_power: on(&|circle| circle.power(track, scenario)),
        radius: on(&|circle| circle.radius(track, scenario)),
    }
}

/// The laps of a track.
struct Circle {
    samples: Range<usize>,
    lasting_s: f64,
    /// Speed through the air and over the ground, m/s, and tangent of the bank: where the track tells its motion.
    through: Vec<f64>,
    over_ground: Vec<f64>,
    bank_tan: Vec<f64>,
}

impl Circle {
    /// From where it is at its height: a climb costs speed and power that the circle does not.
    fn of(track: &Track, samples: Range<usize>, wind: DVec2) -> Self {
        let samples = settled(&track.height_m()[samples.clone()]) + samples.start..samples.end;
        let motions: Vec<Motion> = samples.clone().filter_map(|at| Motion::at(track, at, HALF_S)).collect();
        Self {
            lasting_s: track.time_s()[samples.end - 1] - track.time_s()[samples.start],
            through: motions.iter().map(|motion| motion.through(wind).length()).collect(),
            over_ground: motions.iter().map(|motion| motion.velocity.length()).collect(),
            bank_tan: motions.iter().map(|motion| motion.bank(wind).tan().abs()).collect(),
            samples,
        }
    }

    /// Airspeed on the laps, m/s: as logged, or from the motion.
    fn airspeed<'a>(&'a self, track: &'a Track) -> &'a [f64] {
        track.channels().airspeed_mps.as_ref().map_or(&self.through, |list| &list[self.samples.clone()])
    }

    fn return_speed(&self, track: &Track, scenario: &Scenario) -> Told {
        let held = match scenario.file.recovery.speed_hold {
            SpeedHold::Throttle => return Err("the plan holds the throttle, not a speed"),
            SpeedHold::Airspeed => self.airspeed(track),
            SpeedHold::GroundSpeed => &self.over_ground,
        };
        let (value, off) = lasting(held, self.lasting_s, SPEED_OVER_S).ok_or("the track has too few samples")?;
        Ok(Estimate::within(value, off.hypot(SPEED_MPS)))
    }

    fn height(&self, track: &Track, scenario: &Scenario) -> Told {
        let perception = &scenario.file.recovery.perception;
        let heights = &track.height_m()[self.samples.clone()];
        let over_s = perception.height_wander_over.s().max(1.0);
        let (value, off) = lasting(heights, self.lasting_s, over_s).ok_or("the track has too few samples")?;
        // A few laps show less of a slow wander than there is.
        let known = perception.height_wander.m() / (self.lasting_s / (2.0 * over_s)).max(1.0).sqrt();
        Ok(Estimate::within(value, off.max(known)))
    }

    fn wander(&self, track: &Track, scenario: &Scenario) -> Told {
        let over_s = scenario.file.recovery.perception.height_wander_over.s().max(1.0);
        let seen = self.lasting_s / (2.0 * over_s);
        if seen < 1.0 {
            return Err("the laps are too short to tell a slow wander");
        }
        let found = deviation(&track.height_m()[self.samples.clone()]).ok_or("the track has too few samples")?;
        let found = found.max(FINEST_M);
        // Of a standard deviation of so few independent heights: 1 / sqrt(2 n), in its logarithm.
        let factor = (super::estimate::ENDS / (2.0 * seen).sqrt()).exp();
        Ok(Estimate { value: found, low: found / factor, high: found * factor })
    }

    /// Power over the laps, less what the bank costs by the sheet's drag.
    fn power(&self, track: &Track, scenario: &Scenario) -> Told {
        let left = track.channels().energy_left_j.as_ref().ok_or("no energy was logged")?;
        let (first, last) = (self.samples.start, self.samples.end - 1);
        let airspeed = mean(self.airspeed(track));
        let (Some(airspeed), Some(bank_tan)) = (airspeed, mean(&self.bank_tan)) else {
            return Err("the track has too few samples");
        };
        let jet = JetNumbers::new(&scenario.file.jet, scenario.file.air.density());
        let power = |load: f64| jet.power(airspeed, jet.drag(airspeed, load, 0.0));
        let level = power(1.0) / power(bank_tan.hypot(1.0));
        let value = (left[first] - left[last]) / self.lasting_s;
        if value <= 0.0 {
            return Err("the energy that was logged does not fall");
        }
        // By how the one half of the laps differs from the other, and what the meter and the cost of the bank are off by.
        let middle = first.midpoint(last);
        let half_s = track.time_s()[middle] - track.time_s()[first];
        let half = (left[first] - left[middle]) / half_s;
        let off = (half - value).abs().hypot(METER * value).hypot(0.3 * (1.0 - level) * value);
        Ok(Estimate::within(value * level, off * level))
    }

    fn radius(&self, track: &Track, scenario: &Scenario) -> Told {
        let laps = Laps::of(&track.place()[self.samples.clone()], scenario.field.centre);
        let told: Vec<f64> = laps.distance_m.iter().flatten().copied().collect();
        let value = mean(&told).filter(|_| laps.count >= 1.0).ok_or("less than one lap was flown")?;
        let position_m = scenario.file.recovery.perception.position_noise.m();
        Ok(Estimate::within(value, laps.scatter_m.unwrap_or(position_m).max(position_m) / laps.count.sqrt()))
    }
}

/// The first of some heights that is about where the later half of them is.
fn settled(heights: &[f64]) -> usize {
    let later = &heights[heights.len() / 2..];
    let (Some(middle), Some(off)) = (mean(later), deviation(later)) else { return 0 };
    let near = SETTLED * off.max(SETTLED_M);
    heights.iter().position(|height| (height - middle).abs() <= near).unwrap_or(0)
}

/// From the loss until the bank that was logged moves, or until it has turned home.
fn failsafe_delay(track: &Track, marks: &Marks, scenario: &Scenario) -> Told {
    let times = track.time_s();
    let since = |at: usize| times[at] - times[marks.lost];
    let home = marks.turned_home.filter(|&home| home > marks.lost).ok_or("it never turned home after the loss")?;
    if let Some(bank) = &track.channels().bank_rad {
        let moved = (marks.lost..bank.len())
            .take_while(|&at| times[at] < times[home] + 1.0)
            .find(|&at| (bank[at] - bank[marks.lost]).abs() > MOVED_RAD);
        if let Some(at) = moved.filter(|&at| at > marks.lost) {
            return Ok(Estimate { value: since(at) - LAG_S, low: since(at - 1) - 2.0 * LAG_S, high: since(at) });
        }
    }
    if scenario.file.recovery.turn_above.m() > track.height_m()[marks.lost] {
        return Err("it climbed before it turned, and no bank was logged");
    }
    let value = since(home);
    Ok(Estimate { value: value - ROLLED_IN_S, low: value - ROLLS_IN_S, high: value })
}
