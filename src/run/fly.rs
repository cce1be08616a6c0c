//! From the loss to the take-over, for one trial or several side by side.

use crate::lane::Lane;
use crate::run::{
    Ending, Flight, Floor, Recorder, Run, Scenario, Setting, Trace, Trial, Watch, WindChoice, draw, setting,
};

/// Flies one trial of a scenario: a pure function of its arguments.
pub fn fly(scenario: &Scenario, trial: u64, wind: WindChoice) -> Run {
    let drawn = draw(scenario, trial, wind);
    let (trace, ending) = fly_trial(&setting(scenario), scenario.file.wind.turbulence, &drawn, &Floor::of(scenario));
    Run { trial, drawn, trace, ending }
}

/// Flies one trial.
pub fn fly_trial(setting: &Setting, turbulence: bool, trial: &Trial, floor: &Floor<'_>) -> (Trace, Ending) {
    let mut recorder = Recorder::new(setting.step_s, 1);
    let endings = fly_lanes::<f64, _>(setting, turbulence, std::slice::from_ref(trial), floor, &mut recorder);
    let trace = recorder.traces.pop().unwrap_or_default();
    (trace, endings[0])
}

/// Flies as many trials as there are lanes, or fewer, and tells how each ended.
#[inline(always)]
pub(crate) fn fly_lanes<L: Lane, W: Watch<L>>(
    setting: &Setting,
    turbulence: bool,
    trials: &[Trial],
    floor: &Floor<'_>,
    watch: &mut W,
) -> Vec<Ending> {
    let mut flight = Flight::<L>::new(setting, turbulence, trials);
    flight.lose();
    while flight.step(floor, None, watch) {}
    flight.endings().to_vec()
}
