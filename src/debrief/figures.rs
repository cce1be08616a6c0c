//! How was the circle flown? The same numbers of a flown track and of a predicted one.

use std::ops::Range;

use glam::DVec2;

use super::{Marks, circle};
use crate::run::Track;

/// Numbers of one recovery.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CircleFigures {
    /// Middle of the circle flown, metres.
    pub centre: Option<DVec2>,
    /// Its radius, metres.
    pub radius_m: Option<f64>,
    /// Furthest from the commanded centre on it, metres.
    pub furthest_m: Option<f64>,
    /// How far outside the commanded ring joining carried it, metres.
    pub overshoot_m: Option<f64>,
    /// Mean height on it above home, metres.
    pub height_m: Option<f64>,
    /// Standard deviation of that, metres.
    pub height_spread_m: Option<f64>,
    /// Time of a lap, the mean of whole ones, seconds.
    pub lap_s: Option<f64>,
    /// Steepest bank on it, radians, where it was logged.
    pub bank_rad: Option<f64>,
    /// Time from the loss to the circle, seconds.
    pub home_s: Option<f64>,
    /// Power drawn on it, W, where the log has energy.
    pub power_w: Option<f64>,
}

impl CircleFigures {
    /// Of a recovery about a commanded circle.
    pub fn of(track: &Track, marks: &Marks, commanded: DVec2, radius_m: f64) -> Self {
        let Some(range) = marks.circling.clone().filter(|range| range.len() > 8) else { return Self::default() };
        let places = &track.place()[range.clone()];
        let fitted = circle::geometric(places);
        let furthest = |places: &[DVec2]| places.iter().map(|place| place.distance(commanded)).fold(0.0, f64::max);
        let joining = marks.joined.map(|joined| joined..range.start.max(joined + 1));
        let heights = &track.height_m()[range.clone()];
        let (height_m, height_spread_m) = mean_and_spread(heights);
        let time = track.time_s();
        Self {
            centre: fitted.as_ref().map(|fit| fit.centre),
            radius_m: fitted.as_ref().map(|fit| fit.radius),
            furthest_m: Some(furthest(places)),
            overshoot_m: joining.map(|range| overshoot(&track.place()[range], commanded, radius_m)),
            height_m: Some(height_m),
            height_spread_m: Some(height_spread_m),
            lap_s: lap_s(track, range.clone(), commanded),
            bank_rad: track.channels().bank_rad.as_ref().map(|bank| steepest(&bank[range.clone()])),
            home_s: Some(time[range.start] - time[marks.lost]),
            power_w: track.channels().energy_left_j.as_ref().map(|left| {
                (left[range.start] - left[range.end - 1]) / (time[range.end - 1] - time[range.start]).max(1e-3)
            }),
        }
    }
}

#[allow(clippy::cast_precision_loss, reason = "samples of a flight")]
fn mean_and_spread(values: &[f64]) -> (f64, f64) {
    let count = values.len().max(1) as f64;
    let mean = values.iter().sum::<f64>() / count;
    let variance = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / count;
    (mean, variance.sqrt())
}

/// All but the steepest hundredth, which is noise.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a sample number"
)]
fn steepest(bank_rad: &[f64]) -> f64 {
    let mut all: Vec<f64> = bank_rad.iter().map(|bank| bank.abs()).collect();
    all.sort_by(f64::total_cmp);
    let at = (all.len() as f64 * 0.99) as usize;
    all.get(at.min(all.len().saturating_sub(1))).copied().unwrap_or_default()
}

/// Furthest outside the ring after it was nearest to the centre.
fn overshoot(places: &[DVec2], commanded: DVec2, radius_m: f64) -> f64 {
    let nearest = (0..places.len())
        .min_by(|&a, &b| places[a].distance(commanded).total_cmp(&places[b].distance(commanded)))
        .unwrap_or_default();
    let after = places[nearest..].iter().map(|place| place.distance(commanded) - radius_m);
    after.fold(0.0, f64::max)
}

/// Mean time of whole laps: between passes of the ray on which the circle begins.
#[allow(clippy::cast_precision_loss, reason = "a handful of laps")]
fn lap_s(track: &Track, range: Range<usize>, centre: DVec2) -> Option<f64> {
    let ray = |index: usize| track.place()[index] - centre;
    let mut swept = 0.0;
    let (mut laps, mut last_s) = (0_u32, None);
    for index in range.start + 1..range.end {
        let before = swept;
        swept += ray(index - 1).angle_to(ray(index));
        let whole = (swept.abs() / std::f64::consts::TAU).floor();
        if whole > (before.abs() / std::f64::consts::TAU).floor() && whole > f64::from(laps) {
            let share = (whole * std::f64::consts::TAU - before.abs()) / (swept.abs() - before.abs());
            let (from, to) = (track.time_s()[index - 1], track.time_s()[index]);
            laps += 1;
            last_s = Some(from + (to - from) * share);
        }
    }
    last_s.map(|last_s| (last_s - track.time_s()[range.start]) / f64::from(laps))
}
