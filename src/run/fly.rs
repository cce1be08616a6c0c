//! From the loss to the hand-back, for one case or several side by side.

use crate::lane::Lane;
use crate::run::{
    Case, Ending, Flight, Floor, Recorder, Run, Scenario, Setting, Trace, Watch, WindChoice, draw, setting,
};

/// Flies one case of a scenario: a pure function of its arguments.
pub fn fly(scenario: &Scenario, case: u64, wind: WindChoice) -> Run {
    let drawn = draw(scenario, case, wind);
    let (trace, ending) = fly_case(&setting(scenario), scenario.file.wind.turbulence, &drawn, &Floor::of(scenario));
    Run { case, drawn, trace, ending }
}

/// Flies one case.
pub fn fly_case(setting: &Setting, turbulence: bool, case: &Case, floor: &Floor<'_>) -> (Trace, Ending) {
    let mut recorder = Recorder::new(setting.step_s, 1);
    let endings = fly_lanes::<f64, _>(setting, turbulence, std::slice::from_ref(case), floor, &mut recorder);
    let trace = recorder.traces.pop().unwrap_or_default();
    (trace, endings[0])
}

/// Flies as many cases as there are lanes, or fewer, and tells how each ended.
#[inline(always)]
pub(crate) fn fly_lanes<L: Lane, W: Watch<L>>(
    setting: &Setting,
    turbulence: bool,
    cases: &[Case],
    floor: &Floor<'_>,
    watch: &mut W,
) -> Vec<Ending> {
    let mut flight = Flight::<L>::new(setting, turbulence, cases);
    flight.lose();
    loop {
        flight.begin(setting, None);
        watch.see(&flight.sample(), flight.flying);
        if flight.ends(setting, floor) {
            return flight.endings;
        }
        flight.arrive(setting);
    }
}
