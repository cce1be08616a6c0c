//! Shortest path with a tightest turn between two poses without wind: the six words of Dubins.
//!
//! Formulae after Shkel and Lumelsky, Robotics and Autonomous Systems 34 (2001): start at the origin with course `a`,
//! end at `(d, 0)` with course `b`, radius 1, angles anticlockwise.

use std::f64::consts::TAU;

use glam::DVec2;

/// The words, in the order of [`lengths`].
pub(crate) const WORDS: [&str; 6] = ["LSL", "RSR", "LSR", "RSL", "RLR", "LRL"];

/// Into 0 to a full turn; what is a full turn but for rounding is none.
fn turned(angle: f64) -> f64 {
    let angle = angle.rem_euclid(TAU);
    if angle > TAU - 1e-9 { 0.0 } else { angle }
}

/// The three pieces of every word that exists: angles of arcs, lengths of straights.
pub(crate) fn pieces(a: f64, b: f64, d: f64) -> [Option<[f64; 3]>; 6] {
    let ((sa, ca), (sb, cb)) = (a.sin_cos(), b.sin_cos());
    let cab = (a - b).cos();
    // A straight of no length may come out as the root of a tiny negative number.
    let root = |square: f64| (square > -1e-12).then(|| square.max(0.0).sqrt());
    let arc = |cosine: f64| (cosine.abs() <= 1.0).then(|| TAU - cosine.acos());
    let lsl = root(2.0 + d * d - 2.0 * cab + 2.0 * d * (sa - sb)).map(|p| {
        let along = (cb - ca).atan2(d + sa - sb);
        [turned(along - a), p, turned(b - along)]
    });
    let rsr = root(2.0 + d * d - 2.0 * cab + 2.0 * d * (sb - sa)).map(|p| {
        let along = (ca - cb).atan2(d - sa + sb);
        [turned(a - along), p, turned(along - b)]
    });
    let lsr = root(-2.0 + d * d + 2.0 * cab + 2.0 * d * (sa + sb)).map(|p| {
        let along = (-ca - cb).atan2(d + sa + sb) - (-2.0_f64).atan2(p);
        [turned(along - a), p, turned(along - b)]
    });
    let rsl = root(-2.0 + d * d + 2.0 * cab - 2.0 * d * (sa + sb)).map(|p| {
        let along = (ca + cb).atan2(d - sa - sb) - 2.0_f64.atan2(p);
        [turned(a - along), p, turned(b - along)]
    });
    let rlr = arc((6.0 - d * d + 2.0 * cab + 2.0 * d * (sa - sb)) / 8.0).map(|p| {
        let first = turned(a - (ca - cb).atan2(d - sa + sb) + p / 2.0);
        [first, p, turned(a - b - first + p)]
    });
    let lrl = arc((6.0 - d * d + 2.0 * cab + 2.0 * d * (sb - sa)) / 8.0).map(|p| {
        let first = turned(-a + (cb - ca).atan2(d + sa - sb) + p / 2.0);
        [first, p, turned(b - a - first + p)]
    });
    [lsl, rsr, lsr, rsl, rlr, lrl]
}

/// Length of every word that exists.
pub(crate) fn lengths(a: f64, b: f64, d: f64) -> [Option<f64>; 6] {
    pieces(a, b, d).map(|word| word.map(|parts| parts.iter().sum()))
}

/// The shortest word and its length.
pub(crate) fn shortest(a: f64, b: f64, d: f64) -> (&'static str, f64) {
    let found = WORDS.into_iter().zip(lengths(a, b, d)).filter_map(|(word, length)| Some((word, length?)));
    found.min_by(|x, y| x.1.total_cmp(&y.1)).expect("LSL always exists")
}

/// Length of the shortest path from one place and direction to another, with a tightest radius.
pub(crate) fn between((from, along): (DVec2, DVec2), (to, finally): (DVec2, DVec2), radius: f64) -> f64 {
    let line = (to - from).try_normalize().unwrap_or(DVec2::X);
    radius * shortest(line.angle_to(along), line.angle_to(finally), from.distance(to) / radius).1
}

/// Where a word ends, and its course there.
pub(crate) fn end(word: &str, parts: [f64; 3], a: f64) -> (DVec2, f64) {
    word.chars().zip(parts).fold((DVec2::ZERO, a), |(at, course), (letter, part)| {
        let ahead = DVec2::from_angle(course);
        match letter {
            'S' => (at + ahead * part, course),
            letter => {
                let side = if letter == 'L' { 1.0 } else { -1.0 };
                let centre = at + ahead.perp() * side;
                let next = course + side * part;
                (centre - DVec2::from_angle(next).perp() * side, next)
            }
        }
    })
}
