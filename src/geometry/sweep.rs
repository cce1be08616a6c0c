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
    fn offer(&mut self, value: f64, at: f64) {
        if value < self.value {
            *self = Self { value, at };
        }
    }
}

/// How near the answer is to the true least where it has to be closed in on, in the units of the value.
const TOLERANCE: f64 = 0.01;

/// Samples between the first looks.
const STRIDE: usize = 32;

/// The least of `value` over the samples of a path and the straight lines between them, within a centimetre.
///
/// `value(at)` is asked at a sample number, with the share of the way to the next one as its fraction, and may change by
/// no more than the way: `way(i)` is the way up to sample `i`, in the units of the value. `None` for an empty path.
pub fn least_along(samples: usize, way: impl Fn(usize) -> f64, value: impl Fn(f64) -> f64) -> Option<Least> {
    search(
        samples,
        &way,
        |index| value(position(index)),
        |index, ends, least| {
            halve(position(index), (0.0, ends.0), (1.0, ends.1), way(index + 1) - way(index), least, &value);
        },
    )
}

/// The least signed distance of a path to a region: positive inside, or outside with `outside`.
///
/// Exact to edges on every straight piece that does not cross one, and within a centimetre in the depth of a breach.
pub fn least_signed(
    samples: usize,
    way: impl Fn(usize) -> f64,
    point: impl Fn(usize) -> DVec2,
    region: &Region,
    outside: bool,
) -> Option<Least> {
    let side = if outside { -1.0 } else { 1.0 };
    let value = |index: usize| side * region.signed_distance(point(index));
    search(samples, &way, value, |index, ends, least| {
        let (a, b) = (point(index), point(index + 1));
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

#[allow(clippy::cast_precision_loss, reason = "a path has far fewer than 2^52 samples")]
fn position(index: usize) -> f64 {
    index as f64
}

/// Looks at samples where the bound allows something less, and hands every straight piece left to `piece`.
fn search(
    samples: usize,
    way: &impl Fn(usize) -> f64,
    value: impl Fn(usize) -> f64,
    mut piece: impl FnMut(usize, (f64, f64), &mut Least),
) -> Option<Least> {
    let last = samples.checked_sub(1)?;
    let mut least = Least { value: value(0), at: 0.0 };
    let look = |index: usize, least: &mut Least| {
        let found = value(index);
        least.offer(found, position(index));
        found
    };
    let mut spans = Vec::with_capacity(last / STRIDE + 16);
    let mut from = (0, least.value);
    while from.0 < last {
        let index = (from.0 + STRIDE).min(last);
        let to = (index, look(index, &mut least));
        spans.push((from, to));
        from = to;
    }
    while let Some((a, b)) = spans.pop() {
        if bound(a.1, b.1, way(b.0) - way(a.0)) >= least.value {
            continue;
        }
        if b.0 - a.0 == 1 {
            piece(a.0, (a.1, b.1), &mut least);
            continue;
        }
        let index = a.0.midpoint(b.0);
        let middle = (index, look(index, &mut least));
        spans.push((a, middle));
        spans.push((middle, b));
    }
    Some(least)
}

/// The lowest a value can be between two places, given the values there and the way between.
fn bound(at_a: f64, at_b: f64, way: f64) -> f64 {
    (at_a + at_b - way) / 2.0
}

/// Halves one straight piece until its bound is within the tolerance of the least.
fn halve(
    start: f64,
    (a, at_a): (f64, f64),
    (b, at_b): (f64, f64),
    way: f64,
    least: &mut Least,
    value: &impl Fn(f64) -> f64,
) {
    if bound(at_a, at_b, way) >= least.value - TOLERANCE || !way.is_finite() {
        return;
    }
    let middle = f64::midpoint(a, b);
    let found = value(start + middle);
    least.offer(found, start + middle);
    halve(start, (a, at_a), (middle, found), way / 2.0, least, value);
    halve(start, (middle, found), (b, at_b), way / 2.0, least, value);
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
    let lowest = bound(from.value, to.value, from.at.distance(to.at)).max(-depth);
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
