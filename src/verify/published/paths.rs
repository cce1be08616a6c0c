//! The table of shortest paths with a tightest turn: flown by the step, does each end where the table says?

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::DVec2;

use crate::jet::State;
use crate::jet::turn::radius;
use crate::verify::by_hand::{agile, hold, steady, trimmed};
use crate::verify::line::Lines;

const SOURCE: &str = "regression table of A. Walker's C library of Dubins curves, read there; formulae of Shkel and Lumelsky \
                      2001; two radii in a million";

/// Speed and bank of every turn; the radius is the table's unit of length.
const SPEED: f64 = 25.0;
const BANK: f64 = 0.5;
/// What the pieces flown, in steps, may be off at the end, as a share of the way.
const OFF: f64 = 1e-5;

pub(super) fn lines(lines: &mut Lines) {
    // Start course, end course, distance, word, published length; and the middle piece, from which the others follow: both
    // of these words are alike from either end.
    let middle = TAU - (-0.28_f64).acos();
    for (start, end, distance, word, length, middle) in [
        (FRAC_PI_2, -FRAC_PI_2, 10.0, "RSR", 11.141_592_653_589_8, 8.0),
        (-FRAC_PI_2, -FRAC_PI_2, 10.0, "LSR", 11.392_919_856_288_8, 60.0_f64.sqrt()),
        (-FRAC_PI_2, FRAC_PI_2, 1.2, "RLR", 5.715_597_088_762_93, middle),
    ] {
        let outer = 0.5 * (length - middle);
        let flown = flown(start, word, [outer, middle, outer]);
        let name = format!("how far from the end of the shortest path {word} over {distance} radii");
        lines.at_most(&name, flown.0.distance(DVec2::new(distance, 0.0)), OFF * distance.max(1.0), "radii", SOURCE);
        let off = (flown.1 - end + PI).rem_euclid(TAU) - PI;
        lines.near(&format!("course at its end, of {word}"), off.to_degrees(), (0.0, 1e-3), "deg", SOURCE);
    }
}

/// Where a word ends and the course there, from the origin, in radii: each piece flown in trim at its own bank.
fn flown(start: f64, word: &str, pieces: [f64; 3]) -> (DVec2, f64) {
    let (jet, unit) = (agile(), radius(SPEED, BANK));
    let (mut at, mut nose) = (DVec2::ZERO, DVec2::from_angle(start));
    for (letter, piece) in word.chars().zip(pieces) {
        let bank = match letter {
            'L' => -BANK,
            'R' => BANK,
            _ => 0.0,
        };
        let trim = trimmed(&jet, SPEED, nose, bank);
        let State { x, y, nose_x, nose_y, .. } = hold(&jet, trim, &steady(0.0, 0.0), piece * unit / SPEED, 0.005);
        at += DVec2::new(x, y) / unit;
        nose = DVec2::new(nose_x, nose_y);
    }
    (at, nose.to_angle())
}
