//! Whole recoveries of the fields that come with the program: does all that thrust does beyond drag come back as speed and
//! height, and does the pack give what thrust takes?

use super::line::{Group, Line, Lines};
use crate::jet::{JetNumbers, LOAD_LIMIT, PITCH_LAG, State};
use crate::recovery::stretch::GLIDING;
use crate::run::{Flight, Floor, Sample, Scenario, Setting, Trial, Watch, WindChoice, draw, samples, setting};
use crate::study::work::{Work, in_order};
use crate::units::G0;
use crate::wind::Profile;

/// Parts that a step is cut into, so that adding up is as good as the sum that it checks.
const PARTS: u32 = 10;

pub(super) fn lines(work: &Work) -> Vec<Line> {
    let count = samples().len() as u64;
    work.expect(count);
    #[allow(clippy::cast_possible_truncation, reason = "a few fields")]
    let found = in_order(work, 0..count, |index| {
        let scenario = samples()[index as usize].scenario();
        let sums = Sums::of(&scenario);
        work.add(1);
        (scenario.file.name, sums)
    });
    let mut lines = Lines::of(Group::Energy);
    for (name, sums) in &found.results {
        let what = format!("{name}: work of thrust less drag and shear, against energy gained");
        let source = "closed form: Newton's second law; a thousandth of what thrust did";
        lines.near(&what, sums.spare, (sums.gained, 1e-3 * sums.thrust), "J", source);
    }
    for (name, sums) in &found.results {
        let what = format!("{name}: power that the thrust takes, added up, against energy drawn");
        let source = "closed form: momentum theory, T (v + V) / 2 over the efficiency; a thousandth";
        lines.close(&what, sums.power, (sums.drawn, 1e-3), "J", source);
    }
    lines.done()
}

/// What is added up along a flight, J.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    /// Work of thrust less drag, and less what the wind gains on the way up.
    spare: f64,
    /// Work of thrust.
    thrust: f64,
    /// Power of the pack.
    power: f64,
    /// Energy of motion through the air and of height, at the end less at the start.
    gained: f64,
    /// Energy drawn from the pack.
    drawn: f64,
}

impl Sums {
    /// Of the plan as entered, in the mean wind, from the loss to the end.
    fn of(scenario: &Scenario) -> Self {
        let trial = draw(scenario, 0, WindChoice::Mean);
        let setting = setting(scenario);
        // A fix falls on every whole step; finer ones leave the orders as they are.
        let fine = Setting {
            step_s: setting.step_s / f64::from(PARTS),
            steps_per_fix: setting.steps_per_fix * PARTS as usize,
            ..setting
        };
        let mut seen =
            Adding { trial, profile: setting.profile, step_s: fine.step_s, last: None, sums: Self::default() };
        let mut flight = Flight::<f64>::new(&fine, false, &[trial]);
        flight.lose();
        let floor = Floor::of(scenario);
        while flight.step(&floor, None, &mut seen) {}
        let mechanical = |state: &State<f64>| trial.jet.mass * (0.5 * state.airspeed.powi(2) + G0 * state.height);
        let end = seen.last.map_or(trial.start, |(state, _)| state);
        Self {
            gained: mechanical(&end) - mechanical(&trial.start),
            drawn: end.energy - trial.start.energy,
            ..seen.sums
        }
    }
}

/// Adds up a flight step by step, by the mean of both ends.
struct Adding {
    trial: Trial,
    profile: Profile,
    step_s: f64,
    /// Where the last step began, and under which load.
    last: Option<(State<f64>, f64)>,
    sums: Sums,
}

impl Adding {
    /// Power of thrust, of all forces along the way and of the wind that grows with height, and of the pack, W.
    fn powers(&self, state: &State<f64>, load: f64, stopped: f64) -> [f64; 3] {
        let jet = &self.trial.jet;
        let thrust = state.thrust * state.airspeed;
        let (sin, cos) = state.climb.sin_cos();
        let wind = self.trial.wind.at(self.profile, state.height);
        // The wind that is gained on the way up, as far as it lies along the way: that much the jet loses to the air.
        let along = (wind.shear_x * state.nose_x + wind.shear_y * state.nose_y) * state.airspeed * sin * cos;
        let drag = jet.drag(state.airspeed, load, stopped);
        [thrust, thrust - (drag + jet.mass * along) * state.airspeed, power(jet, state)]
    }

    /// The load at the end of a step that began under another: the same order, the climb and the bank where they are now.
    fn load_after(&self, (before, load): (&State<f64>, f64), after: &State<f64>) -> f64 {
        let lead = |state: &State<f64>| state.airspeed / (G0 * PITCH_LAG);
        let ordered = before.climb + (load * before.bank.cos() - before.climb.cos()) / lead(before);
        let wanted = (after.climb.cos() + lead(after) * (ordered - after.climb)) / after.bank.cos();
        wanted.clamp(0.0, self.trial.jet.load_at_stall(after.airspeed).min(LOAD_LIMIT))
    }
}

/// Power of the pack for the thrust of the moment, W.
fn power(jet: &JetNumbers<f64>, state: &State<f64>) -> f64 {
    let (speed, thrust) = (state.airspeed, state.thrust);
    let efflux = f64::midpoint(speed, (speed * speed + 4.0 * thrust / (jet.density * jet.nozzle)).sqrt());
    let lost = 1.0 + jet.part_throttle_loss * (jet.efflux_full / efflux - 1.0).max(0.0);
    thrust * f64::midpoint(efflux, speed) / jet.efficiency * lost + jet.avionics
}

impl Watch<f64> for Adding {
    fn see(&mut self, sample: &Sample<'_, f64>, _: u64) {
        let (now, gliding) = (*sample.state, (sample.stretch - GLIDING).abs() < 0.5);
        if let Some((before, load)) = self.last {
            let stopped = f64::from(u8::from(gliding));
            let first = self.powers(&before, load, stopped);
            let last = self.powers(&now, self.load_after((&before, load), &now), stopped);
            let [thrust, spare, power] = [0, 1, 2].map(|index| 0.5 * self.step_s * (first[index] + last[index]));
            self.sums.thrust += thrust;
            self.sums.spare += spare;
            self.sums.power += power;
        }
        self.last = Some((now, sample.load));
    }
}
