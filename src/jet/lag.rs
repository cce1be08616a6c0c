//! What follows its command with a lag: bank and fan, exactly over any step.
//!
//! A first-order lag forgets `1 - exp(-dt / lag)` of its distance to the command in a step, whatever the step: no lag is
//! too short for it, and none at all follows at once. The roll is limited besides by how far it can turn in the step.

use crate::jet::JetNumbers;
use crate::lane::{Lane, exp};

/// Longest step in lags that the exponential takes; what is left after so many is nothing.
const MOST_LAGS: f64 = 700.0;

/// How far bank and thrust come towards their commands in half a step and in a whole one.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Lags<L> {
    pub(super) half: LagReach<L>,
    pub(super) full: LagReach<L>,
}

/// The same within one stretch of time.
#[derive(Debug, Clone, Copy)]
pub(super) struct LagReach<L> {
    bank: L,
    most_bank: L,
    thrust: L,
}

impl<L: Lane> Lags<L> {
    /// Of a jet, for steps of `dt` seconds. Once a flight: it takes exponentials.
    #[inline(always)]
    pub(crate) fn of(jet: &JetNumbers<L>, dt: f64) -> Self {
        Self { half: LagReach::of(jet, dt / 2.0), full: LagReach::of(jet, dt) }
    }
}

impl<L: Lane> LagReach<L> {
    #[inline(always)]
    fn of(jet: &JetNumbers<L>, dt: f64) -> Self {
        let dt = L::splat(dt);
        let share = |lag: L| L::splat(1.0) - exp(-(dt / lag).min(L::splat(MOST_LAGS)));
        Self { bank: share(jet.roll_lag), most_bank: jet.roll_rate * dt, thrust: share(jet.fan_lag) }
    }

    /// The bank at the end, rad.
    #[inline(always)]
    pub(super) fn bank(&self, from: L, to: L) -> L {
        from + ((to - from) * self.bank).within(self.most_bank)
    }

    /// The thrust at the end, N.
    #[inline(always)]
    pub(super) fn thrust(&self, from: L, to: L) -> L {
        from + (to - from) * self.thrust
    }
}
