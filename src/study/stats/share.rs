//! So many of so many runs did it: how large may the share be in truth?

use super::binomial::{chance_of_at_least, deviate, left_out};

/// From here to there, both included. What it is of has the unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Interval {
    /// What is known of a share before the first run.
    const ANY_SHARE: Self = Self { low: 0.0, high: 1.0 };

    /// Whether a value lies in it.
    pub fn holds(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}

/// How many of how many runs. A count above `of` is taken for all of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Share {
    /// Runs that did it.
    pub count: u64,
    /// Runs looked at.
    pub of: u64,
}

impl Share {
    /// The share seen, from 0 to 1; none before the first run.
    pub fn share(self) -> Option<f64> {
        (self.of > 0).then(|| self.hits() as f64 / self.of as f64)
    }

    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self { count: self.hits() + other.hits(), of: self.of + other.of }
    }

    /// Two-sided interval of E. B. Wilson (J. Am. Stat. Assoc. 22, 1927, 209-212): right on average over shares, a
    /// little short for some.
    pub fn wilson(self, confidence: f64) -> Interval {
        self.score(deviate(0.5 * left_out(confidence)))
    }

    /// Lower bound of Wilson's interval with all that the confidence leaves out below it.
    pub fn wilson_lower_one_sided(self, confidence: f64) -> f64 {
        self.score(deviate(left_out(confidence))).low
    }

    /// Two-sided interval of C. J. Clopper and E. S. Pearson (Biometrika 26, 1934, 404-413), inverted from the binomial
    /// distribution itself: never short, for any share.
    pub fn clopper_pearson(self, confidence: f64) -> Interval {
        let tail = 0.5 * left_out(confidence);
        Interval { low: self.at_least_share(tail), high: 1.0 - self.others().at_least_share(tail) }
    }

    /// Lower bound of the exact kind with all that the confidence leaves out below it.
    pub fn exact_lower(self, confidence: f64) -> f64 {
        self.at_least_share(left_out(confidence))
    }

    fn hits(self) -> u64 {
        self.count.min(self.of)
    }

    /// The same share of another number of runs, as far as whole runs make it; none of none.
    #[must_use]
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a count")]
    pub fn scaled(self, of: u64) -> Self {
        Self { count: (self.share().unwrap_or(0.0) * of as f64).round() as u64, of }
    }

    /// The runs that did not.
    #[must_use]
    pub fn others(self) -> Self {
        Self { count: self.of - self.hits(), of: self.of }
    }

    fn at_least_share(self, tail: f64) -> f64 {
        chance_of_at_least(self.hits(), self.of, tail)
    }

    fn score(self, z: f64) -> Interval {
        let Some(share) = self.share().filter(|_| z.is_finite()) else { return Interval::ANY_SHARE };
        let n = self.of as f64;
        let weight = z * z / n;
        let centre = (share + 0.5 * weight) / (1.0 + weight);
        let half = z * (share * (1.0 - share) / n + 0.25 * weight / n).sqrt() / (1.0 + weight);
        // At the ends the formula is exactly 0 or 1, which rounding would miss.
        let low = if self.hits() == 0 { 0.0 } else { (centre - half).max(0.0) };
        let high = if self.hits() == self.of { 1.0 } else { (centre + half).min(1.0) };
        Interval { low, high }
    }
}

/// The share that runs without a single failure support, one-sided: 0.99 for 299 at a confidence of 0.95.
pub fn claim(clean_trials: u64, confidence: f64) -> f64 {
    Share { count: clean_trials, of: clean_trials }.exact_lower(confidence)
}

/// Runs without a single failure that it takes to claim at least a share, one-sided. A share of 1 takes more than there
/// are numbers for.
pub fn trials_needed(share: f64, confidence: f64) -> u64 {
    if share >= 1.0 {
        return u64::MAX;
    }
    // The conversion makes nothing of what is below nothing or no number.
    let near = (left_out(confidence).ln() / share.ln()).ceil() as u64;
    // Rounding may put the quotient on the wrong side of a whole number.
    let fewer = near.saturating_sub(1);
    if claim(fewer, confidence) >= share { fewer } else { near }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    const SHARES: [(u64, u64); 8] = [(0, 1), (0, 20), (1, 20), (7, 50), (50, 100), (81, 263), (299, 300), (300, 300)];

    #[track_caller]
    fn check(share: Share, found: Interval) {
        let seen = share.share().unwrap();
        assert!(found.holds(seen) && found.low >= 0.0 && found.high <= 1.0, "{share:?}: {found:?}");
    }

    #[test]
    fn intervals_hold_the_share_seen_and_widen_with_confidence() {
        for (count, of) in SHARES {
            let share = Share { count, of };
            for kind in [Share::wilson, Share::clopper_pearson] {
                check(share, kind(share, 0.9));
                check(share, kind(share, 0.99));
                assert!(
                    kind(share, 0.99).low <= kind(share, 0.9).low && kind(share, 0.9).high <= kind(share, 0.99).high
                );
            }
        }
    }

    #[test]
    fn those_that_did_not_have_the_mirrored_interval() {
        for (count, of) in SHARES {
            let (one, other) = (Share { count, of }, Share { count: of - count, of });
            for kind in [Share::wilson, Share::clopper_pearson] {
                assert_abs_diff_eq!(kind(one, 0.95).low, 1.0 - kind(other, 0.95).high, epsilon = 1e-14);
            }
        }
    }

    /// Closed form: where all did it Wilson's lower end is n / (n + z^2).
    #[test]
    fn one_sided_bounds_are_the_ends_of_two_sided_ones_with_twice_left_out() {
        for (count, of) in SHARES {
            let share = Share { count, of };
            assert_abs_diff_eq!(share.wilson_lower_one_sided(0.95), share.wilson(0.9).low, epsilon = 1e-14);
            assert_abs_diff_eq!(share.exact_lower(0.95), share.clopper_pearson(0.9).low, epsilon = 1e-14);
        }
        let z = 1.959_963_984_540_054; // value from memory
        let found = Share { count: 400, of: 400 }.wilson(0.95);
        assert_abs_diff_eq!(found.low, 400.0 / (400.0 + z * z), epsilon = 1e-12);
    }

    #[test]
    fn nothing_is_known_before_the_first_run_nor_with_full_confidence() {
        let none = Share::default();
        assert_eq!(none.share(), None);
        for kind in [Share::wilson, Share::clopper_pearson] {
            assert_eq!(kind(none, 0.95), Interval::ANY_SHARE);
            for confidence in [1.0, 2.0, f64::NAN] {
                assert_eq!(kind(Share { count: 3, of: 9 }, confidence), Interval::ANY_SHARE);
            }
        }
        assert!(claim(0, 0.95) == 0.0);
    }

    #[test]
    fn more_than_all_is_all() {
        let odd = Share { count: 9, of: 3 };
        assert_eq!(odd.wilson(0.95), Share { count: 3, of: 3 }.wilson(0.95));
        assert_eq!(odd.and(Share { count: 1, of: 5 }), Share { count: 4, of: 8 });
    }

    #[test]
    fn the_trials_needed_are_the_fewest_that_support_the_claim() {
        for share in [0.5, 0.9, 0.95, 0.99, 0.999, 0.25_f64.powf(0.1)] {
            for confidence in [0.5, 0.75, 0.95, 0.99] {
                let trials = trials_needed(share, confidence);
                assert!(claim(trials, confidence) >= share - 1e-15, "{share} {confidence}");
                assert!(claim(trials - 1, confidence) < share, "{share} {confidence}");
            }
        }
        assert_eq!((trials_needed(1.0, 0.95), trials_needed(0.0, 0.95)), (u64::MAX, 0));
    }
}
