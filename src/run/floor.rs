//! How high is the ground under a flight?

use crate::field::Ground;
use crate::jet::State;
use crate::lane::{Lane, Words as _};
use crate::run::Scenario;

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
