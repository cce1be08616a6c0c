//! What the autopilot knows: where it was a moment ago, with an error.

use crate::jet::{Attitude, Gust, State};
use crate::lane::{Lane, Random, exp};
use crate::recovery::PlanNumbers;
use crate::units::G0;

/// Time over which the position error wanders, s: the scale on which a satellite receiver's error changes.
const WANDER: f64 = 20.0;

/// What the instruments say.
#[derive(Debug, Clone, Copy)]
pub struct Percept<L> {
    /// East of the datum, m, in the frame that the captured home fixes.
    pub x: L,
    /// North of the datum, m.
    pub y: L,
    /// Ground velocity, east, m/s.
    pub ground_x: L,
    /// Ground velocity, north, m/s.
    pub ground_y: L,
    /// Height above home as read, m.
    pub height: L,
    /// Airspeed, m/s.
    pub airspeed: L,
    /// Nose, east.
    pub nose_x: L,
    /// Nose, north.
    pub nose_y: L,
    /// Bank, rad.
    pub bank: L,
    /// Cosine of the bank.
    pub bank_cos: L,
}

/// The errors of receiver and barometer, and the age of the fixes.
#[derive(Debug, Clone)]
pub struct Perception<L> {
    /// The last fixes, in a ring: east, north, and their rates.
    fixes: Vec<[L; 4]>,
    next: usize,
    /// East, north and up.
    wander: [L; 3],
    /// Seconds between fixes.
    interval: f64,
    /// What stays of the wander of the position from one fix to the next.
    keep: f64,
    /// The same of the height, and the strength of what is new.
    height: [L; 2],
}

impl<L: Lane> Perception<L> {
    /// A receiver whose fixes are `age` fixes old when they are used, `interval` seconds apart.
    pub fn new(age: usize, interval: f64, first: [L; 4]) -> Self {
        let zero = L::splat(0.0);
        let keep = (-interval / WANDER).exp();
        Self { fixes: vec![first; age + 1], next: 0, wander: [zero; 3], interval, keep, height: [zero; 2] }
    }

    /// Draws the first errors from their stationary distribution.
    #[inline(always)]
    pub fn stir(&mut self, plan: &PlanNumbers<L>, random: &mut Random<L>) {
        let (one, interval) = (L::splat(1.0), L::splat(self.interval));
        // Beyond 50 time constants nothing is left.
        let keep = exp(-(interval / plan.height_wander_over.max(interval * L::splat(0.02))));
        self.height = [keep, plan.height_wander * (one - keep * keep).sqrt()];
        let position = plan.position_noise;
        self.wander = [position * random.normal(), position * random.normal(), plan.height_wander * random.normal()];
    }

    /// Takes the truth of now, and tells what the instruments say; with `noise`, after five standard normal draws, in
    /// the lanes of its mask.
    #[inline(always)]
    pub(crate) fn look(
        &mut self,
        state: &State<L>,
        attitude: &Attitude<L>,
        air: &Gust<L>,
        plan: &PlanNumbers<L>,
        noise: Option<([L; 5], L::Words)>,
    ) -> Percept<L> {
        let ground = attitude.over_ground(state, air);
        self.fixes[self.next] = [state.x, state.y, ground[0], ground[1]];
        self.next = (self.next + 1) % self.fixes.len();
        let [x, y, ground_x, ground_y] = self.fixes[self.next];
        let mut percept = Percept {
            x: x - plan.home_error_x,
            y: y - plan.home_error_y,
            ground_x,
            ground_y,
            height: state.height
                + plan.height_error
                + plan.static_error * state.airspeed * state.airspeed * L::splat(0.5 / G0),
            airspeed: state.airspeed,
            nose_x: state.nose_x,
            nose_y: state.nose_y,
            bank: state.bank,
            bank_cos: attitude.bank_cos(),
        };
        if let Some(([n0, n1, n2, n3, n4], noisy)) = noise {
            let keep = L::splat(self.keep);
            let fresh = plan.position_noise * L::splat((1.0 - self.keep * self.keep).sqrt());
            let ([east, north, up], [keep_up, fresh_up]) = (self.wander, self.height);
            self.wander = [keep * east + fresh * n0, keep * north + fresh * n1, keep_up * up + fresh_up * n4];
            percept.x = off(percept.x, self.wander[0], noisy);
            percept.y = off(percept.y, self.wander[1], noisy);
            percept.height = off(percept.height, self.wander[2], noisy);
            percept.ground_x = off(percept.ground_x, plan.velocity_noise * n2, noisy);
            percept.ground_y = off(percept.ground_y, plan.velocity_noise * n3, noisy);
        }
        percept
    }
}

/// A value with an error in the lanes of a mask, and without in the others.
#[inline(always)]
fn off<L: Lane>(value: L, error: L, noisy: L::Words) -> L {
    L::select(noisy, value + error, value)
}
