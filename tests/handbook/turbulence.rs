//! Turbulence: sizes and intensities by height, and whether a long run has them (verification V14).

use std::f64::consts::PI;

use peewit::lane::{Lane as _, Random, Wide};
use peewit::units::{Length, Speed};
use peewit::wind::{Turbulence, TurbulenceScale};

use crate::support::{close, near, si};

type Eight = Wide<8>;

fn scale(height: &str, wind_20ft: &str) -> TurbulenceScale<f64> {
    TurbulenceScale::at(si::<Length>(height), si::<Speed>(wind_20ft))
}

#[test]
fn lengths_and_intensities() {
    let foot = si::<Length>("1 ft");
    // MIL-F-8785C 3.7.3.4, figs 10-11, as quoted. Height goes into the formula in feet.
    near(scale("100 ft", "30 kt").length_h / foot, 505.169, 0.000_51);
    near(scale("100 ft", "30 kt").length_v / foot, 100.0, 1e-9);
    // Closed form of the same.
    let rows = [("100 ft", 505.169, 1.715_849), ("200 ft", 725.786, 1.536_713), ("400 ft", 905.469, 1.313_019)];
    for (height, length, ratio) in rows {
        let found = scale(height, "30 kt");
        near(found.length_h / foot, length, 0.000_51);
        near(found.sigma_h / found.sigma_v, ratio, 5.1e-7);
    }
    near(scale("200 ft", "30 kt").length_h, 221.220, 0.000_51);
    near(scale("400 ft", "30 kt").length_h, 275.987, 0.000_51);
    // The upper limit, as quoted; exact.
    near(scale("1000 ft", "30 kt").length_h / foot, 1000.0, 1e-9);
    close(scale("1000 ft", "30 kt").sigma_h, scale("1000 ft", "30 kt").sigma_v, 1e-12);
}

#[test]
fn intensities_of_light_moderate_and_severe() {
    // Classes of MIL-F-8785C fig. 9, as quoted; numbers closed form.
    let rows = [
        ("15 kt", 0.771_67, 1.185_83, 1.013_21),
        ("30 kt", 1.543_33, 2.371_66, 2.026_43),
        ("45 kt", 2.315_00, 3.557_49, 3.039_64),
    ];
    for (wind, vertical, at_200, at_400) in rows {
        near(scale("200 ft", wind).sigma_v, vertical, 5.1e-6);
        near(scale("400 ft", wind).sigma_v, vertical, 5.1e-6);
        near(scale("200 ft", wind).sigma_h, at_200, 5.1e-6);
        near(scale("400 ft", wind).sigma_h, at_400, 5.1e-6);
    }
    // Beard and McLain table 4.1 at 50 m, light: the formula gives Lu 202.3 m, sw 0.772, su 1.230; closed form.
    let light = scale("50 m", "15 kt");
    near(light.length_h, 202.3, 0.051);
    near(light.sigma_v, 0.772, 0.000_51);
    near(light.sigma_h, 1.230, 0.000_51);
    // Modelica Standard Library noise example, read there: Lw is the height, sigma W20 / 10 with 30 kt for medium.
    near(scale("50 m", "30 kt").length_v, 50.0, 1e-9);
    near(scale("50 m", "30 kt").sigma_v, si::<Speed>("3 kt"), 1e-9);
}

/// Unit intensity and 300 m in every direction, flown in steps of a share of that length, eight runs side by side.
struct Flight {
    air: Turbulence<Eight>,
    random: Random<Eight>,
}

impl Flight {
    fn new(share: f64) -> Self {
        let length = Eight::splat(300.0);
        let one = Eight::splat(1.0);
        let scale = TurbulenceScale { length_h: length, length_v: length, sigma_h: one, sigma_v: one };
        let mut random = Random::new(&[1, 2, 3, 4, 5, 6, 7, 8].map(|lane| [lane, 77, 3 * lane, 5]));
        let mut air = Turbulence::new(scale, length, share);
        air.stir(&mut random);
        Self { air, random }
    }

    fn next(&mut self) -> [Eight; 3] {
        let normals = self.random.five_normals();
        self.air.update(normals);
        self.air.motion()
    }
}

/// Along, across, up: the mean product of the motion now and some steps later, for every number of steps, and how many
/// eddy lengths that was taken over.
fn products(share: f64, lags: [usize; 4], steps: usize) -> ([[f64; 4]; 3], f64) {
    let mut flight = Flight::new(share);
    let keep = lags[3] + 1;
    let mut last = vec![flight.air.motion(); keep];
    let mut sums = [[Eight::splat(0.0); 4]; 3];
    for index in 0..steps + keep {
        let now = flight.next();
        last[index % keep] = now;
        if index < keep {
            continue;
        }
        for (part, sums) in sums.iter_mut().enumerate() {
            for (sum, lag) in sums.iter_mut().zip(lags) {
                *sum += now[part] * last[(index - lag) % keep][part];
            }
        }
    }
    #[allow(clippy::cast_precision_loss, reason = "a million steps")]
    let steps = steps as f64;
    let mean = |sum: Eight| (0..8).map(|lane| sum.lane(lane)).sum::<f64>() / (8.0 * steps);
    (sums.map(|sums| sums.map(mean)), 8.0 * steps * share)
}

#[test]
fn a_long_run_has_the_variance_and_the_correlation_at_any_step() {
    for (share, lags, steps) in [(0.05, [0, 10, 20, 40], 500_000), (0.5, [0, 1, 2, 4], 50_000)] {
        let (found, lengths) = products(share, lags, steps);
        // MIL-F-8785C 3.7.1.2, as quoted: variance whatever the step; exp(-x/L) along, exp(-x/L)(1 - x/2L) across and up,
        // at 0, L/2, L and 2L.
        let along = [1.0, 0.606_53, 0.367_88, 0.135_34];
        let across = [1.0, 0.454_90, 0.183_94, 0.0];
        // A mean product over n eddy lengths has a variance of at most 2/n; five standard errors, which is below 5 %.
        let tolerance = 5.0 * (2.0 / lengths).sqrt();
        assert!(tolerance < 0.05, "{tolerance}");
        for (found, expected) in found.into_iter().zip([along, across, across]) {
            for (found, expected) in found.into_iter().zip(expected) {
                near(found, expected, tolerance);
            }
        }
    }
}

/// Density of a long run at some wave numbers in radians an eddy length, one-sided, for unit intensity and length:
/// along, across, up. Hann's window, eighty eddy lengths a piece.
fn spectrum(waves: [f64; 4], pieces: usize) -> [[f64; 4]; 3] {
    const SAMPLES: u32 = 2560;
    const SHARE: f64 = 1.0 / 32.0;
    let mut flight = Flight::new(SHARE);
    let window: Vec<f64> = (0..SAMPLES).map(|i| 1.0 - (2.0 * PI * f64::from(i) / f64::from(SAMPLES)).cos()).collect();
    let power: f64 = window.iter().map(|w| w * w).sum();
    let waves: Vec<Vec<[f64; 2]>> = waves
        .iter()
        .map(|wave| (0..SAMPLES).map(|i| wave * SHARE * f64::from(i)).map(|phase| [phase.cos(), phase.sin()]).collect())
        .collect();
    let mut density = [[0.0; 4]; 3];
    for _ in 0..pieces {
        let flown: Vec<[Eight; 3]> =
            window.iter().map(|&w| flight.next().map(|motion| motion * Eight::splat(w))).collect();
        for (part, density) in density.iter_mut().enumerate() {
            for (density, wave) in density.iter_mut().zip(&waves) {
                let sum = |side: usize| {
                    let terms = flown.iter().zip(wave);
                    terms.fold(Eight::splat(0.0), |sum, (flown, wave)| sum + flown[part] * Eight::splat(wave[side]))
                };
                let square = sum(0).squared() + sum(1).squared();
                *density += (0..8).map(|lane| square.lane(lane)).sum::<f64>();
            }
        }
    }
    #[allow(clippy::cast_precision_loss, reason = "a few hundred")]
    let runs = 8.0 * pieces as f64;
    density.map(|density| density.map(|sum| sum * SHARE / (PI * power * runs)))
}

#[test]
fn a_long_run_has_the_spectrum() {
    let waves = [0.5, 1.0, 4.0, 16.0];
    let found = spectrum(waves, 400);
    // MIL-F-8785C 3.7.1.2, one-sided, as quoted.
    let along = |x: f64| 2.0 / PI / (1.0 + x * x);
    let across = |x: f64| (1.0 + 3.0 * x * x) / (PI * (1.0 + x * x).powi(2));
    for (part, found) in found.into_iter().enumerate() {
        let expected = waves.map(if part == 0 { along } else { across });
        // 3200 pieces leave 1.8 % of scatter; sampling 32 times a length folds 2 % more into the highest wave number.
        for (found, expected) in found.into_iter().zip(expected) {
            close(found, expected, 0.1);
        }
        // The slope towards high wave numbers, near -2, within 5 % of the formula's; closed form.
        let slope = |density: [f64; 4]| (density[3] / density[2]).ln() / 4.0_f64.ln();
        close(slope(found), slope(expected), 0.05);
    }
}
