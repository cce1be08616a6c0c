//! Several trials side by side.

use crate::lane::Lane;
use crate::run::Floor;
use crate::run::Watch;
use crate::run::fly::fly_lanes;
use crate::run::{Ending, Recorder, Scenario, Setting, Trace, Trial};

/// Flies trials of a scenario, as many side by side as there are lanes; each gives the same bits as alone.
pub fn fly_wide<L: Lane>(scenario: &Scenario, setting: &Setting, trials: &[Trial]) -> Vec<(Trace, Ending)> {
    let flight = Watched::of(scenario, setting);
    let mut flights = Vec::with_capacity(trials.len());
    for few in trials.chunks(L::WIDTH) {
        let mut recorder = Recorder::new(setting.step_s, few.len());
        let endings = watch_wide::<L, _>(&flight, few, &mut recorder);
        flights.extend(recorder.traces.into_iter().zip(endings));
    }
    flights
}

/// What a flight takes besides its trial.
#[derive(Debug, Clone, Copy)]
pub struct Watched<'a> {
    setting: &'a Setting,
    turbulence: bool,
    floor: Floor<'a>,
}

impl<'a> Watched<'a> {
    /// Of a scenario, under a setting of the caller's choice.
    pub fn of(scenario: &'a Scenario, setting: &'a Setting) -> Self {
        Self { setting, turbulence: scenario.file.wind.turbulence, floor: Floor::of(scenario) }
    }
}

/// Flies as many trials as there are lanes, or fewer, while somebody looks on, and tells how each ended. Compiled into
/// its caller, which may be work handed to [`crate::lane::widest`].
#[inline(always)]
pub fn watch_wide<L: Lane, W: Watch<L>>(flight: &Watched<'_>, trials: &[Trial], watch: &mut W) -> Vec<Ending> {
    fly_lanes::<L, W>(flight.setting, flight.turbulence, trials, &flight.floor, watch)
}
