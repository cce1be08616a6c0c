//! How does the wind that turns at several heights tell grow with height?

use std::ops::Range;

use glam::DVec2;

use super::Estimate;
use super::estimate::ENDS;
use super::hodograph::{TooLittle, WindFit, wind};
use crate::run::Track;
use crate::study::stats::Interval;

/// The least difference between the heights of turns from which a profile is told, metres. Judgement.
pub const LEAST_SPAN_M: f64 = 20.0;

/// The least height above home's ground at which a power law is asked for, metres. Judgement.
const LOWEST_M: f64 = 2.0;

/// Winds by height.
#[derive(Debug, Clone, PartialEq)]
pub struct ByHeight {
    /// The wind of each part of the track that tells one, from the lowest up.
    pub winds: Vec<WindFit>,
    /// The power law through them; none where they span too little height, or too little wind to see it grow.
    pub law: Option<PowerLaw>,
}

/// Wind that grows as height to a power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerLaw {
    /// The power.
    pub exponent: f64,
    /// Where it lies, 95 %.
    pub exponent_within: Interval,
    /// Mean wind 10 m above home's ground, m/s, to the way that all blow on average.
    pub at_ten_mps: f64,
}

impl PowerLaw {
    /// The power as an estimate.
    pub(super) fn within(&self) -> Estimate {
        Estimate { value: self.exponent, low: self.exponent_within.low, high: self.exponent_within.high }
    }

    /// Mean wind so many metres above home's ground, m/s.
    pub fn at_mps(&self, height_m: f64) -> f64 {
        self.at_ten_mps * (height_m.max(LOWEST_M) / 10.0).powf(self.exponent)
    }
}

/// The winds of parts of a track, such as its [`levels`](super::levels()), and what they say of heights. Parts that overlap
/// would be counted twice.
pub fn by_height(track: &Track, parts: &[Range<usize>]) -> ByHeight {
    let told = parts.iter().map(|part| wind(track, part.clone()));
    let mut winds: Vec<WindFit> = told.filter_map(|told: Result<WindFit, TooLittle>| told.ok()).collect();
    winds.sort_by(|one, other| one.height_m.total_cmp(&other.height_m));
    let law = law(&winds);
    ByHeight { winds, law }
}

/// Weighted least squares of the wind along its mean way, by Gauss' and Newton's steps. The errors are believed as they
/// are, or larger where the winds lie further apart than those say.
fn law(winds: &[WindFit]) -> Option<PowerLaw> {
    let high: Vec<&WindFit> = winds.iter().filter(|wind| wind.height_m >= LOWEST_M).collect();
    let (lowest, highest) = (high.first()?, high.last()?);
    if highest.height_m - lowest.height_m < LEAST_SPAN_M {
        return None;
    }
    let way = high.iter().map(|wind| wind.wind).sum::<DVec2>().try_normalize()?;
    let rows: Vec<_> =
        high.iter().map(|wind| ((wind.height_m / 10.0).ln(), wind.wind.dot(way), wind.deviation_along(way))).collect();
    let (mut at_ten, mut exponent) = (rows.iter().map(|row| row.1).sum::<f64>() / rows.len() as f64, 0.0);
    let (mut deviation, mut calm, mut settled) = (f64::NAN, true, false);
    for _ in 0..50 {
        let (mut aa, mut ab, mut bb, mut a, mut b, mut chi) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
        for &(log, speed, error) in &rows {
            let grown = (exponent * log).exp();
            let (by_speed, by_exponent) = (grown / error, at_ten * grown * log / error);
            let left = (speed - at_ten * grown) / error;
            aa += by_speed * by_speed;
            ab += by_speed * by_exponent;
            bb += by_exponent * by_exponent;
            a += by_speed * left;
            b += by_exponent * left;
            chi += left * left;
        }
        let determinant = aa * bb - ab.powi(2);
        let free = (rows.len() as f64 - 2.0).max(1.0);
        let apart = (chi / free).max(1.0);
        deviation = (aa / determinant * apart).sqrt();
        calm = at_ten < ENDS * (bb / determinant * apart).sqrt();
        let step = (aa * b - ab * a) / determinant;
        at_ten += (bb * a - ab * b) / determinant;
        exponent += step.clamp(-0.3, 0.3);
        settled = step.abs() < 1e-9;
        if settled {
            break;
        }
    }
    let off = ENDS * deviation;
    (settled && !calm && off.is_finite() && exponent.is_finite()).then_some(PowerLaw {
        exponent,
        exponent_within: Interval { low: exponent - off, high: exponent + off },
        at_ten_mps: at_ten,
    })
}
