//! How sure is a circle through ground velocities, where what moves them off it holds for seconds and a handful of
//! samples may be worth one?
//!
//! Gusts are taken for a first-order process, alike in all directions, of which each velocity shows the part along the
//! nose; the airspeed wanders as long, as no thrust answers at once; and there is noise on top that knows nothing of the
//! last sample. How long gusts hold and how strong the others are, nobody knows: each of some values is weighed by its
//! likelihood with wind, airspeed and strength integrated out (D. A. Harville, Biometrika 61, 1974, 383-385), and the
//! answer is the mixture, so that a log too short to tell gets a wide answer. A Kalman filter of the gusts makes the samples
//! independent, with any gaps between them.

use glam::{DMat3, DVec2, DVec3};

use crate::debrief::estimate::ENDS;
use crate::study::stats::Interval;

/// Times that gusts may hold, seconds: over a length scale of some 10 to 250 m at the speeds of models. Judgement.
const HOLDS_S: [f64; 5] = [0.5, 1.2, 2.5, 5.0, 10.0];

/// Variances of the noise that may be, as a share of that of the gusts. Judgement.
const NOISES: [f64; 3] = [0.03, 0.3, 1.5];

/// Variances of a wandering airspeed that may be, as a share of that of the gusts. Judgement.
const WANDERS: [f64; 2] = [0.0, 0.5];

/// By how much less or more than the air the jet may move, as it has mass and thrust: standard deviation of the logarithm.
/// Judgement.
const INERTIA: f64 = 0.2;

/// What nobody measures better, m/s. Keeps perfect circles from dividing by nothing.
const FINEST_MPS: f64 = 1e-4;

/// One velocity off the circle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Off {
    pub(super) at_s: f64,
    pub(super) took_s: f64,
    /// The way of the nose, unit.
    pub(super) nose: DVec2,
    /// How much of the airspeed the straight line over a turn shows.
    pub(super) shown: f64,
    /// Faster than wind and airspeed make it, along the nose, m/s.
    pub(super) faster_mps: f64,
}

/// What is to be added to east, north and airspeed, and how sure that is.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sure {
    pub(super) correction: DVec3,
    /// Covariance as of a normal distribution with the same 95 % interval, (m/s)^2.
    pub(super) covariance: DMat3,
    pub(super) gust: Gustiness,
}

/// How much the air moved about its mean, as far as it moved the jet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gustiness {
    /// Standard deviation in any one direction, m/s.
    pub deviation_mps: f64,
    /// Where that lies, 95 %.
    pub within: Interval,
    /// Time after which a gust has gone to 1/e, seconds; hardly known from less than some minutes.
    pub holds_s: f64,
}

/// None where the velocities don't tell the three apart.
pub(super) fn sure(offs: &[Off]) -> Option<Sure> {
    let free = offs.len() as f64 - 3.0;
    let mut fits = Vec::with_capacity(HOLDS_S.len() * NOISES.len());
    for holds_s in HOLDS_S {
        for wander in WANDERS {
            for noise in NOISES {
                fits.push(Fit::of(offs, holds_s, wander, noise, free)?);
            }
        }
    }
    let best = fits.iter().map(|fit| fit.likelihood).fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = fits.iter().map(|fit| (fit.likelihood - best).exp()).collect();
    let all: f64 = weights.iter().sum();
    let mean =
        |of: &dyn Fn(&Fit) -> f64| fits.iter().zip(&weights).map(|(fit, weight)| of(fit) * weight).sum::<f64>() / all;

    let correction = fits.iter().zip(&weights).map(|(fit, weight)| fit.correction * *weight).sum::<DVec3>() / all;
    let covariances = fits.iter().zip(&weights).map(|(fit, weight)| {
        let apart = fit.correction - correction;
        (fit.covariance + square(apart)) * (weight / all)
    });
    let log = mean(&|fit| fit.log_gust);
    let log_spread = (mean(&|fit| (fit.log_gust - log).powi(2)) + 0.5 / free + INERTIA * INERTIA).sqrt();
    Some(Sure {
        correction,
        covariance: covariances.sum::<DMat3>() * student(free).powi(2),
        gust: Gustiness {
            deviation_mps: log.exp(),
            within: Interval { low: (log - ENDS * log_spread).exp(), high: (log + ENDS * log_spread).exp() },
            holds_s: mean(&|fit| fit.log_holds).exp(),
        },
    })
}

/// By how much Student's interval is wider than the normal one: Cornish's and Fisher's expansion (Abramowitz and Stegun
/// 26.7.5), to 1 % from five degrees of freedom on.
fn student(free: f64) -> f64 {
    let square = ENDS * ENDS;
    1.0 + (square + 1.0) / (4.0 * free)
        + ((5.0 * square + 16.0) * square + 3.0) / (96.0 * free * free)
        + (((3.0 * square + 19.0) * square + 17.0) * square - 15.0) / (384.0 * free.powi(3))
}

/// The answer for one time that gusts hold, one strength of the wander and one of the noise.
struct Fit {
    correction: DVec3,
    covariance: DMat3,
    likelihood: f64,
    log_gust: f64,
    log_holds: f64,
}

impl Fit {
    fn of(offs: &[Off], holds_s: f64, wander: f64, noise: f64, free: f64) -> Option<Self> {
        // Gust to the east, to the north, and wander: what is expected of them for what is left over and for each of
        // the three unknowns, and their covariance.
        let usual = DMat3::from_diagonal(DVec3::new(1.0, 1.0, wander));
        let (mut seen, mut along, mut unknown) = (DVec3::ZERO, [DVec3::ZERO; 3], usual);
        let (mut curvature, mut slope, mut squares, mut spread) = (DMat3::ZERO, DVec3::ZERO, 0.0, 0.0);
        let mut last_s = offs.first()?.at_s;
        for off in offs {
            let keeps = (-(off.at_s - last_s) / holds_s).exp();
            last_s = off.at_s;
            unknown = usual + (unknown - usual) * keeps.powi(2);
            let shows = off.nose.extend(1.0);
            let toward = unknown * shows;
            let variance = shows.dot(toward) + noise;
            let gain = toward / variance;
            unknown -= square(toward) * variance.recip();
            let root = variance.sqrt();
            let news = |expected: &mut DVec3, value: f64| {
                *expected *= keeps;
                let news = value - shows.dot(*expected);
                *expected += gain * news;
                news / root
            };
            let left = news(&mut seen, off.faster_mps);
            let [east, north, air] = &mut along;
            let row = DVec3::new(news(east, off.nose.x), news(north, off.nose.y), news(air, off.shown));
            curvature += square(row);
            slope += row * left;
            squares += left * left;
            spread += variance.ln();
        }
        let inverse = curvature.inverse();
        let correction = inverse * slope;
        let left = (squares - slope.dot(correction)).max(0.0) + offs.len() as f64 * FINEST_MPS * FINEST_MPS;
        let variance = left / free;
        // A velocity over some time shows less of a gust than there is at a moment.
        let took = offs.iter().map(|off| off.took_s).sum::<f64>() / offs.len() as f64 / holds_s;
        let shows = 2.0 * (took - 1.0 + (-took).exp()) / (took * took);
        correction.is_finite().then(|| Self {
            correction,
            covariance: inverse * variance,
            likelihood: -0.5 * (spread + curvature.determinant().ln() + free * left.ln()),
            log_gust: 0.5 * (variance * (1.0 + wander) / shows).ln(),
            log_holds: holds_s.ln(),
        })
    }
}

/// A vector times itself, each part by each.
fn square(vector: DVec3) -> DMat3 {
    DMat3::from_cols(vector * vector.x, vector * vector.y, vector * vector.z)
}
