//! What the step makes of a jet held by hand, where the end of the flight is known in closed form.

use std::f64::consts::TAU;

use glam::DVec2;

use crate::jet::turn::rate;
use crate::jet::{Command, Gust, JetNumbers, State, step};
use crate::units::G0;
use crate::verify::by_hand::{agile, hold, jet, steady, trimmed};
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines) {
    trochoid(lines);
    legs(lines);
    level(lines);
    climb(lines);
    shear(lines);
    glide(lines);
    what_the_sheet_says(lines);
}

fn trochoid(lines: &mut Lines) {
    let (jet, bank) = (agile(), 30.0_f64.to_radians());
    let source = "closed form: x = (V/w) sin wt + W t, y = (V/w)(1 - cos wt), w = g tan(bank) / V";
    for (part, seconds, x, y) in
        [("a quarter", 6.935_852, 179.746_0, 110.387_5), ("half", 13.871_705, 138.717_0, 220.775_0)]
    {
        // To the left, the nose downwind to begin with.
        let end = hold(&jet, trimmed(&jet, 25.0, DVec2::X, -bank), &steady(10.0, 0.0), seconds, 0.01);
        let name = |way| format!("{way} after {part} of a turn, 25 m/s, 30 deg, in a wind of 10 m/s");
        lines.near(&name("way downwind"), end.x, (x, 2e-4), "m", source);
        lines.near(&name("way across it"), end.y, (y, 2e-4), "m", source);
    }
    let turn_s = TAU / rate(25.0, bank);
    let end = hold(&jet, trimmed(&jet, 25.0, DVec2::X, bank), &steady(10.0, 0.0), turn_s, 0.02);
    let source = "closed form: the wind times the time";
    lines.near("drift in one whole turn, 25 m/s, 30 deg, wind 10 m/s", end.x, (277.434, 0.000_51), "m", source);
}

fn legs(lines: &mut Lines) {
    let jet = agile();
    let source = "closed form: 600 m over the speed over the ground, at 25 m/s in a wind of 10 m/s";
    let crab = 0.4_f64.asin();
    let across = DVec2::new(crab.sin(), crab.cos());
    for (way, nose, (x, y), expected) in [
        ("against the wind", DVec2::Y, (0.0, -10.0), 40.000),
        ("with it", DVec2::Y, (0.0, 10.0), 17.143),
        ("across it", across, (-10.0, 0.0), 26.186),
    ] {
        let end = hold(&jet, trimmed(&jet, 25.0, nose, 0.0), &steady(x, y), 1.0, 0.05);
        let took = 600.0 / end.x.hypot(end.y);
        lines.near(&format!("600 m {way}"), took, (expected, 0.000_51), "s", source);
    }
}

fn level(lines: &mut Lines) {
    let jet = jet();
    let source = "closed form: momentum theory, T (v + V) / 2 over the efficiency, times the time";
    for speed in [18.0, 24.0, 32.0] {
        let (start, command) = trimmed(&jet, speed, DVec2::Y, 0.0);
        let end = hold(&jet, (start, command), &steady(4.0, 9.0), 60.0, 0.1);
        // The efflux from T = rho A v (v - V), and the share that is lost below the full one.
        let flow = jet.density * jet.nozzle;
        let efflux = f64::midpoint(speed, (speed * speed + 4.0 * command.thrust / flow).sqrt());
        let lost = 1.0 + jet.part_throttle_loss * (jet.efflux_full / efflux - 1.0);
        let power = command.thrust * f64::midpoint(efflux, speed) / jet.efficiency * lost + jet.avionics;
        lines.close(&format!("energy of a minute level at {speed} m/s"), end.energy, (60.0 * power, 1e-6), "J", source);
    }
}

fn climb(lines: &mut Lines) {
    let jet = agile();
    let (speed, climb) = (22.0, 0.15_f64);
    let (level, trim) = trimmed(&jet, speed, DVec2::Y, 0.0);
    // Level lift for a climbing jet is the weight times the cosine.
    let pressure = 0.5 * jet.density * speed * speed * jet.area;
    let lift = jet.mass * G0 * climb.cos() / pressure;
    let drag = pressure * (jet.drag_zero + jet.drag_lift * lift * lift);
    let thrust = drag + jet.mass * G0 * climb.sin();
    let start = State { climb, thrust, ..level };
    let end = hold(&jet, (start, Command { climb, thrust, ..trim }), &steady(-5.0, 0.0), 30.0, 0.05);
    let source = "closed form: thrust is drag and the weight along the path";
    let gained = end.height - start.height;
    lines.close(
        "height gained in 30 s of steady climb at 22 m/s",
        gained,
        (speed * climb.sin() * 30.0, 1e-6),
        "m",
        source,
    );
    lines.near("airspeed at its end", end.airspeed, (speed, 1e-5), "m/s", source);
}

fn shear(lines: &mut Lines) {
    let jet = JetNumbers { drag_zero: 0.0, drag_lift: 0.0, ..agile() };
    let (speed, climb, grows, dt) = (22.0, 0.2_f64, 0.1, 1e-4);
    let source =
        "closed form: weight along the path, and the wind gained on the way up as far as it lies along the path";
    for (way, nose) in [("behind", DVec2::X), ("ahead", -DVec2::X), ("abeam", DVec2::Y)] {
        let (level, trim) = trimmed(&jet, speed, nose, 0.0);
        let air = Gust { shear_x: grows, height: level.height, ..steady(4.0, 0.0) };
        let end = step(&jet, &State { climb, ..level }, &Command { climb, ..trim }, &air, dt);
        let expected = -G0 * climb.sin() - grows * speed * climb.sin() * climb.cos() * nose.x;
        let name = format!("change of airspeed of a climb at 22 m/s into more wind {way}");
        lines.near(&name, (end.airspeed - speed) / dt, (expected, 1e-3), "m/s^2", source);
    }
}

fn glide(lines: &mut Lines) {
    let jet = jet();
    let best = 0.5 / ((jet.drag_zero + jet.drag_stopped) * jet.drag_lift).sqrt();
    let source = "closed form of the parabolic polar: half of 1 / sqrt(CD0 k), fan stopped";
    lines.close("best glide ratio", jet.glide_ratio(), (best, 1e-9), "", source);
    let angle = (1.0 / best).atan();
    let (level, trim) = trimmed(&jet, jet.glide_speed(), DVec2::X, 0.0);
    let start = State { climb: -angle, thrust: 0.0, height: 1000.0, ..level };
    let command = Command { climb: -angle, thrust: 0.0, stopped: 1.0, ..trim };
    for wind in [0.0, -8.0] {
        let end = hold(&jet, (start, command), &steady(wind, 0.0), 60.0, 0.05);
        let expected = best * (start.height - end.height) + wind * 60.0;
        let name = format!("a minute's glide in a wind of {wind} m/s along it");
        let source = "closed form: the ratio times the height lost, and the wind times the time";
        lines.close(&name, end.x, (expected, 1e-3), "m", source);
    }
}

fn what_the_sheet_says(lines: &mut Lines) {
    let jet = jet();
    let stall = jet.stall_speed(1.0);
    let lift = 0.5 * jet.density * stall * stall * jet.area * jet.lift_max;
    lines.close(
        "lift of the wing at the stall",
        lift,
        (jet.mass * G0, 1e-9),
        "N",
        "closed form: it carries the weight",
    );
    let top = jet.top_speed();
    let thrust = jet.density * jet.nozzle * jet.efflux_full * (jet.efflux_full - top);
    let source = "closed form: at the top speed thrust is drag";
    lines.close("thrust at the top speed", thrust, (jet.drag(top, 1.0, 0.0), 1e-6), "N", source);
    let spare = jet.thrust_full(22.0) - jet.drag(22.0, 1.0, 0.0);
    let climb = jet.climb_angle(22.0).sin();
    let source = "closed form: the thrust left over carries the weight along the path";
    lines.close("sine of the steepest climb at 22 m/s", climb, (spare / (jet.mass * G0), 1e-9), "", source);
}
