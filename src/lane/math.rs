//! The few transcendental functions the physics needs, as polynomials with a stated error.
//!
//! All are written in sums, products, one division and one square root at most, in a fixed order, so that their bits do
//! not depend on the width of the lanes, on the processor or on the system's library.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, LN_2, LOG2_E};

use super::{Lane, Words};

/// Adding this to a small number rounds it to a whole one, kept in the lowest bits.
const ROUND: f64 = 6_755_399_441_055_744.0;
/// The highest bit: added to a signed exponent in the highest bits, it makes that positive, by 2048 more.
const SIGN: u64 = 1 << 63;
/// [`ROUND`] and those 2048.
const ROUND_OFFSET: f64 = ROUND + 2048.0;
/// Exponent of 1 in an f64.
const BIAS: u64 = 1023;

/// `c0 + c1 x + c2 x^2 ...`, the even powers and the odd ones side by side, which halves the wait for each product.
#[inline(always)]
fn polynomial<L: Lane, const N: usize>(x: L, coefficients: [f64; N]) -> L {
    let x2 = x * x;
    let (mut even, mut odd) = (L::splat(0.0), L::splat(0.0));
    let mut place = N;
    while place > 0 {
        place -= 1;
        let c = L::splat(coefficients[place]);
        if place.is_multiple_of(2) {
            even = if place + 2 < N { even * x2 + c } else { c };
        } else {
            odd = if place + 2 < N { odd * x2 + c } else { c };
        }
    }
    even + x * odd
}

/// Sine and cosine, for angles between -pi/2 and pi/2 radians. Absolute error below 2e-11 there; exact at 0.
///
/// Coefficients of this and the next functions: least largest error over the interval, by weighted least squares.
#[inline(always)]
pub fn sin_cos<L: Lane>(x: L) -> (L, L) {
    let x2 = x * x;
    let sin = polynomial(
        x2,
        [
            -0.166_666_666_064_670_26,
            0.008_333_330_495_672_604,
            -0.000_198_408_040_393_366_13,
            2.752_261_886_065_313_8e-6,
            -2.384_669_411_416_296e-8,
        ],
    );
    let cos = polynomial(
        x2,
        [
            -0.499_999_999_979_384_44,
            0.041_666_666_503_966_92,
            -0.001_388_888_461_232_138,
            2.480_107_017_203_883e-5,
            -2.752_566_093_146_280_3e-7,
            1.991_995_249_306_377_5e-9,
        ],
    );
    (x + x * x2 * sin, L::splat(1.0) + x2 * cos)
}

/// Sine and cosine, for angles between -1/2 and 1/2 radian. Absolute error below 2e-11 there (Taylor series, next term).
#[inline(always)]
pub fn sin_cos_small<L: Lane>(x: L) -> (L, L) {
    let x2 = x * x;
    let sin = polynomial(x2, [-1.0 / 6.0, 1.0 / 120.0, -1.0 / 5_040.0, 1.0 / 362_880.0]);
    let cos = polynomial(x2, [-1.0 / 2.0, 1.0 / 24.0, -1.0 / 720.0, 1.0 / 40_320.0, -1.0 / 3_628_800.0]);
    (x + x * x2 * sin, L::splat(1.0) + x2 * cos)
}

/// Arc tangent, radians, of any finite number. Absolute error below 1e-11.
///
/// Between tan(pi/8) and tan(3 pi/8) it is a quarter of pi more than that of `(x - 1) / (x + 1)`, beyond that half of pi
/// less than that of `1 / x`.
#[inline(always)]
pub fn atan<L: Lane>(x: L) -> L {
    let (one, size) = (L::splat(1.0), x.abs());
    let middle = size.gt(L::splat(std::f64::consts::SQRT_2 - 1.0));
    let far = size.gt(L::splat(std::f64::consts::SQRT_2 + 1.0));
    let above = L::select(far, -one, L::select(middle, size - one, size));
    let below = L::select(far, size, L::select(middle, size + one, one));
    let base = L::select(far, L::splat(FRAC_PI_2), L::select(middle, L::splat(FRAC_PI_4), L::splat(0.0)));
    let q = above / below;
    let series = polynomial(
        q * q,
        [
            0.999_999_999_852_622_4,
            -0.333_333_300_633_341_05,
            0.199_997_896_338_041_52,
            -0.142_797_155_742_214_83,
            0.110_223_673_420_878_66,
            -0.083_719_771_565_976_15,
            0.045_567_377_193_767_22,
        ],
    );
    let angle = base + q * series;
    L::select(x.lt(L::splat(0.0)), -angle, angle)
}

/// Natural logarithm of a positive normal number. Relative error below 2e-12, absolute near 1.
#[inline(always)]
pub fn ln<L: Lane>(x: L) -> L {
    let bits = x.to_words();
    // Mantissa moved to [1/sqrt 2, sqrt 2), so that the series is short on both sides of 1.
    let word = L::Words::splat;
    let high = bits.plus(word(0x3fe6_a09e_667f_3bcd_u64.wrapping_neg()));
    let shift = high.and(word(0xfff0_0000_0000_0000));
    let mantissa = L::from_words(bits.plus(shift.xor(word(u64::MAX))).plus(word(1)));
    // The exponent as a number: its bits, made positive, placed in the mantissa of ROUND.
    let whole = high.plus(word(SIGN)).right::<52>();
    let exponent = L::from_words(whole.plus(word(ROUND.to_bits()))) - L::splat(ROUND_OFFSET);
    let one = L::splat(1.0);
    let f = (mantissa - one) / (mantissa + one);
    let series = polynomial(
        f * f,
        [
            2.000_000_000_046_75,
            0.666_666_635_051_984_3,
            0.400_005_980_212_532_9,
            0.285_253_786_122_221,
            0.237_624_954_900_721_64,
        ],
    );
    exponent * L::splat(LN_2) + f * series
}

/// e to the power of a number between -700 and 700. Relative error below 7e-11; exact at 0.
#[inline(always)]
pub fn exp<L: Lane>(x: L) -> L {
    let shifted = x * L::splat(LOG2_E) + L::splat(ROUND);
    let whole = shifted - L::splat(ROUND);
    // ln 2 in two parts, so that the remainder keeps its last bits.
    let rest = x - whole * L::splat(0.693_147_180_369_123_8) - whole * L::splat(1.908_214_929_270_587_7e-10);
    let series = polynomial(
        rest,
        [
            0.999_999_999_973_609_1,
            0.500_000_007_907_895_2,
            0.166_666_669_552_332_23,
            0.041_666_267_264_294_676,
            0.008_333_253_729_196_778,
            0.001_394_621_680_375_450_4,
            0.000_199_222_015_980_147_53,
        ],
    );
    let scale = L::from_words(shifted.to_words().plus(L::Words::splat(BIAS)).left::<52>());
    (L::splat(1.0) + rest * series) * scale
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
        let half_turn = FRAC_PI_2;
        check(|x| sin_cos(x).0, f64::sin, -half_turn, half_turn, 2e-11);
        check(|x| sin_cos(x).1, f64::cos, -half_turn, half_turn, 2e-11);
        check(|x| sin_cos_small(x).0, f64::sin, -0.5, 0.5, 2e-11);
        check(|x| sin_cos_small(x).1, f64::cos, -0.5, 0.5, 2e-11);
        check(atan, f64::atan, -5.0, 5.0, 1e-11);
        check(atan, f64::atan, -1e6, 1e6, 1e-11);
        check(ln, f64::ln, 1e-3, 3.0, 2e-12);
        check(ln, f64::ln, 1e-300, 1e300, 2e-12);
        check(|x| exp(x) / x.exp(), |_| 1.0, -700.0, 700.0, 7e-11);
        assert_eq!((sin_cos(0.0), exp(0.0)), ((0.0, 1.0), 1.0));
    }
}
