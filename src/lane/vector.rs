//! Several numbers in one vector register, for processors that have such registers, found out at run time.
//!
//! The work is handed to [`widest`], which looks once at what the processor can do and then does all of the work inside
//! a function compiled for that. Nothing is fused, and every operation is the one a single number has, so that the bits
//! are those of a single number.

#[cfg(target_arch = "x86_64")]
use pulp::{
    NullaryFnOnce, Simd as _,
    x86::{V3, V4},
};

use super::{Lane, Wide};

/// Work that can be done at any width.
pub trait LaneWork {
    /// What comes of it.
    type Output;

    /// Does it. Has to be compiled into its caller (`#[inline(always)]`), or it is compiled without the wide instructions.
    fn run<L: Lane>(self) -> Self::Output;
}

/// Does some work at the widest width this processor has instructions for.
pub fn widest<W: LaneWork>(work: W) -> W::Output {
    #[cfg(target_arch = "x86_64")]
    {
        if let Some(simd) = V4::try_new() {
            return simd.vectorize(Eight(work));
        }
        if let Some(simd) = V3::try_new() {
            return simd.vectorize(Four(work));
        }
    }
    work.run::<Wide<4>>()
}

#[cfg(target_arch = "x86_64")]
macro_rules! vector {
    ($simd:ty, $numbers:ident, $words:ident, $floats:ty, $bits:ty, $lanes:literal, $work:ident, $shl:ident, $shr:ident) => {
        /// Work that is done at this width.
        struct $work<W>(W);

        impl<W: LaneWork> NullaryFnOnce for $work<W> {
            type Output = W::Output;

            #[inline(always)]
            fn call(self) -> W::Output {
                self.0.run::<$numbers>()
            }
        }

        /// Numbers in a register.
        #[derive(Debug, Clone, Copy)]
        struct $numbers($floats);

        /// Words in a register.
        #[derive(Debug, Clone, Copy)]
        struct $words($bits);

        impl $numbers {
            /// The proof that the processor has the instructions.
            #[allow(unsafe_code, reason = "the type carries no proof of its own, as the proof takes no room")]
            #[inline(always)]
            const fn simd() -> $simd {
                // SAFETY: this type is private, and its only use is in `widest`, behind the check for the instructions.
                unsafe { <$simd>::new_unchecked() }
            }
        }

        impl super::Words for $words {
            #[inline(always)]
            fn splat(word: u64) -> Self {
                Self($numbers::simd().splat_u64s(word))
            }

            #[inline(always)]
            fn from_fn(mut word: impl FnMut(usize) -> u64) -> Self {
                let mut words = [0; $lanes];
                for (lane, place) in words.iter_mut().enumerate() {
                    *place = word(lane);
                }
                Self(pulp::bytemuck::cast(words))
            }

            #[inline(always)]
            fn lane(self, lane: usize) -> u64 {
                pulp::bytemuck::cast::<$bits, [u64; $lanes]>(self.0)[lane]
            }

            #[inline(always)]
            fn any(self) -> bool {
                pulp::bytemuck::cast::<$bits, [u64; $lanes]>(self.0).into_iter().fold(0, |all, word| all | word) != 0
            }

            #[inline(always)]
            fn and(self, other: Self) -> Self {
                Self($numbers::simd().and_u64s(self.0, other.0))
            }

            #[inline(always)]
            fn or(self, other: Self) -> Self {
                Self($numbers::simd().or_u64s(self.0, other.0))
            }

            #[inline(always)]
            fn xor(self, other: Self) -> Self {
                Self($numbers::simd().xor_u64s(self.0, other.0))
            }

            #[inline(always)]
            fn plus(self, other: Self) -> Self {
                Self($numbers::simd().add_u64s(self.0, other.0))
            }

            #[inline(always)]
            fn left<const BITS: u32>(self) -> Self {
                let by = $numbers::simd().splat_u64s(u64::from(BITS));
                Self($numbers::simd().$shl(self.0, by))
            }

            #[inline(always)]
            fn right<const BITS: u32>(self) -> Self {
                let by = $numbers::simd().splat_u64s(u64::from(BITS));
                Self($numbers::simd().$shr(self.0, by))
            }
        }

        vector!(operators $numbers, Add add add_f64s, Sub sub sub_f64s, Mul mul mul_f64s, Div div div_f64s);

        impl std::ops::Neg for $numbers {
            type Output = Self;

            #[inline(always)]
            fn neg(self) -> Self {
                Self(Self::simd().neg_f64s(self.0))
            }
        }

        impl std::ops::AddAssign for $numbers {
            #[inline(always)]
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }

        impl std::ops::SubAssign for $numbers {
            #[inline(always)]
            fn sub_assign(&mut self, other: Self) {
                *self = *self - other;
            }
        }

        impl Lane for $numbers {
            type Words = $words;
            const WIDTH: usize = $lanes;

            #[inline(always)]
            fn splat(value: f64) -> Self {
                Self(Self::simd().splat_f64s(value))
            }

            #[inline(always)]
            fn from_fn(mut value: impl FnMut(usize) -> f64) -> Self {
                let mut numbers = [0.0; $lanes];
                for (lane, place) in numbers.iter_mut().enumerate() {
                    *place = value(lane);
                }
                Self(pulp::bytemuck::cast(numbers))
            }

            #[inline(always)]
            fn lane(self, lane: usize) -> f64 {
                pulp::bytemuck::cast::<$floats, [f64; $lanes]>(self.0)[lane]
            }

            #[inline(always)]
            fn sqrt(self) -> Self {
                Self(Self::simd().sqrt_f64s(self.0))
            }

            #[inline(always)]
            fn abs(self) -> Self {
                Self(Self::simd().abs_f64s(self.0))
            }

            #[inline(always)]
            fn min(self, other: Self) -> Self {
                Self(Self::simd().min_f64s(self.0, other.0))
            }

            #[inline(always)]
            fn max(self, other: Self) -> Self {
                Self(Self::simd().max_f64s(self.0, other.0))
            }

            #[inline(always)]
            fn lt(self, other: Self) -> $words {
                let simd = Self::simd();
                let smaller = simd.less_than_f64s(self.0, other.0);
                $words(simd.select_u64s(smaller, simd.splat_u64s(u64::MAX), simd.splat_u64s(0)))
            }

            #[inline(always)]
            fn select(mask: $words, yes: Self, no: Self) -> Self {
                let simd = Self::simd();
                let (yes, no) = (simd.transmute_u64s_f64s(yes.0), simd.transmute_u64s_f64s(no.0));
                let picked = simd.or_u64s(simd.and_u64s(mask.0, yes), simd.and_u64s(simd.not_u64s(mask.0), no));
                Self(simd.transmute_f64s_u64s(picked))
            }

            #[inline(always)]
            fn to_words(self) -> $words {
                $words(Self::simd().transmute_u64s_f64s(self.0))
            }

            #[inline(always)]
            fn from_words(words: $words) -> Self {
                Self(Self::simd().transmute_f64s_u64s(words.0))
            }
        }
    };
    (operators $numbers:ident, $($trait:ident $method:ident $op:ident),+) => {$(
        impl std::ops::$trait for $numbers {
            type Output = Self;

            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                Self(Self::simd().$op(self.0, other.0))
            }
        }
    )+};
}

#[cfg(target_arch = "x86_64")]
vector!(V4, Numbers8, Words8, pulp::f64x8, pulp::u64x8, 8, Eight, shl_dyn_u64x8, shr_dyn_u64x8);
#[cfg(target_arch = "x86_64")]
vector!(V3, Numbers4, Words4, pulp::f64x4, pulp::u64x4, 4, Four, shl_dyn_u64x4, shr_dyn_u64x4);
