//! Numbers, one or several side by side: the same source flies one trial or eight at once.
//!
//! Everything the physics does to a number goes through [`Lane`]. There are no branches on values, only selects;
//! nothing is fused; and what trigonometry is needed are the polynomials of `math`. A trial therefore gives the same
//! bits alone and in company.

mod math;
mod random;
mod vector;
mod wide;

use std::fmt::Debug;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

pub use math::{atan, exp, ln, sin_cos, sin_cos_small};
pub use random::Random;
pub use vector::{LaneWork, widest};
pub use wide::Wide;

/// Sixty-four bits a lane: masks (all ones or none), and the state of generators.
pub trait Words: Copy + Debug + Send + Sync {
    /// The same word in every lane.
    fn splat(word: u64) -> Self;
    /// One word a lane.
    fn from_fn(word: impl FnMut(usize) -> u64) -> Self;
    /// The word of one lane.
    fn lane(self, lane: usize) -> u64;
    /// Whether any bit is set in any lane.
    fn any(self) -> bool;

    /// Bits set in both.
    fn and(self, other: Self) -> Self;
    /// Bits set in either.
    fn or(self, other: Self) -> Self;
    /// Bits set in one and not in the other.
    fn xor(self, other: Self) -> Self;
    /// The sum, without what it carries over.
    fn plus(self, other: Self) -> Self;
    /// Moved to the left, by less than 64.
    fn left<const BITS: u32>(self) -> Self;
    /// Moved to the right, by less than 64, zeros following.
    fn right<const BITS: u32>(self) -> Self;

    /// Bits set here and not in the other.
    #[inline(always)]
    fn and_not(self, other: Self) -> Self {
        self.and(other.xor(Self::splat(u64::MAX)))
    }
}

/// A number, or several side by side.
pub trait Lane:
    Copy
    + Debug
    + Send
    + Sync
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + AddAssign
    + SubAssign
{
    /// The bits of the numbers, and masks.
    type Words: Words;
    /// How many numbers stand side by side.
    const WIDTH: usize;

    /// The same number in every lane.
    fn splat(value: f64) -> Self;
    /// One number a lane.
    fn from_fn(value: impl FnMut(usize) -> f64) -> Self;
    /// The number of one lane.
    fn lane(self, lane: usize) -> f64;
    /// Square root, rounded to nearest.
    fn sqrt(self) -> Self;
    /// Without its sign.
    fn abs(self) -> Self;
    /// The smaller; the second where either is not a number.
    fn min(self, other: Self) -> Self;
    /// The larger; the second where either is not a number.
    fn max(self, other: Self) -> Self;
    /// All ones where smaller.
    fn lt(self, other: Self) -> Self::Words;
    /// The first where the mask is set, the second elsewhere.
    fn select(mask: Self::Words, yes: Self, no: Self) -> Self;
    /// The bits of the numbers.
    fn to_words(self) -> Self::Words;
    /// Numbers from their bits.
    fn from_words(words: Self::Words) -> Self;

    /// All ones where larger.
    #[inline(always)]
    fn gt(self, other: Self) -> Self::Words {
        other.lt(self)
    }

    /// At least `-limit` and at most `limit`.
    #[inline(always)]
    fn within(self, limit: Self) -> Self {
        self.min(limit).max(-limit)
    }

    /// Its square.
    #[inline(always)]
    fn squared(self) -> Self {
        self * self
    }
}

impl Words for u64 {
    #[inline(always)]
    fn splat(word: u64) -> Self {
        word
    }

    #[inline(always)]
    fn from_fn(mut word: impl FnMut(usize) -> u64) -> Self {
        word(0)
    }

    #[inline(always)]
    fn lane(self, _: usize) -> u64 {
        self
    }

    #[inline(always)]
    fn any(self) -> bool {
        self != 0
    }

    #[inline(always)]
    fn and(self, other: Self) -> Self {
        self & other
    }

    #[inline(always)]
    fn or(self, other: Self) -> Self {
        self | other
    }

    #[inline(always)]
    fn xor(self, other: Self) -> Self {
        self ^ other
    }

    #[inline(always)]
    fn plus(self, other: Self) -> Self {
        self.wrapping_add(other)
    }

    #[inline(always)]
    fn left<const BITS: u32>(self) -> Self {
        self << BITS
    }

    #[inline(always)]
    fn right<const BITS: u32>(self) -> Self {
        self >> BITS
    }
}

impl Lane for f64 {
    type Words = u64;
    const WIDTH: usize = 1;

    #[inline(always)]
    fn splat(value: f64) -> Self {
        value
    }

    #[inline(always)]
    fn from_fn(mut value: impl FnMut(usize) -> f64) -> Self {
        value(0)
    }

    #[inline(always)]
    fn lane(self, _: usize) -> f64 {
        self
    }

    #[inline(always)]
    fn sqrt(self) -> Self {
        Self::sqrt(self)
    }

    #[inline(always)]
    fn abs(self) -> Self {
        Self::abs(self)
    }

    #[inline(always)]
    fn min(self, other: Self) -> Self {
        if self < other { self } else { other }
    }

    #[inline(always)]
    fn max(self, other: Self) -> Self {
        if self > other { self } else { other }
    }

    #[inline(always)]
    fn lt(self, other: Self) -> u64 {
        if self < other { u64::MAX } else { 0 }
    }

    #[inline(always)]
    fn select(mask: u64, yes: Self, no: Self) -> Self {
        Self::from_bits((yes.to_bits() & mask) | (no.to_bits() & !mask))
    }

    #[inline(always)]
    fn to_words(self) -> u64 {
        self.to_bits()
    }

    #[inline(always)]
    fn from_words(words: u64) -> Self {
        Self::from_bits(words)
    }
}

/// Defines a struct whose fields are all lanes, with gathering from and scattering to single trials.
macro_rules! lanes {
    ($(#[$doc:meta])* $vis:vis struct $name:ident { $($(#[$field_doc:meta])* $field:ident,)+ }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        $vis struct $name<L> {
            $($(#[$field_doc])* pub $field: L,)+
        }

        #[allow(dead_code, reason = "not every such struct is both gathered and scattered")]
        impl<L: $crate::lane::Lane> $name<L> {
            /// Several single ones side by side; the last is repeated where there are fewer than lanes.
            $vis fn gather(trials: &[$name<f64>]) -> Self {
                Self { $($field: L::from_fn(|lane| trials[lane.min(trials.len() - 1)].$field),)+ }
            }

            /// The same from whatever each of them belongs to.
            $vis fn gather_by<T>(trials: &[T], part: impl Fn(&T) -> &$name<f64>) -> Self {
                Self { $($field: L::from_fn(|lane| part(&trials[lane.min(trials.len() - 1)]).$field),)+ }
            }

            /// The single one in a lane.
            $vis fn scatter(&self, lane: usize) -> $name<f64> {
                $name { $($field: self.$field.lane(lane),)+ }
            }
        }
    };
}
pub(crate) use lanes;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_lanes_give_the_bits_of_one() {
        let inputs = [0.1, -0.7, 1.3, -1.5, 0.9, 1e-9, -0.0, 1.1];
        let wide = Wide::<8>::from_fn(|i| inputs[i]);
        let (sin, cos) = sin_cos(wide);
        let tangent = atan(wide);
        let power = exp(wide);
        let log = ln(wide.abs() + Wide::splat(0.01));
        for (i, &x) in inputs.iter().enumerate() {
            let (sin_1, cos_1) = sin_cos(x);
            assert_eq!(sin.lane(i).to_bits(), sin_1.to_bits());
            assert_eq!(cos.lane(i).to_bits(), cos_1.to_bits());
            assert_eq!(tangent.lane(i).to_bits(), atan(x).to_bits());
            assert_eq!(power.lane(i).to_bits(), exp(x).to_bits());
            assert_eq!(log.lane(i).to_bits(), ln(x.abs() + 0.01).to_bits());
        }
    }

    #[test]
    fn selects_pick_lane_by_lane() {
        let a = Wide::<4>::from_fn(|i| [1.0, 2.0, 3.0, 4.0][i]);
        let picked = Wide::select(a.gt(Wide::splat(2.5)), a, -a);
        assert_eq!([0, 1, 2, 3].map(|i| picked.lane(i)), [-1.0, -2.0, 3.0, 4.0]);
    }
}
