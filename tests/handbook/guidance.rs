//! The three guidance laws at places where the answer is known.

use glam::DVec2;
use peewit::jet::{JetNumbers, State, step};
use peewit::recovery::{Autopilot, FailsafeAction, Guidance, Orders, Percept, PlanNumbers, Turn, field_of_directions};
use peewit::run::{WindChoice, draw};
use peewit::units::Bearing;

use crate::support::{near, open, steady, trimmed};

const LAWS: [Guidance; 3] = [Guidance::FieldOfDirections, Guidance::LookAhead, Guidance::NoseOnTheCentre];

/// A jet that banks as it is told and loses no lift by it, and a clockwise circle about the datum that never ends.
fn agile(law: Guidance, speed: f64, radius: f64) -> (JetNumbers<f64>, PlanNumbers<f64>) {
    let scenario = open(|file| {
        file.recovery.guidance = law;
        file.recovery.turn = Turn::Clockwise;
    });
    let trial = draw(&scenario, 0, WindChoice::Mean);
    let maximum_bank = 80.0_f64.to_radians();
    let jet = JetNumbers {
        maximum_bank,
        maximum_bank_tan: maximum_bank.tan(),
        roll_lag: 0.002,
        roll_rate: 100.0,
        return_speed: speed,
        ..trial.jet
    }
    .ready();
    (jet, PlanNumbers { radius, failsafe_delay: 0.0, sweep: 1e9, load_lag: 0.0, ..trial.plan })
}

fn seen(state: &State<f64>, ground: DVec2) -> Percept<f64> {
    Percept {
        x: state.x,
        y: state.y,
        ground_x: ground.x,
        ground_y: ground.y,
        height: state.height,
        airspeed: state.airspeed,
        nose_x: state.nose_x,
        nose_y: state.nose_y,
        bank: 0.0,
        bank_cos: 1.0,
    }
}

/// Bank asked for due east of the centre on a clockwise ring, with the path along it and the wind blowing to `off` from
/// it.
fn bank_on_ring(law: Guidance, airspeed: f64, wind: f64, radius: f64, off_deg: f64) -> f64 {
    let (jet, plan) = agile(law, airspeed, radius);
    let off = off_deg.to_radians();
    let crab = (wind / airspeed * off.sin()).asin();
    let ground = airspeed * crab.cos() + wind * off.cos();
    // The path goes south; a wind to its left is met with the nose to its right.
    let nose = DVec2::from_angle(-crab).rotate(-DVec2::Y);
    let (mut state, command) = trimmed(&jet, airspeed, nose, 0.0);
    (state.x, state.height) = (radius, plan.height);
    let standing = Orders { failsafe_action: FailsafeAction::Return, has_position: true };
    let percept = seen(&state, -DVec2::Y * ground);
    Autopilot::new(command, &plan).command(&standing, &percept, &jet, &plan, 1.0, 0.1).bank.to_degrees()
}

#[test]
fn the_field_of_directions() {
    // Beard and McLain, eq. 10.13 and 10.14, form as quoted; numbers closed form. Clockwise, ring of 80 m, due north.
    let distances = [40.0, 80.0, 120.0, 160.0];
    let courses = [
        (1.0, [63.435, 90.0, 116.565, 135.0]),
        (2.0, [45.0, 90.0, 135.0, 153.435]),
        (4.0, [26.565, 90.0, 153.435, 165.964]),
    ];
    for (gain, expected) in courses {
        for (distance, course) in distances.into_iter().zip(expected) {
            let [x, y] = field_of_directions([0.0, 1.0], [1.0, 0.0], gain * (distance - 80.0) / 80.0);
            near(Bearing::of(DVec2::new(x, y)).deg(), course, 0.000_51);
            near(x.hypot(y), 1.0, 1e-12);
        }
    }
}

#[test]
fn every_law_asks_for_the_bank_of_the_ring_in_still_air() {
    // Beard and McLain, eq. 10.15, as quoted; for the look-ahead the circle property of Park, Deyst and How 2004, value
    // from memory: a = V^2 / R exactly, 7.8125 m/s^2 for 25 m/s and 80 m.
    for law in LAWS {
        near(bank_on_ring(law, 25.0, 0.0, 80.0, 0.0), 38.543, 0.000_51);
        near(bank_on_ring(law, 35.0, 0.0, 250.0, 0.0), 26.550, 0.000_51);
        near(9.80665 * bank_on_ring(law, 25.0, 0.0, 80.0, 0.0).to_radians().tan(), 7.8125, 1e-4);
    }
}

#[test]
fn laws_that_steer_the_path_ask_for_the_bank_of_the_ring_in_wind() {
    // Feed-forward of Beard and McLain ch. 10 (later form), as quoted; numbers closed form. The look-ahead needs the
    // ground speed for it, value from memory.
    for law in [Guidance::FieldOfDirections, Guidance::LookAhead] {
        for (off, expected) in [(0.0, 57.363), (90.0, 36.135), (-90.0, 36.135), (180.0, 16.003)] {
            near(bank_on_ring(law, 25.0, 10.0, 80.0, off), expected, 0.000_51);
        }
        near(bank_on_ring(law, 30.0, 10.0, 120.0, 0.0), 53.666, 0.000_51);
    }
}

/// A flight in still air, five hundred looks a second, of a jet that starts `off` metres outside the ring, due east of the
/// centre, with the path along `nose`. The law closes in, or looks ahead, by 50 m at 25 m/s.
fn fly(law: Guidance, radius: f64, off: f64, nose: DVec2, seconds: u32) -> Vec<State<f64>> {
    fly_ahead(law, radius, off, nose, seconds, 2.0)
}

/// The same with a time to close in, or to look ahead, s.
fn fly_ahead(law: Guidance, radius: f64, off: f64, nose: DVec2, seconds: u32, lead: f64) -> Vec<State<f64>> {
    let (jet, plan) = agile(law, 25.0, radius);
    let plan = PlanNumbers { lead, ..plan };
    let dt = 0.002;
    let (mut state, command) = trimmed(&jet, 25.0, nose, 0.0);
    (state.x, state.height) = (radius + off, plan.height);
    let standing = Orders { failsafe_action: FailsafeAction::Return, has_position: true };
    let mut autopilot = Autopilot::new(command, &plan);
    let steps = 0..seconds * 500;
    let fly = steps.map(|index| {
        let ground = DVec2::new(state.nose_x, state.nose_y) * state.airspeed * state.climb.cos();
        let percept = Percept { bank: state.bank, bank_cos: state.bank.cos(), ..seen(&state, ground) };
        let command = autopilot.command(&standing, &percept, &jet, &plan, f64::from(index) * dt, dt);
        state = step(&jet, &state, &command, &steady(0.0, 0.0), dt);
        state
    });
    fly.collect()
}

#[test]
#[allow(clippy::cast_precision_loss, reason = "a few thousand samples")]
fn look_ahead_overshoots_a_nearly_straight_line_by_little() {
    // Park, Deyst and How 2004, linearised: damping 0.7071, value from memory; overshoot exp(-pi) = 4.3214 %, closed form.
    // Whatever the reach L: it sets the time, wn = sqrt 2 V / L, so that the overshoot is most after pi L / V.
    let radius = 50_000.0;
    for lead in [2.0, 3.0, 4.5] {
        let flown = fly_ahead(Guidance::LookAhead, radius, 1.0, -DVec2::Y, 30, lead);
        let distances = flown.iter().map(|state| state.x.hypot(state.y));
        let (at, inmost) = distances.enumerate().min_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
        near(100.0 * (radius - inmost), 4.3214, 0.1);
        near(0.002 * at as f64, std::f64::consts::PI * lead, 0.1 * lead);
    }
}

#[test]
fn every_law_settles_on_the_ring_in_still_air() {
    // Circle property, value from memory; a simulation from 100 m settled at 80.0000000 m.
    for law in LAWS {
        let flown = fly(law, 80.0, 20.0, -DVec2::Y, 60);
        let last = flown.last().unwrap();
        near(last.x.hypot(last.y), 80.0, 0.05);
    }
}

#[test]
fn a_path_along_the_field_stays_along_it() {
    // Closed form: the feed-forward is the rate at which the field turns along the path, so no course error builds up.
    for off in [-60.0, -20.0, 40.0, 120.0] {
        let field = |radial: DVec2, distance: f64| {
            let tangent = -radial.perp();
            DVec2::from_array(field_of_directions(radial.to_array(), tangent.to_array(), (distance - 80.0) / 50.0))
        };
        for state in &fly(Guidance::FieldOfDirections, 80.0, off, field(DVec2::X, 80.0 + off), 8)[100..] {
            let at = DVec2::new(state.x, state.y);
            let wanted = field(at.normalize(), at.length());
            near(wanted.angle_to(DVec2::new(state.nose_x, state.nose_y)), 0.0, 0.02);
        }
    }
}
