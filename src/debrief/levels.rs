//! Which parts of a track are whole turns at one height?

use std::f64::consts::{PI, TAU};
use std::ops::Range;

use super::velocity;
use crate::run::Track;

/// A turn lasts so long at most, seconds, and its heights lie so near each other, metres (judgement: beyond, the wind is no
/// longer one wind).
const LASTS_S: f64 = 60.0;
const APART_M: f64 = 10.0;

/// Parts of one or more whole turns over the ground at one height, none of them overlapping; what is straight or climbs lies
/// between. Turns that follow each other at one height are one part: a gust that outlasts a turn is in the next one too.
pub fn levels(track: &Track) -> Vec<Range<usize>> {
    let mut all: Vec<Range<usize>> = Vec::new();
    for turn in turns(track) {
        match all.last_mut() {
            Some(last) if last.end == turn.start + 1 && climbs_m(track, last.start..turn.end) <= APART_M => {
                last.end = turn.end;
            }
            _ => all.push(turn),
        }
    }
    all
}

/// From the lowest to the highest, m.
fn climbs_m(track: &Track, part: Range<usize>) -> f64 {
    let heights = &track.height_m()[part];
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    heights.iter().copied().fold(f64::NEG_INFINITY, f64::max) - low
}

fn turns(track: &Track) -> Vec<Range<usize>> {
    let (times, heights) = (track.time_s(), track.height_m());
    let mut all = Vec::new();
    let (mut from, mut turned, mut last) = (0, 0.0_f64, None::<f64>);
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for index in 0..times.len() {
        let Some(way) = velocity(track, index).map(|over_ground| over_ground.to_angle()) else { continue };
        if let Some(last) = last {
            turned += (way - last + PI).rem_euclid(TAU) - PI;
        }
        last = Some(way);
        (low, high) = (heights[index].min(low), heights[index].max(high));
        let whole = turned.abs() >= TAU;
        if whole {
            all.push(from..index + 1);
        }
        if whole || times[index] - times[from] > LASTS_S || high - low > APART_M {
            (from, turned, low, high) = (index, 0.0, heights[index], heights[index]);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;
    use crate::run::Channels;

    #[test]
    fn turns_at_two_heights_are_found_and_the_climb_between_them_is_not() {
        // Round in 20 s: 45 s low, 20 s of climb, 45 s high; closed form.
        let times: Vec<f64> = (0..1100).map(|step| f64::from(step) * 0.1).collect();
        let height = |at: f64| 30.0 + 40.0 * ((at - 45.0) / 20.0).clamp(0.0, 1.0);
        let place = times.iter().map(|at| 60.0 * DVec2::from_angle(TAU * at / 20.0)).collect();
        let heights: Vec<f64> = times.iter().map(|&at| height(at)).collect();
        let track = Track::new(times, place, heights.clone(), Channels::default()).unwrap();
        let found = turns(&track);
        assert_eq!((found.len(), levels(&track).len()), (4, 2), "{found:?}");
        for turn in found {
            let [low, high] = [turn.start, turn.end - 1].map(|at| heights[at]);
            assert!((low - high).abs() <= APART_M && (low < 40.0 || high > 60.0), "{low} {high}");
            assert!((turn.len() as f64 * 0.1 - 20.0).abs() < 0.5);
        }
    }
}
