//! The least value of a distance along a whole path, between its samples too.
//!
//! A distance can't change faster than the jet moves. Between two samples whose values are known it can therefore not
//! fall below half of (their sum less the way flown between them); where that bound can't beat the least so far, the
//! samples between are never looked at. The bound is exact, so nothing is missed, and nearly all samples are skipped.

/// The least value found and where along the path it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Least {
    /// The value.
    pub value: f64,
    /// Where: sample number, with the share of the way to the next one as its fraction.
    pub at: f64,
}

/// How near the answer is to the true least, in the units of the value.
pub(crate) const TOLERANCE: f64 = 0.01;

/// Samples between the first looks.
const STRIDE: usize = 32;

/// The least of `value` over samples 0 to `count - 1` and the straight lines between them.
///
/// `value(at)` is asked at a sample number, with the share of the way to the next one as its fraction, and may change by
/// no more than the way flown: `way[i]` is the way up to sample `i`, in the units of the value. Returns `None` for an
/// empty path.
pub fn least_along(way: &[f64], mut value: impl FnMut(f64) -> f64) -> Option<Least> {
    let last = way.len().checked_sub(1)?;
    #[allow(clippy::cast_precision_loss, reason = "a path has far fewer than 2^52 samples")]
    let position = |index: usize| index as f64;
    let mut least = Least { value: value(0.0), at: 0.0 };
    let mut look = |at: f64, least: &mut Least| {
        let found = value(at);
        if found < least.value {
            *least = Least { value: found, at };
        }
        found
    };
    let mut spans = Vec::with_capacity(last / STRIDE + 64);
    let mut from = (0, least.value);
    while from.0 < last {
        let to = (from.0 + STRIDE).min(last);
        let found = look(position(to), &mut least);
        spans.push((from, (to, found)));
        from = (to, found);
    }
    while let Some(((a, at_a), (b, at_b))) = spans.pop() {
        if bound(at_a, at_b, way[b] - way[a]) >= least.value {
            continue;
        }
        if b - a > 1 {
            let middle = a.midpoint(b);
            let found = look(position(middle), &mut least);
            spans.push(((a, at_a), (middle, found)));
            spans.push(((middle, found), (b, at_b)));
            continue;
        }
        between(position(a), (0.0, at_a), (1.0, at_b), way[b] - way[a], &mut least, &mut look);
    }
    Some(least)
}

/// The lowest a value can be between two places, given the values there and the way between.
fn bound(at_a: f64, at_b: f64, way: f64) -> f64 {
    (at_a + at_b - way) / 2.0
}

/// Halves one straight piece until its bound is within the tolerance of the least.
fn between(
    start: f64,
    (a, at_a): (f64, f64),
    (b, at_b): (f64, f64),
    way: f64,
    least: &mut Least,
    look: &mut impl FnMut(f64, &mut Least) -> f64,
) {
    if bound(at_a, at_b, way) >= least.value - TOLERANCE || !way.is_finite() {
        return;
    }
    let middle = (a + b) / 2.0;
    let found = look(start + middle, least);
    between(start, (a, at_a), (middle, found), way / 2.0, least, look);
    between(start, (middle, found), (b, at_b), way / 2.0, least, look);
}
