//! From the loss to the hand-back, for one case or several side by side.

use crate::field::Ground;
use crate::jet::State;
use crate::lane::{Lane, Words as _};
use crate::run::{Case, Ending, Flight, Recorder, Run, Scenario, Setting, Trace, WindChoice, draw, setting};

/// Looks on while cases are flown side by side.
pub trait Watch<L: Lane> {
    /// Sees a sample of every case; `flying` is set in the lanes whose case is not over yet.
    fn see(&mut self, sample: &Sample<'_, L>, flying: L::Words);
}

/// One moment of several cases.
#[derive(Debug, Clone, Copy)]
pub struct Sample<'a, L: Lane> {
    /// Number of the sample.
    pub index: usize,
    /// Where the jets are.
    pub state: &'a State<L>,
    /// Load factors flown.
    pub load: L,
    /// Load factors wanted: more than were flown where the wing stalled.
    pub wanted_load: L,
    /// Stretches, by their number.
    pub stretch: L,
}

/// The ground under a flight, as heights above home's.
#[derive(Debug, Clone, Copy)]
pub struct Floor<'a> {
    ground: &'a Ground,
    home_m: f64,
}

impl<'a> Floor<'a> {
    /// Under a scenario's field.
    pub fn of(scenario: &'a Scenario) -> Self {
        let ground = &scenario.field.ground;
        Self { ground, home_m: ground.height_m(scenario.field.home) }
    }

    /// Height of the ground at a place, metres above home's.
    pub fn height_m(&self, at: glam::DVec2) -> f64 {
        if self.ground.is_flat() { 0.0 } else { self.ground.height_m(at) - self.home_m }
    }

    /// Height of home's ground, metres above the datum's.
    pub fn home_m(&self) -> f64 {
        self.home_m
    }

    /// Steepest slope anywhere, metres of height a metre along.
    pub fn slope(&self) -> f64 {
        self.ground.slope()
    }

    /// Whether it is all as high as home's.
    pub fn is_flat(&self) -> bool {
        self.ground.is_flat()
    }

    /// Which jets have come down. The ground's height is asked for only below its highest place.
    #[inline(always)]
    pub(super) fn reached<L: Lane>(&self, state: &State<L>) -> L::Words {
        let all = L::Words::splat(u64::MAX);
        let low = all.and_not(state.height.gt(L::splat(self.ground.highest_m() - self.home_m)));
        if self.ground.is_flat() || !low.any() {
            return low;
        }
        let height = L::from_fn(|lane| self.height_m(glam::DVec2::new(state.x.lane(lane), state.y.lane(lane))));
        all.and_not(state.height.gt(height))
    }
}

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
