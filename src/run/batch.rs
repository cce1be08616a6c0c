//! Several cases side by side, with the widest vector instructions this processor has.

use std::marker::PhantomData;

use crate::lane::{Lane, Wide};
use crate::run::fly::{fly_lanes, ground};
use crate::run::{Case, Ending, Scenario, Setting, Trace, setting};

/// Cases that fly side by side.
pub const SIDE_BY_SIDE: usize = 8;

/// Flies cases of a scenario side by side; each gives the same bits as alone.
pub fn fly_batch(scenario: &Scenario, cases: &[Case]) -> Vec<(Trace, Ending)> {
    fly_wide::<Wide<SIDE_BY_SIDE>>(scenario, &setting(scenario), cases)
}

/// The same at a width of the caller's choice.
pub fn fly_wide<L: Lane>(scenario: &Scenario, setting: &Setting, cases: &[Case]) -> Vec<(Trace, Ending)> {
    let (turbulence, ground) = (scenario.file.wind.turbulence, ground(scenario));
    let arch = pulp::Arch::new();
    let few = |cases| Few::<L, _> { setting, turbulence, cases, ground: &ground, lanes: PhantomData };
    cases.chunks(L::WIDTH).flat_map(|cases| arch.dispatch(few(cases))).collect()
}

/// One batch. A type of its own, because a closure's body need not end up inside the function that has the wide
/// instructions, and then is compiled without them.
struct Few<'a, L, G> {
    setting: &'a Setting,
    turbulence: bool,
    cases: &'a [Case],
    ground: &'a G,
    lanes: PhantomData<L>,
}

impl<L: Lane, G: Fn(f64, f64) -> f64> pulp::NullaryFnOnce for Few<'_, L, G> {
    type Output = Vec<(Trace, Ending)>;

    #[inline(always)]
    fn call(self) -> Self::Output {
        fly_lanes::<L>(self.setting, self.turbulence, self.cases, self.ground)
    }
}
