//! The same flight in finer steps: what does the step of the sum cost?

use glam::DVec2;

use super::by_hand::{hold, jet, steady, trimmed};
use super::line::{Expected, Group, Line, Lines};
use crate::jet::{Command, JetNumbers, State};
use crate::margins::{MarginRow, MarginUnit, judge};
use crate::run::{Floor, Run, Scenario, Setting, Trial, WindChoice, draw, fly_trial, samples, setting};
use crate::study::work::{Work, in_order};

/// Parts that a step is cut into.
const FINE: u32 = 10;
/// Trials of each field.
const TRIALS: u64 = 30;
/// Winds up to this share of the return speed are looked at: nearer to it the jet all but hangs on the side of the circle
/// against the wind, and every lap multiplies whatever two paths differ by, be it a last bit (judgement).
const WINDY: f64 = 0.6;
/// What a step may cost, m: what is promised of it.
const COST_M: f64 = 0.1;

pub(super) fn lines(work: &Work) -> Vec<Line> {
    let mut lines = Lines::of(Group::Step);
    order(&mut lines);
    let count = samples().len() as u64;
    work.expect(count * (TRIALS + 2));
    #[allow(clippy::cast_possible_truncation, reason = "a few fields")]
    let found = in_order(work, 0..count, |index| of_field(&samples()[index as usize].scenario(), work));
    let source = "what is promised of the shipped step: a decimetre on what a limit in metres leaves over, as entered";
    for (name, plan, _) in &found.results {
        let what = format!("{name}: most that a step cut into ten moves a margin, in the mean and the gust wind");
        lines.at_most(&what, *plan, COST_M, "m", source);
    }
    let drawn: Vec<f64> = found.results.iter().flat_map(|(.., drawn)| drawn.iter().copied()).collect();
    let within = drawn.iter().filter(|&&change| change <= COST_M).count() as f64 / drawn.len() as f64;
    let source = "what is promised of the shipped step: a decimetre in 95 of 100 trials, in winds up to 60 % of the return \
                  speed; two standard errors";
    let what = format!(
        "share of {} trials in which a step cut into ten moves no margin by more than a decimetre",
        drawn.len()
    );
    let chance = 2.0 * (0.95 * 0.05 / drawn.len() as f64).sqrt();
    lines.add(&what, within, Expected::Between(0.95 - chance, 1.0), "", source);
    lines.done()
}

/// Twice the steps, a quarter of the error.
fn order(lines: &mut Lines) {
    // Quick enough to be far above rounding, slow enough to be short of every limit.
    let jet = JetNumbers { roll_lag: 0.3, roll_rate: 10.0, fan_lag: 0.5, ..jet() };
    let flown = |dt| {
        let (start, trim) = trimmed(&jet, 26.0, DVec2::X, 0.0);
        let command = Command { bank: 0.5, climb: 0.1, thrust: trim.thrust * 1.5, ..trim };
        hold(&jet, (start, command), &steady(6.0, -3.0), 6.0, dt)
    };
    let [coarse, middle, fine] = [0.1, 0.05, 0.025].map(flown);
    let source = "closed form: the error of the midpoint rule falls with the square of the step";
    let parts: [(&str, fn(&State<f64>) -> f64); 3] =
        [("place", |state| state.x), ("height", |state| state.height), ("airspeed", |state| state.airspeed)];
    for (name, part) in parts {
        let order = ((part(&coarse) - part(&middle)) / (part(&middle) - part(&fine))).abs().log2();
        lines.near(&format!("order of the error of {name} in the step"), order, (2.0, 0.2), "", source);
    }
}

/// The name of a field, the largest change of its plan as entered, and that of each of its trials.
fn of_field(scenario: &Scenario, work: &Work) -> (String, f64, Vec<f64>) {
    let changed = |trial, drawn| {
        let change = change(scenario, trial, drawn);
        work.add(1);
        change
    };
    let winds = [WindChoice::Mean, WindChoice::Gust];
    let plan = winds.map(|wind| changed(0, draw(scenario, 0, wind))).into_iter().fold(0.0, f64::max);
    let trials = (1..=TRIALS).map_while(|trial| work.go_on().then(|| (trial, draw(scenario, trial, WindChoice::Mean))));
    let calm = |drawn: &Trial| drawn.wind.x.hypot(drawn.wind.y) <= WINDY * drawn.jet.return_speed;
    let drawn = trials.filter(|(_, drawn)| calm(drawn)).map(|(trial, drawn)| changed(trial, drawn)).collect();
    (scenario.file.name.clone(), plan, drawn)
}

/// The largest change of what a limit in metres leaves over what is asked, m.
///
/// A mast is passed by the better of two ways, beside or over, each with its own buffer. Where both leave as much over, a
/// millimetre of path swaps one for the other: the margin jumps, what is left over does not.
fn change(scenario: &Scenario, trial: u64, drawn: Trial) -> f64 {
    let rows = |substeps: u32| {
        let setting = Setting { substeps, ..setting(scenario) };
        let (trace, ending) = fly_trial(&setting, scenario.file.wind.turbulence, &drawn, &Floor::of(scenario));
        judge(scenario, &Run { trial, drawn, trace, ending }).rows
    };
    let spare = |row: &MarginRow| row.margin - row.buffer;
    let (shipped, fine) = (rows(1), rows(FINE));
    let metres = shipped.iter().zip(&fine).filter(|(row, _)| row.unit == MarginUnit::Metres);
    metres.map(|(one, other)| (spare(one) - spare(other)).abs()).fold(0.0, f64::max)
}
