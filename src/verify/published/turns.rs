//! Turns by the handbooks and manuals of aviation: radius, rate, load, stall, and the wind triangle.

use std::f64::consts::PI;

use glam::DVec2;

use super::one;
use crate::jet::turn::{load, radius, rate, smallest_radius};
use crate::units::{Bearing, Length, Speed};
use crate::verify::by_hand::{agile, hold, jet, steady, trimmed};
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines) {
    manual(lines);
    handbook(lines);
    loads(lines);
    triangle(lines);
}

/// The manual of instrument procedures.
fn manual(lines: &mut Lines) {
    let level = 45.0_f64.to_radians();
    let [knot, kmh] = ["kt", "km/h"].map(one::<Speed>);
    let [mile, km] = ["NM", "km"].map(one::<Length>);
    let source = "ICAO Doc 8168 Vol II, Part I, Sect 2, Ch 3, 3.1.2.2, read there";
    let turning = |speed| rate(speed, level).to_degrees() * PI;
    lines.near("constant of the rate of turn in km/h", turning(kmh), (6355.0, 0.5), "", source);
    lines.near("constant of the rate of turn in knots", turning(knot), (3431.0, 0.5), "", source);
    lines.near("gravity in nautical units", mile / radius(knot, level), (68_625.0, 0.5), "NM/h^2", source);
    let source = "ICAO Doc 8168 Vol II, Part III, Sect 3, Ch 1, read there";
    lines.near("constant of the radius in km and km/h", km / radius(kmh, level), (127_094.0, 0.5), "", source);
    for (airspeed, wind, bank) in [(24.0, 8.0, 35.0), (40.0, 12.0, 20.0)] {
        let bank = f64::to_radians(bank);
        let expected = 1000.0 * ((airspeed + wind) * 3.6_f64).powi(2) / (127_094.0 * bank.tan());
        let name = format!("smallest circle in a wind of {wind} m/s at {airspeed} m/s");
        lines.close(&name, smallest_radius(airspeed, wind, bank), (expected, 1e-5), "m", source);
    }
    let source = "ICAO Annex 11 Att. A 7.4, read there; rounded in print";
    let bank = 20.0_f64.to_radians();
    lines.close(
        "radius at 750 kt over the ground, 20 deg",
        radius(750.0 * knot, bank) / mile,
        (22.51, 0.001),
        "NM",
        source,
    );
    let found = smallest_radius(400.0 * knot, 200.0 * knot, bank) / mile;
    lines.close("radius at 400 kt with 200 kt behind, 20 deg", found, (14.45, 0.003), "NM", source);
}

fn handbook(lines: &mut Lines) {
    let (knot, foot, bank) = (one::<Speed>("kt"), one::<Length>("ft"), 30.0_f64.to_radians());
    let source = "FAA-H-8083-25 ch. 5, as quoted; its constant is rounded, hence 0.6 %";
    lines.close("radius at 120 kt and 30 deg", radius(120.0 * knot, bank) / foot, (2215.0, 0.006), "ft", source);
    let turning = rate(120.0 * knot, bank).to_degrees();
    lines.close("rate at 120 kt and 30 deg", turning, (5.25, 0.006), "deg/s", source);
}

fn loads(lines: &mut Lines) {
    let at = |deg: f64| load(deg.to_radians());
    lines.near("load in a turn at 60 deg", at(60.0), (2.0, 1e-12), "g", "FAA handbooks, as quoted; exact");
    lines.near("load in a turn at 80 deg", at(80.0), (5.76, 0.005), "g", "FAA-H-8083-25 ch. 5, as quoted");
    let (jet, source) = (jet(), "FAA AC 61-21A ch. 17, read there: 50 kt become 100 kt at 4 g");
    let stall = 50.0 * jet.stall_speed(4.0) / jet.stall_speed(1.0);
    lines.near("stall speed at 4 g of what stalls at 50 kt", stall, (100.0, 1e-9), "kt", source);
}

/// Made good over the ground by a jet held on a heading: degrees, and in the unit of the speeds.
fn made_good(unit: f64, [heading, airspeed]: [f64; 2], [from, wind]: [f64; 2]) -> DVec2 {
    let jet = agile();
    let to = -Bearing::from_deg(from).unit() * wind * unit;
    let trim = trimmed(&jet, airspeed * unit, Bearing::from_deg(heading).unit(), 0.0);
    let end = hold(&jet, trim, &steady(to.x, to.y), 1.0, 0.05);
    DVec2::new(end.x, end.y) / unit
}

fn triangle(lines: &mut Lines) {
    for (unit, flown, wind, [course, ground], within, source) in [
        (
            "kt",
            [76.0, 120.0],
            [45.0, 40.0],
            [90.0, 88.0],
            1.0,
            "FAA-H-8083-25C figs 16-19 to 16-22, as quoted; 1 kt and 1 deg",
        ),
        (
            "mph",
            [315.0, 150.0],
            [45.0, 30.0],
            [304.0, 153.0],
            0.5,
            "US War Dept, Mathematics for Air Crew Trainees, p. 75 ex. 2, read there; whole numbers",
        ),
    ] {
        let made = made_good(one::<Speed>(unit), flown, wind);
        let [heading, airspeed] = flown;
        let told = format!("of {airspeed} {unit} on {heading} deg, wind {:.0} deg at {:.0}", wind[0], wind[1]);
        lines.near(&format!("course {told}"), Bearing::of(made).deg(), (course, within), "deg", source);
        lines.near(&format!("speed over the ground {told}"), made.length(), (ground, within), unit, source);
    }
}
