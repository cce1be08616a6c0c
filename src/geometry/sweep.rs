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
pub const TOLERANCE: f64 = 0.01;

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

#[cfg(test)]
mod tests {
    use glam::DVec2;
    use rand::{RngExt as _, SeedableRng as _};
    use rand_xoshiro::Xoshiro256PlusPlus;

    use super::super::Region;
    use super::*;

    /// A wandering path, the way along it, and a point between its samples.
    fn path(seed: u64, count: usize) -> (Vec<DVec2>, Vec<f64>) {
        let mut random = Xoshiro256PlusPlus::seed_from_u64(seed);
        let (mut at, mut angle) = (DVec2::new(40.0, -30.0), 0.0);
        let mut points = vec![at];
        let mut way = vec![0.0];
        for _ in 1..count {
            angle += random.random_range(-0.3..0.3);
            let step = random.random_range(0.0..4.0);
            at += DVec2::from_angle(angle) * step;
            points.push(at);
            way.push(way[way.len() - 1] + step);
        }
        (points, way)
    }

    fn between(points: &[DVec2], at: f64) -> DVec2 {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
        let index = (at as usize).min(points.len() - 1);
        points[index].lerp(points[(index + 1).min(points.len() - 1)], at.fract())
    }

    #[test]
    fn finds_what_a_dense_scan_finds() {
        let square = [(-60.0, -60.0), (60.0, -60.0), (60.0, 60.0), (-60.0, 60.0)].map(DVec2::from);
        let region = Region::new(&square, &[]);
        let mut asked = 0;
        for seed in 0..200 {
            let (points, way) = path(seed, 700);
            let value = |at: f64| region.signed_distance(between(&points, at));
            let least = least_along(&way, |at| {
                asked += 1;
                value(at)
            })
            .unwrap();
            let dense = (0..69_901).map(|i| value(f64::from(i) / 100.0)).fold(f64::INFINITY, f64::min);
            assert!(least.value <= dense + TOLERANCE, "seed {seed}: {} is above {dense}", least.value);
            assert!((value(least.at) - least.value).abs() < 1e-9, "seed {seed}");
        }
        assert!(asked < 200 * 700 / 5, "{asked} of 140000 samples looked at");
    }

    #[test]
    fn looks_between_samples() {
        // A spike at 0.5 between the only two samples: the value falls as fast as the way allows.
        let least = least_along(&[0.0, 10.0], |at| 7.0 + 10.0 * (at - 0.5).abs()).unwrap();
        assert!((least.value - 7.0).abs() <= TOLERANCE && (least.at - 0.5).abs() < 1e-3, "{least:?}");
    }

    #[test]
    fn short_and_broken_paths() {
        assert_eq!(least_along(&[], |_| 1.0), None);
        assert_eq!(least_along(&[0.0], |_| 1.0), Some(Least { value: 1.0, at: 0.0 }));
        assert!(least_along(&[0.0, f64::NAN], |at| at).is_some());
        assert!(least_along(&[0.0, f64::INFINITY], |at| at).is_some());
    }
}
