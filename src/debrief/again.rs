//! How far off is a recovery, flown again from where it turned home under another law, from the one that was flown?

use std::f64::consts::TAU;

use glam::{DMat2, DVec2};

use super::Marks;
use super::laps::{BEARINGS, Laps, last_lap, outward};
use super::motion::Motion;
use super::roll::held_bank;
use crate::jet::{JetNumbers, State};
use crate::recovery::{Gain, Guidance};
use crate::run::{Floor, Scenario, Setting, Stretch, Trace, Track, Trial, WindChoice, draw, fly_trial, setting};
use crate::wind::ProfileNumbers;

/// Half the time over which the motion at the turn home is taken, s.
const HALF_S: f64 = 1.0;
/// Most bank that it starts with, rad: the autopilot levels what is more before it turns.
const LEVEL: f64 = 0.08;
/// Steeper than any law asks for, rad.
const ANY_BANK: f64 = 1.3;
/// Laps flown again, the first of which is left out where it still joins.
const LAPS: f64 = 1.3;
/// How far apart in time two paths are held against each other while joining, s: what the wind of the moment brings
/// forward or holds back is not the law's.
const APART_S: f64 = 6.0;
/// Share of a wind at the circle that a profile leaves at the height it is told at, at least.
const LEAST_GROWTH: f64 = 0.1;

/// A recovery that was flown, and all that it takes to fly it again.
pub(super) struct Again<'a> {
    scenario: &'a Scenario,
    setting: Setting,
    trial: Trial,
    centre: DVec2,
    /// Seconds since the turn home, and places, until it circles.
    join: Vec<(f64, DVec2)>,
    laps: Laps,
    /// Steepest banks that it may have been flown with, rad: the sheet's, and the one at which the turn home stood still.
    banks: Vec<f64>,
}

/// One comparison: across which direction, how far off, how much it counts.
struct Miss {
    across: DVec2,
    off_m: f64,
    weight: f64,
}

impl<'a> Again<'a> {
    pub(super) fn new(
        track: &Track,
        marks: &Marks,
        scenario: &'a Scenario,
        wind: DVec2,
        airspeed_mps: f64,
    ) -> Result<Self, &'static str> {
        let home = marks.turned_home.ok_or("it never turned home")?;
        let circling = marks.circling.clone().ok_or("it never came onto the circle")?;
        if circling.start <= home || circling.end > track.time_s().len() {
            return Err("there is no way home to tell it by, from the turn home to the circle");
        }
        let motion = Motion::at(track, home, HALF_S).ok_or("the track has too few samples")?;
        let centre = scenario.field.centre;
        let laps = Laps::of(&track.place()[circling.clone()], centre);
        if laps.count < 1.0 {
            return Err("less than one lap was flown");
        }

        let mut trial = draw(scenario, 0, WindChoice::Mean);
        trial.wind = blowing(scenario, &trial.wind, wind);
        let aloft = trial.wind.at(scenario.file.wind.profile, track.height_m()[home]);
        let here = DVec2::new(aloft.x, aloft.y);
        trial.jet.return_speed = airspeed_mps;
        trial.plan.trim_thrust = trial.jet.drag(airspeed_mps, 1.0, 0.0);
        trial.plan.failsafe_delay = 0.0;
        trial.plan.turn_above = track.height_m()[home] - 1.0;
        (trial.plan.sweep, trial.plan.take_over) = (LAPS * TAU, 0.0);
        trial.start = start(&trial.jet, track, home, &motion, here);

        let (times, places) = (track.time_s(), track.place());
        let join = (home..circling.start).map(|at| (times[at] - times[home], places[at])).collect();
        let mut banks = vec![trial.jet.maximum_bank];
        banks.extend(held_bank(track, marks, wind).ok().map(|held| held.value));
        Ok(Self { scenario, setting: setting(scenario), trial, centre, join, laps, banks })
    }

    /// How far one lap that was flown is off the others, m.
    pub(super) fn scatter_m(&self) -> Option<f64> {
        self.laps.scatter_m
    }

    /// Steepest bank on the way home, before it joins, under a law, rad, of a jet that nothing but the law holds back.
    pub(super) fn asks_bank_rad(&self, guidance: Guidance, gain: Gain) -> f64 {
        let trace = self.flown(guidance, gain, ANY_BANK);
        let until = trace.stretch.iter().position(|stretch| *stretch != Stretch::HeadingHome).unwrap_or(trace.len());
        trace.bank_rad[..until].iter().map(|bank| bank.abs()).fold(0.0, f64::max)
    }

    /// Root mean square distance across the path between the recovery flown and the same under a law, m. Join and laps
    /// count alike. The captured home may be off, which moves the whole path: as far as two spreads of it explain what
    /// is off, it is no miss. Nor is what another bank than the sheet's explains: a sheet that is wrong there would make a
    /// law look wrong.
    pub(super) fn misfit_m(&self, guidance: Guidance, gain: Gain) -> f64 {
        self.banks.iter().map(|&bank| self.off_m(&self.flown(guidance, gain, bank))).fold(f64::INFINITY, f64::min)
    }

    fn flown(&self, guidance: Guidance, gain: Gain, bank: f64) -> Trace {
        let mut trial = self.trial.under(guidance, gain);
        (trial.jet.maximum_bank, trial.jet.maximum_bank_tan) = (bank, bank.tan());
        fly_trial(&self.setting, false, &trial, &Floor::of(self.scenario)).0
    }

    fn off_m(&self, trace: &Trace) -> f64 {
        let path: Vec<DVec2> = (0..trace.len()).map(|at| trace.point(at)).collect();
        let mut misses = self.off_the_join(&path, trace.step_s);
        misses.extend(self.off_the_laps(&path));

        let (mut matrix, mut right, mut weights) = (DMat2::ZERO, DVec2::ZERO, 0.0);
        for Miss { across, off_m, weight } in &misses {
            matrix += DMat2::from_cols(*across * across.x, *across * across.y) * *weight;
            right += *across * (off_m * weight);
            weights += weight;
        }
        let most = 2.0 * self.scenario.file.recovery.perception.home_spread().m();
        let moved = matrix.inverse() * right;
        let moved = if moved.is_finite() { moved.clamp_length_max(most) } else { DVec2::ZERO };
        let left = |miss: &Miss| miss.weight * (miss.off_m - miss.across.dot(moved)).powi(2);
        if weights > 0.0 { (misses.iter().map(left).sum::<f64>() / weights).sqrt() } else { f64::INFINITY }
    }

    /// Each place on the way to the circle against the nearest one flown again at about the same time.
    #[allow(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a minute has few samples"
    )]
    fn off_the_join(&self, path: &[DVec2], step_s: f64) -> Vec<Miss> {
        let weight = 1.0 / self.join.len() as f64;
        let number = |time_s: f64| (time_s.max(0.0) / step_s) as usize;
        let miss = |&(time_s, place): &(f64, DVec2)| {
            let last = path.len().checked_sub(2)?;
            let few = number(time_s - APART_S).min(last)..=number(time_s + APART_S).min(last);
            let near = few.min_by(|&a, &b| path[a].distance(place).total_cmp(&path[b].distance(place)))?;
            let across = (path[near + 1] - path[near]).normalize_or_zero().perp();
            Some(Miss { across, off_m: across.dot(place - path[near]), weight })
        };
        self.join.iter().filter_map(miss).collect()
    }

    /// The laps flown against the last one flown again, by bearing.
    #[allow(clippy::cast_precision_loss, reason = "a handful of bearings")]
    fn off_the_laps(&self, path: &[DVec2]) -> Vec<Miss> {
        let again = Laps::of(last_lap(path, self.centre), self.centre);
        let miss = |at: usize| {
            let off_m = self.laps.distance_m[at]? - again.distance_m[at]?;
            Some(Miss { across: outward(at), off_m, weight: 1.0 / BEARINGS as f64 })
        };
        (0..BEARINGS).filter_map(miss).collect()
    }
}

/// A wind that blows at the height of the circle and grows with height as the plan's does.
fn blowing(scenario: &Scenario, plan: &ProfileNumbers<f64>, wind: DVec2) -> ProfileNumbers<f64> {
    let file = &scenario.file;
    let unit = ProfileNumbers { x: 1.0, y: 0.0, excess_x: 0.0, excess_y: 0.0, ..*plan };
    let told = wind / unit.at(file.wind.profile, file.recovery.height.m()).x.max(LEAST_GROWTH);
    ProfileNumbers { x: told.x, y: told.y, ..unit }
}

/// The state at a sample, in trim, in air that moves there as told.
fn start(jet: &JetNumbers<f64>, track: &Track, at: usize, motion: &Motion, wind: DVec2) -> State<f64> {
    let through = motion.through(wind);
    let (place, airspeed) = (track.place()[at], through.length().max(1.0));
    let nose = through.normalize_or(DVec2::Y);
    State {
        x: place.x,
        y: place.y,
        height: track.height_m()[at],
        airspeed,
        nose_x: nose.x,
        nose_y: nose.y,
        climb: 0.0,
        bank: motion.bank(wind).clamp(-LEVEL, LEVEL),
        thrust: jet.drag(airspeed, 1.0, 0.0).min(jet.thrust_left(airspeed, 0.0)),
        energy: 0.0,
        heave: 0.0,
    }
}
