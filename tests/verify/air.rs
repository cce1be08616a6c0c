//! Whether the air of the trials, and of the flights flown, is distributed as it is said to be: wind speed at the
//! circle, growth with height, direction, gusts.

use glam::DVec2;
use peewit::run::{Scenario, ScenarioFile, Stretch, Trial, WindChoice, draw, fly};
use peewit::units::{Bearing, Length, Speed};
use peewit::wind::{Profile, Terrain};
use statrs::function::erf::erfc;

const TRIALS: u64 = 4000;

fn trials(edit: impl FnOnce(&mut ScenarioFile)) -> impl Iterator<Item = Trial> {
    let mut file = crate::support::tight_strip().file;
    edit(&mut file);
    let scenario = Scenario::from_file(file).unwrap();
    (1..=TRIALS).map(move |trial| draw(&scenario, trial, WindChoice::Mean))
}

/// The chance of a standard normal number below.
fn normal(z: f64) -> f64 {
    0.5 * erfc(-z / std::f64::consts::SQRT_2)
}

/// Whether values are distributed as a chance of being below says: Kolmogorov's and Smirnov's largest distance, which
/// 1 set in 1000 exceeds 1.95 / sqrt n of (the limit for large n).
#[track_caller]
#[allow(clippy::cast_precision_loss, reason = "a few thousand")]
fn distributed(values: impl Iterator<Item = f64>, below: impl Fn(f64) -> f64) {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    let count = values.len() as f64;
    let far = values.iter().enumerate().map(|(rank, &value)| {
        let wanted = below(value);
        (wanted - rank as f64 / count).max((rank as f64 + 1.0) / count - wanted)
    });
    let furthest = far.fold(0.0, f64::max) * count.sqrt();
    assert!(furthest < 1.95, "{furthest} root-n distances away");
}

fn even(low: f64, high: f64) -> impl Fn(f64) -> f64 {
    move |value| ((value - low) / (high - low)).clamp(0.0, 1.0)
}

fn speed(trial: &Trial) -> f64 {
    trial.wind.x.hypot(trial.wind.y)
}

#[test]
fn wind_speed_at_the_circle_is_a_normal_cut_at_nothing() {
    // Measured at the circle's 70 m: 15 % and 0.5 m/s about the mean.
    for mean in [0.0, 0.7, 6.0] {
        let sd = 0.15 * mean + 0.5;
        let nothing = normal(-mean / sd);
        let winds =
            trials(|file| (file.wind.mean, file.wind.gust) = (Speed::new(mean), None)).map(|trial| speed(&trial));
        distributed(winds, |wind| (normal((wind - mean) / sd) - nothing) / (1.0 - nothing));
    }
}

#[test]
fn the_growth_with_height_is_even_over_its_range() {
    let exponents = |terrain| {
        let hand = move |file: &mut ScenarioFile| {
            (file.wind.measured_at, file.wind.terrain) = (Length::new(2.0), terrain);
        };
        // From 2 to 70 m the power law grows by 35 to the exponent.
        trials(hand).map(|trial| {
            let aloft = trial.wind.at(Profile::Power, 70.0);
            (aloft.x.hypot(aloft.y) / speed(&trial)).ln() / 35.0_f64.ln()
        })
    };
    distributed(exponents(Terrain::Open), even(0.14, 0.20));
    distributed(exponents(Terrain::Wooded), even(0.22, 0.30));
    let log = |file: &mut ScenarioFile| (file.wind.measured_at, file.wind.profile) = (Length::new(2.0), Profile::Log);
    // Solved for the logarithm of the roughness: (ln 70 - k ln 2) / (1 - k) with the growth k.
    let roughness = trials(log).map(|trial| {
        let aloft = trial.wind.at(Profile::Log, 70.0);
        let grown = aloft.x.hypot(aloft.y) / speed(&trial);
        (70.0_f64.ln() - grown * 2.0_f64.ln()) / (1.0 - grown)
    });
    distributed(roughness, even(0.01_f64.ln(), 0.09_f64.ln()));
}

#[test]
fn the_direction_is_a_wrapped_normal_and_wanders_more_in_light_wind() {
    for (mean, from, sd) in [(6.0, 0.0, 15.0), (2.0, 180.0, 25.0)] {
        let turned = trials(|file| (file.wind.mean, file.wind.from) = (Speed::new(mean), Bearing::from_deg(from)));
        let turned = turned.map(|trial| {
            let blows_from = Bearing::of(-DVec2::new(trial.wind.x, trial.wind.y)).deg();
            (blows_from - from + 180.0).rem_euclid(360.0) - 180.0
        });
        distributed(turned, |off| normal(off / sd));
    }
}

#[test]
fn turbulence_is_10_to_20_percent_of_the_wind_and_what_the_gust_asks_for() {
    // No gust over the mean: the drawn share of the drawn wind, lifted from 2 m to the circle.
    let plain = |file: &mut ScenarioFile| {
        file.wind.gust = Some(file.wind.mean);
        file.wind.measured_at = Length::new(2.0);
    };
    let shares = trials(plain).map(|trial| {
        let aloft = trial.wind.at(Profile::Power, 70.0);
        trial.air.least / aloft.x.hypot(aloft.y)
    });
    distributed(shares, even(0.10, 0.20));
    // 9 m/s over 6 with k = 2.8, whatever is drawn.
    let least = 3.0 / 2.8;
    assert!(trials(|_| ()).all(|trial| trial.air.least >= least - 1e-12));
    // A gust that nobody reported is taken as those 9 m/s.
    assert!(trials(|file| file.wind.gust = None).zip(trials(|_| ())).all(|(assumed, told)| assumed == told));
}

/// Mean square of the turbulence flown through on the circle, along and across the wind, over a flight in the demo's
/// air: the way over the ground, less that through the air, less the mean wind.
fn flown(scenario: &Scenario, trial: u64) -> Option<f64> {
    let run = fly(scenario, trial, WindChoice::Mean);
    let (trace, wind) = (&run.trace, &run.drawn.wind);
    let (mut sum, mut count) = (0.0, 0.0);
    for index in (0..trace.len() - 1).filter(|&index| trace.stretch[index] == Stretch::Circling) {
        let mean = |list: &[f64]| f64::midpoint(list[index], list[index + 1]);
        let ground = (trace.point(index + 1) - trace.point(index)) / trace.step_s;
        let nose = DVec2::new(mean(&trace.nose_x), mean(&trace.nose_y)).normalize();
        // The power law of the trial, from the 70 m it was measured at.
        let grown = (mean(&trace.height_m) / 70.0).powf(wind.exponent);
        let air = ground - nose * mean(&trace.airspeed_mps) - DVec2::new(wind.x, wind.y) * grown;
        sum += air.length_squared() / 2.0;
        count += 1.0;
    }
    (count > 0.0).then_some(sum / count)
}

#[test]
fn flights_go_through_turbulence_as_strong_as_the_gust_asks_for() {
    // The demo: 6 m/s and gusts of 9, measured at the circle's 70 m.
    let scenario = crate::support::tight_strip();
    let squares: Vec<f64> = (1..=600).filter_map(|trial| flown(&scenario, trial)).collect();
    #[allow(clippy::cast_precision_loss, reason = "some hundred")]
    let count = squares.len() as f64;
    assert!(count > 500.0);
    let found = squares.iter().sum::<f64>() / count;
    let error = (squares.iter().map(|square| (square - found).powi(2)).sum::<f64>() / count / count).sqrt();
    // Closed form: the larger of 3 / 2.8 and the drawn share of the drawn wind, squared, over 10 to 20 % and the normal
    // wind of 6 and 1.4 m/s. The standard's own intensity, 0.099 of the wind at 70 m, is never the larger.
    let (mut wanted, mut weight) = (0.0, 0.0);
    for wind in (1..1200).map(|step| f64::from(step) * 0.01) {
        let likely = (-((wind - 6.0) / 1.4_f64).powi(2) / 2.0).exp();
        for share in (0..100).map(|step| 0.1005 + 0.001 * f64::from(step)) {
            wanted += likely * (share * wind).max(3.0 / 2.8).powi(2);
            weight += likely;
        }
    }
    let wanted = wanted / weight;
    assert!(wanted.sqrt() > 1.07 && error < 0.05 * wanted, "{wanted} {error}");
    assert!((found - wanted).abs() < 4.0 * error, "{found} for {wanted}, error {error}");
}
