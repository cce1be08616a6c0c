//! One stream of random numbers a lane: the named generator xoshiro256++, and normal draws by straightened sums.

use super::{Lane, Words};

/// A xoshiro256++ generator in every lane.
#[derive(Debug, Clone, Copy)]
pub struct Random<L: Lane> {
    state: [L::Words; 4],
}

impl<L: Lane> Random<L> {
    /// Generators with the given states, one a lane; the last is repeated where there are fewer than lanes.
    pub fn new(seeds: &[[u64; 4]]) -> Self {
        let word = |index: usize| L::Words::from_fn(|lane| seeds[lane.min(seeds.len() - 1)][index]);
        Self { state: [word(0), word(1), word(2), word(3)] }
    }

    /// The next sixty-four bits.
    #[inline(always)]
    pub fn bits(&mut self) -> L::Words {
        let [a, b, c, d] = self.state;
        let sum = a.plus(d);
        let result = sum.left::<23>().or(sum.right::<41>()).plus(a);
        let t = b.left::<17>();
        let c = c.xor(a);
        let d = d.xor(b);
        let b = b.xor(c);
        let a = a.xor(d);
        let c = c.xor(t);
        let d = d.left::<45>().or(d.right::<19>());
        self.state = [a, b, c, d];
        result
    }

    /// Four standard normal draws. Written out: a closure handed to the library's own loops is at times left as
    /// a call, without the wide instructions.
    #[inline(always)]
    pub fn four_normals(&mut self) -> [L; 4] {
        [self.normal(), self.normal(), self.normal(), self.normal()]
    }

    /// Five of them.
    #[inline(always)]
    pub fn five_normals(&mut self) -> [L; 5] {
        [self.normal(), self.normal(), self.normal(), self.normal(), self.normal()]
    }

    /// A standard normal draw, from one word.
    ///
    /// The word's four quarters are uniform numbers; their sum is nearly normal, and an odd polynomial straightens what
    /// is left, after Teichroew's method (Knuth, The Art of Computer Programming 2, 3.4.1; value from memory) with four
    /// terms for his twelve. The distribution function is within 2e-4 of the normal one everywhere, its tails within 5 %
    /// to four standard deviations, and no draw is beyond 5.2. No logarithm, root, division or angle is needed.
    #[inline(always)]
    pub fn normal(&mut self) -> L {
        const QUARTERS: u64 = 0x0000_ffff_0000_ffff;
        const WHOLE: f64 = 4_503_599_627_370_496.0;
        let word = self.bits();
        let quarters = L::Words::splat(QUARTERS);
        let pairs = word.and(quarters).plus(word.right::<16>().and(quarters));
        let sum =
            pairs.and(L::Words::splat(0xffff_ffff)).plus(pairs.right::<32>()).or(L::Words::splat(WHOLE.to_bits()));
        // Each quarter is a whole number from 0 to 65535; the middle of its step makes the sum symmetric.
        let middle = WHOLE + 4.0 * 32_767.5;
        let x = (L::from_words(sum) - L::splat(middle)) * L::splat(3.0_f64.sqrt() / 65_536.0);
        let x2 = x * x;
        let straight = L::splat(0.962_347_689_295_321_7)
            + x2 * (L::splat(0.009_270_267_861_138_966)
                + x2 * (L::splat(0.001_792_027_440_144_639_8)
                    + x2 * (L::splat(-0.000_361_872_412_010_756_3) + x2 * L::splat(3.804_750_703_203_38e-5))));
        x * straight
    }
}

#[cfg(test)]
mod tests {
    use rand::{Rng as _, SeedableRng as _};
    use rand_xoshiro::Xoshiro256PlusPlus;

    use super::*;
    use crate::lane::Wide;

    #[test]
    fn bits_are_those_of_the_published_generator() {
        let seed = [1, 2, 3, 0xffff_0000_1234_5678_u64];
        let mut bytes = [0; 32];
        for (chunk, word) in bytes.chunks_mut(8).zip(seed) {
            chunk.copy_from_slice(&word.to_le_bytes());
        }
        let mut theirs = Xoshiro256PlusPlus::from_seed(bytes);
        let mut ours = Random::<Wide<4>>::new(&[seed]);
        for _ in 0..1000 {
            let word = theirs.next_u64();
            assert_eq!(ours.bits(), [word; 4]);
        }
    }

    #[test]
    fn draws_follow_the_normal_distribution() {
        let mut random = Random::<Wide<8>>::new(&[1, 2, 3, 4, 5, 6, 7, 8].map(|i| [i, 99, 7 * i, 1]));
        let rounds = 400_000_u32;
        let n = f64::from(8 * rounds);
        // Standard normal distribution function, tables to five digits (Abramowitz and Stegun 26.1).
        let table = [
            (-3.0, 0.00135),
            (-2.0, 0.02275),
            (-1.0, 0.15866),
            (0.0, 0.5),
            (0.5, 0.69146),
            (1.5, 0.93319),
            (2.5, 0.99379),
        ];
        let mut below = [0_u32; 7];
        let mut sums = [0.0; 4];
        let mut last = 0.0;
        for _ in 0..rounds {
            let draw = random.normal();
            for lane in 0..8 {
                let x: f64 = draw.lane(lane);
                for (count, (z, _)) in below.iter_mut().zip(table) {
                    *count += u32::from(x < z);
                }
                for (sum, term) in sums.iter_mut().zip([x, x * x, x.powi(4), x * last]) {
                    *sum += term;
                }
                last = x;
            }
        }
        for (count, (z, share)) in below.into_iter().zip(table) {
            let error = 2e-4 + 5.0 * (share * (1.0 - share) / n).sqrt();
            assert!((f64::from(count) / n - share).abs() < error, "below {z}: {}", f64::from(count) / n);
        }
        let [mean, variance, fourth, next] = sums.map(|sum| sum / n);
        // Five standard errors of each moment, from the normal distribution's own moments.
        let error = |sd: f64| 5.0 * sd / n.sqrt();
        assert!(mean.abs() < error(1.0), "{mean}");
        assert!((variance - 1.0).abs() < error(2.0_f64.sqrt()), "{variance}");
        assert!((fourth - 3.0).abs() < error(96.0_f64.sqrt()), "{fourth}");
        assert!(next.abs() < error(1.0), "{next}");
    }
}
