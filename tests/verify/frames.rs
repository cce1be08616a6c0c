//! The same flight in moving air, turned round and in a mirror is the same flight (V5 to V7); in air that changes its
//! motion it is not.

use std::f64::consts::TAU;

use glam::DVec2;
use peewit::field::Metres;
use peewit::jet::turn::rate;
use peewit::jet::{Command, Gust, JetNumbers, State, step};
use peewit::run::{Scenario, ScenarioFile};
use peewit::units::{Angle, G0, Length};
use peewit::verify::frames::moved;

use crate::support::{demo_jet, flown, hold, near, steady, trimmed};

/// A jet without drag, so that nothing but the air's own change of motion changes its airspeed.
fn slippery() -> JetNumbers<f64> {
    JetNumbers { drag_zero: 0.0, drag_lift: 0.0, ..demo_jet() }
}

#[test]
fn a_gust_changes_the_motion_through_the_air_and_not_the_one_over_the_ground() {
    let jet = slippery();
    // Wind that comes up to so much within a second, from ahead, from behind and from the side.
    for gust in [DVec2::new(-5.0, 0.0), DVec2::new(6.0, 0.0), DVec2::new(0.0, 5.0), DVec2::new(3.0, -4.0)] {
        let (mut state, command) = trimmed(&jet, 22.0, DVec2::X, 0.0);
        let dt = 0.002;
        for index in 0..500 {
            let now = gust * f64::from(index) * dt;
            let air = Gust { rate_x: gust.x, rate_y: gust.y, ..steady(now.x, now.y) };
            state = step(&jet, &state, &command, &air, dt);
        }
        // Closed form, Newton's first law: over the ground 22 m/s to the east, as before.
        let through_air = DVec2::X * 22.0 - gust;
        near(state.airspeed, through_air.length(), 1e-6);
        near(state.nose_x, through_air.x / through_air.length(), 1e-6);
        near(state.nose_y, through_air.y / through_air.length(), 1e-6);
        near(state.x, 22.0, 1e-6);
        near(state.y, 0.0, 1e-6);
    }
}

#[test]
fn rising_air_that_gathers_speed_leaves_the_jet_behind_until_the_wing_has_lifted_it() {
    let jet = slippery();
    let (speed, climb, dt) = (22.0, 0.2_f64, 1e-4);
    for rate_z in [0.0, 3.0, -3.0] {
        let (level, trim) = trimmed(&jet, speed, DVec2::X, 0.0);
        let air = Gust { rate_z, ..steady(4.0, 0.0) };
        let command = Command { climb, ..trim };
        let start = State { climb, ..level };
        let end = step(&jet, &start, &command, &air, dt);
        // Closed form, Newton's first law: at first the jet goes on as it did, and the air is what moves.
        near(end.heave / dt, rate_z, 5e-3);
        near((end.height - start.height) / dt, speed * climb.sin(), 1e-3);
        near((end.airspeed - speed) / dt, -G0 * climb.sin(), 1e-3);
        // Closed form: what it has not taken on dies away with the time constant 1 / (k V); after many it is that of a
        // steady gain, rate_z / (k V), and the jet gains upward speed as the air does.
        let mut state = start;
        for _ in 0..1000 {
            state = step(&jet, &State { airspeed: speed, ..state }, &command, &air, 0.002);
        }
        near(state.heave, rate_z / (jet.heave * speed), 1e-3);
    }
}

#[test]
fn a_constant_bank_drifts_by_the_wind_times_the_time() {
    // A pack so large that its voltage does not fall: 40 m/s takes nearly full throttle.
    let jet = JetNumbers { charge: 1.0, pack: 1e12, ..demo_jet() }.ready();
    for (speed, bank, wind) in [(24.0, 35.0, 8.0), (25.0, 30.0, 10.0), (40.0, -20.0, 3.0)] {
        let bank = f64::to_radians(bank);
        let turn_s = TAU / rate(speed, bank.abs());
        let end = hold(&jet, trimmed(&jet, speed, DVec2::Y, bank), &steady(0.0, -wind), turn_s, 0.02);
        // Closed form: after a whole turn, the wind times the time.
        near(end.y, -wind * turn_s, 1e-6 * wind * turn_s);
        near(end.x, 0.0, 1e-6 * wind * turn_s);
    }
}

#[track_caller]
fn same_margins(one: &Scenario, other: &Scenario) {
    let (one, other) = (flown(one).1, flown(other).1);
    assert_eq!(one.rows.len(), other.rows.len());
    assert_eq!(one.ending, other.ending);
    near(one.end_s, other.end_s, 1e-9);
    for (one, other) in one.rows.iter().zip(&other.rows) {
        assert_eq!(
            (one.limit, &one.name, one.verdict, one.stretch),
            (other.limit, &other.name, other.verdict, other.stretch)
        );
        assert!((one.margin - other.margin).abs() <= 1e-6, "{}: {} or {}", one.name, one.margin, other.margin);
    }
    for (one, other) in [
        (one.figures.furthest_m, other.figures.furthest_m),
        (one.figures.joining_overshoot_m, other.figures.joining_overshoot_m),
        (one.figures.lap_s, other.figures.lap_s),
        (one.figures.home_s, other.figures.home_s),
    ] {
        assert_eq!(one.is_some(), other.is_some());
        near(one.unwrap_or_default(), other.unwrap_or_default(), 1e-6);
    }
}

/// Shipped fields on flat ground that are written in one piece, each lost in a bank to the right.
fn files() -> Vec<ScenarioFile> {
    let flat = crate::support::shipped().into_iter().filter(|scenario| scenario.field.ground.is_flat());
    let mut files: Vec<ScenarioFile> = flat.map(|scenario| scenario.file).filter(|file| file.field.is_some()).collect();
    assert!(files.len() >= 2);
    for file in &mut files {
        file.loss.bank = Angle::new(0.3);
        file.loss.height = Length::new(55.0);
    }
    files
}

#[test]
fn a_turned_scenario_gives_the_same_margins() {
    for file in files() {
        let plain = moved(file.clone(), |at| at, |deg| deg, false).unwrap();
        for deg in [90.0, 37.3, 201.0] {
            let (sin, cos) = f64::to_radians(-deg).sin_cos();
            let place = |[x, y]: Metres| [x * cos - y * sin, x * sin + y * cos];
            same_margins(&plain, &moved(file.clone(), place, |from| from + deg, false).unwrap());
        }
    }
}

#[test]
fn a_mirrored_scenario_gives_the_same_margins() {
    for file in files() {
        let plain = moved(file.clone(), |at| at, |deg| deg, false).unwrap();
        same_margins(&plain, &moved(file, |[x, y]| [-x, y], |deg| -deg, true).unwrap());
    }
}
