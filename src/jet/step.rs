//! Where the jet is one step later: a point mass in three dimensions, in coordinated flight.
//!
//! Motion is relative to the air, then carried by it, so that a steady wind changes nothing but the track. What changes
//! airspeed is wind that changes along the way: shear with height, and gusts. Integrated by the midpoint rule at a fixed
//! step, second order; the nose turns by an angle, so that a steady turn stays round. Bank and thrust follow their commands
//! exactly, and both stages of the rule use them where they then are.
//!
//! A vertical gust loads the wing until the jet moves with it. `heave` is how much of the air's vertical motion the jet
//! has not taken on yet; it adds `heave V k / g` to the load, `k = 0.88 a rho S / 2 m` with the lift slope `a`, and dies
//! away with the time constant `1 / (k V)`. In the gust of 14 CFR 23.341 (25 chords long, one minus cosine) the load so
//! found is within 4 % of that rule's own, `0.88 mu / (5.3 + mu)` of the sharp one, for any mass ratio `mu` above 5.

use super::JetNumbers;
use super::lag::{LagReach, Lags};
use crate::lane::{Lane, lanes, sin_cos, sin_cos_small};
use crate::units::G0;

/// Time constant with which the climb angle follows its command, s.
pub(crate) const PITCH_LAG: f64 = 0.5;
/// Load factor never exceeded, upward; a light foam airframe's own guard.
pub(crate) const LOAD_LIMIT: f64 = 6.0;
/// Cosine of the bank beyond which lift is no longer asked to carry the weight.
const STEEPEST_COS: f64 = 0.1;
/// Fastest the nose turns, rad/s: far beyond what flies, and no more than the trigonometry of small angles takes within
/// a step of 0.1 s. Only a stalled tumble in a gust would ask for more.
const TURN_LIMIT: f64 = 5.0;

lanes! {
    /// Where the jet is and how it moves.
    pub struct State {
        /// East, m.
        x,
        /// North, m.
        y,
        /// Height above home's ground, m.
        height,
        /// Airspeed, m/s.
        airspeed,
        /// Nose, unit vector, east.
        nose_x,
        /// Nose, unit vector, north.
        nose_y,
        /// Climb angle relative to the air, rad.
        climb,
        /// Bank, rad, positive to the right.
        bank,
        /// Thrust, N.
        thrust,
        /// Energy drawn, J.
        energy,
        /// Upward motion of the air that the jet has not taken on yet, m/s.
        heave,
    }
}

lanes! {
    /// What is asked of the jet until the next command.
    pub struct Command {
        /// Bank, rad.
        bank,
        /// Climb angle, rad.
        climb,
        /// Thrust, N.
        thrust,
        /// 1 with the fan stopped, 0 with it running.
        stopped,
    }
}

lanes! {
    /// The air about the jet for one step: its motion at the start, and how that changes with height and with time.
    pub struct Gust {
        /// Air motion to the east at the start of the step, m/s.
        x,
        /// To the north.
        y,
        /// Upward.
        z,
        /// Change of the eastward motion a metre of height, 1/s.
        shear_x,
        /// Of the northward motion.
        shear_y,
        /// Change of the eastward motion with time, m/s^2.
        rate_x,
        /// Of the northward motion.
        rate_y,
        /// Of the upward motion.
        rate_z,
        /// Height at which the motion was taken, m.
        height,
    }
}

/// Sines and cosines of a state's angles, worked out once for all who ask.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Attitude<L> {
    climb_sin: L,
    climb_cos: L,
    bank_sin: L,
    bank_cos: L,
}

impl<L: Lane> Attitude<L> {
    /// Of a state.
    #[inline(always)]
    pub(crate) fn of(state: &State<L>) -> Self {
        let (climb_sin, climb_cos) = sin_cos(state.climb);
        let (bank_sin, bank_cos) = sin_cos(state.bank);
        Self { climb_sin, climb_cos, bank_sin, bank_cos }
    }

    /// Cosine of the bank.
    #[inline(always)]
    pub(crate) fn bank_cos(&self) -> L {
        self.bank_cos
    }

    /// Ground velocity, m/s, to the east and to the north.
    #[inline(always)]
    pub(crate) fn over_ground(&self, state: &State<L>, air: &Gust<L>) -> [L; 2] {
        let forward = state.airspeed * self.climb_cos;
        [forward * state.nose_x + air.x, forward * state.nose_y + air.y]
    }
}

/// Load factors of one moment.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Loads<L> {
    /// Flown: what is wanted, as far as wing and airframe carry it.
    pub(crate) flown: L,
    /// Wanted: what turn, climb and vertical gust ask of the wing.
    pub(crate) wanted: L,
}

/// Rates of change of a state; the nose turns by an angle.
struct Rates<L> {
    x: L,
    y: L,
    height: L,
    airspeed: L,
    turn: L,
    climb: L,
    power: L,
    /// Share of the heave taken on a second, 1/s.
    grip: L,
}

/// The load factors on the way to the commanded climb, with what a vertical gust adds.
#[inline(always)]
fn loads<L: Lane>(
    jet: &JetNumbers<L>,
    state: &State<L>,
    climb_cos: L,
    per_bank_cos: L,
    gust: L,
    command: &Command<L>,
) -> Loads<L> {
    let pull = state.airspeed * L::splat(1.0 / (G0 * PITCH_LAG)) * (command.climb - state.climb);
    let wanted = (climb_cos + pull) * per_bank_cos + gust;
    let most = jet.load_at_stall(state.airspeed).min(L::splat(LOAD_LIMIT));
    Loads { flown: wanted.min(most).max(L::splat(0.0)), wanted }
}

/// The nose after a turn to the right by an angle.
#[inline(always)]
fn turned<L: Lane>(state: &State<L>, angle: L) -> [L; 2] {
    // Positive angles turn to the right, which is clockwise seen from above.
    let (sin, cos) = sin_cos_small(angle);
    [state.nose_x * cos + state.nose_y * sin, state.nose_y * cos - state.nose_x * sin]
}

/// The rates at `state`, `elapsed` after the air was as told, and the load factors.
#[inline(always)]
fn rates<L: Lane>(
    jet: &JetNumbers<L>,
    state: &State<L>,
    attitude: &Attitude<L>,
    elapsed: f64,
    command: &Command<L>,
    air: &Gust<L>,
) -> (Rates<L>, Loads<L>) {
    let g = L::splat(G0);
    let one = L::splat(1.0);
    let &Attitude { climb_sin, climb_cos, bank_sin, bank_cos } = attitude;
    let (nose_x, nose_y) = (state.nose_x, state.nose_y);
    // One division for three reciprocals.
    let upright = bank_cos.max(L::splat(STEEPEST_COS));
    let forward = state.airspeed * climb_cos;
    let all = one / (forward * upright);
    let (per_bank_cos, per_forward) = (all * forward, all * upright);
    let per_airspeed = per_forward * climb_cos;
    // The gust lifts along the banked wing, and of that only the upright part carries the jet along.
    let lift_rate = jet.heave * state.airspeed * bank_cos;
    let grip = lift_rate * bank_cos;
    let loads = loads(jet, state, climb_cos, per_bank_cos, state.heave * lift_rate * L::splat(1.0 / G0), command);
    let n = loads.flown;
    let drag = jet.drag_over(state.airspeed, per_airspeed, n, command.stopped);

    let t = L::splat(elapsed);
    let above = state.height - air.height;
    let carried_z = air.z + air.rate_z * t - state.heave;
    let rise = state.airspeed * climb_sin + carried_z;
    // What the air gains along the way is what the jet loses relative to it.
    let gain_x = air.shear_x * rise + air.rate_x;
    let gain_y = air.shear_y * rise + air.rate_y;
    let gain_z = state.heave * grip;
    let along = gain_x * nose_x + gain_y * nose_y;
    let right = gain_x * nose_y - gain_y * nose_x;

    let rates = Rates {
        x: forward * nose_x + air.x + air.shear_x * above + air.rate_x * t,
        y: forward * nose_y + air.y + air.shear_y * above + air.rate_y * t,
        height: rise,
        airspeed: (state.thrust - drag) * jet.per_mass - g * climb_sin - (along * climb_cos + gain_z * climb_sin),
        turn: ((g * n * bank_sin - right) * per_forward).within(L::splat(TURN_LIMIT)),
        climb: (g * (n * bank_cos - climb_cos) - (gain_z * climb_cos - along * climb_sin)) * per_airspeed,
        power: jet.power(state.airspeed, state.thrust),
        grip,
    };
    (rates, loads)
}

/// The heave after `dt` seconds of air that gains `rate_z` upward a second, of second order and steady at any grip.
#[inline(always)]
fn heaved<L: Lane>(heave: L, rate_z: L, grip: L, dt: L) -> L {
    let (half, one) = (L::splat(0.5), L::splat(1.0));
    let taken = grip * dt;
    (heave + rate_z * dt * (one + half * taken)) / (one + taken + half * taken * taken)
}

/// From `from`, at the rates of `of` and of its middle: the state `dt` later, `reach` being what bank and fan do in that.
#[inline(always)]
fn moved<L: Lane>(
    jet: &JetNumbers<L>,
    from: &State<L>,
    (of, rates): (&State<L>, &Rates<L>),
    (command, rate_z): (&Command<L>, L),
    reach: &LagReach<L>,
    dt: f64,
) -> State<L> {
    let dt = L::splat(dt);
    let [nose_x, nose_y] = turned(from, rates.turn * dt);
    let thrust = command.thrust.min(jet.thrust_left(of.airspeed, of.energy));
    State {
        x: from.x + rates.x * dt,
        y: from.y + rates.y * dt,
        height: from.height + rates.height * dt,
        // Far below any speed that flies; keeps a stalled tumble finite.
        airspeed: (from.airspeed + rates.airspeed * dt).max(L::splat(1.0)),
        nose_x,
        nose_y,
        climb: (from.climb + rates.climb * dt).within(L::splat(1.5)),
        bank: reach.bank(from.bank, command.bank).within(L::splat(1.5)),
        thrust: reach.thrust(from.thrust, thrust).max(L::splat(0.0)),
        energy: from.energy + rates.power * dt,
        heave: heaved(from.heave, rate_z, rates.grip, dt),
    }
}

/// The state `dt` seconds later, under one command, in air that changes linearly meanwhile.
pub fn step<L: Lane>(jet: &JetNumbers<L>, state: &State<L>, command: &Command<L>, air: &Gust<L>, dt: f64) -> State<L> {
    advance(jet, &Lags::of(jet, dt), state, &Attitude::of(state), command, air, dt).0
}

/// The same where lags and attitude are known, with the load factors at the start.
#[inline(always)]
pub(crate) fn advance<L: Lane>(
    jet: &JetNumbers<L>,
    lags: &Lags<L>,
    state: &State<L>,
    attitude: &Attitude<L>,
    command: &Command<L>,
    air: &Gust<L>,
    dt: f64,
) -> (State<L>, Loads<L>) {
    let half = dt / 2.0;
    let asked = (command, air.rate_z);
    let (start, loads) = rates(jet, state, attitude, 0.0, command, air);
    let middle = moved(jet, state, (state, &start), asked, &lags.half, half);
    let (rates, _) = rates(jet, &middle, &Attitude::of(&middle), half, command, air);
    let mut next = moved(jet, state, (&middle, &rates), asked, &lags.full, dt);
    // One Newton step back to unit length; the error per step is far below the last bit of a margin.
    let scale = L::splat(1.5) - L::splat(0.5) * (next.nose_x * next.nose_x + next.nose_y * next.nose_y);
    next.nose_x = next.nose_x * scale;
    next.nose_y = next.nose_y * scale;
    (next, loads)
}
