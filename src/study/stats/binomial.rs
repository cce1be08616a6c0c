//! How likely are so many hits in so many tries, and which chance makes that many unlikely?

use statrs::function::beta::checked_beta_reg;
use statrs::function::erf::erfc_inv;

/// Probability of at least `hits` in `tries` of chance `p` each.
pub(super) fn at_least(hits: u64, tries: u64, p: f64) -> f64 {
    match hits {
        0 => 1.0,
        _ if hits > tries => 0.0,
        // No shape is zero here, so the library only refuses a chance that is none; that is never taken for certainty.
        _ => checked_beta_reg(hits as f64, (tries - hits) as f64 + 1.0, p).unwrap_or(1.0),
    }
}

/// The chance that gives at least `hits` in `tries` with probability `tail`.
///
/// By halving: the library's own inverse has no bound on its steps and doesn't end for some millions of tries.
pub(super) fn chance_of_at_least(hits: u64, tries: u64, tail: f64) -> f64 {
    if hits == 0 {
        return 0.0;
    }
    if hits == tries {
        return tail.powf(1.0 / tries as f64);
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..64 {
        let middle = 0.5 * (low + high);
        if at_least(hits, tries, middle) > tail {
            high = middle;
        } else {
            low = middle;
        }
    }
    low
}

/// Standard normal deviate that is exceeded with probability `tail`.
pub(super) fn deviate(tail: f64) -> f64 {
    std::f64::consts::SQRT_2 * erfc_inv(2.0 * tail)
}

/// What a confidence leaves out. No number at all leaves out nothing, which gives the widest interval.
pub(super) fn left_out(confidence: f64) -> f64 {
    if confidence.is_nan() { 0.0 } else { (1.0 - confidence).clamp(0.0, 1.0) }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;

    #[test]
    fn tails_of_small_binomials_are_those_counted_by_hand() {
        // Closed form: two coins, and three dice with a six.
        assert_relative_eq!(at_least(1, 2, 0.5), 0.75, epsilon = 1e-14);
        assert_relative_eq!(at_least(2, 2, 0.5), 0.25, epsilon = 1e-14);
        assert_relative_eq!(at_least(1, 3, 1.0 / 6.0), 91.0 / 216.0, epsilon = 1e-14);
        for (hits, expected) in [(0, 1.0), (3, 0.0)] {
            assert!(at_least(hits, 2, 0.5) == expected);
        }
    }

    /// Summed term by term with forty digits by mpmath.
    #[test]
    fn tails_of_large_binomials_are_those_summed_with_forty_digits() {
        for (hits, tries, p, expected) in [
            (7, 50, 0.041_857_246_828_917_63, 0.004_623_130_519_300_425),
            (980, 1000, 0.971_145_622_551_528_5, 0.051_418_532_882_808_02),
            (5000, 10_000, 0.49, 0.023_281_712_519_269_285),
            (50_000, 100_000, 0.496_837_722_337_983_2, 0.022_920_049_244_910_896),
            (98_000, 100_000, 0.979_114_562_255_152_8, 0.025_171_089_889_702_87),
        ] {
            assert_relative_eq!(at_least(hits, tries, p), expected, max_relative = 1e-8);
        }
    }

    #[test]
    fn the_chance_found_gives_the_tail_asked_for() {
        for (hits, tries) in [(1, 3), (7, 50), (999, 1000), (2, 100_000_000)] {
            for tail in [0.4, 0.025, 1e-4] {
                let p = chance_of_at_least(hits, tries, tail);
                assert_relative_eq!(at_least(hits, tries, p), tail, max_relative = 1e-6);
            }
        }
    }

    /// Value from memory: 1.959964 and 1.644854, as in any table of the normal distribution.
    #[test]
    fn deviates_are_those_of_the_table() {
        assert_relative_eq!(deviate(0.025), 1.959_964, epsilon = 1e-6);
        assert_relative_eq!(deviate(0.05), 1.644_854, epsilon = 1e-6);
        assert!(deviate(0.5).abs() < 1e-12 && deviate(0.0) == f64::INFINITY);
    }

    #[test]
    fn a_confidence_that_is_no_number_leaves_out_nothing() {
        assert!(left_out(f64::NAN) == 0.0 && left_out(2.0) == 0.0 && left_out(-1.0) == 1.0);
    }
}
