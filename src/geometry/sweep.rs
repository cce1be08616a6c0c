//! The least value of a distance along a whole path, between its samples too.
//!
//! A distance can't change faster than the jet moves. Between two samples whose values are known it can therefore not
//! fall below half of (their sum less the way flown between them); where that bound can't beat the least so far, the
//! samples between are never looked at. The bound is exact, so nothing is missed, and nearly all samples are skipped.

use glam::DVec2;

use super::Region;
use super::edges::{Edge, Passing};

/// The least value found and where along the path it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Least {
    /// The value.
    pub value: f64,
    /// Where: sample number, with the share of the way to the next one as its fraction.
    pub at: f64,
}

impl Least {
    /// Takes another value where it is less.
    pub fn offer(&mut self, value: f64, at: f64) {
        if value < self.value {
            *self = Self { value, at };
        }
    }
}

/// How near the answer is to the true least where it has to be closed in on, in the units of the value.
const TOLERANCE: f64 = 0.01;

/// No part of a straight piece smaller than this is parted, as a share of the piece: some nanometres.
const FINEST: f64 = 1e-9;

/// Far more than a rough distance is off by, m.
const ROUGH: f64 = 1e-6;

/// Samples between those whose distances may be roughly known beforehand.
pub const STRIDE: usize = 16;

/// The least signed distance of a path to a region: positive inside, or outside with `outside`. Where they are known
/// within rounding, `rough` tells the signed distances at every [`STRIDE`]th sample, positive inside.
///
/// Exact to edges on every straight piece that does not cross one, and within a centimetre in the depth of a crossing.
pub fn least_signed(
    samples: usize,
    way: impl Fn(usize) -> f64,
    point: impl Fn(usize) -> DVec2,
    rough: Option<impl Fn(usize) -> f64>,
    region: &Region,
    outside: bool,
) -> Option<Least> {
    let side = if outside { -1.0 } else { 1.0 };
    let value = |index: usize, near: Option<(usize, [f64; 1])>| {
        let near = near.map(|(other, [value])| (side * value, (way(index) - way(other)).abs()));
        [side * region.signed_from(point(index), near)]
    };
    let rough = rough.map(|rough| move |index: usize| side * rough(index));
    let far = |[a, b]: [(usize, f64); 2], reach: f64| {
        a.1.min(b.1) > 0.0 && stays_off(region, [point(a.0), point(b.0)], way(b.0) - way(a.0), reach)
    };
    search(samples, &|index| [way(index)], value, rough, far, |index, ([at_a], [at_b]), least| {
        let (ends, a, b) = ((at_a, at_b), point(index), point(index + 1));
        if ends.0 > 0.0 && ends.1 > 0.0 {
            match region.passing(a, b, least.value) {
                Passing::Clear { distance, share } => return least.offer(distance, position(index) + share),
                Passing::Far => return,
                Passing::Crosses => {}
            }
        }
        let ends = [a, b].map(|at| Place::new(region, side, at));
        deepen(region, side, position(index), [0.0, 1.0], ends, least);
    })
}

/// A path beside and over something: what [`least_beside_or_over`] asks of it.
#[derive(Debug, Clone, Copy)]
pub struct Pass<W, C, P, R, B, N> {
    /// Number of samples.
    pub samples: usize,
    /// Way over the ground up to a sample.
    pub way: W,
    /// How much the height over the thing can have changed up to a sample.
    pub climb: C,
    /// Where a sample is.
    pub point: P,
    /// Height over the thing at a sample number with a fraction, where that is.
    pub rise: R,
    /// Shares of the way from a sample to the next, rising, between which that height is linear.
    pub bends: B,
    /// Signed distances at every [`STRIDE`]th sample, positive inside, within rounding; none where they are not known.
    pub rough: Option<N>,
}

/// The least of the larger of two things left: the distance outside a region less `aside`, and the height over it less
/// `above`.
///
/// Exact to edges where distance decides on a straight piece outside, and within a centimetre elsewhere. The work is that
/// of the bends, however steep the thing rises between them.
pub fn least_beside_or_over(
    pass: &Pass<
        impl Fn(usize) -> f64,
        impl Fn(usize) -> f64,
        impl Fn(usize) -> DVec2,
        impl Fn(f64, DVec2) -> f64,
        impl Fn(usize) -> Vec<f64>,
        impl Fn(usize) -> f64,
    >,
    region: &Region,
    [aside, above]: [f64; 2],
) -> Option<Least> {
    let at = |at: f64, point: DVec2| [-region.signed_distance(point) - aside, (pass.rise)(at, point) - above];
    let ways = |index: usize| [(pass.way)(index), (pass.climb)(index)];
    let value = |index: usize, near: Option<(usize, [f64; 2])>| {
        let near = near.map(|(other, [value, _])| (-value - aside, ((pass.way)(index) - (pass.way)(other)).abs()));
        let point = (pass.point)(index);
        [-region.signed_from(point, near) - aside, (pass.rise)(position(index), point) - above]
    };
    let rough = pass.rough.as_ref().map(|rough| move |index: usize| -rough(index) - aside);
    let far = |[a, b]: [(usize, f64); 2], reach: f64| {
        let way = (pass.way)(b.0) - (pass.way)(a.0);
        a.1.min(b.1) > -aside && stays_off(region, [a.0, b.0].map(&pass.point), way, reach + aside)
    };
    search(pass.samples, &ways, value, rough, far, |index, ends, least| {
        let (a, b) = ((pass.point)(index), (pass.point)(index + 1));
        let start = position(index);
        let inside = |whole: f64| at(whole, a.lerp(b, whole - start));
        let bends = (pass.bends)(index).into_iter().map(|share| (share, inside(start + share)));
        let parts: Vec<(f64, [f64; 2])> = std::iter::once((0.0, ends.0)).chain(bends).chain([(1.0, ends.1)]).collect();
        parts.iter().for_each(|&(share, found)| least.offer(largest(found), start + share));
        let lowest_rise = parts.iter().map(|(_, [_, rise])| *rise).fold(f64::INFINITY, f64::min);
        let reach = least.value + aside;
        if ends.0[0] > -aside && ends.1[0] > -aside && reach > 0.0 {
            match region.passing(a, b, reach) {
                Passing::Clear { distance, share } => {
                    let place = at(position(index) + share, a.lerp(b, share));
                    least.offer(largest(place), position(index) + share);
                    if (distance - aside).max(lowest_rise) >= least.value - TOLERANCE {
                        return;
                    }
                }
                Passing::Far => return,
                Passing::Crosses => {}
            }
        }
        let way = (pass.way)(index + 1) - (pass.way)(index);
        for part in parts.windows(2) {
            let ((from, low), (to, high)) = (part[0], part[1]);
            // Linear between its ends, it has no other way than from the one to the other.
            halve(start, part[0], part[1], [way * (to - from), (high[1] - low[1]).abs()], least, &inside);
        }
    })
}

#[allow(clippy::cast_precision_loss, reason = "a path has far fewer than 2^52 samples")]
fn position(index: usize) -> f64 {
    index as f64
}

/// Whether a way of a length between two places stays further off all edges than a reach: what strays from the straight
/// line between them stays within the ellipse about them.
fn stays_off(region: &Region, [a, b]: [DVec2; 2], way: f64, reach: f64) -> bool {
    let stray2 = (way + ROUGH).powi(2) - a.distance_squared(b);
    let reach = reach + stray2.max(0.0).sqrt() / 2.0;
    // Of many edges, too many lie about a long piece to ask them all; and where it is not known how far it went, nothing is
    // ruled out.
    region.is_plain() && !stray2.is_nan() && reach > 0.0 && region.is_beyond(a, b, reach + ROUGH)
}

/// Looks at samples where the bound allows something less, and hands every straight piece left to `piece`.
///
/// `value` is asked with a sample whose values are known already; `rough` is the first of them within rounding at every
/// [`STRIDE`]th. `far` tells of two samples with their first values whether that stays above a reach between them.
fn search<const N: usize>(
    samples: usize,
    way: &impl Fn(usize) -> [f64; N],
    value: impl Fn(usize, Option<(usize, [f64; N])>) -> [f64; N],
    rough: Option<impl Fn(usize) -> f64>,
    far: impl Fn([(usize, f64); 2], f64) -> bool,
    mut piece: impl FnMut(usize, ([f64; N], [f64; N]), &mut Least),
) -> Option<Least> {
    let last = samples.checked_sub(1)?;
    let mut least = Least { value: f64::INFINITY, at: 0.0 };
    let look = |index: usize, near: Option<(usize, [f64; N])>, least: &mut Least| {
        let found = value(index, near);
        least.offer(largest(found), position(index));
        found
    };
    let ways = |from: usize, to: usize| {
        let (before, after) = (way(from), way(to));
        std::array::from_fn(|i| after[i] - before[i])
    };
    // Where nothing is known beforehand every look is dear, and fewer of them begin.
    let stride = if rough.is_some() { STRIDE } else { 2 * STRIDE };
    // Where it is roughly known, the first look is where there is least.
    let lowest = rough.as_ref().and_then(|rough| {
        let values = (0..=last).step_by(STRIDE).map(|index| (index, rough(index)));
        values.min_by(|a, b| a.1.total_cmp(&b.1))
    });
    let start = lowest.map_or(0, |(index, _)| index);
    let mut known = (start, look(start, None, &mut least));
    let mut spans = Vec::with_capacity(64);
    for from in (0..last).step_by(stride) {
        let to = (from + stride).min(last);
        if let Some(rough) = &rough {
            let (at_from, way) = (rough(from), ways(from, to)[0]);
            let at_to = if to == from + stride { rough(to) } else { at_from - way };
            let lowest = (at_from + at_to - way) / 2.0;
            if lowest >= least.value + ROUGH || far([(from, at_from), (to, at_to)], least.value) {
                continue;
            }
        }
        let a = if known.0 == from { known } else { (from, look(from, Some(known), &mut least)) };
        known = (to, look(to, Some(a), &mut least));
        spans.push((a, known));
    }
    while let Some((a, b)) = spans.pop() {
        if bound(a.1, b.1, ways(a.0, b.0)) >= least.value {
            continue;
        }
        if b.0 - a.0 == 1 {
            piece(a.0, (a.1, b.1), &mut least);
            continue;
        }
        if far([(a.0, a.1[0]), (b.0, b.1[0])], least.value) {
            continue;
        }
        let index = a.0.midpoint(b.0);
        let middle = (index, look(index, Some(a), &mut least));
        spans.push((a, middle));
        spans.push((middle, b));
    }
    Some(least)
}

fn largest<const N: usize>(values: [f64; N]) -> f64 {
    values.into_iter().fold(f64::NEG_INFINITY, f64::max)
}

/// The lowest the larger of some values can be between two places, given the values there and their ways between.
fn bound<const N: usize>(at_a: [f64; N], at_b: [f64; N], way: [f64; N]) -> f64 {
    largest(std::array::from_fn::<_, N, _>(|i| (at_a[i] + at_b[i] - way[i]) / 2.0))
}

/// Halves one straight piece until its bound is within the tolerance of the least.
fn halve<const N: usize>(
    start: f64,
    (a, at_a): (f64, [f64; N]),
    (b, at_b): (f64, [f64; N]),
    way: [f64; N],
    least: &mut Least,
    value: &impl Fn(f64) -> [f64; N],
) {
    let lowest = bound(at_a, at_b, way);
    if lowest >= least.value - TOLERANCE || !lowest.is_finite() || b - a < FINEST {
        return;
    }
    let middle = f64::midpoint(a, b);
    let found = value(start + middle);
    least.offer(largest(found), start + middle);
    let half = way.map(|way| way / 2.0);
    halve(start, (a, at_a), (middle, found), half, least, value);
    halve(start, (middle, found), (b, at_b), half, least, value);
}

/// A place, its signed distance and the edge that is nearest.
#[derive(Clone, Copy)]
struct Place {
    at: DVec2,
    value: f64,
    edge: Edge,
}

impl Place {
    fn new(region: &Region, side: f64, at: DVec2) -> Self {
        let (distance, edge) = region.signed_nearest(at);
        Self { at, value: side * distance, edge }
    }
}

/// Closes in on the deepest place of a straight piece.
///
/// The distance to one edge is convex along a straight line, so it is largest at an end; the distance to all edges is
/// no larger. Where one edge is nearest to both ends, the ends are all there is to know.
fn deepen(region: &Region, side: f64, start: f64, [a, b]: [f64; 2], ends: [Place; 2], least: &mut Least) {
    let [from, to] = ends;
    let reach = |one: Place, other: Place| one.edge.distance2(one.at).max(one.edge.distance2(other.at)).sqrt();
    let depth = reach(from, to).min(reach(to, from));
    let lowest = bound([from.value], [to.value], [from.at.distance(to.at)]).max(-depth);
    if lowest >= least.value - TOLERANCE || !lowest.is_finite() {
        return;
    }
    let middle = f64::midpoint(a, b);
    let place = Place::new(region, side, from.at.midpoint(to.at));
    least.offer(place.value, start + middle);
    deepen(region, side, start, [a, middle], [from, place], least);
    deepen(region, side, start, [middle, b], [place, to], least);
}

#[cfg(test)]
mod tests;
