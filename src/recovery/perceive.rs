//! What the autopilot knows: where it was a moment ago, with an error.

use crate::jet::{Attitude, Gust, State};
use crate::lane::{Lane, Random};
use crate::recovery::PlanNumbers;

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

/// The receiver's errors and the age of its fixes.
#[derive(Debug, Clone)]
pub struct Perception<L> {
    /// The last fixes, in a ring: east, north, and their rates.
    fixes: Vec<[L; 4]>,
    next: usize,
    wander: [L; 2],
    keep: f64,
}

impl<L: Lane> Perception<L> {
    /// A receiver whose fixes are `age` fixes old when they are used, `interval` seconds apart.
    pub fn new(age: usize, interval: f64, first: [L; 4]) -> Self {
        Self { fixes: vec![first; age + 1], next: 0, wander: [L::splat(0.0); 2], keep: (-interval / WANDER).exp() }
    }

    /// Draws the first error from its stationary distribution.
    #[inline(always)]
    pub fn stir(&mut self, plan: &PlanNumbers<L>, random: &mut Random<L>) {
        self.wander = [plan.position_noise * random.normal(), plan.position_noise * random.normal()];
    }

    /// Takes the truth of now, and tells what the instruments say; with `noise`, after four standard normal draws.
    #[inline(always)]
    pub(crate) fn look(
        &mut self,
        state: &State<L>,
        attitude: &Attitude<L>,
        air: &Gust<L>,
        plan: &PlanNumbers<L>,
        noise: Option<[L; 4]>,
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
            height: state.height + plan.height_error,
            airspeed: state.airspeed,
            nose_x: state.nose_x,
            nose_y: state.nose_y,
            bank: state.bank,
            bank_cos: attitude.bank_cos(),
        };
        if let Some([n0, n1, n2, n3]) = noise {
            let keep = L::splat(self.keep);
            let fresh = plan.position_noise * L::splat((1.0 - self.keep * self.keep).sqrt());
            self.wander = [keep * self.wander[0] + fresh * n0, keep * self.wander[1] + fresh * n1];
            percept.x += self.wander[0];
            percept.y += self.wander[1];
            percept.ground_x += plan.velocity_noise * n2;
            percept.ground_y += plan.velocity_noise * n3;
        }
        percept
    }
}
