//! Height and speed hold, limited by power and by the stall.

use crate::jet::{Command, JetNumbers, PITCH_LAG};
use crate::lane::{Lane, sin_cos};
use crate::recovery::{Percept, PlanNumbers, SpeedHold};
use crate::units::G0;

/// Climb rate asked for a metre of height error, 1/s.
const HEIGHT_GAIN: f64 = 0.4;
/// Acceleration asked for a metre per second of speed error, 1/s.
const SPEED_GAIN: f64 = 0.6;
/// Climb angle given up a metre per second below the least speed, rad s/m.
const STALL_GAIN: f64 = 0.06;
/// Climb angle changed a metre per second off the glide's speed, rad s/m.
const GLIDE_GAIN: f64 = 0.04;

/// Cosine of the bank beyond which no more load is asked for.
pub(super) const LEAST_UPRIGHT: f64 = 0.2;

/// Powered flight with a bank and, where `climbing`, a height to close in on: thrust for the speed that is held, and no
/// more climb than thrust and stall allow.
///
/// `over_ground` is the speed over the ground, where it is known. `carried` is the load that the elevator carries, which
/// lags what the bank needs: while the bank goes on, lift is missing by `g (1 - carried / needed)`, here as the climb that
/// the jet's own pitch lag would take for it.
#[inline(always)]
pub(super) fn powered<L: Lane>(
    bank: L,
    climbing: L::Words,
    over_ground: L,
    carried: L,
    percept: &Percept<L>,
    jet: &JetNumbers<L>,
    plan: &PlanNumbers<L>,
) -> Command<L> {
    let (zero, one) = (L::splat(0.0), L::splat(1.0));
    let upright = percept.bank_cos.max(L::splat(LEAST_UPRIGHT));
    // One division for two reciprocals.
    let all = one / (percept.airspeed * upright);
    let (per_airspeed, load) = (all * upright, all * percept.airspeed);
    let closing = (L::splat(HEIGHT_GAIN) * (plan.height - percept.height) * per_airspeed).within(jet.climb_limit);
    let climb = L::select(climbing, closing, zero);

    let weight = jet.mass * L::splat(G0);
    let drag = jet.drag_over(percept.airspeed, per_airspeed, load, zero);
    let most = jet.thrust_full(percept.airspeed);
    let least_speed = plan.stall_factor * jet.stall_speed(one) * load.sqrt();
    let throttle = held(SpeedHold::Throttle, plan);
    let trim = plan.trim_thrust.min(most);
    let spare = (L::select(throttle, trim, most) - drag) * jet.per_mass * L::splat(1.0 / G0)
        + L::splat(STALL_GAIN) * (percept.airspeed - least_speed);
    let climb = climb.min(spare).max(-jet.climb_limit);
    let (climb_sin, _) = sin_cos(climb);
    let speed = L::select(held(SpeedHold::GroundSpeed, plan), over_ground, percept.airspeed);
    let push = jet.mass * L::splat(SPEED_GAIN) * (jet.return_speed - speed);
    let thrust = L::select(throttle, trim, (drag + weight * climb_sin + push).min(most).max(zero));
    let sag = L::splat(G0 * PITCH_LAG) * per_airspeed * (carried * upright - one);
    Command { bank, climb: climb + sag, thrust, stopped: zero }
}

/// In which lanes the throttle holds something.
#[inline(always)]
fn held<L: Lane>(hold: SpeedHold, plan: &PlanNumbers<L>) -> L::Words {
    (plan.speed_hold - L::splat(hold.number())).abs().lt(L::splat(0.5))
}

/// The load that the elevator carries `interval` s later: it closes in on what the bank of the moment needs.
#[inline(always)]
pub(super) fn carried<L: Lane>(carried: L, percept: &Percept<L>, plan: &PlanNumbers<L>, interval: f64) -> L {
    let interval = L::splat(interval);
    let needed = L::splat(1.0) / percept.bank_cos.max(L::splat(LEAST_UPRIGHT));
    carried + (needed - carried) * interval / (plan.load_lag + interval)
}

/// The glide with the fan stopped: pitch holds the speed, and nothing climbs.
#[inline(always)]
pub(super) fn gliding<L: Lane>(percept: &Percept<L>, jet: &JetNumbers<L>, plan: &PlanNumbers<L>) -> Command<L> {
    let faster = percept.airspeed - plan.glide_speed;
    let climb = (L::splat(GLIDE_GAIN) * faster - plan.glide_angle).min(L::splat(0.0)).max(-jet.climb_limit);
    Command { bank: plan.glide_bank, climb, thrust: L::splat(0.0), stopped: L::splat(1.0) }
}
