//! Shortest turn-straight-turn paths, which later bound the flown ones, and turns at a constant bank in wind.

use glam::DVec2;
use peewit::jet::turn::{radius, rate};
use proptest::{prop_assert, proptest};

use crate::support::{demo_jet, dubins, hold, near, steady, trimmed};

#[test]
fn shortest_paths_match_the_published_table() {
    #[track_caller]
    fn check(a_deg: f64, b_deg: f64, distance: f64, word: &str, length: f64, others: &[(&str, f64)]) {
        let (a, b) = (a_deg.to_radians(), b_deg.to_radians());
        near(dubins::shortest(a, b, distance).1, length, 1e-9);
        for &(word, length) in others.iter().chain(&[(word, length)]) {
            let index = dubins::WORDS.iter().position(|&name| name == word).unwrap();
            near(dubins::lengths(a, b, distance)[index].unwrap(), length, 1e-6);
        }
    }
    // Regression table of A. Walker's C library of Dubins curves, read there; formulae of Shkel and Lumelsky 2001.
    let straight = [("RSR", 10.0), ("LSR", 10.0), ("RSL", 10.0)];
    check(0.0, 0.0, 10.0, "LSL", 10.0, &straight);
    let others = [("LSL", 21.424_778), ("LSR", 16.483_860), ("RSL", 16.483_860)];
    check(90.0, -90.0, 10.0, "RSR", 11.141_592_653_589_8, &others);
    check(-90.0, 90.0, 10.0, "LSL", 11.141_592_653_589_8, &[("RSR", 21.424_778)]);
    let others = [("LSL", 16.283_185), ("RSR", 16.283_185), ("RSL", 21.591_834)];
    check(-90.0, -90.0, 10.0, "LSR", 11.392_919_856_288_8, &others);
    check(90.0, 90.0, 10.0, "RSL", 11.392_919_856_288_8, &[]);
    check(0.0, 90.0, 10.0, "RSL", 10.626_641_324_766_4, &[]);
    check(-90.0, 90.0, 1.2, "RLR", 5.715_597_088_762_93, &[("LSL", 10.224_778)]);
    check(90.0, -90.0, 1.2, "LRL", 5.715_597_088_762_93, &[]);
    // Closed form: from the origin along x to (1, 1) the other way.
    let length = dubins::between((DVec2::ZERO, DVec2::X), (DVec2::ONE, -DVec2::X), 1.0);
    near(length, 5.777_824_796_895, 1e-9);
}

proptest! {
    #[test]
    fn every_word_ends_where_it_should(a in -7.0..7.0_f64, b in -7.0..7.0_f64, d in 0.0..12.0_f64) {
        for (word, parts) in dubins::WORDS.into_iter().zip(dubins::pieces(a, b, d)) {
            let Some(parts) = parts else { continue };
            let (at, course) = dubins::end(word, parts, a);
            prop_assert!(at.distance(DVec2::new(d, 0.0)) < 1e-6, "{word} ends at {at}");
            prop_assert!((course - b).cos() > 1.0 - 1e-9, "{word} ends on course {course}");
        }
    }
}

#[test]
fn a_constant_bank_in_wind_is_a_trochoid() {
    // Form as in Techy and Woolsey, JGCD 32(6) 2009, value from memory; numbers closed form: 25 m/s, 10 m/s of wind, 30 deg.
    let bank = 30.0_f64.to_radians();
    near(rate(25.0, bank), 0.226_474_88, 5e-9);
    near(radius(25.0, bank), 110.387_52, 5e-6);
    let jet = demo_jet();
    let points = [(6.935_852, 179.7460, 110.3875), (13.871_705, 138.7170, 220.7750), (27.743_409, 277.4341, 0.0)];
    for (seconds, x, y) in points {
        // To the left, the nose downwind to begin with.
        let end = hold(&jet, trimmed(&jet, 25.0, DVec2::X, -bank), &steady(10.0, 0.0), seconds, 0.005);
        near(end.x, x, 1e-4);
        near(end.y, y, 1e-4);
    }
}
