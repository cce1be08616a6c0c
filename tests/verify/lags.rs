//! Bank and thrust follow their commands at any lag, none included.

use glam::DVec2;
use peewit::jet::{Command, JetNumbers, step};
use peewit::run::Ending;
use peewit::units::{Angle, AngularRate, Quantity, Time};
use proptest::prelude::*;

use crate::support::{demo_jet, flown, near, open, shipped, steady, trimmed};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn bank_comes_to_its_command_in_time_and_never_passes_it(
        lag in prop_oneof![Just(0.0), 0.0..2.0_f64, 0.0..0.1_f64],
        rate_deg in 20.0..1000.0_f64,
        from_deg in -60.0..60.0_f64,
        to_deg in -60.0..60.0_f64,
        dt in 0.01..0.1_f64,
    ) {
        let jet = JetNumbers { roll_lag: lag, roll_rate: rate_deg.to_radians(), ..demo_jet() }.ready();
        let (start, trim) = trimmed(&jet, 30.0, DVec2::Y, from_deg.to_radians());
        let to = to_deg.to_radians();
        let command = Command { bank: to, ..trim };
        let off = (to - start.bank).abs();
        // Closed form: at the roll rate until the lag takes over, which is down to a thousandth after ln 1000 lags; a
        // step more for each, for commands are followed step by step.
        let seconds = off / jet.roll_rate + lag * 1000.0_f64.ln() + 2.0 * dt;
        let (mut state, mut time) = (start, 0.0);
        while time < seconds {
            let next = step(&jet, &state, &command, &steady(0.0, 0.0), dt);
            prop_assert!((to - next.bank).abs() <= (to - state.bank).abs() + 1e-12, "{} after {}", next.bank, state.bank);
            prop_assert!((to - next.bank) * (to - start.bank) >= -1e-9, "passed {to}: {}", next.bank);
            prop_assert!((next.bank - state.bank).abs() <= jet.roll_rate * dt * (1.0 + 1e-9));
            (state, time) = (next, time + dt);
        }
        prop_assert!((to - state.bank).abs() <= 1.001e-3 * off + 1e-9, "{} of {to} after {time}", state.bank);
        // It turns the way it then leans.
        let next = step(&jet, &state, &command, &steady(0.0, 0.0), dt);
        let right = state.nose_y * next.nose_x - state.nose_x * next.nose_y;
        prop_assert!(to.abs() < 0.02 || right * to > 0.0, "{right} with {to}");
    }
}

#[test]
fn a_lag_is_exact_at_any_step() {
    for lag in [0.05, 0.5, 2.0] {
        let jet = JetNumbers { roll_lag: lag, fan_lag: lag, roll_rate: 100.0, ..demo_jet() }.ready();
        let (start, trim) = trimmed(&jet, 22.0, DVec2::Y, 0.0);
        let command = Command { bank: 0.5, thrust: 1.2 * trim.thrust, ..trim };
        for dt in [0.1, 0.05, 0.01] {
            let next = step(&jet, &start, &command, &steady(0.0, 0.0), dt);
            // Closed form of a first-order lag.
            let left = f64::exp(-dt / lag);
            near(next.bank, 0.5 * (1.0 - left), 1e-9);
            near(next.thrust, trim.thrust * (1.2 - 0.2 * left), 1e-8);
        }
    }
}

#[test]
fn a_quick_roll_comes_home_from_a_banked_loss() {
    for lag in [0.0, 0.01, 0.05, 0.1, 0.5, 2.0] {
        let scenario = open(|file| {
            file.jet.roll_lag.value = Time::new(lag);
            file.jet.roll_rate.value = AngularRate::from_si(300.0_f64.to_radians());
            file.loss.bank = Angle::new(40.0_f64.to_radians());
        });
        let (run, margins) = flown(&scenario);
        assert_eq!(run.ending, Ending::TakenOver, "lag {lag} s");
        assert!(margins.figures.home_s.is_some_and(|home| home < 120.0), "lag {lag} s: {:?}", margins.figures.home_s);
        let furthest = (0..run.trace.len()).map(|at| run.trace.point(at).length()).fold(0.0, f64::max);
        assert!(furthest < 600.0, "lag {lag} s: {furthest} m");
    }
}

#[test]
fn every_scenario_that_ships_can_do_without_a_lag() {
    for scenario in shipped() {
        let mut file = scenario.file.clone();
        (file.jet.roll_lag.value, file.jet.fan_lag.value) = (Time::new(0.0), Time::new(0.0));
        let (run, _) = flown(&peewit::run::Scenario { file, ..scenario });
        assert!(run.trace.bank_rad.iter().chain(&run.trace.energy_j).all(|value| value.is_finite()));
    }
}
