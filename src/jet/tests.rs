//! What the step asks of the wing: in a turn, in a climb, in a vertical gust.

use std::f64::consts::TAU;

use super::{Attitude, Command, Gust, JetNumbers, JetSheet, Lags, Loads, State, advance};
use crate::units::G0;

const CALM: Gust<f64> =
    Gust { x: 0.0, y: 0.0, z: 0.0, shear_x: 0.0, shear_y: 0.0, rate_x: 0.0, rate_y: 0.0, rate_z: 0.0, height: 0.0 };

/// 2.1 kg on 0.228 m^2 with a span of 1.1 m and a largest lift coefficient of 1.
fn jet() -> JetNumbers<f64> {
    let value = |text: &str| serde_json::json!({ "value": text });
    let plain = |number: f64| serde_json::json!({ "value": number });
    let sheet = serde_json::json!({
        "name": "by hand", "mass": value("2.1 kg"), "wing_area": value("0.228 m2"), "span": value("1.1 m"),
        "lift_max": plain(1.0), "drag_zero_lift": plain(0.045), "drag_fan_stopped": plain(0.02),
        "span_efficiency": plain(0.75), "nozzle_area": value("0.0047 m2"), "full_power": value("1900 W"),
        "fan_efficiency": value("50 %"), "fan_lag": value("0.4 s"), "avionics_power": value("12 W"), "cells": 6,
        "capacity": value("5000 mAh"), "maximum_bank": value("60 deg"), "roll_lag": value("0.5 s"),
        "roll_rate": value("90 deg/s"), "climb_limit": value("15 deg"), "return_speed": value("22 m/s"),
    });
    let sheet: JetSheet = serde_json::from_value(sheet).unwrap();
    JetNumbers::new(&sheet, 1.225)
}

/// In trim at an airspeed, level, in a bank of some degrees that is held.
fn turning(jet: &JetNumbers<f64>, airspeed: f64, bank_deg: f64) -> (State<f64>, Command<f64>) {
    let bank = bank_deg.to_radians();
    let thrust = jet.drag(airspeed, 1.0 / bank.cos(), 0.0);
    let (zero, one) = (0.0, 1.0);
    let state = State {
        x: zero,
        y: zero,
        height: 100.0,
        airspeed,
        nose_x: zero,
        nose_y: one,
        climb: zero,
        bank,
        thrust,
        energy: zero,
        heave: zero,
    };
    (state, Command { bank, climb: zero, thrust, stopped: zero })
}

fn stepped(
    jet: &JetNumbers<f64>,
    state: &State<f64>,
    command: &Command<f64>,
    air: &Gust<f64>,
    dt: f64,
) -> (State<f64>, Loads<f64>) {
    advance(jet, &Lags::of(jet, dt), state, &Attitude::of(state), command, air, dt)
}

/// Whether a jet is below its stall speed at the load wanted, and at the load flown.
fn stalled(jet: &JetNumbers<f64>, state: &State<f64>, command: &Command<f64>) -> [bool; 2] {
    let loads = stepped(jet, state, command, &CALM, 0.1).1;
    [loads.wanted, loads.flown].map(|load| state.airspeed < jet.stall_speed(load) * (1.0 - 1e-9))
}

#[test]
fn a_stalled_wing_is_seen_at_the_load_that_was_wanted() {
    let jet = jet();
    // Closed form: 12.1 m/s in level flight, over the root of the cosine of 50 degrees, is 15.1 m/s.
    let (state, command) = turning(&jet, 15.0, 50.0);
    assert_eq!(stalled(&jet, &state, &command), [true, false]);
    let (state, command) = turning(&jet, 15.3, 50.0);
    assert_eq!(stalled(&jet, &state, &command), [false, false]);
    // 13 m/s flies level; pulled into 15 degrees of climb it wants 1.7 g, which 15.8 m/s carry.
    let (state, command) = turning(&jet, 13.0, 0.0);
    assert_eq!(stalled(&jet, &state, &command), [false, false]);
    let climb = Command { climb: 15.0_f64.to_radians(), ..command };
    assert_eq!(stalled(&jet, &state, &climb), [true, false]);
}

/// Most load that a gust adds at an airspeed: `top` m/s upward, 25 chords long, one minus cosine; the jet `mass` kg.
fn gust_load(mass: f64, airspeed: f64, top: f64) -> f64 {
    let jet = JetNumbers { mass, lift_max: 50.0, ..jet() }.ready();
    let chord = jet.area / 1.1;
    let (seconds, parts) = (25.0 * chord / airspeed, 400_u32);
    let dt = seconds / f64::from(parts);
    let motion = |part: u32| top / 2.0 * (1.0 - (TAU * f64::from(part) / f64::from(parts)).cos());
    let (mut state, command) = turning(&jet, airspeed, 0.0);
    let mut most = 0.0_f64;
    for part in 0..parts {
        let rate_z = (motion(part + 1) - motion(part)) / dt;
        let (next, loads) = stepped(&jet, &state, &command, &Gust { z: motion(part), rate_z, ..CALM }, dt);
        most = most.max(loads.wanted - 1.0);
        state = next;
    }
    most
}

#[test]
fn a_gust_loads_the_wing_as_the_certification_rule_says() {
    // 14 CFR 23.341(c), text seen: 0.88 mu / (5.3 + mu) of rho V a U / (2 W / S), with mu = 2 (W / S) / (rho c a g).
    let (area, span): (f64, f64) = (0.228, 1.1);
    let aspect = span * span / area;
    let slope = TAU * aspect / (aspect + 2.0);
    for (mass, airspeed, top) in [(1.0, 18.0, 1.0), (2.1, 22.0, 1.0), (2.1, 35.0, 2.0), (5.0, 30.0, 1.5)] {
        let loading = mass * G0 / area;
        let ratio = 2.0 * loading / (1.225 * (area / span) * slope * G0);
        let factor = 0.88 * ratio / (5.3 + ratio);
        let expected = factor * 1.225 * airspeed * slope * top / (2.0 * loading);
        approx::assert_relative_eq!(gust_load(mass, airspeed, top), expected, max_relative = 0.04);
    }
    // By hand for the demo at 22 m/s: mu 15.9, factor 0.66, so that 1 m/s adds 0.45 g.
    approx::assert_abs_diff_eq!(gust_load(2.1, 22.0, 1.0), 0.45, epsilon = 0.02);
}

#[test]
fn a_gust_that_stays_carries_the_jet_with_it() {
    let jet = jet();
    let (mut state, command) = turning(&jet, 22.0, 0.0);
    let start = state.height;
    // Up to 1 m/s within a tenth of a second, then steady.
    let rising = Gust { rate_z: 10.0, ..CALM };
    state = stepped(&jet, &state, &command, &rising, 0.1).0;
    let steady = Gust { z: 1.0, ..CALM };
    for _ in 0..100 {
        state = stepped(&jet, &state, &command, &steady, 0.1).0;
    }
    approx::assert_abs_diff_eq!(state.heave, 0.0, epsilon = 1e-6);
    // Closed form: the height lost to what it never took on is the time constant 1 / (k V) of 1 m/s; half the rise is lost too.
    approx::assert_abs_diff_eq!(state.height - start, 10.05 - 1.0 / (jet.heave * 22.0), epsilon = 0.05);
}
