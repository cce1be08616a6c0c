//! Circles in wind, by closed form, by the books' own functions and flown: bank, lap time, dwell, hodograph, and how far
//! outside the circle the maximum bank lets the jet be blown wide (V1 to V4).

use std::f64::consts::{FRAC_PI_2, PI};

use peewit::jet::turn::{blown_wide, lap_time, on_circle, smallest_radius};
use peewit::margins::Margins;
use peewit::recovery::Gain;
use peewit::run::{Run, ScenarioFile};
use peewit::units::G0;

use crate::support::{at_speed, brisk, circle, close, eastward, flown, maximum_bank, near, open};

#[test]
fn bank_at_the_ends_of_the_wind() {
    // Closed form: tan bank is (V + W)^2 / (g R) with the wind behind and (V - W)^2 / (g R) against it.
    for (airspeed, wind, radius) in [(24.0, 8.0, 120.0), (24.0, 0.0, 60.0), (25.0, 20.0, 300.0), (40.0, 12.0, 255.0)] {
        let tangent = |off: f64| on_circle(airspeed, wind, radius, off).1.tan();
        close(tangent(0.0), (airspeed + wind).powi(2) / (G0 * radius), 1e-9);
        close(tangent(PI), (airspeed - wind).powi(2) / (G0 * radius), 1e-9);
    }
}

#[test]
fn smallest_radius_is_that_of_the_procedure_manual() {
    // ICAO Doc 8168 Vol II, Part III Sect 3 Ch 1, p. III-3-1-5, read there: r[km] = (V + Vw)^2 / (127094 tan a), km/h.
    for (airspeed, wind, bank) in [(24.0, 8.0, 35.0), (40.0, 12.0, 20.0), (15.0, 0.0, 45.0)] {
        let bank = f64::to_radians(bank);
        let manual = ((airspeed + wind) * 3.6_f64).powi(2) / (127_094.0 * bank.tan());
        close(smallest_radius(airspeed, wind, bank), 1000.0 * manual, 1e-5);
    }
}

#[test]
fn lap_time_is_the_elliptic_integral() {
    // Closed form for 24 m/s round 120 m, and a library's integral of the second kind for more.
    for (wind, expected) in [(0.0, 31.416), (8.0, 34.340), (12.0, 39.132), (18.0, 60.273)] {
        near(lap_time(24.0, wind, 120.0).unwrap(), expected, 0.000_51);
    }
    for ratio in [0.0, 0.1, 1.0 / 3.0, 0.5, 0.7, 0.9, 0.99] {
        let (airspeed, radius) = (25.0, 80.0);
        let integral: f64 = ellip::ellipe(ratio * ratio).unwrap();
        let expected = 4.0 * radius * integral / (airspeed * (1.0 - ratio * ratio));
        close(lap_time(airspeed, airspeed * ratio, radius).unwrap(), expected, 1e-12);
        // Quadrature of the way over the ground speed; for a periodic function equal steps are exact in the end.
        let steps = 4000;
        let lap: f64 = (0..steps)
            .map(|i| 2.0 * PI * f64::from(i) / f64::from(steps))
            .map(|off| 2.0 * PI * radius / f64::from(steps) / on_circle(airspeed, airspeed * ratio, radius, off).0)
            .sum();
        close(lap_time(airspeed, airspeed * ratio, radius).unwrap(), lap, 1e-9);
    }
}

#[test]
fn most_of_a_lap_is_spent_against_the_wind() {
    // Closed form, whole per cents.
    for (ratio, percent) in [(0.25, 58.0), (1.0 / 3.0, 61.0), (0.5, 67.0), (0.7, 76.0)] {
        let steps = 100_000;
        let slow =
            |i: i32| 1.0 / on_circle(1.0, ratio, 1.0, FRAC_PI_2 + PI * (f64::from(i) + 0.5) / f64::from(steps)).0;
        let half = PI / f64::from(steps) * (0..steps).map(slow).sum::<f64>();
        near(100.0 * half / lap_time(1.0, ratio, 1.0).unwrap(), percent, 0.51);
    }
}

/// The ideal tracker: a jet quick to roll at a steady 24 m/s, a law firm enough to be back on the circle by the time the
/// limit is reached again, in a wind that blows to the east.
fn tracked(wind: f64, radius: f64, edit: impl FnOnce(&mut ScenarioFile)) -> (Run, Margins) {
    let scenario = open(|file| {
        brisk(file);
        at_speed(file, 24.0);
        eastward(file, wind);
        maximum_bank(file, 35.0);
        circle(file, radius, 3.0);
        file.loss.at_m = [-400.0, 0.0];
        file.recovery.gain = Gain::Sharp;
        edit(file);
    });
    flown(&scenario)
}

#[test]
fn blown_wide_where_the_maximum_bank_can_not_hold_the_circle() {
    // Closed form: the trochoid at the limit of 35 deg from where it is reached, 24 m/s.
    let radii = [60.0, 80.0, 100.0, 120.0, 150.0, 190.0];
    let table = [
        (4.0, [151.2, 134.0, 115.5, 120.0, 150.0, 190.0]),
        (8.0, [204.6, 185.0, 165.5, 149.5, 150.0, 190.0]),
        (12.0, [260.9, 241.0, 221.4, 203.5, 183.4, 190.0]),
    ];
    for (wind, furthest) in table {
        for (radius, expected) in radii.into_iter().zip(furthest) {
            near(blown_wide(24.0, wind, radius, 35.0_f64.to_radians()).unwrap(), expected, 0.051);
            // At 60 m in 4 m/s the path never gets back onto the circle, so that the trochoid starts elsewhere.
            if (wind, radius) == (4.0, 60.0) {
                continue;
            }
            let (run, margins) = tracked(wind, radius, |_| ());
            assert!(run.trace.airspeed_mps.iter().all(|speed| (speed - 24.0).abs() < 0.05));
            near(margins.figures.furthest_m.unwrap(), expected, 0.5);
        }
    }
}

#[test]
fn a_flown_lap_takes_as_long_as_the_integral_says() {
    // Closed form. The path lies up to 0.15 m outside the circle, a thousandth of it, because the bank comes a little
    // late; the lap takes that much longer.
    for (wind, radius) in [(0.0, 120.0), (4.0, 120.0), (8.0, 190.0), (12.0, 200.0)] {
        let (_, margins) = tracked(wind, radius, |_| ());
        assert_eq!(margins.figures.saturated_share, Some(0.0));
        close(margins.figures.lap_s.unwrap(), lap_time(24.0, wind, radius).unwrap(), 0.002);
    }
}

/// Least-squares circle through points, by Kasa's linear equations: centre and radius.
fn fit(points: &[[f64; 2]]) -> ([f64; 2], f64) {
    #[allow(clippy::cast_precision_loss, reason = "a few thousand")]
    let count = points.len() as f64;
    let mean = |part: &dyn Fn(&[f64; 2]) -> f64| points.iter().map(part).sum::<f64>() / count;
    let middle = [mean(&|p| p[0]), mean(&|p| p[1])];
    let (u, v) = (|p: &[f64; 2]| p[0] - middle[0], |p: &[f64; 2]| p[1] - middle[1]);
    let square = |p: &[f64; 2]| u(p).powi(2) + v(p).powi(2);
    let (uu, vv, uv) = (mean(&|p| u(p).powi(2)), mean(&|p| v(p).powi(2)), mean(&|p| u(p) * v(p)));
    let (a, b) = (mean(&|p| u(p) * square(p)) / 2.0, mean(&|p| v(p) * square(p)) / 2.0);
    let determinant = uu * vv - uv.powi(2);
    let centre = [(a * vv - b * uv) / determinant, (b * uu - a * uv) / determinant];
    ([centre[0] + middle[0], centre[1] + middle[1]], (centre[0].powi(2) + centre[1].powi(2) + uu + vv).sqrt())
}

#[test]
fn ground_velocities_of_a_circle_lie_on_a_circle_about_the_wind() {
    // Unit circle through four points: README of the circle-fit package, read there; exact.
    assert_eq!(fit(&[[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]]), ([0.0, 0.0], 1.0));
    // Closed form: the centre is the wind, the radius the airspeed. Velocities are taken over a fiftieth of a second, in
    // which the path bends by a hundredth of a radian: a few parts in a hundred thousand.
    for (wind, radius) in [(4.0, 120.0), (8.0, 60.0), (12.0, 190.0)] {
        let (run, _) = tracked(wind, radius, |_| ());
        let trace = &run.trace;
        let half = trace.len() / 2;
        let velocity = |i: usize| (trace.point(i + 1) - trace.point(i)) / trace.step_s;
        let velocities: Vec<_> = (half..trace.len() - 1).map(|i| velocity(i).to_array()).collect();
        let (centre, airspeed) = fit(&velocities);
        near(centre[0], wind, 0.01);
        near(centre[1], 0.0, 0.01);
        near(airspeed, 24.0, 0.02);
    }
}
