//! Where the energy goes: battery, height, speed, drag; and how far a glide carries (V9, V10).

use glam::DVec2;
use peewit::jet::{Command, JetNumbers, State, step};
use peewit::units::G0;

use crate::support::{close, demo_jet, flown, hold, mechanical_j, near, open, shipped, steady, trimmed};

#[test]
fn level_flight_draws_power_times_time() {
    let jet = demo_jet();
    for speed in [18.0, 22.0, 35.0] {
        let (start, command) = trimmed(&jet, speed, DVec2::Y, 0.0);
        let end = hold(&jet, (start, command), &steady(4.0, 9.0), 60.0, 0.1);
        near(end.airspeed, speed, 1e-9);
        // Momentum theory, closed form: thrust times the mean of efflux speed and airspeed, over the efficiency, which
        // falls as the sheet says where the efflux is below the full one.
        let efflux = jet.efflux(speed, command.thrust);
        close(jet.density * jet.nozzle * efflux * (efflux - speed), command.thrust, 1e-12);
        let lost = 1.0 + jet.part_throttle_loss * (jet.efflux_full / efflux - 1.0);
        let power = command.thrust * f64::midpoint(efflux, speed) / jet.efficiency * lost + jet.avionics;
        close(end.energy, power * 60.0, 1e-6);
        // With the drag polar, closed form: a full pack lasts this long.
        close(jet.endurance_s(speed), jet.pack / power, 1e-12);
    }
}

#[test]
fn a_steady_climb_turns_work_into_height() {
    let jet = demo_jet();
    let (speed, climb) = (22.0, 0.15_f64);
    let (level, trim) = trimmed(&jet, speed, DVec2::Y, 0.0);
    let drag = jet.drag(speed, climb.cos(), 0.0);
    let thrust = drag + jet.mass * G0 * climb.sin();
    let start = State { climb, thrust, ..level };
    let end = hold(&jet, (start, Command { climb, thrust, ..trim }), &steady(-5.0, 0.0), 30.0, 0.05);
    // Closed form: what thrust does beyond drag goes into height, and none of it into speed.
    close(jet.mass * G0 * (end.height - start.height), (thrust - drag) * speed * 30.0, 1e-6);
    close(end.height - start.height, speed * climb.sin() * 30.0, 1e-6);
    near(end.airspeed, speed, 1e-6);
}

/// Work done by thrust less drag along a flight of one command, by Simpson's rule on pairs of steps, and the energy gained.
fn balance(jet: &JetNumbers<f64>, start: State<f64>, command: &Command<f64>, pairs: u32, dt: f64) -> (f64, f64) {
    let spare = |state: &State<f64>| {
        let pull = state.airspeed / (G0 * 0.5) * (command.climb - state.climb);
        let load = (state.climb.cos() + pull) / state.bank.cos();
        (state.thrust - jet.drag(state.airspeed, load, command.stopped)) * state.airspeed
    };
    let (mut state, mut work) = (start, 0.0);
    for _ in 0..pairs {
        let middle = step(jet, &state, command, &steady(7.0, 0.0), dt);
        let end = step(jet, &middle, command, &steady(7.0, 0.0), dt);
        work += dt / 3.0 * (spare(&state) + 4.0 * spare(&middle) + spare(&end));
        state = end;
    }
    (work, mechanical_j(jet, &state) - mechanical_j(jet, &start))
}

#[test]
fn what_thrust_does_beyond_drag_is_gained_in_speed_and_height() {
    let jet = demo_jet();
    let (start, trim) = trimmed(&jet, 30.0, DVec2::Y, 0.0);
    let commands = [
        Command { bank: 0.6, climb: 0.1, ..trim },
        Command { climb: -0.1, thrust: 0.0, stopped: 1.0, ..trim },
        Command { bank: -0.4, thrust: 2.0 * trim.thrust, ..trim },
    ];
    for command in commands {
        let (work, gained) = balance(&jet, start, &command, 2000, 0.0025);
        assert!(gained.abs() > 50.0, "a flight that changes its energy: {gained}");
        close(gained, work, 1e-6);
    }
}

#[test]
fn a_battery_only_ever_empties() {
    for scenario in shipped() {
        let (run, margins) = flown(&scenario);
        assert!(run.trace.energy_j.windows(2).all(|pair| pair[1] >= pair[0]));
        let left = *run.trace.energy_j.last().unwrap() < run.drawn.energy_j;
        assert!(run.trace.energy_j[0] == 0.0 && left == (run.ending != peewit::run::Ending::Empty));
        assert!(margins.figures.energy_left_j > 0.0);
    }
    // A nearly empty pack ends the run within a step of being empty.
    let scenario = open(|file| file.loss.charge = peewit::units::Ratio::new(0.01));
    let (run, _) = flown(&scenario);
    assert_eq!(run.ending, peewit::run::Ending::Empty);
    let [.., before, last] = run.trace.energy_j[..] else { panic!("too short") };
    assert!(before < run.drawn.energy_j && last >= run.drawn.energy_j);
}

#[test]
fn a_glide_carries_its_ratio_and_the_wind_adds_the_time() {
    let jet = demo_jet();
    let ratio = jet.glide_ratio();
    let angle = (1.0 / ratio).atan();
    let (level, trim) = trimmed(&jet, jet.glide_speed(), DVec2::X, 0.0);
    let start = State { climb: -angle, thrust: 0.0, height: 1000.0, ..level };
    let command = Command { climb: -angle, thrust: 0.0, stopped: 1.0, ..trim };
    for wind in [0.0, 8.0, -8.0] {
        let seconds = 60.0;
        let end = hold(&jet, (start, command), &steady(wind, 0.0), seconds, 0.05);
        let lost = start.height - end.height;
        // L/D form: the ratio times the height lost, and the wind times the time.
        close(end.x, ratio * lost + wind * seconds, 1e-3);
        // Closed form of the parabolic polar: half the root of pi e A over the drag at no lift.
        let best = 0.5 / ((jet.drag_zero + jet.drag_stopped) * jet.drag_lift).sqrt();
        close(ratio, best, 1e-9);
        assert!(lost > 100.0);
    }
}
