//! Things passed beside or over, and seconds over an area: by hand, and against plain looking everywhere along the path.

use std::f64::consts::TAU;

use glam::DVec2;
use peewit::field::{AreaFile, Metres, ObstacleFile, RuleName};
use peewit::geometry::Region;
use peewit::margins::{Limit, MarginRow, Verdict, judge};
use peewit::run::Scenario;
use peewit::units::Length;
use proptest::prelude::*;

use crate::support::{near, open, path::drawn_path};

const MAST: Metres = [50.0, 0.0];
const WOOD: [Metres; 4] = [[0.0, -40.0], [100.0, -40.0], [100.0, 40.0], [0.0, 40.0]];

/// Masts, woods and areas to be passed above, one of each a height; 20 m of buffer aside and 10 m in height.
fn things(heights: &[f64]) -> Scenario {
    open(|file| {
        let field = file.field.as_mut().unwrap();
        let obstacle = |name: String, height: f64, at_m: Option<Metres>, ring_m: Vec<Metres>| ObstacleFile {
            name,
            height: Length::new(height),
            at_m,
            ring_m,
        };
        field.obstacles = heights
            .iter()
            .enumerate()
            .flat_map(|(i, &height)| {
                let (mast, wood) = (format!("mast {i}"), format!("wood {i}"));
                [obstacle(mast, height, Some(MAST), vec![]), obstacle(wood, height, None, WOOD.to_vec())]
            })
            .collect();
        let above = |(i, &height): (usize, &f64)| AreaFile {
            name: format!("area {i}"),
            rule: RuleName::Above,
            height: Some(Length::new(height)),
            months: vec![],
            otherwise: None,
            ring_m: WOOD.to_vec(),
            holes_m: vec![],
        };
        field.areas = heights.iter().enumerate().map(above).collect();
        file.limits.buffer = Length::new(20.0);
        file.limits.height_buffer = Length::new(10.0);
    })
}

/// The rows of mast, wood and area of each height.
fn passed(heights: &[f64], corners: &[[f64; 3]]) -> Vec<[MarginRow; 3]> {
    let scenario = things(heights);
    let rows = judge(&scenario, &drawn_path(&scenario, corners, 10.0)).rows;
    let row = |limit: Limit| rows.iter().find(|row| row.limit == limit).expect("a row for the limit").clone();
    let numbers = 0..heights.len();
    numbers.map(|i| [Limit::Obstacle(2 * i), Limit::Obstacle(2 * i + 1), Limit::Area(i)].map(row)).collect()
}

#[test]
fn a_mast_is_passed_by_the_better_of_two_ways() {
    // At 70 m, 5 m beside.
    let path = [[0.0, 5.0, 70.0], [100.0, 5.0, 70.0]];
    let check = |height: f64, margin: f64, buffer: f64, verdict: Verdict| {
        let [[mast, ..]] = passed(&[height], &path).try_into().unwrap();
        near(mast.margin, margin, 0.01);
        assert_eq!((mast.buffer, mast.verdict), (buffer, verdict), "{mast:?}");
    };
    // 10 m and more over it is clear, whatever is beside; 6 m over is more than 5 m beside; below that it is 5 m beside,
    // however tall the mast.
    check(55.0, 15.0, 10.0, Verdict::Clear);
    check(60.0, 10.0, 10.0, Verdict::Clear);
    check(64.0, 6.0, 10.0, Verdict::InsideBuffer);
    for height in [66.0, 70.0, 73.0, 76.0, 300.0] {
        check(height, 5.0, 20.0, Verdict::InsideBuffer);
    }
}

#[test]
fn a_wood_is_crossed_where_the_path_is_in_it() {
    // From 30 m beside the wood to 30 m inside it, coming down from 80 to 50 m: over its edge at 65 m, at x 30 at 50 m.
    let path = [[-30.0, 0.0, 80.0], [30.0, 0.0, 50.0]];
    let check = |height: f64, margin: f64, verdict: Verdict| {
        for row in &passed(&[height], &path)[0][1..] {
            near(row.margin, margin, 0.011);
            assert_eq!(row.verdict, verdict, "{row:?}");
        }
    };
    check(40.0, 10.0, Verdict::Clear);
    check(45.0, 5.0, Verdict::InsideBuffer);
    check(53.0, -3.0, Verdict::Crossed);
    // Deeper below the tops than into the wood, what is left is the way out of it: 30 m in, at the least.
    check(200.0, -30.0, Verdict::Crossed);
}

/// Places along a path with their heights, close together.
fn along(corners: &[[f64; 3]]) -> impl Iterator<Item = (DVec2, f64)> {
    const EACH: u32 = 800;
    corners.windows(2).flat_map(|ends| {
        (0..=EACH).map(|i| {
            let share = f64::from(i) / f64::from(EACH);
            let [x, y, z] = std::array::from_fn(|part| ends[0][part] + (ends[1][part] - ends[0][part]) * share);
            (DVec2::new(x, y), z)
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn crossed_is_what_looking_everywhere_finds_and_taller_is_never_kinder(
        corners in prop::collection::vec([-80.0..180.0_f64, -120.0..120.0_f64, 20.0..120.0_f64], 2..7),
        mut heights in prop::collection::vec(1.0..150.0_f64, 4),
    ) {
        heights.sort_by(f64::total_cmp);
        let rows = passed(&heights, &corners);
        for pair in rows.windows(2) {
            for (lower, taller) in pair[0].iter().zip(&pair[1]) {
                prop_assert!(lower.verdict <= taller.verdict, "{lower:?} {taller:?}");
            }
        }
        let wood = Region::new(&WOOD.map(DVec2::from), &[]);
        for (height, [mast, others @ ..]) in heights.iter().zip(&rows) {
            // Nobody is inside a mast.
            prop_assert!(mast.verdict != Verdict::Crossed && mast.margin >= 0.0);
            let left = |(at, z): (DVec2, f64)| (-wood.signed_distance(at)).max(z - height);
            let least = along(&corners).map(left).fold(f64::INFINITY, f64::min);
            let buffers = |(at, z): (DVec2, f64)| (-wood.signed_distance(at) - 20.0).max(z - height - 10.0);
            let spare = along(&corners).map(buffers).fold(f64::INFINITY, f64::min);
            // Pieces are up to 370 m long, so that what is between two looks is up to 0.25 m off.
            for row in others {
                if least.abs() > 0.25 {
                    prop_assert_eq!(row.verdict == Verdict::Crossed, least < 0.0, "{:?} {}", row, least);
                }
                if least < -0.25 {
                    prop_assert!((row.margin - least).abs() < 0.25, "{row:?} {least}");
                }
                if spare.abs() > 0.25 {
                    prop_assert_eq!(row.verdict == Verdict::Clear, spare > 0.0, "{:?} {}", row, spare);
                }
                prop_assert!((row.margin < 0.0) == (row.verdict == Verdict::Crossed), "{row:?}");
            }
        }
    }

    #[test]
    fn the_share_inside_is_what_looking_everywhere_finds(
        away in prop::collection::vec(20.0..120.0_f64, 3..40),
        from in [-150.0..150.0_f64, -150.0..150.0_f64],
        to in [-150.0..150.0_f64, -150.0..150.0_f64],
    ) {
        let turn = |i: usize| TAU * f64::from(u32::try_from(i).unwrap()) / f64::from(u32::try_from(away.len()).unwrap());
        let ring: Vec<DVec2> = (0..away.len()).map(|i| DVec2::from_angle(turn(i)) * away[i]).collect();
        let region = Region::new(&ring, &[]);
        let (a, b) = (DVec2::from(from), DVec2::from(to));
        let (share, enters) = region.share_inside(a, b);
        let looks = 4000;
        let at = |i: u32| (f64::from(i) + 0.5) / f64::from(looks);
        let inside: Vec<f64> = (0..looks).map(at).filter(|&share| region.contains(a.lerp(b, share))).collect();
        // Each edge that is crossed may put one look on the wrong side.
        let off = f64::from(u32::try_from(away.len()).unwrap() + 1) / f64::from(looks);
        let seen = f64::from(u32::try_from(inside.len()).unwrap()) / f64::from(looks);
        prop_assert!((share - seen).abs() <= off, "{share} {seen}");
        if let Some(first) = inside.first() {
            prop_assert!(enters <= *first && share > 0.0, "{enters} {first}");
        }
    }
}

#[test]
fn seconds_over_an_area_count_a_corner_clipped_between_samples() {
    let scenario = open(|file| {
        let field = file.field.as_mut().unwrap();
        field.areas = vec![AreaFile {
            name: "caution".into(),
            rule: RuleName::Caution,
            height: None,
            months: vec![],
            otherwise: None,
            ring_m: vec![[0.0, -50.0], [100.0, -50.0], [100.0, 50.0], [0.0, 50.0]],
            holes_m: vec![],
        }];
    });
    let check = |corners: &[[f64; 3]], seconds: f64, from_s: f64| {
        let margins = judge(&scenario, &drawn_path(&scenario, corners, 10.0));
        let row = margins.rows.iter().find(|row| row.limit == Limit::Area(0)).unwrap();
        near(row.margin, seconds, 1e-9);
        near(row.at_s, from_s, 1e-9);
        assert_eq!(row.verdict, if seconds > 0.0 { Verdict::Counted } else { Verdict::Clear });
    };
    // Along y = x + 45 the corner (0, 50) is cut off from x 0 to 5: of 50 m eastward in 10 s that is 1 s, after 3 s.
    check(&[[-15.0, 30.0, 70.0], [35.0, 80.0, 70.0]], 1.0, 3.0);
    // Past the corner by along y = x + 55; and in from the side, 30 of 50 m inside.
    check(&[[-15.0, 40.0, 70.0], [35.0, 90.0, 70.0]], 0.0, 0.0);
    check(&[[-20.0, 0.0, 70.0], [30.0, 0.0, 70.0], [40.0, 0.0, 70.0]], 6.0 + 10.0, 4.0);
    // Along its edge outside, and right through: 100 of 200 m in 10 s, from a quarter of the way on.
    check(&[[-50.0, 51.0, 70.0], [150.0, 51.0, 70.0]], 0.0, 0.0);
    check(&[[-50.0, 10.0, 70.0], [150.0, 10.0, 70.0]], 5.0, 2.5);
}
