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
/// no more than the way: `way[i]` is the way up to sample `i`, in the units of the value. `None` for an empty path.
pub fn least_along(way: &[f64], value: impl Fn(f64) -> f64) -> Option<Least> {
    search(
        way,
        |index| value(position(index)),
        |index, ends, least| {
            halve(position(index), (0.0, ends.0), (1.0, ends.1), way[index + 1] - way[index], least, &value);
        },
    )
}

/// The least signed distance of a path to a region: positive inside, or outside with `outside`.
///
/// Exact to edges on every straight piece that does not cross one, and within a centimetre in the depth of a breach.
pub fn least_signed(way: &[f64], point: impl Fn(usize) -> DVec2, region: &Region, outside: bool) -> Option<Least> {
    let side = if outside { -1.0 } else { 1.0 };
    let value = |index: usize| side * region.signed_distance(point(index));
    search(way, value, |index, ends, least| {
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
    way: &[f64],
    value: impl Fn(usize) -> f64,
    mut piece: impl FnMut(usize, (f64, f64), &mut Least),
) -> Option<Least> {
    let last = way.len().checked_sub(1)?;
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
        if bound(a.1, b.1, way[b.0] - way[a.0]) >= least.value {
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
mod tests {
    use super::*;

    fn way(points: &[DVec2]) -> Vec<f64> {
        let mut flown = 0.0;
        let steps = points.windows(2).map(|pair| {
            flown += pair[0].distance(pair[1]);
            flown
        });
        std::iter::once(0.0).chain(steps).collect()
    }

    fn square() -> Region {
        let hole = [(40.0, 40.0), (60.0, 40.0), (60.0, 60.0), (40.0, 60.0)];
        let corners = |ring: &[(f64, f64)]| ring.iter().map(|&(x, y)| DVec2::new(x, y)).collect::<Vec<_>>();
        Region::new(&corners(&[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]), &[corners(&hole)])
    }

    #[track_caller]
    fn check(points: &[(f64, f64)], outside: bool, expected: f64) {
        let points: Vec<_> = points.iter().map(|&(x, y)| DVec2::new(x, y)).collect();
        let least = least_signed(&way(&points), |index| points[index], &square(), outside).unwrap();
        assert!((least.value - expected).abs() <= TOLERANCE, "{least:?}, expected {expected}");
    }

    #[test]
    fn least_lies_between_samples_where_it_does() {
        // Passing the hole's corner (40, 40) diagonally, half way between two samples: sqrt 2 * 5.
        check(&[(20.0, 50.0), (50.0, 20.0)], false, 50.0_f64.sqrt());
        // Along the lower edge at 3 m.
        check(&[(10.0, 3.0), (90.0, 3.0)], false, 3.0);
        // Across the hole between two samples that are both inside: 10 m deep in its middle.
        check(&[(30.0, 50.0), (70.0, 50.0)], false, -10.0);
        // Out over the corner and back: the deepest place is 50 m outside the right edge, at the sample.
        check(&[(50.0, 10.0), (150.0, 10.0), (50.0, 20.0)], false, -50.0);
        // From outside, the nearest approach to the square.
        check(&[(-20.0, -30.0), (-20.0, 130.0)], true, 20.0);
        check(&[(-10.0, 50.0), (10.0, 50.0)], true, -10.0);
    }

    proptest::proptest! {
        #[test]
        fn nothing_on_the_path_is_less(
            steps in proptest::collection::vec((-8.0..8.0_f64, -8.0..8.0_f64), 2..120),
            start in (-20.0..120.0_f64, -20.0..120.0_f64),
            outside: bool,
        ) {
            let mut at = DVec2::new(start.0, start.1);
            let points: Vec<_> = steps.iter().map(|&(x, y)| { at += DVec2::new(x, y); at }).collect();
            let region = square();
            let side = if outside { -1.0 } else { 1.0 };
            let least = least_signed(&way(&points), |index| points[index], &region, outside).unwrap();
            let mut scanned = f64::INFINITY;
            for pair in points.windows(2) {
                for part in 0..=200 {
                    let here = pair[0].lerp(pair[1], f64::from(part) / 200.0);
                    scanned = scanned.min(side * region.signed_distance(here));
                }
            }
            // The scan is at most half of its own step, 6 cm, above the truth; the search at most a centimetre.
            proptest::prop_assert!(least.value <= scanned + TOLERANCE, "{least:?} {scanned}");
            proptest::prop_assert!(least.value >= scanned - 0.06, "{least:?} {scanned}");
        }
    }
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
