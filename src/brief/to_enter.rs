//! What does somebody enter into the stabiliser so that the jet does what was planned? The plan's numbers in the plan's
//! own words; how a maker calls them is in its book.

use crate::recovery::{FailsafeAction, SpeedHold};
use crate::run::ScenarioFile;
use crate::words::{self, Measure, Units};

/// One thing to enter: its name, and its value in the person's units.
pub type ToEnter = (&'static str, String);

/// All of them, in the order of a recovery. What the failsafe action doesn't do is left out.
pub fn to_enter(file: &ScenarioFile, units: &Units) -> Vec<ToEnter> {
    let (plan, jet) = (&file.recovery, &file.jet);
    let height = |metres: f64| units.text(Measure::Height, metres);
    let distance = |metres: f64| units.text(Measure::Distance, metres);
    let seconds = |s: f64| format!("{} s", words::number(s));
    let degrees = |rad: f64| format!("{} deg", words::number(rad.to_degrees()));
    let action = words::failsafe_action(plan);
    let mut all = vec![("failsafe delay", seconds(plan.failsafe_delay.value.s())), ("failsafe action", action)];
    match plan.failsafe_action {
        FailsafeAction::Return => {
            let held = match plan.speed_hold {
                SpeedHold::Airspeed => "airspeed held",
                SpeedHold::GroundSpeed => "ground speed held",
                SpeedHold::Throttle => "by a fixed throttle",
            };
            let speed = units.text(Measure::Speed, jet.return_speed.value.mps());
            all.extend([
                ("turns only above", format!("{} above home", height(plan.turn_above.m()))),
                ("circle height", format!("{} above home", height(plan.height.m()))),
                ("return speed", format!("{speed}, {held}")),
                ("climb limit", degrees(jet.climb_limit.value.rad())),
                ("circle centre", circle_centre(file, &distance)),
                ("circle radius", distance(plan.radius.m())),
                ("way round", words::turn(plan.turn).into()),
                ("maximum bank", degrees(jet.maximum_bank.value.rad())),
            ]);
        }
        FailsafeAction::WaitThenCut => all.push(("wings level for", seconds(plan.wait.s()))),
        FailsafeAction::Cut => {}
    }
    if plan.failsafe_action != FailsafeAction::Return {
        all.push(("bank in the glide, right is +", degrees(plan.glide_bank.rad())));
    }
    all
}

/// Where the circle has its middle, from where the jet takes its home.
fn circle_centre(file: &ScenarioFile, distance: &impl Fn(f64) -> String) -> String {
    let Some((field, centre)) = file.field.as_ref().and_then(|field| Some((field, field.centre_m?))) else {
        return "home".into();
    };
    let from = |axis: usize, names: [&str; 2]| {
        let metres = centre[axis] - field.home_m[axis];
        format!("{} {}", distance(metres.abs()), names[usize::from(metres < 0.0)])
    };
    format!("{} and {} of home", from(0, ["east", "west"]), from(1, ["north", "south"]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;
    use crate::units::{Angle, Length};

    fn entered(file: &ScenarioFile, name: &str) -> Option<String> {
        to_enter(file, &Units::default()).into_iter().find(|(other, _)| *other == name).map(|(_, value)| value)
    }

    #[test]
    fn a_return_is_entered_with_its_numbers_and_a_cut_with_none_of_them() {
        let mut file = Scenario::tight_strip().file;
        (file.recovery.radius, file.recovery.height) = (Length::new(123.0), Length::new(60.0));
        file.jet.maximum_bank.value = Angle::new(35.0_f64.to_radians());
        let field = file.field.as_mut().unwrap();
        (field.home_m, field.centre_m) = ([10.0, 0.0], Some([-30.0, 25.0]));
        let check = |file: &ScenarioFile, name: &str, expected: &str| {
            assert_eq!(entered(file, name).as_deref(), Some(expected), "{name}");
        };
        check(&file, "circle radius", "123 m");
        // One foot is 0.3048 m: 60 m are 197 ft.
        check(&file, "circle height", "60.0 m (197 ft) above home");
        check(&file, "maximum bank", "35 deg");
        check(&file, "circle centre", "40.0 m west and 25.0 m north of home");
        check(&file, "failsafe action", "return under power and circle");
        file.field.as_mut().unwrap().centre_m = None;
        check(&file, "circle centre", "home");
        file.recovery.failsafe_action = FailsafeAction::Cut;
        check(&file, "failsafe action", "cut the fan at once and glide");
        assert!(["circle radius", "maximum bank", "return speed"].iter().all(|name| entered(&file, name).is_none()));
        file.recovery.failsafe_action = FailsafeAction::WaitThenCut;
        assert!(entered(&file, "wings level for").is_some());
    }
}
