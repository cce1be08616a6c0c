//! How fast over the ground, and in which direction, at a sample of a track?

use glam::DVec2;

use crate::run::Track;

/// Over how long a velocity is taken, seconds: what a fix is off by is then a small part of the way.
const OVER_S: f64 = 1.0;

/// Velocity over the ground, m/s, about a sample; none where there is nothing to take it from.
pub fn velocity(track: &Track, index: usize) -> Option<DVec2> {
    let (times, places) = (track.time_s(), track.place());
    let now = *times.get(index)?;
    let from = times.partition_point(|&time| time < now - OVER_S / 2.0).min(index);
    let to = times.partition_point(|&time| time <= now + OVER_S / 2.0).saturating_sub(1).max(index);
    let (from, to) = if to > from { (from, to) } else { (index.saturating_sub(1), (index + 1).min(times.len() - 1)) };
    let passed = times[to] - times[from];
    (passed > 0.0).then(|| (places[to] - places[from]) / passed)
}
