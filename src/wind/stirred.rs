//! How rough the air of one trial is: at least as rough as its gusts ask for, and stirred by the sun where it shines.

use super::TurbulenceScale;
use crate::lane::{Lane, exp, lanes, ln};

/// Gust over the mean, in standard deviations of the wind: the strongest 3 s in 10 min.
///
/// The extreme value of a Gaussian process (Cartwright and Longuet-Higgins 1956) gives 2.8 in standard deviations of a
/// wind that is averaged over 3 s, as a cup or a hand meter does, and 2.5 to 2.6 in those of all its eddies. Measured
/// factors (WMO/TD-No. 1555, table 1.1) ask for 2.5 at sea and 3.0 over rough land. One number for all: 2.8.
pub const PEAK: f64 = 2.8;

/// Least and largest turbulence intensity drawn, as a share of the mean wind at the circle: judgement; open land near
/// the ground has 1 / ln(h / z0), which is 0.13 at 70 m over 0.03 m and 0.24 over 1 m.
pub const INTENSITY: [f64; 2] = [0.10, 0.20];

/// Horizontal standard deviation over w*: the limit of `(12 + 0.5 zi/|L|)^(1/3)` friction velocities where the sun alone
/// stirs, (0.5 * 0.4)^(1/3) = 0.585 (Panofsky and others 1977, value from memory).
const CONVECTIVE_H: f64 = 0.6;
/// Vertical standard deviation over w* at height z: `1.34 (z/zi)^(1/3) (1 - 0.8 z/zi)`, sqrt(1.8) = 1.34 (Lenschow and
/// others 1980; near the ground Wyngaard and others 1971; values from memory).
const CONVECTIVE_V: f64 = 1.34;
/// Depth zi of the air that the sun stirs, m: judgement. A summer noon has 1000 to 2000; less makes it rougher below.
const DEPTH_M: f64 = 1000.0;

lanes! {
    /// The air of one trial, beside its mean wind.
    pub struct AirNumbers {
        /// Direction the wind blows to, unit vector, east.
        to_x,
        /// North.
        to_y,
        /// Least horizontal standard deviation of the turbulence, m/s.
        least,
        /// Speed scale of thermals, m/s.
        convection,
    }
}

impl<L: Lane> AirNumbers<L> {
    /// Eddies at a height in metres, for a wind speed at 20 ft in m/s.
    ///
    /// The standard's, or as strong as asked for in the standard's ratio of vertical to horizontal; what the sun stirs is
    /// independent of it and adds in squares. Lengths stay the standard's, shorter than those of thermals: the jet then
    /// meets the whole of it on every lap.
    #[inline(always)]
    pub fn scale(&self, height: L, wind_20ft: L) -> TurbulenceScale<L> {
        let unit = TurbulenceScale::at(height, L::splat(1.0));
        let sigma_h = (unit.sigma_h * wind_20ft).max(self.least);
        let sigma_v = sigma_h * (unit.sigma_v / unit.sigma_h);
        // The height as the standard bounds it is the length of the vertical eddies.
        let depth = unit.length_v * L::splat(1.0 / DEPTH_M);
        let risen = exp(ln(depth) * L::splat(1.0 / 3.0)) * (L::splat(1.0) - L::splat(0.8) * depth);
        let sun_h = L::splat(CONVECTIVE_H) * self.convection;
        let sun_v = L::splat(CONVECTIVE_V) * risen * self.convection;
        TurbulenceScale {
            sigma_h: (sigma_h.squared() + sun_h.squared()).sqrt(),
            sigma_v: (sigma_v.squared() + sun_v.squared()).sqrt(),
            ..unit
        }
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;

    const LN_MEAN: f64 = 0.577_215_664_901_532_9;

    fn air(least: f64, convection: f64) -> AirNumbers<f64> {
        AirNumbers { to_x: 1.0, to_y: 0.0, least, convection }
    }

    #[test]
    fn the_larger_of_standard_and_gust_in_the_standards_ratio() {
        // MIL-F-8785C 3.7.3.4 at 200 ft in 30 kt: su 2.37166, sw 1.54333 m/s (closed form).
        let (height, wind) = (200.0 * 0.3048, 30.0 * 1852.0 / 3600.0);
        let calm = air(0.0, 0.0).scale(height, wind);
        approx::assert_abs_diff_eq!(calm.sigma_h, 2.371_66, epsilon = 5.1e-6);
        approx::assert_abs_diff_eq!(calm.sigma_v, 1.543_33, epsilon = 5.1e-6);
        assert_eq!(air(2.0, 0.0).scale(height, wind), calm);
        let rough = air(3.0, 0.0).scale(height, wind);
        assert_eq!(rough.sigma_h, 3.0);
        approx::assert_relative_eq!(rough.sigma_v, 3.0 / 1.536_713, max_relative = 1e-6);
        // Without any wind at 20 ft there is still what is asked for.
        assert_eq!(air(3.0, 0.0).scale(height, 0.0), rough);
    }

    #[test]
    fn the_sun_adds_in_squares() {
        let found = air(0.0, 2.0).scale(125.0, 0.0);
        // (125 / 1000)^(1/3) = 1/2, and 1 - 0.8 / 8 = 0.9: 1.34 * 0.45 * 2.
        approx::assert_abs_diff_eq!(found.sigma_v, 1.206, epsilon = 1e-9);
        approx::assert_abs_diff_eq!(found.sigma_h, 1.2, epsilon = 1e-9);
        // It grows with height up to 5/16 of the layer, by the derivative.
        let (high, low) = (air(0.0, 2.0).scale(290.0, 0.0), air(0.0, 2.0).scale(20.0, 0.0));
        assert!(high.sigma_v > found.sigma_v && found.sigma_v > low.sigma_v);
        let both = air(1.6, 2.0).scale(125.0, 0.0);
        approx::assert_abs_diff_eq!(both.sigma_h, 2.0, epsilon = 1e-9);
        // Panofsky and others 1977: (0.5 * 0.4)^(1/3).
        approx::assert_abs_diff_eq!(CONVECTIVE_H, 0.2_f64.cbrt(), epsilon = 0.02);
        approx::assert_abs_diff_eq!(CONVECTIVE_V, 1.8_f64.sqrt(), epsilon = 0.005);
    }

    fn sinc(x: f64) -> f64 {
        if x < 1e-9 { 1.0 } else { (PI * x).sin() / (PI * x) }
    }

    /// Expected largest value of `spectrum` (one-sided, variance 1, of frequency in Hz and time scale in s) averaged over
    /// 3 s, above its mean over 10 min: in standard deviations of what is averaged, and of all of it.
    fn peak(spectrum: fn(f64, f64) -> f64, scale_s: f64) -> [f64; 2] {
        const STEPS: u32 = 20_000;
        let (from, to) = (1e-5_f64.ln(), 50.0_f64.ln());
        let step = (to - from) / f64::from(STEPS);
        let (mut variance, mut square) = (0.0, 0.0);
        for index in 0..STEPS {
            let hz = (from + step * (f64::from(index) + 0.5)).exp();
            let power = spectrum(hz, scale_s) * hz * step * (1.0 - sinc(600.0 * hz).powi(2)) * sinc(3.0 * hz).powi(2);
            variance += power;
            square += hz * hz * power;
        }
        // Cartwright and Longuet-Higgins 1956, in the form for many waves: sqrt(2 ln n) + gamma / sqrt(2 ln n) with n the
        // upward crossings of the mean in the time.
        let most = (2.0 * (600.0 * (square / variance).sqrt()).ln()).sqrt();
        let peak = most + LN_MEAN / most;
        [peak, peak * variance.sqrt()]
    }

    #[test]
    fn the_peak_factor_is_that_of_a_gaussian_process() {
        let dryden = |hz: f64, s: f64| 4.0 * s / (1.0 + (2.0 * PI * hz * s).powi(2));
        // Von Karman's longitudinal form.
        let karman = |hz: f64, s: f64| 4.0 * s / (1.0 + 70.8 * (hz * s).powi(2)).powf(5.0 / 6.0);
        // Eddies of 80 to 120 m, as there are about a mast of 10 m (value from memory), go by in 8 to 12 s in 10 m/s.
        for spectrum in [dryden, karman] {
            for scale_s in [8.0, 10.0, 12.0] {
                let [averaged, whole] = peak(spectrum, scale_s);
                approx::assert_abs_diff_eq!(averaged, PEAK, epsilon = 0.1);
                assert!((2.5..2.65).contains(&whole), "{whole}");
            }
        }
    }

    #[test]
    fn the_peak_factor_gives_the_gust_factors_of_the_wmo() {
        // WMO/TD-No. 1555 table 1.1, 3 s in 10 min, as quoted. The intensity at 10 m is 1 / ln(10 / z0): 2.5 friction
        // velocities over the log law's. Roughness by Davenport's classes roughly open, open, smooth and sea (values from
        // memory; which class stands for which of the four is a judgement).
        for (factor, roughness) in [(1.66, 0.10), (1.52, 0.03), (1.38, 0.005), (1.23, 0.0002)] {
            let found = 1.0 + PEAK / (10.0_f64 / roughness).ln();
            approx::assert_abs_diff_eq!(found, factor, epsilon = 0.06);
        }
    }
}
