//! The wind triangle, from what a jet makes good over the ground, and the density of the air it flies in.

use glam::DVec2;
use peewit::jet::JetNumbers;
use peewit::run::{Scenario, ScenarioFile, WindChoice, draw};
use peewit::units::{Bearing, Length, Speed};

use crate::support::{demo_jet, hold, near, si, steady, trimmed};

/// Ground velocity of a jet that flies level with its nose on a heading, in a wind from a direction: one second's way.
fn made_good(heading: f64, airspeed: f64, from: f64, wind: f64) -> DVec2 {
    // Examples for full-sized aircraft, at up to 165 mph: a fan that keeps that up, which no model's does.
    let jet = JetNumbers { efflux_full: 200.0, ..demo_jet() };
    let to = -Bearing::from_deg(from).unit() * wind;
    let trim = trimmed(&jet, airspeed, Bearing::from_deg(heading).unit(), 0.0);
    let end = hold(&jet, trim, &steady(to.x, to.y), 1.0, 0.05);
    DVec2::new(end.x, end.y)
}

#[track_caller]
fn check(
    unit: &str,
    (heading, airspeed): (f64, f64),
    (from, wind): (f64, f64),
    (course, ground): (f64, f64),
    tolerance: f64,
) {
    let one = si::<Speed>(&format!("1 {unit}"));
    let flown = made_good(heading, airspeed * one, from, wind * one);
    near(Bearing::of(flown).deg(), course, tolerance);
    near(flown.length() / one, ground, tolerance);
}

#[test]
fn wind_triangle() {
    // PHAK ch. 16 (FAA-H-8083-25C figs 16-19 to 16-22), as quoted with 1 deg and 1 kt of tolerance.
    check("kt", (76.0, 120.0), (45.0, 40.0), (90.0, 88.0), 1.0);
    // US War Dept TM "Mathematics for Air Crew Trainees" p. 75 ex. 2, read there; whole numbers in print.
    check("mph", (315.0, 150.0), (45.0, 30.0), (304.0, 153.0), 0.5);
    // Flight-computer manual para 39 ex. 16, read there; graphical, 1 mph and 1 deg.
    check("mph", (104.0, 165.0), (154.0, 34.0), (94.0, 146.0), 1.0);
    // Head and tail wind, the same manual's kind of example, as quoted; exact.
    check("kt", (180.0, 100.0), (180.0, 20.0), (180.0, 80.0), 1e-9);
    check("kt", (360.0, 80.0), (180.0, 15.0), (0.0, 95.0), 1e-9);
}

#[test]
fn wind_along_and_across_a_runway() {
    #[track_caller]
    fn check(runway: f64, from: f64, wind: f64, head: f64, cross: f64) {
        let (one, airspeed) = (si::<Speed>("1 kt"), 100.0);
        let along = Bearing::from_deg(runway).unit();
        let flown = made_good(runway, airspeed * one, from, wind * one) / one;
        near(airspeed - flown.dot(along), head, 0.5);
        near(flown.perp_dot(along).abs(), cross, 0.51);
    }
    // PHAK ch. 11 sample problem 10 (fig. 11-31), as quoted; read off a chart in whole knots.
    check(170.0, 140.0, 25.0, 22.0, 13.0);
    // FAA knowledge-test items (fig. 37 chart), as quoted; the second turned round: 19 kt across at 39 deg.
    check(180.0, 220.0, 30.0, 23.0, 19.0);
    check(0.0, 39.0, 30.0, 23.3, 19.0);
}

#[test]
fn legs_home_take_longer_against_the_wind() {
    // Closed form: 600 m at 25 m/s in 10 m/s of wind.
    let leg = |heading: f64, from: f64| 600.0 / made_good(heading, 25.0, from, 10.0).length();
    near(leg(0.0, 0.0), 40.000, 0.000_5);
    near(leg(0.0, 180.0), 17.143, 0.000_5);
    // Square to the wind, with the nose held asin(10 / 25) into it.
    let crab = 0.4_f64.asin().to_degrees();
    let flown = made_good(crab, 25.0, 90.0, 10.0);
    near(Bearing::of(flown).unit().y, 1.0, 1e-9);
    near(flown.length(), 22.913, 0.000_5);
    near(600.0 / flown.length(), 26.186, 0.000_5);
}

#[test]
fn thinner_air_asks_for_more_speed() {
    // ICAO Doc 7488 / US Standard Atmosphere 1976: 1.2250 kg/m^3 as quoted; 1.111643 at 1000 m closed form.
    let sheet = crate::support::tight_strip().file.jet;
    let stall = |height| JetNumbers::new(&sheet, peewit::wind::isa_density(height)).stall_speed(1.0);
    near(stall(1000.0) / stall(0.0), (1.2250_f64 / 1.111_643).sqrt(), 1e-6);
    // The air of the file reaches the trial: hot and high by the ideal gas, 1.111643 * 281.65 / 308.15 at 35 C.
    let mut file = crate::support::tight_strip().file;
    file.air.elevation = Length::new(1000.0);
    let density =
        |file: &ScenarioFile| draw(&Scenario::from_file(file.clone()).unwrap(), 0, WindChoice::Mean).jet.density;
    near(density(&file), 1.111_643, 1e-6);
    file.air.temperature = Some("35 C".parse().unwrap());
    near(density(&file), 1.016_044, 1e-6);
}
