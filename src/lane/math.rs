//! The few transcendental functions the physics needs, as polynomials with a stated error.
//!
//! All are written in sums, products, one division and one square root at most, in a fixed order, so that their bits do
//! not depend on the width of the lanes, on the processor or on the system's library.

use std::f64::consts::{LN_2, LOG2_E};

use super::{Lane, Words as _};

/// Adding this to a small number rounds it to a whole one, kept in the lowest bits.
const ROUND: f64 = 6_755_399_441_055_744.0;
/// Exponent of 1 in an f64.
const BIAS: u64 = 1023;

#[inline(always)]
fn polynomial<L: Lane, const N: usize>(x: L, coefficients: [f64; N]) -> L {
    coefficients.iter().rev().fold(L::splat(0.0), |sum, &c| sum * x + L::splat(c))
}

/// Sine and cosine, for angles between -pi/2 and pi/2 radians. Absolute error below 6e-13 there (Taylor series, next term).
#[inline(always)]
pub fn sin_cos<L: Lane>(x: L) -> (L, L) {
    let x2 = x * x;
    let sin = polynomial(
        x2,
        [
            1.0,
            -1.0 / 6.0,
            1.0 / 120.0,
            -1.0 / 5_040.0,
            1.0 / 362_880.0,
            -1.0 / 39_916_800.0,
            1.0 / 6_227_020_800.0,
            -1.0 / 1_307_674_368_000.0,
            1.0 / 355_687_428_096_000.0,
        ],
    );
    let cos = polynomial(
        x2,
        [
            1.0,
            -1.0 / 2.0,
            1.0 / 24.0,
            -1.0 / 720.0,
            1.0 / 40_320.0,
            -1.0 / 3_628_800.0,
            1.0 / 479_001_600.0,
            -1.0 / 87_178_291_200.0,
            1.0 / 20_922_789_888_000.0,
        ],
    );
    (x * sin, cos)
}

/// Arc tangent, radians, of any finite number up to about 1e150. Absolute error below 1e-12.
///
/// Two half-angle steps bring the argument to tan(pi/8) at most, where the series is short.
#[inline(always)]
pub fn atan<L: Lane>(x: L) -> L {
    let one = L::splat(1.0);
    let half = x / (one + (one + x * x).sqrt());
    let quarter = half / (one + (one + half * half).sqrt());
    let q2 = quarter * quarter;
    let series = polynomial(
        q2,
        [
            1.0,
            -1.0 / 3.0,
            1.0 / 5.0,
            -1.0 / 7.0,
            1.0 / 9.0,
            -1.0 / 11.0,
            1.0 / 13.0,
            -1.0 / 15.0,
            1.0 / 17.0,
            -1.0 / 19.0,
            1.0 / 21.0,
            -1.0 / 23.0,
            1.0 / 25.0,
            -1.0 / 27.0,
        ],
    );
    L::splat(4.0) * quarter * series
}

/// Natural logarithm of a positive normal number. Relative error below 1e-12, absolute near 1.
#[inline(always)]
pub fn ln<L: Lane>(x: L) -> L {
    let bits = x.to_words();
    // Mantissa moved to [1/sqrt 2, sqrt 2), so that the series is short on both sides of 1.
    let shift = bits.map(|b| b.wrapping_sub(0x3fe6_a09e_667f_3bcd) & 0xfff0_0000_0000_0000);
    let mantissa = L::from_words(bits.zip(shift, u64::wrapping_sub));
    // The exponent as a number: its bits placed in the mantissa of ROUND.
    let exponent = L::from_words(shift.map(|s| {
        let whole = s.cast_signed() >> 52;
        ROUND.to_bits().wrapping_add(whole.cast_unsigned())
    })) - L::splat(ROUND);
    let one = L::splat(1.0);
    let f = (mantissa - one) / (mantissa + one);
    let f2 = f * f;
    let series = polynomial(f2, [2.0, 2.0 / 3.0, 2.0 / 5.0, 2.0 / 7.0, 2.0 / 9.0, 2.0 / 11.0, 2.0 / 13.0, 2.0 / 15.0]);
    exponent * L::splat(LN_2) + f * series
}

/// e to the power of a number between -700 and 700. Relative error below 1e-13.
#[inline(always)]
pub fn exp<L: Lane>(x: L) -> L {
    let shifted = x * L::splat(LOG2_E) + L::splat(ROUND);
    let whole = shifted - L::splat(ROUND);
    // ln 2 in two parts, so that the remainder keeps its last bits.
    let rest = x - whole * L::splat(0.693_147_180_369_123_8) - whole * L::splat(1.908_214_929_270_587_7e-10);
    let series = polynomial(
        rest,
        [
            1.0,
            1.0,
            1.0 / 2.0,
            1.0 / 6.0,
            1.0 / 24.0,
            1.0 / 120.0,
            1.0 / 720.0,
            1.0 / 5_040.0,
            1.0 / 40_320.0,
            1.0 / 362_880.0,
            1.0 / 3_628_800.0,
            1.0 / 39_916_800.0,
        ],
    );
    let scale = L::from_words(shifted.to_words().map(|b| b.wrapping_add(BIAS) << 52));
    series * scale
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the system's library, which is correct to its last bit or two.
    #[track_caller]
    fn check(ours: impl Fn(f64) -> f64, theirs: impl Fn(f64) -> f64, from: f64, to: f64, error: f64) {
        for i in 0..=20_000 {
            let x = from + (to - from) * f64::from(i) / 20_000.0;
            let (a, b) = (ours(x), theirs(x));
            assert!((a - b).abs() <= error * b.abs().max(1.0), "at {x}: {a} and {b}");
        }
    }

    #[test]
    fn errors_are_as_stated() {
        let half_turn = std::f64::consts::FRAC_PI_2;
        check(|x| sin_cos(x).0, f64::sin, -half_turn, half_turn, 6e-13);
        check(|x| sin_cos(x).1, f64::cos, -half_turn, half_turn, 6e-13);
        check(atan, f64::atan, -5.0, 5.0, 1e-12);
        check(atan, f64::atan, -1e6, 1e6, 1e-12);
        check(ln, f64::ln, 1e-3, 3.0, 1e-12);
        check(ln, f64::ln, 1e-300, 1e300, 1e-12);
        check(|x| exp(x) / x.exp(), |_| 1.0, -700.0, 700.0, 1e-13);
    }
}
