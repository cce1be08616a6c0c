//! Whether the search finds what a dense scan finds, and what is known by hand.

use rand::{RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;

use super::*;

/// Nothing is known beforehand.
const ROUGHLY: Option<fn(usize) -> f64> = None;

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

/// Whether a piece stays beyond a reach is what its passing says, but within rounding.
#[test]
fn beyond_is_where_nothing_passes() {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(5);
    let mut point = || DVec2::new(random.random_range(-100.0..100.0), random.random_range(-100.0..100.0));
    let mut said = [0, 0];
    for _ in 0..20_000 {
        let region = Region::new(&[point(), point(), point()], &[]);
        let (a, b) = (point(), point());
        let b = a + (b - a) * 0.2;
        let reach = match region.passing(a, b, f64::INFINITY) {
            Passing::Clear { distance, .. } => distance,
            Passing::Crosses => 0.0,
            Passing::Far => unreachable!("nothing is further off than that"),
        };
        assert!(!region.is_beyond(a, b, reach + 1e-9), "{a} {b}");
        assert_eq!(region.is_beyond(a, b, reach - 1e-9), reach > 1e-9, "{a} {b}");
        said[usize::from(reach > 1e-9)] += 1;
    }
    assert!(said.iter().all(|&times| times > 500), "{said:?}");
}

fn between(points: &[DVec2], at: f64) -> DVec2 {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sample number")]
    let index = (at as usize).min(points.len() - 1);
    points[index].lerp(points[(index + 1).min(points.len() - 1)], at.fract())
}

#[test]
fn beside_or_over_finds_what_a_dense_scan_finds() {
    let square = [(-60.0, -60.0), (60.0, -60.0), (60.0, 60.0), (-60.0, 60.0)].map(DVec2::from);
    let region = Region::new(&square, &[]);
    for seed in 0..100 {
        let (points, way) = path(seed, 700);
        // Up and down by a tenth of the way, and at times under the top of the thing.
        let height = |at: f64| 8.0 + 10.0 * (at / 90.0).sin();
        let linear = |at: f64| height(at.floor()) + (height(at.ceil()) - height(at.floor())) * at.fract();
        let mut climb = vec![0.0];
        for index in 1..700_u32 {
            let (before, after) = (height(f64::from(index - 1)), height(f64::from(index)));
            climb.push(climb[climb.len() - 1] + f64::abs(after - before));
        }
        // Known beforehand within rounding or not at all: the answer is the same.
        for (buffers, off) in
            [([0.0, 0.0], None), ([20.0, 10.0], None), ([0.0, 0.0], Some(9e-7)), ([20.0, 10.0], Some(-9e-7))]
        {
            let pass = Pass {
                samples: points.len(),
                way: |index: usize| way[index],
                climb: |index: usize| climb[index],
                point: |index: usize| points[index],
                rise: |at: f64, _: DVec2| linear(at),
                bends: |_| Vec::new(),
                rough: off.map(|off| {
                    let (region, points) = (&region, &points);
                    move |index: usize| region.signed_distance(points[index]) + off
                }),
            };
            let left = |at: f64| {
                let aside = -region.signed_distance(between(&points, at)) - buffers[0];
                aside.max(linear(at) - buffers[1])
            };
            let least = least_beside_or_over(&pass, &region, buffers).unwrap();
            let dense = (0..69_901).map(|i| left(f64::from(i) / 100.0)).fold(f64::INFINITY, f64::min);
            assert!(least.value <= dense + TOLERANCE, "seed {seed}: {} is above {dense}", least.value);
            assert!((left(least.at) - least.value).abs() < 1e-6, "seed {seed}: {least:?}, {}", left(least.at));
        }
    }
}

/// Over ground that lies level but for a peg: a face as steep as a tenth of a millimetre lets 10 m be.
#[test]
fn the_work_over_a_steep_face_is_that_over_a_gentle_one() {
    let square = [(-60.0, -60.0), (60.0, -60.0), (60.0, 60.0), (-60.0, 60.0)].map(DVec2::from);
    let region = Region::new(&square, &[]);
    let looks = |steep_m: f64| {
        let ground = |x: f64| 10.0 * ((x - 5.3) / steep_m).clamp(0.0, 1.0);
        let count = std::cell::Cell::new(0);
        let point = |index: usize| DVec2::new(index as f64 - 100.0, 3.0);
        let bends = |index: usize| {
            let from = point(index).x;
            [5.3, 5.3 + steep_m].map(|x| x - from).into_iter().filter(|share| (0.0..1.0).contains(share)).collect()
        };
        let pass = Pass {
            samples: 200,
            way: |index: usize| index as f64,
            climb: |index: usize| index as f64 * 10.0 / steep_m,
            point,
            rise: |_: f64, at: DVec2| {
                count.set(count.get() + 1);
                30.0 - ground(at.x)
            },
            bends,
            rough: ROUGHLY,
        };
        let least = least_beside_or_over(&pass, &region, [0.0, 5.0]).unwrap();
        // 20 m over the high ground, less the 5 m asked for.
        assert!((least.value - 15.0).abs() < TOLERANCE, "{steep_m}: {least:?}");
        count.get()
    };
    let gentle = looks(2.0);
    for steep_m in [0.1, 1e-4, 1e-7] {
        assert!(looks(steep_m) < 2 * gentle + 200, "{steep_m}: {} for {gentle}", looks(steep_m));
    }
}

#[test]
fn short_and_broken_paths() {
    let at = DVec2::new(30.0, 10.0);
    assert_eq!(least_signed(0, |_| 0.0, |_| at, ROUGHLY, &square(), false), None);
    assert_eq!(least_signed(1, |_| 0.0, |_| at, ROUGHLY, &square(), false), Some(Least { value: 10.0, at: 0.0 }));
    for end in [f64::NAN, f64::INFINITY] {
        assert!(least_signed(2, |index| [0.0, end][index], |_| at, ROUGHLY, &square(), false).is_some());
    }
}

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
    let least =
        least_signed(points.len(), |index| way(&points)[index], |index| points[index], ROUGHLY, &square(), outside)
            .unwrap();
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
        let least = least_signed(points.len(), |index| way(&points)[index], |index| points[index], ROUGHLY, &region, outside).unwrap();
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

#[test]
fn what_is_roughly_known_changes_no_answer() {
    let region = square();
    for seed in 0..200 {
        let (points, way) = path(seed, 700);
        let rough = |index: usize| {
            assert!(index.is_multiple_of(STRIDE));
            region.signed_abreast(points[index].x, points[index].y)
        };
        for (index, point) in points.iter().enumerate().step_by(STRIDE) {
            approx::assert_abs_diff_eq!(rough(index), region.signed_distance(*point), epsilon = 1e-9);
        }
        for outside in [false, true] {
            let (way, point) = (|index: usize| way[index], |index: usize| points[index]);
            let least = least_signed(points.len(), way, point, Some(rough), &region, outside).unwrap();
            let plain = least_signed(points.len(), way, point, ROUGHLY, &region, outside).unwrap();
            // Exact where nothing is crossed, and within the tolerance in a crossing.
            let apart = if plain.value > 0.0 { 0.0 } else { TOLERANCE };
            assert!((least.value - plain.value).abs() <= apart, "seed {seed} {outside}: {least:?} {plain:?}");
        }
    }
}
