//! Three representative guidance laws: which bank brings the jet onto the ring.
//!
//! All of them end in the tangent of a bank; the caller limits it. Angles turn positive to the right.

use crate::lane::{Lane, Words as _};
use crate::recovery::{Guidance, Percept, PlanNumbers};
use crate::units::G0;

/// Cosine of the crab angle below which it is held: beyond 70 degrees the nose says nothing about the path.
const LEAST_CRAB_COS: f64 = 0.34;

/// Where the jet stands and how it moves relative to the ring, as perceived.
#[derive(Debug, Clone, Copy)]
pub(super) struct Relative<L> {
    /// Distance from the centre, m, at least 1.
    pub(super) distance: L,
    /// Its reciprocal, 1/m.
    pub(super) per_distance: L,
    /// Unit vector from the centre to the jet.
    radial: [L; 2],
    /// Unit vector along the ring the way of the circle.
    tangent: [L; 2],
    /// Ground speed, m/s, at least a half.
    pub(super) speed: L,
    /// Its reciprocal, s/m.
    per_speed: L,
    /// Ground speed along the ring the way of the circle, m/s.
    pub(super) around: L,
}

impl<L: Lane> Relative<L> {
    #[inline(always)]
    pub(super) fn new(percept: &Percept<L>, plan: &PlanNumbers<L>) -> Self {
        let (x, y) = (percept.x - plan.centre_x, percept.y - plan.centre_y);
        let ground = [percept.ground_x, percept.ground_y];
        let distance = (x * x + y * y).sqrt().max(L::splat(1.0));
        let speed = dot(ground, ground).sqrt().max(L::splat(0.5));
        // One division for two reciprocals.
        let all = L::splat(1.0) / (distance * speed);
        let (per_distance, per_speed) = (all * speed, all * distance);
        let radial = [x * per_distance, y * per_distance];
        let tangent = [plan.turn * radial[1], -(plan.turn * radial[0])];
        Self { distance, per_distance, radial, tangent, speed, per_speed, around: dot(ground, tangent) }
    }
}

#[inline(always)]
fn dot<L: Lane>(a: [L; 2], b: [L; 2]) -> L {
    a[0] * b[0] + a[1] * b[1]
}

/// Sine of the angle from `a` to `b`, positive to the right, for unit vectors.
#[inline(always)]
fn to_the_right<L: Lane>(a: [L; 2], b: [L; 2]) -> L {
    a[1] * b[0] - a[0] * b[1]
}

/// The direction to fly at a distance off the ring: along it on the ring, ever more towards it further off.
///
/// `off` is the distance outside the ring over the length in which the field turns by 45 degrees. The course is the
/// ring's tangent turned by `atan(off)`, as in the vector fields of Nelson, Barber, McLain and Beard (2007).
#[inline(always)]
pub fn field_of_directions<L: Lane>(radial: [L; 2], tangent: [L; 2], off: L) -> [L; 2] {
    let scale = L::splat(1.0) / (L::splat(1.0) + off * off).sqrt();
    [(tangent[0] - off * radial[0]) * scale, (tangent[1] - off * radial[1]) * scale]
}

/// Tangent of the bank that turns a path at `rate` rad/s to the right, at a ground speed and a crab angle's cosine.
#[inline(always)]
pub fn turn_demand<L: Lane>(speed: L, rate: L, crab_cos: L) -> L {
    speed * rate / (L::splat(G0) * crab_cos.max(L::splat(LEAST_CRAB_COS)))
}

/// Laws that some trial flown side by side follows; what nobody follows is not worked out.
#[derive(Debug, Clone, Copy)]
pub(super) struct Laws {
    field: bool,
    nose: bool,
    ahead: bool,
}

impl Laws {
    #[inline(always)]
    pub(super) fn of<L: Lane>(plan: &PlanNumbers<L>) -> Self {
        Self {
            field: follows(Guidance::FieldOfDirections, plan).any(),
            nose: follows(Guidance::NoseOnTheCentre, plan).any(),
            ahead: follows(Guidance::LookAhead, plan).any(),
        }
    }
}

/// In which lanes a law is followed.
#[inline(always)]
fn follows<L: Lane>(law: Guidance, plan: &PlanNumbers<L>) -> L::Words {
    (plan.law - L::splat(law.number())).abs().lt(L::splat(0.5))
}

/// Tangent of the bank that each trial's law asks for.
#[inline(always)]
pub(super) fn bank_tangent<L: Lane>(
    laws: Laws,
    percept: &Percept<L>,
    relative: &Relative<L>,
    plan: &PlanNumbers<L>,
) -> L {
    let (speed, per_speed) = (relative.speed, relative.per_speed);
    let course = [percept.ground_x * per_speed, percept.ground_y * per_speed];
    let nose = [percept.nose_x, percept.nose_y];
    let crab_cos = dot(course, nose);
    let one = L::splat(1.0);
    let mut wanted = L::splat(0.0);
    if laws.field {
        wanted = follow_field(course, speed, per_speed, crab_cos, relative, plan);
    }
    if laws.nose {
        let airspeed = percept.airspeed;
        let nosed = follow_field(nose, airspeed, one / airspeed, one, relative, plan);
        wanted = L::select(follows(Guidance::NoseOnTheCentre, plan), nosed, wanted);
    }
    if laws.ahead {
        let ahead = look_ahead(course, speed, crab_cos, relative, plan);
        wanted = L::select(follows(Guidance::LookAhead, plan), ahead, wanted);
    }
    wanted
}

/// Course feedback on the field, with the turn that the field itself makes along the way fed forward.
#[inline(always)]
fn follow_field<L: Lane>(
    direction: [L; 2],
    speed: L,
    per_speed: L,
    crab_cos: L,
    relative: &Relative<L>,
    plan: &PlanNumbers<L>,
) -> L {
    let one = L::splat(1.0);
    let per_blend = per_speed / plan.lead;
    let off = (relative.distance - plan.radius) * per_blend;
    let wanted = field_of_directions(relative.radial, relative.tangent, off);
    let around = speed * dot(direction, relative.tangent);
    let outward = speed * dot(direction, relative.radial);
    let field_turn = plan.turn * (around * relative.per_distance + outward * per_blend / (one + off * off));
    // Twice the tangent of half the angle: the angle itself where it is small, and growing all the way to a half turn.
    let sin = to_the_right(direction, wanted) + plan.turn * L::splat(1e-9);
    let error = L::splat(2.0) * sin / (one + dot(direction, wanted) + L::splat(1e-6));
    turn_demand(speed, field_turn + plan.gain * error, crab_cos)
}

/// Acceleration towards a point of the ring ahead of the jet's foot on it: `2 V^2 sin(eta) / L`.
///
/// With the point at a chord `L` of the ring, a jet on the ring is asked for exactly `V^2 / R`
/// (Park, Deyst and How, 2004; value from memory). The law has no gain beside its reach: a shorter one is firmer.
#[inline(always)]
fn look_ahead<L: Lane>(course: [L; 2], speed: L, crab_cos: L, relative: &Relative<L>, plan: &PlanNumbers<L>) -> L {
    let (zero, one) = (L::splat(0.0), L::splat(1.0));
    let reach = plan.lead * speed;
    // The angle ahead on the ring, as the tangent of its half: at most a quarter of the ring.
    let half = (L::splat(0.5) * reach / plan.radius).min(one);
    let scale = one / (one + half * half);
    let (cos, sin) = ((one - half * half) * scale, L::splat(2.0) * half * scale);
    let ([radial_x, radial_y], [tangent_x, tangent_y]) = (relative.radial, relative.tangent);
    let target = [
        plan.radius * (radial_x * cos + tangent_x * sin) - relative.distance * radial_x,
        plan.radius * (radial_y * cos + tangent_y * sin) - relative.distance * radial_y,
    ];
    let length = dot(target, target).sqrt().max(L::splat(1.0));
    let towards = [target[0] / length, target[1] / length];
    let sin_eta = to_the_right(course, towards);
    // A point behind asks for the tightest turn, the way it lies.
    let behind = L::select(sin_eta.lt(zero), -one, one);
    let sin_eta = L::select(dot(course, towards).lt(zero), behind, sin_eta);
    turn_demand(speed, L::splat(2.0) * speed * sin_eta / length, crab_cos)
}
