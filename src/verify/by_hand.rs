//! A jet held by hand in steady air: one command from start to end, so that the end is known in closed form.

use glam::DVec2;

use crate::jet::{Command, Gust, JetNumbers, State, step};
use crate::run::{Scenario, WindChoice, draw};

/// The jet of the built-in plan, with a pack that never sags.
pub fn jet() -> JetNumbers<f64> {
    JetNumbers { charge: 1.0, pack: 1e12, ..draw(&Scenario::demo(), 0, WindChoice::Mean).jet }.ready()
}

/// The same without lags, and strong enough for any speed.
pub fn agile() -> JetNumbers<f64> {
    JetNumbers { roll_lag: 0.0, roll_rate: 1e6, fan_lag: 0.0, efflux_full: 200.0, ..jet() }.ready()
}

/// Air that moves alike everywhere, always, m/s to the east and to the north.
pub fn steady(x: f64, y: f64) -> Gust<f64> {
    Gust { x, y, z: 0.0, shear_x: 0.0, shear_y: 0.0, rate_x: 0.0, rate_y: 0.0, rate_z: 0.0, height: 0.0 }
}

/// In trim at the datum, 100 m high: level, at an airspeed, nose along a unit vector, in a bank to the right in rad.
pub fn trimmed(jet: &JetNumbers<f64>, airspeed: f64, nose: DVec2, bank: f64) -> (State<f64>, Command<f64>) {
    let thrust = jet.drag(airspeed, 1.0 / bank.cos(), 0.0);
    let state = State {
        x: 0.0,
        y: 0.0,
        height: 100.0,
        airspeed,
        nose_x: nose.x,
        nose_y: nose.y,
        climb: 0.0,
        bank,
        thrust,
        energy: 0.0,
        heave: 0.0,
    };
    (state, Command { bank, climb: 0.0, thrust, stopped: 0.0 })
}

/// The state after some seconds of one command, in steps of about `dt`.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small positive count")]
pub fn hold(
    jet: &JetNumbers<f64>,
    (mut state, command): (State<f64>, Command<f64>),
    air: &Gust<f64>,
    seconds: f64,
    dt: f64,
) -> State<f64> {
    let steps = (seconds / dt).ceil() as u32;
    for _ in 0..steps {
        state = step(jet, &state, &command, air, seconds / f64::from(steps));
    }
    state
}
