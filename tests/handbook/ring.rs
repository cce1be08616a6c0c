//! A circle over the ground held exactly in wind: bank round it, lap time, smallest radius, drift of a constant bank.

use std::f64::consts::{FRAC_PI_2, PI};

use glam::DVec2;
use peewit::jet::turn::{lap_time, load, on_circle, rate, smallest_radius};
use peewit::units::{Length, Speed};

use crate::support::{close, demo_jet, hold, near, si, steady, trimmed};

#[test]
fn radius_of_a_procedure_turn_in_wind() {
    // ICAO Annex 11 Att. A 7.4, read there: 400 kt and 200 kt of tailwind, 20 deg, 14.45 NM; rounded in print.
    let found = smallest_radius(si::<Speed>("400 kt"), si::<Speed>("200 kt"), 20.0_f64.to_radians());
    close(found, si::<Length>("14.45 NM"), 0.003);
}

#[test]
fn bank_and_lap_time_round_a_circle() {
    // Closed form: airspeed, wind, radius; bank downwind, crosswind, upwind in deg; most load; lap and lap in still air.
    let table = [
        (25.0, 0.0, 80.0, [38.543, 38.543, 38.543], 1.2785, 20.1062, 20.1062),
        (25.0, 5.0, 80.0, [48.921, 37.974, 27.015], 1.5218, 20.7329, 20.1062),
        (25.0, 10.0, 80.0, [57.363, 36.135, 16.003], 1.8542, 22.9477, 20.1062),
        (25.0, 10.0, 100.0, [51.321, 30.290, 12.922], 1.6001, 28.6846, 25.1327),
        (30.0, 10.0, 120.0, [53.666, 35.793, 18.773], 1.6878, 27.4718, 25.1327),
    ];
    for (airspeed, wind, radius, banks, most, lap, calm) in table {
        for (off, expected) in [0.0, FRAC_PI_2, PI].into_iter().zip(banks) {
            near(on_circle(airspeed, wind, radius, off).1.to_degrees(), expected, 0.000_51);
        }
        near(load(on_circle(airspeed, wind, radius, 0.0).1), most, 0.000_051);
        near(lap_time(airspeed, wind, radius).unwrap(), lap, 0.000_051);
        near(lap_time(airspeed, 0.0, radius).unwrap(), calm, 0.000_051);
    }
}

#[test]
fn bank_is_steepest_downwind_and_shallowest_upwind() {
    // FAA-H-8083-3C (AFH) ch. 7, read there: steepest downwind, shallowest upwind.
    for ratio in [0.01, 0.2, 0.5, 0.8, 0.95] {
        let banks: Vec<f64> =
            (0..=180).map(|deg| on_circle(25.0, 25.0 * ratio, 90.0, f64::from(deg).to_radians()).1).collect();
        assert!(banks.windows(2).all(|pair| pair[1] < pair[0]), "ratio {ratio}");
    }
}

#[test]
fn smallest_radius_that_a_maximum_bank_holds() {
    // Closed form, (V + W)^2 / (g tan bank).
    let table = [
        (25.0, 0.0, 30.0, 110.39),
        (25.0, 5.0, 30.0, 158.96),
        (25.0, 8.0, 30.0, 192.34),
        (25.0, 10.0, 30.0, 216.36),
        (25.0, 10.0, 45.0, 124.92),
        (20.0, 8.0, 30.0, 138.47),
        (30.0, 10.0, 45.0, 163.15),
        (40.0, 10.0, 45.0, 254.93),
    ];
    for (airspeed, wind, bank, expected) in table {
        near(smallest_radius(airspeed, wind, f64::to_radians(bank)), expected, 0.005_1);
    }
}

#[test]
fn a_constant_bank_drifts_with_the_wind() {
    // Closed form: 25 m/s, 30 deg, 10 m/s of wind: one turn takes 27.7434 s and carries 277.434 m downwind.
    let jet = demo_jet();
    let bank = 30.0_f64.to_radians();
    let turn_s = std::f64::consts::TAU / rate(25.0, bank);
    near(turn_s, 27.7434, 0.000_051);
    let end = hold(&jet, trimmed(&jet, 25.0, DVec2::X, bank), &steady(10.0, 0.0), turn_s, 0.02);
    near(end.x, 277.434, 0.000_51);
    near(end.y, 0.0, 0.000_51);
}
