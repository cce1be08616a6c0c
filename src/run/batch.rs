//! Several cases side by side, with the widest vector instructions this processor has.

use std::marker::PhantomData;

use crate::lane::{Lane, Wide};
use crate::run::fly::{Floor, Watch, fly_lanes};
use crate::run::{Case, Ending, Recorder, Scenario, Setting, Trace, setting};

/// Cases that fly side by side.
pub const SIDE_BY_SIDE: usize = 8;

/// Flies cases of a scenario side by side; each gives the same bits as alone.
pub fn fly_batch(scenario: &Scenario, cases: &[Case]) -> Vec<(Trace, Ending)> {
    fly_wide::<Wide<SIDE_BY_SIDE>>(scenario, &setting(scenario), cases)
}

/// The same at a width of the caller's choice.
pub fn fly_wide<L: Lane>(scenario: &Scenario, setting: &Setting, cases: &[Case]) -> Vec<(Trace, Ending)> {
    let mut flights = Vec::with_capacity(cases.len());
    for few in cases.chunks(L::WIDTH) {
        let mut recorder = Recorder::new(setting.step_s, few.len());
        let endings = watch_wide::<L, _>(&Watched::of(scenario, setting), few, &mut recorder);
        flights.extend(recorder.traces.into_iter().zip(endings));
    }
    flights
}

/// What a flight takes besides its case.
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

/// Flies as many cases as there are lanes, or fewer, while somebody looks on, and tells how each ended.
pub fn watch_wide<L: Lane, W: Watch<L>>(flight: &Watched<'_>, cases: &[Case], watch: &mut W) -> Vec<Ending> {
    pulp::Arch::new().dispatch(Few::<L, W> { flight, cases, watch, lanes: PhantomData })
}

/// One batch. A type of its own, because a closure's body need not end up inside the function that has the wide
/// instructions, and then is compiled without them.
struct Few<'a, L, W> {
    flight: &'a Watched<'a>,
    cases: &'a [Case],
    watch: &'a mut W,
    lanes: PhantomData<L>,
}

impl<L: Lane, W: Watch<L>> pulp::NullaryFnOnce for Few<'_, L, W> {
    type Output = Vec<Ending>;

    #[inline(always)]
    fn call(self) -> Self::Output {
        let Watched { setting, turbulence, floor } = self.flight;
        fly_lanes::<L, W>(setting, *turbulence, self.cases, floor, self.watch)
    }
}
