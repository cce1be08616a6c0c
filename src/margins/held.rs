//! How slow was a track over seconds, whatever the times between its samples?

use super::clock::Clock;
use super::gauge::LEAST_LOAD;
use super::seen::Slow;
use crate::run::Track;

/// What rounding takes off a time, s.
const ROUNDED_S: f64 = 1e-6;

/// The slowest `seconds` of a track in stall speeds, by the means of speed squared and load, where both are known; of a
/// track that is shorter, all of it. Each sample counts for the time since the one before, and the first for as long as
/// the second.
pub(super) fn held(track: &Track, seconds: f64) -> Option<Slow> {
    let (channels, time_s) = (track.channels(), track.time_s());
    let (speed, load) = (channels.airspeed_mps.as_ref()?, channels.load.as_ref()?);
    let first_s = time_s.get(1).map_or(1.0, |second| second - time_s[0]);
    // Up to each sample and with it: seconds, speed squared and load.
    let sums: Vec<[f64; 3]> = (0..time_s.len())
        .scan([0.0; 3], |sum, index| {
            let lasts_s = if index == 0 { first_s } else { time_s[index] - time_s[index - 1] };
            let counts = [1.0, speed[index].powi(2), load[index].max(LEAST_LOAD)];
            *sum = [0, 1, 2].map(|part| sum[part] + lasts_s * counts[part]);
            Some(*sum)
        })
        .collect();
    let slow = |before: [f64; 3], from: usize, to: usize| {
        let [lasts_s, speed2, load] = [0, 1, 2].map(|part| sums[to][part] - before[part]);
        let at = Clock::Times(time_s).sample(f64::midpoint(time_s[from], time_s[to]));
        Slow { speed: (speed2 / lasts_s).sqrt(), load: load / lasts_s, at }
    };
    let mut before = 0;
    let windows = (1..time_s.len()).filter_map(|to| {
        let lasts = |before: usize| time_s[to] - time_s[before] >= seconds - ROUNDED_S;
        while before + 1 < to && lasts(before + 1) {
            before += 1;
        }
        lasts(before).then(|| slow(sums[before], before + 1, to))
    });
    let in_stalls = |slow: &Slow| slow.speed.powi(2) / slow.load;
    let slowest = windows.min_by(|a, b| in_stalls(a).total_cmp(&in_stalls(b)));
    slowest.or_else(|| Some(slow([0.0; 3], 0, time_s.len() - 1)))
}
