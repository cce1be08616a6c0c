//! One stream of random numbers a lane: the named generator xoshiro256++, and normal draws by Box and Muller's method.

use super::{Lane, Words, ln, sin_cos};

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
        let result = a.zip(d, u64::wrapping_add).map(|x| x.rotate_left(23)).zip(a, u64::wrapping_add);
        let t = b.map(|x| x << 17);
        let c = c.zip(a, |x, y| x ^ y);
        let d = d.zip(b, |x, y| x ^ y);
        let b = b.zip(c, |x, y| x ^ y);
        let a = a.zip(d, |x, y| x ^ y);
        let c = c.zip(t, |x, y| x ^ y);
        let d = d.map(|x| x.rotate_left(45));
        self.state = [a, b, c, d];
        result
    }

    /// Uniform in [1, 2).
    #[inline(always)]
    fn one_to_two(&mut self) -> L {
        L::from_words(self.bits().map(|word| (word >> 12) | 0x3ff0_0000_0000_0000))
    }

    /// Two independent standard normal draws.
    #[inline(always)]
    pub fn normals(&mut self) -> [L; 2] {
        // In (0, 1], so that the logarithm is finite.
        let radius = (L::splat(-2.0) * ln(L::splat(2.0) - self.one_to_two())).sqrt();
        // Half of an angle in [-pi, pi), doubled by the double-angle formulas.
        let (sin, cos) = sin_cos((self.one_to_two() - L::splat(1.5)) * L::splat(std::f64::consts::PI));
        let two = L::splat(2.0);
        [radius * (cos * cos - sin * sin), radius * (two * sin * cos)]
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
    fn normals_have_the_moments_of_the_normal_distribution() {
        let mut random = Random::<Wide<8>>::new(&[1, 2, 3, 4, 5, 6, 7, 8].map(|i| [i, 99, 7 * i, 1]));
        let n = 200_000;
        let mut sums = [0.0; 5];
        for _ in 0..n {
            let [a, b] = random.normals();
            for lane in 0..8 {
                let (x, y) = (a.lane(lane), b.lane(lane));
                for (sum, term) in sums.iter_mut().zip([x, x * x, x.powi(4), x * y, y * y]) {
                    *sum += term;
                }
            }
        }
        let [mean, variance, fourth, cross, other] = sums.map(|sum| sum / f64::from(8 * n));
        // Five standard errors of each moment, from the normal distribution's own moments.
        let error = |sd: f64| 5.0 * sd / f64::from(8 * n).sqrt();
        assert!(mean.abs() < error(1.0), "{mean}");
        assert!((variance - 1.0).abs() < error(2.0_f64.sqrt()), "{variance}");
        assert!((other - 1.0).abs() < error(2.0_f64.sqrt()), "{other}");
        assert!((fourth - 3.0).abs() < error(96.0_f64.sqrt()), "{fourth}");
        assert!(cross.abs() < error(1.0), "{cross}");
    }
}
