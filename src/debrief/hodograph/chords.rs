//! How fast and which way over the ground, on average from one position to another that is far enough from it for noise
//! and near enough for the turn?

use std::ops::Range;

use glam::DVec2;

use crate::run::Track;

/// Time that a velocity is taken over, seconds: an error of position of 0.3 m in it is 0.4 m/s. Judgement.
const SPAN_S: f64 = 1.0;

/// The largest turn over that time, radians; what turns faster is looked at over a shorter one. Judgement.
const LARGEST_TURN: f64 = 0.7;

/// The shortest time that a velocity is taken over where there are more positions, seconds. Judgement.
const SHORTEST_S: f64 = 0.3;

/// The straight line between two positions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Chord {
    /// Time half-way, seconds.
    pub(super) at_s: f64,
    /// Time taken, seconds.
    pub(super) took_s: f64,
    /// Velocity over the ground, m/s, x east, y north: the mean over that time, whatever was flown in it.
    pub(super) velocity: DVec2,
}

/// Chords one after the other, none within another, so that each position's error is in two only and goes out of their
/// sum. A gap has none.
pub(super) fn chords(track: &Track, range: Range<usize>) -> Vec<Chord> {
    let wide = chords_over(track, range.clone(), SPAN_S);
    let mut turns: Vec<f64> = wide.windows(2).map(|two| two[0].velocity.angle_to(two[1].velocity).abs()).collect();
    turns.sort_by(f64::total_cmp);
    match turns.get(turns.len() / 2) {
        Some(&turn) if turn > LARGEST_TURN => chords_over(track, range, (SPAN_S * LARGEST_TURN / turn).max(SHORTEST_S)),
        _ => wide,
    }
}

fn chords_over(track: &Track, range: Range<usize>, span_s: f64) -> Vec<Chord> {
    let (time_s, place) = (&track.time_s()[range.clone()], &track.place()[range]);
    let mut steps: Vec<f64> = time_s.windows(2).map(|two| two[1] - two[0]).collect();
    steps.sort_by(f64::total_cmp);
    let Some(&usual_s) = steps.get(steps.len() / 2) else { return Vec::new() };
    let (wanted_s, longest_s) = (span_s - 0.25 * usual_s.min(span_s), 1.5 * span_s.max(usual_s));
    let (mut chords, mut from) = (Vec::new(), 0);
    for to in 1..time_s.len() {
        let took_s = time_s[to] - time_s[from];
        if time_s[to] - time_s[to - 1] > longest_s {
            from = to;
        } else if took_s >= wanted_s {
            let at_s = 0.5 * (time_s[to] + time_s[from]);
            chords.push(Chord { at_s, took_s, velocity: (place[to] - place[from]) / took_s });
            from = to;
        }
    }
    chords
}
