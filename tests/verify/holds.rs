//! How height and speed are held: a wander, an error that grows with the dynamic pressure, the sink of a roll-in, and what
//! the throttle may hold instead of the airspeed.

use peewit::recovery::{Guidance, SpeedHold};
use peewit::run::{Floor, Scenario, ScenarioFile, Stretch, Trace, Trial, WindChoice, draw, fly_trial, setting};
use peewit::units::{Charge, G0, Ratio, Time};

use crate::support::{at_speed, brisk, circle, eastward, flown, maximum_bank, near, open};

/// Gain of the height hold, 1/s, and lag of the pitch, s, of the model.
const HEIGHT_GAIN: f64 = 0.4;
const PITCH_LAG: f64 = 0.5;

/// A long way round, in still air, on a pack that lasts.
fn long(file: &mut ScenarioFile, laps: f64) {
    eastward(file, 0.0);
    at_speed(file, 24.0);
    maximum_bank(file, 45.0);
    circle(file, 120.0, laps);
    file.jet.capacity.value = Charge::new(180_000.0);
    file.wind.turbulence = false;
}

fn path(scenario: &Scenario, trial: &Trial) -> Trace {
    fly_trial(&setting(scenario), false, trial, &Floor::of(scenario)).0
}

/// Heights in the second half of a path.
fn late(trace: &Trace) -> &[f64] {
    &trace.height_m[trace.len() / 2..]
}

#[test]
#[allow(clippy::cast_precision_loss, reason = "some hundred thousand samples")]
fn the_held_height_wanders_as_much_as_its_sheet_says() {
    let scenario = open(|file| long(file, 20.0));
    let sky = scenario.file.recovery.height.m();
    let (mut sum, mut count) = (0.0, 0.0);
    for trial in 1..=60 {
        let mut drawn = draw(&scenario, trial, WindChoice::Mean).under(Guidance::FieldOfDirections, Default::default());
        (drawn.plan.height_error, drawn.plan.static_error) = (0.0, 0.0);
        (drawn.wind.x, drawn.wind.y) = (0.0, 0.0);
        let trace = path(&scenario, &drawn);
        sum += late(&trace).iter().map(|height| (height - sky).powi(2)).sum::<f64>();
        count += late(&trace).len() as f64;
    }
    // Closed form: an Ornstein-Uhlenbeck input of rate a through b / (s^2 + c s + b), with b = gain / lag, c = 1 / lag:
    // variance b (c + a) / ((b + a c)(c + a) - a b) of the input's.
    let (a, b, c) = (1.0 / 30.0, HEIGHT_GAIN / PITCH_LAG, 1.0 / PITCH_LAG);
    let expected = 2.0 * (b * (c + a) / ((b + a * c) * (c + a) - a * b)).sqrt();
    // Some ten independent heights a trial, 600 in all: 3 % of the spread is one standard error.
    println!("wander {:.3} m, expected {expected:.3} m", f64::sqrt(sum / count));
    near(f64::sqrt(sum / count), expected, 0.1 * expected);
    // The plan as entered has none.
    let plain = path(&scenario, &draw(&scenario, 0, WindChoice::Mean));
    assert!(late(&plain).iter().all(|height| (height - sky).abs() < 0.1));
}

#[test]
fn a_static_error_of_a_tenth_costs_three_metres_at_24() {
    // dh = c q / (rho g) = c V^2 / 2g: 0.1 x 24^2 / 19.6133 = 2.94 m; the height reads high, and so is flown low.
    let scenario = open(|file| long(file, 3.0));
    let mut trial = draw(&scenario, 0, WindChoice::Mean);
    trial.plan.static_error = 0.1;
    let trace = path(&scenario, &trial);
    near(trace.airspeed_mps[trace.len() - 1], 24.0, 0.1);
    near(trace.height_m[trace.len() - 1], scenario.file.recovery.height.m() - 2.94, 0.1);
}

/// How far a jet sinks that rolls at once from level into a bank: `v' = (-k h - v) / lag - g (1 - cos bank) e^(-t / tau)`.
fn sink(bank: f64, tau: f64) -> f64 {
    let (mut height, mut speed, mut least, dt) = (0.0_f64, 0.0_f64, 0.0_f64, 1e-4);
    for step in 0..100_000 {
        let missing = G0 * (1.0 - bank.cos()) * (-f64::from(step) * dt / tau).exp();
        speed += dt * ((-HEIGHT_GAIN * height - speed) / PITCH_LAG - missing);
        height += dt * speed;
        least = least.min(height);
    }
    -least
}

#[test]
fn a_roll_in_sinks_by_the_lift_that_lags() {
    for tau in [0.5, 1.0, 2.0] {
        let scenario = open(|file| {
            brisk(file);
            eastward(file, 0.0);
            at_speed(file, 22.0);
            maximum_bank(file, 45.0);
            circle(file, 120.0, 1.0);
            file.recovery.load_lag = Time::new(tau);
        });
        let trace = flown(&scenario).0.trace;
        let turns = trace.stretch.iter().position(|&stretch| stretch == Stretch::HeadingHome).expect("turns home");
        let before = trace.height_m[turns];
        let soon = turns..turns + (5.0 / trace.step_s) as usize;
        let found = before - trace.height_m[soon].iter().fold(f64::INFINITY, |least, &height| least.min(height));
        let expected = sink(45.0_f64.to_radians(), tau);
        println!("lag {tau} s: sinks {found:.3} m, expected {expected:.3} m");
        near(found, expected, 0.15 * expected);
    }
}

/// Straight home down a wind of 8 m/s from 3 km away: samples of a minute on the way.
fn downwind(hold: SpeedHold) -> (f64, f64) {
    let scenario = open(|file| {
        brisk(file);
        eastward(file, 8.0);
        at_speed(file, 22.0);
        circle(file, 150.0, 1.0);
        file.loss.at_m = [-3000.0, 0.0];
        file.recovery.speed_hold = hold;
    });
    let trace = flown(&scenario).0.trace;
    let at = (60.0 / trace.step_s) as usize;
    assert_eq!(trace.stretch[at], Stretch::HeadingHome);
    let ground = (trace.x_m[at + 10] - trace.x_m[at]) / (10.0 * trace.step_s);
    (trace.airspeed_mps[at], ground)
}

#[test]
fn a_ground_speed_of_22_down_a_wind_of_8_is_14_of_air() {
    for (hold, air, ground) in [(SpeedHold::GroundSpeed, 14.0, 22.0), (SpeedHold::Airspeed, 22.0, 30.0)] {
        let found = downwind(hold);
        near(found.0, air, 0.15);
        near(found.1, ground, 0.15);
    }
}

#[test]
fn a_fixed_throttle_is_slower_in_the_turn() {
    let scenario = open(|file| {
        long(file, 8.0);
        circle(file, 70.0, 8.0);
        file.recovery.speed_hold = SpeedHold::Throttle;
    });
    let trial = draw(&scenario, 0, WindChoice::Mean);
    let trace = path(&scenario, &trial);
    // Drag in the turn at the speed sought is the drag of level flight at the return speed.
    let thrust = trial.jet.drag(24.0, 1.0, 0.0);
    let load = |speed: f64| (1.0 + (speed * speed / (G0 * 70.0)).powi(2)).sqrt();
    let (mut low, mut high) = (14.0, 24.0);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if trial.jet.drag(middle, load(middle), 0.0) < thrust { low = middle } else { high = middle }
    }
    let found = trace.airspeed_mps[trace.len() - 1];
    println!("throttle: {found:.2} m/s, expected {low:.2} m/s");
    assert!(low < 23.0, "{low}");
    near(found, low, 0.2);
}

#[test]
fn the_laps_that_are_promised_are_flown() {
    for (planned, asked, flown_laps) in [(1.0, 3.0, 3.0), (4.0, 3.0, 4.0)] {
        let scenario = open(|file| {
            long(file, planned);
            file.limits.laps_to_reserve = asked;
        });
        let trace = flown(&scenario).0.trace;
        let first = trace.stretch.iter().position(|&stretch| stretch == Stretch::Circling).expect("circles");
        let centre = scenario.field.centre;
        let turned: f64 = (first..trace.len() - 1)
            .map(|at| (trace.point(at) - centre).angle_to(trace.point(at + 1) - centre).abs())
            .sum();
        near(turned / std::f64::consts::TAU, flown_laps, 0.05);
    }
}

#[test]
fn nothing_lags_where_no_lag_is_written() {
    // Without a lag the roll-in costs what it did before there was one: nothing that a ruler shows.
    let scenario = open(|file| {
        brisk(file);
        eastward(file, 0.0);
        circle(file, 120.0, 1.0);
        (file.recovery.load_lag, file.recovery.perception.static_error) = (Time::new(0.0), Ratio::new(0.0));
    });
    let trace = flown(&scenario).0.trace;
    let sky = scenario.file.recovery.height.m();
    assert!(trace.height_m.iter().all(|&height| (height - sky).abs() < 0.1));
}
