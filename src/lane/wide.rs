//! Several f64 side by side in plain arrays, for processors whose vector registers `vector` does not know.

use std::array;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::{Lane, Words};

/// `N` numbers side by side.
#[derive(Debug, Clone, Copy, PartialEq)]
#[repr(align(64))]
pub struct Wide<const N: usize>([f64; N]);

impl<const N: usize> Words for [u64; N] {
    #[inline(always)]
    fn splat(word: u64) -> Self {
        [word; N]
    }

    #[inline(always)]
    fn from_fn(word: impl FnMut(usize) -> u64) -> Self {
        array::from_fn(word)
    }

    #[inline(always)]
    fn lane(self, lane: usize) -> u64 {
        self[lane]
    }

    #[inline(always)]
    fn any(self) -> bool {
        self.into_iter().fold(0, |all, word| all | word) != 0
    }

    #[inline(always)]
    fn and(self, other: Self) -> Self {
        array::from_fn(|i| self[i] & other[i])
    }

    #[inline(always)]
    fn or(self, other: Self) -> Self {
        array::from_fn(|i| self[i] | other[i])
    }

    #[inline(always)]
    fn xor(self, other: Self) -> Self {
        array::from_fn(|i| self[i] ^ other[i])
    }

    #[inline(always)]
    fn plus(self, other: Self) -> Self {
        array::from_fn(|i| self[i].wrapping_add(other[i]))
    }

    #[inline(always)]
    fn left<const BITS: u32>(self) -> Self {
        array::from_fn(|i| self[i] << BITS)
    }

    #[inline(always)]
    fn right<const BITS: u32>(self) -> Self {
        array::from_fn(|i| self[i] >> BITS)
    }
}

macro_rules! operators {
    ($($trait:ident $method:ident $op:tt),+) => {$(
        impl<const N: usize> $trait for Wide<N> {
            type Output = Self;

            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                Self(array::from_fn(|i| self.0[i] $op other.0[i]))
            }
        }
    )+};
}

operators!(Add add +, Sub sub -, Mul mul *, Div div /);

impl<const N: usize> Neg for Wide<N> {
    type Output = Self;

    #[inline(always)]
    fn neg(self) -> Self {
        Self(array::from_fn(|i| -self.0[i]))
    }
}

impl<const N: usize> AddAssign for Wide<N> {
    #[inline(always)]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl<const N: usize> SubAssign for Wide<N> {
    #[inline(always)]
    fn sub_assign(&mut self, other: Self) {
        *self = *self - other;
    }
}

impl<const N: usize> Lane for Wide<N> {
    type Words = [u64; N];
    const WIDTH: usize = N;

    #[inline(always)]
    fn splat(value: f64) -> Self {
        Self([value; N])
    }

    #[inline(always)]
    fn from_fn(value: impl FnMut(usize) -> f64) -> Self {
        Self(array::from_fn(value))
    }

    #[inline(always)]
    fn lane(self, lane: usize) -> f64 {
        self.0[lane]
    }

    #[inline(always)]
    fn sqrt(self) -> Self {
        Self(array::from_fn(|i| self.0[i].sqrt()))
    }

    #[inline(always)]
    fn abs(self) -> Self {
        Self(array::from_fn(|i| self.0[i].abs()))
    }

    #[inline(always)]
    fn min(self, other: Self) -> Self {
        Self(array::from_fn(|i| Lane::min(self.0[i], other.0[i])))
    }

    #[inline(always)]
    fn max(self, other: Self) -> Self {
        Self(array::from_fn(|i| Lane::max(self.0[i], other.0[i])))
    }

    #[inline(always)]
    fn lt(self, other: Self) -> [u64; N] {
        array::from_fn(|i| Lane::lt(self.0[i], other.0[i]))
    }

    #[inline(always)]
    fn select(mask: [u64; N], yes: Self, no: Self) -> Self {
        Self(array::from_fn(|i| Lane::select(mask[i], yes.0[i], no.0[i])))
    }

    #[inline(always)]
    fn to_words(self) -> [u64; N] {
        array::from_fn(|i| self.0[i].to_bits())
    }

    #[inline(always)]
    fn from_words(words: [u64; N]) -> Self {
        Self(array::from_fn(|i| f64::from_bits(words[i])))
    }
}
