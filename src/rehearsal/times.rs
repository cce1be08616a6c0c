//! How long do the people here take, from the loss until they can take over? A log-normal fit to tries with a stopwatch.
//!
//! The logarithms of the times are normal: their mean and standard deviation are estimated without bias, with Student's t
//! for the median and chi squared for the spread (any textbook of statistics; ISO 2854).

use statrs::distribution::{ChiSquared, ContinuousCDF as _, StudentsT};

use crate::jet::{Entry, Origin};
use crate::study::stats::Interval;
use crate::units::Time;

/// Fewest tries from which a distribution is told: fewer leave the spread open by a factor of two (chi squared, 95 %).
pub const LEAST_TRIES: usize = 8;
/// Confidence of the intervals.
const CONFIDENCE: f64 = 0.95;

/// A distribution of take-over times.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TakeOverTimes {
    /// Number of tries.
    pub tries: usize,
    /// Half of all take less, seconds.
    pub median_s: f64,
    /// The same with its interval at 95 %.
    pub median_within_s: Interval,
    /// Standard deviation of the logarithms.
    pub log_spread: f64,
    /// The same with its interval at 95 %.
    pub log_spread_within: Interval,
}

impl TakeOverTimes {
    /// Fits tries, in seconds; none where they are fewer than [`LEAST_TRIES`], or where they can't be times of people.
    pub fn fit(tries_s: &[f64]) -> Option<Self> {
        let tries = tries_s.len();
        if tries < LEAST_TRIES || tries_s.iter().any(|&time| !(time.is_finite() && time > 0.0)) {
            return None;
        }
        #[allow(clippy::cast_precision_loss, reason = "few tries")]
        let count = tries as f64;
        let logs: Vec<f64> = tries_s.iter().map(|time| time.ln()).collect();
        let mean = logs.iter().sum::<f64>() / count;
        let spread = (logs.iter().map(|log| (log - mean).powi(2)).sum::<f64>() / (count - 1.0)).sqrt();
        let student = StudentsT::new(0.0, 1.0, count - 1.0).ok()?;
        let chi = ChiSquared::new(count - 1.0).ok()?;
        let outside = (1.0 - CONFIDENCE) / 2.0;
        let off = student.inverse_cdf(1.0 - outside) * spread / count.sqrt();
        let spread_at = |share: f64| spread * ((count - 1.0) / chi.inverse_cdf(share)).sqrt();
        Some(Self {
            tries,
            median_s: mean.exp(),
            median_within_s: Interval { low: (mean - off).exp(), high: (mean + off).exp() },
            log_spread: spread,
            log_spread_within: Interval { low: spread_at(1.0 - outside), high: spread_at(outside) },
        })
    }

    /// The time below which a share of all lies, seconds.
    pub fn below_s(&self, share: f64) -> f64 {
        let normal = statrs::distribution::Normal::standard();
        (self.median_s.ln() + self.log_spread * normal.inverse_cdf(share)).exp()
    }

    /// As a scenario takes it: mean and standard deviation of the times themselves, measured.
    pub fn entry(&self) -> Entry<Time> {
        let variance = self.log_spread * self.log_spread;
        let mean = self.median_s * (variance / 2.0).exp();
        let tenth = |seconds: f64| (seconds * 10.0).round() / 10.0;
        Entry::si(tenth(mean), tenth(mean * variance.exp_m1().sqrt()), Origin::Measured)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sample_worked_by_hand() {
        // Logarithms 2.6 to 3.3 in steps of 0.1: mean 2.95, variance 0.42 / 7 = 0.06.
        let tries: Vec<f64> = (0..8).map(|i| (2.6 + 0.1 * f64::from(i)).exp()).collect();
        let fit = TakeOverTimes::fit(&tries).unwrap();
        let close = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-3, "{found} for {expected}");
        close(fit.median_s.ln(), 2.95);
        close(fit.log_spread, 0.06_f64.sqrt());
        // t of 7 degrees of freedom at 97.5 %: 2.3646 (any table).
        close(fit.median_within_s.high.ln(), 2.95 + 2.3646 * 0.06_f64.sqrt() / 8.0_f64.sqrt());
        // chi squared of 7 degrees of freedom: 1.6899 and 16.0128 (any table).
        close(fit.log_spread_within.low, (0.42_f64 / 16.0128).sqrt());
        close(fit.log_spread_within.high, (0.42_f64 / 1.6899).sqrt());
        close(fit.below_s(0.5), fit.median_s);
    }

    #[test]
    fn what_the_study_draws_has_the_logarithms_that_were_fitted() {
        let tries: Vec<f64> = (0..20).map(|i| 18.0 + f64::from(i % 7) * 1.7).collect();
        let fit = TakeOverTimes::fit(&tries).unwrap();
        let (mean, sd) = (fit.entry().value.s(), fit.entry().spread.s());
        // As the draws take them: variance of the logarithms ln(1 + (sd / mean)^2).
        assert!(((sd / mean).powi(2).ln_1p().sqrt() - fit.log_spread).abs() < 0.01);
        assert_eq!(fit.entry().origin, Origin::Measured);
    }

    #[test]
    fn too_few_and_impossible_tries_give_nothing() {
        assert_eq!(TakeOverTimes::fit(&[20.0; LEAST_TRIES - 1]), None);
        assert_eq!(TakeOverTimes::fit(&[0.0; 20]), None);
        assert_eq!(TakeOverTimes::fit(&[f64::NAN; 20]), None);
    }
}
