//! Equations that can be solved on paper: turns and circles in wind, and what a jet held by hand does.

mod flown;
mod laws;

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use super::line::{Group, Line, Lines};
use crate::jet::turn::{blown_wide, lap_time, on_circle, radius, rate, smallest_radius, wind_limit};
use crate::units::G0;

const CLOSED: &str = "closed form, worked out on paper with g = 9.80665 m/s^2";

pub(super) fn lines() -> Vec<Line> {
    let mut lines = Lines::of(Group::ClosedForms);
    turns(&mut lines);
    circles(&mut lines);
    laps(&mut lines);
    flown::lines(&mut lines);
    laws::lines(&mut lines);
    lines.done()
}

fn turns(lines: &mut Lines) {
    let bank = 30.0_f64.to_radians();
    lines.near("radius of a turn at 25 m/s and 30 deg of bank", radius(25.0, bank), (110.387_52, 5.1e-6), "m", CLOSED);
    lines.near("its rate", rate(25.0, bank), (0.226_474_88, 5.1e-9), "rad/s", CLOSED);
    lines.near("radius at 40 m/s and 45 deg", radius(40.0, 45.0_f64.to_radians()), (163.15, 0.005_1), "m", CLOSED);
    for (airspeed, wind, bank, expected) in
        [(25.0, 10.0, 30.0, 216.36), (20.0, 8.0, 30.0, 138.47), (30.0, 10.0, 45.0, 163.15)]
    {
        let name = format!("smallest circle at {airspeed} m/s in a wind of {wind} m/s, {bank} deg of bank");
        lines.near(&name, smallest_radius(airspeed, wind, f64::to_radians(bank)), (expected, 0.005_1), "m", CLOSED);
    }
    let most = wind_limit(25.0, 192.34, bank);
    lines.near("most wind in which 30 deg of bank hold 192.34 m at 25 m/s", most, (8.0, 0.001), "m/s", CLOSED);
}

fn circles(lines: &mut Lines) {
    for (where_, off, expected) in
        [("with the wind behind", 0.0, 57.363), ("across it", FRAC_PI_2, 36.135), ("against it", PI, 16.003)]
    {
        let bank = on_circle(25.0, 10.0, 80.0, off).1.to_degrees();
        let name = format!("bank {where_} on a circle of 80 m, 25 m/s, wind 10 m/s");
        lines.near(&name, bank, (expected, 0.000_51), "deg", CLOSED);
    }
    let wide = |wind, radius| blown_wide(24.0, wind, radius, 35.0_f64.to_radians()).unwrap_or(f64::NAN);
    let source = "closed form: the trochoid at the maximum bank from where it is reached";
    for (wind, radius, expected) in [(8.0, 120.0, 149.5), (4.0, 80.0, 134.0), (12.0, 60.0, 260.9)] {
        let name = format!("how far a circle of {radius} m is blown wide, 24 m/s, 35 deg, wind {wind} m/s");
        lines.near(&name, wide(wind, radius), (expected, 0.051), "m", source);
    }
    lines.near("the same of a circle that the bank holds", wide(8.0, 190.0), (190.0, 1e-9), "m", source);
}

/// Time round a circle, by adding up the way over the ground speed; of a function that repeats itself equal steps are exact
/// in the end.
fn added_up(airspeed: f64, wind: f64, radius: f64) -> f64 {
    const STEPS: u32 = 4000;
    let part = TAU / f64::from(STEPS);
    let time = |step: u32| {
        let (sin, cos) = (part * f64::from(step)).sin_cos();
        radius * part / (wind * cos + (airspeed.powi(2) - (wind * sin).powi(2)).sqrt())
    };
    (0..STEPS).map(time).sum()
}

fn laps(lines: &mut Lines) {
    let lap = |airspeed, wind, radius| lap_time(airspeed, wind, radius).unwrap_or(f64::NAN);
    lines.near("lap of 80 m at 25 m/s in still air", lap(25.0, 0.0, 80.0), (20.1062, 5.1e-5), "s", CLOSED);
    lines.near("the same in a wind of 10 m/s", lap(25.0, 10.0, 80.0), (22.9477, 5.1e-5), "s", CLOSED);
    for (airspeed, wind, radius) in [(24.0, 8.0, 120.0), (24.0, 18.0, 120.0), (30.0, 29.0, 200.0)] {
        let name = format!("lap of {radius} m at {airspeed} m/s in a wind of {wind} m/s");
        let source = "quadrature of the way over the ground speed, in 4000 steps";
        let expected = added_up(airspeed, wind, radius);
        lines.close(&name, lap(airspeed, wind, radius), (expected, 1e-9), "s", source);
    }
    let weight = smallest_radius(25.0, 5.0, 0.5) * G0 * 0.5_f64.tan();
    lines.near("(V + W)^2 given back by the smallest circle, V 25 and W 5", weight, (900.0, 1e-9), "m^2/s^2", CLOSED);
}
