//! Does the error of a step shrink as fast as the scheme promises (V8)?

use glam::DVec2;
use peewit::jet::{Command, State};

use crate::support::{demo_jet, hold, near, steady, trimmed};

/// A roll into a climbing turn with the thrust coming up, short of every limit, after 6 s.
fn flown(dt: f64) -> State<f64> {
    let jet = demo_jet();
    let (start, trim) = trimmed(&jet, 26.0, DVec2::X, 0.0);
    let command = Command { bank: 0.5, climb: 0.1, thrust: trim.thrust * 1.5, ..trim };
    hold(&jet, (start, command), &steady(6.0, -3.0), 6.0, dt)
}

#[test]
fn the_integrator_is_of_second_order() {
    let parts: [fn(&State<f64>) -> f64; 5] = [|s| s.x, |s| s.y, |s| s.height, |s| s.airspeed, |s| s.energy];
    let [coarse, middle, fine] = [0.1, 0.05, 0.025].map(flown);
    for part in parts {
        let (first, second) = (part(&coarse) - part(&middle), part(&middle) - part(&fine));
        // Far above rounding, or the ratio says nothing.
        assert!(second.abs() > 1e-10, "{second}");
        // Midpoint rule: the error falls with the square of the step, closed form; within 10 %.
        near((first / second).abs().log2(), 2.0, 0.2);
    }
}
