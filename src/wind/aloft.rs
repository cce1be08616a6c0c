//! What the wind measured somewhere comes to at another height: the one place that everybody asks.
//!
//! The mean grows by the profile; what gusts add to it stays as it is at every height, as the standard deviation of the
//! wind nearly does in the air next to the ground (Panofsky and others 1977, value from memory).

use super::{ProfileNumbers, WindSheet};

impl WindSheet {
    /// How many times the mean blows at a height in metres: least, in the middle of what is known of its growth, and
    /// most.
    pub fn growth(&self, height_m: f64) -> [f64; 3] {
        let at = |share: f64| self.grown(1.0, 0.0, share).at(self.profile, height_m).x;
        let [one, middle, other] = [at(0.0), at(0.5), at(1.0)];
        [one.min(other), middle, one.max(other)]
    }

    /// Mean and gust at a height in metres, m/s, in the middle of what is known of the growth.
    pub fn aloft(&self, height_m: f64) -> [f64; 2] {
        let [_, middle, _] = self.aloft_range(height_m);
        middle
    }

    /// Mean and gust at a height in metres, m/s: with the least growth, in the middle, and with the most.
    pub fn aloft_range(&self, height_m: f64) -> [[f64; 2]; 3] {
        self.growth(height_m).map(|growth| {
            let mean = self.mean.mps() * growth;
            [mean, mean + self.excess_mps()]
        })
    }

    /// A wind with these parts where it was measured, which grows as much as lies a share of the way through the range:
    /// evenly in the exponent, and evenly in the logarithm of the roughness.
    pub fn grown(&self, x: f64, y: f64, share: f64) -> ProfileNumbers<f64> {
        let ([low, high], [smooth, rough]) = (self.exponents(), self.roughnesses_m());
        ProfileNumbers {
            x,
            y,
            excess_x: 0.0,
            excess_y: 0.0,
            measured_at: self.measured_at.m(),
            exponent: low + (high - low) * share,
            roughness: smooth * (rough / smooth).powf(share),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Bearing, Length, Ratio, Speed};
    use crate::wind::{Profile, Terrain};

    fn sheet(profile: Profile, terrain: Terrain) -> WindSheet {
        WindSheet {
            mean: Speed::new(4.0),
            gust: Some(Speed::new(7.0)),
            from: Bearing::from_deg(0.0),
            measured_at: Length::new(2.0),
            profile,
            terrain,
            exponent_low: None,
            exponent_high: None,
            roughness: None,
            mean_spread: Ratio::new(0.0),
            mean_floor: Speed::new(0.0),
            from_spread: None,
            turbulence: true,
            convection: None,
        }
    }

    #[test]
    fn a_hand_meter_is_lifted_to_the_circle_by_hand() {
        // Closed form: 40^0.14, 40^0.17 and 40^0.20; the gust stays 3 m/s above the mean.
        let wind = sheet(Profile::Power, Terrain::Open);
        for (found, exponent) in wind.aloft_range(80.0).into_iter().zip([0.14, 0.17, 0.20]) {
            let mean = 4.0 * 40.0_f64.powf(exponent);
            approx::assert_abs_diff_eq!(found[0], mean, epsilon = 1e-9);
            approx::assert_abs_diff_eq!(found[1], mean + 3.0, epsilon = 1e-9);
        }
        assert_eq!(wind.aloft(80.0), wind.aloft_range(80.0)[1]);
        // Closed form of the log law with 0.01, 0.03 and 0.09 m.
        let wind = sheet(Profile::Log, Terrain::Open);
        for (found, roughness) in wind.growth(80.0).into_iter().zip([0.01_f64, 0.03, 0.09]) {
            approx::assert_abs_diff_eq!(found, (80.0 / roughness).ln() / (2.0 / roughness).ln(), epsilon = 1e-9);
        }
        assert_eq!(sheet(Profile::Uniform, Terrain::Wooded).growth(80.0), [1.0; 3]);
    }

    #[test]
    fn below_the_mast_the_range_is_in_order_too() {
        let [low, middle, high] =
            WindSheet { measured_at: Length::new(70.0), ..sheet(Profile::Power, Terrain::Open) }.growth(2.0);
        assert!(low < middle && middle < high);
        approx::assert_abs_diff_eq!(low, 35.0_f64.powf(-0.20), epsilon = 1e-9);
        approx::assert_abs_diff_eq!(high, 35.0_f64.powf(-0.14), epsilon = 1e-9);
    }
}
