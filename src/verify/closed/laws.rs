//! The guidance laws at places where the answer is known: on the ring they ask for the bank of the ring.

use std::f64::consts::FRAC_PI_2;

use glam::DVec2;

use crate::jet::JetNumbers;
use crate::recovery::{Autopilot, FailsafeAction, Guidance, Orders, Percept, PlanNumbers, field_of_directions};
use crate::run::{Scenario, WindChoice, draw};
use crate::units::Bearing;
use crate::verify::by_hand::{agile, trimmed};
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines) {
    let source = "closed form: course of the tangent and atan of (d - R) / R (Beard and McLain, Small Unmanned Aircraft, \
                  eq. 10.13, as quoted)";
    for (distance, expected) in [(40.0, 63.435), (160.0, 135.0)] {
        let [x, y] = field_of_directions([0.0, 1.0], [1.0, 0.0], (distance - 80.0) / 80.0);
        let name = format!("course that the field of directions asks for {distance} m north of a ring of 80 m");
        lines.near(&name, Bearing::of(DVec2::new(x, y)).deg(), (expected, 0.000_51), "deg", source);
    }
    let source = "closed form: V^2 / (g R), the speed over the ground in wind (Beard and McLain, eq. 10.15, as quoted)";
    for law in Guidance::ALL {
        let name = law.name();
        let bank = bank_on_ring(law, 0.0, 0.0);
        lines.near(
            &format!("bank that {name} asks for on a ring of 80 m at 25 m/s"),
            bank,
            (38.543, 0.000_51),
            "deg",
            source,
        );
        if law == Guidance::NoseOnTheCentre {
            continue;
        }
        for (way, off, expected) in [("behind", 0.0, 57.363), ("abeam", FRAC_PI_2, 36.135)] {
            let name = format!("the same by {name}, in a wind of 10 m/s {way}");
            lines.near(&name, bank_on_ring(law, 10.0, off), (expected, 0.000_51), "deg", source);
        }
    }
}

/// Bank asked for due east of the centre on a clockwise ring of 80 m at 25 m/s, deg, with the path along it and the wind
/// blowing to `off` from it.
fn bank_on_ring(law: Guidance, wind: f64, off: f64) -> f64 {
    let (airspeed, radius) = (25.0, 80.0);
    let maximum_bank = 80.0_f64.to_radians();
    let jet = JetNumbers { maximum_bank, maximum_bank_tan: maximum_bank.tan(), return_speed: airspeed, ..agile() };
    let trial = draw(&Scenario::demo(), 0, WindChoice::Mean).under(law, crate::recovery::Gain::Nominal);
    let plan = PlanNumbers {
        centre_x: 0.0,
        centre_y: 0.0,
        turn: 1.0,
        radius,
        failsafe_delay: 0.0,
        turn_above: 0.0,
        sweep: 1e9,
        load_lag: 0.0,
        ..trial.plan
    };
    let crab = (wind / airspeed * off.sin()).asin();
    let ground = airspeed * crab.cos() + wind * off.cos();
    // The path goes south; a wind to its left is met with the nose to its right.
    let nose = DVec2::from_angle(-crab).rotate(-DVec2::Y);
    let percept = Percept {
        x: radius,
        y: 0.0,
        ground_x: 0.0,
        ground_y: -ground,
        height: plan.height,
        airspeed,
        nose_x: nose.x,
        nose_y: nose.y,
        bank: 0.0,
        bank_cos: 1.0,
    };
    let standing = Orders { failsafe_action: FailsafeAction::Return, has_position: true };
    let (_, command) = trimmed(&jet, airspeed, nose, 0.0);
    Autopilot::new(command, &plan).command(&standing, &percept, &jet, &plan, 1.0, 0.1).bank.to_degrees()
}
