//! Which sections of a scenario make no sense beside one another, though each does by itself.

use super::sections::Sections;
use super::{HeightAbove, HeightLimit};
use crate::error::Fault;
use crate::field::{Field, Rule};
use crate::jet::{JetNumbers, JetSheet};
use crate::recovery::{FailsafeAction, RecoveryPlan};
use crate::units::{Length, Speed};

/// Everything that makes no sense in the light of something else, in air of a density in kg/m^3.
pub(super) fn check(sections: &Sections<'_>, density: f64) -> Vec<Fault> {
    let Sections { field, jet, recovery, limits, .. } = *sections;
    let mut faults = Vec::new();
    faults.extend(jet.and_then(|jet| too_fast(jet, density)));
    // Only who circles has a circle.
    let returns = recovery.filter(|plan| plan.failsafe_action == FailsafeAction::Return);
    faults.extend(returns.and(field).and_then(over_no_fly));
    if let (Some(plan), Some(height_limit)) = (returns, limits.and_then(|limits| limits.height_limit)) {
        faults.extend(over_the_height_limit(plan, height_limit, field));
    }
    if let (Some(_), Some(limits)) = (returns, limits)
        && limits.no_automatic_return
    {
        let problem = "the failsafe action is `return`, though an automatic return is not permitted here";
        let way_out = "Choose `wait-then-cut` or `cut`; take no_automatic_return out once somebody entitled permits it";
        faults.push(Fault::warning("/recovery/failsafe_action", problem, way_out));
    }
    faults
}

/// A return speed that the jet does not reach in level flight.
fn too_fast(jet: &JetSheet, density: f64) -> Option<Fault> {
    let top = JetNumbers::new(jet, density).top_speed();
    let wanted = jet.return_speed.value;
    (wanted.mps() > top).then(|| {
        let problem = format!("the jet can't reach {wanted}: its top speed in level flight is {:.1}", Speed::new(top));
        let way_out =
            "Lower the return speed, or check top_speed, or full_power, fan_efficiency, nozzle_area and drag_zero_lift";
        Fault::warning("/jet/return_speed/value", problem, way_out)
    })
}

/// A circle about a place that may not be flown over.
fn over_no_fly(field: &Field) -> Option<Fault> {
    let area = field
        .areas
        .iter()
        .find(|area| matches!(area.rule, Rule::NoFly | Rule::People) && area.region.contains(field.centre))?;
    let problem = format!("the centre lies in \"{}\", which may never be flown over", area.name);
    Some(Fault::warning(
        "/field/centre_m",
        problem,
        "Move the centre, or check that the circle goes all round the area",
    ))
}

/// A circle above the highest height allowed over its middle.
fn over_the_height_limit(plan: &RecoveryPlan, height_limit: HeightLimit, field: Option<&Field>) -> Option<Fault> {
    // Height of the ground under the middle over that at home, metres.
    let rise = match (height_limit.above, field) {
        (HeightAbove::Ground, Some(field)) => field.ground.height_m(field.centre) - field.ground.height_m(field.home),
        _ => 0.0,
    };
    let highest = Length::new(height_limit.height.m() + rise);
    (plan.height > highest).then(|| {
        let problem =
            format!("the circle at {} lies above the height limit, which is {highest} above home there", plan.height);
        Fault::warning("/limits/height_limit/height", problem, "Lower the circle, or raise the height limit if you may")
    })
}

#[cfg(test)]
mod tests {
    use crate::field::SpotFile;
    use crate::run::{Scenario, ScenarioFile};
    use crate::units::{Length, Speed};

    #[track_caller]
    fn check(edit: impl FnOnce(&mut ScenarioFile), expected: Option<(&str, &str)>) {
        let mut file = Scenario::tight_strip().file;
        edit(&mut file);
        let warnings = Scenario::from_file(file).unwrap().warnings();
        let places = ["/jet/return_speed/value", "/field/centre_m", "/limits/height_limit/height"];
        let found: Vec<_> = warnings.iter().filter(|fault| places.contains(&&*fault.place)).collect();
        match expected {
            None => assert!(found.is_empty(), "{found:?}"),
            Some((place, said)) => {
                assert!(found.iter().any(|fault| fault.place == place && fault.problem.contains(said)), "{found:?}");
            }
        }
    }

    #[test]
    fn each_is_weighed_against_the_others() {
        check(|_| {}, None);
        check(|file| file.jet.return_speed.value = Speed::new(140.0), Some(("/jet/return_speed/value", "top speed")));
        // In April the paddock is closed; in June it is only a caution area.
        let paddock = |file: &mut ScenarioFile| file.field.as_mut().unwrap().centre_m = Some([-60.0, 150.0]);
        check(paddock, Some(("/field/centre_m", "goat paddock")));
        check(
            |file| {
                paddock(file);
                file.date = "2026-06-18".into();
            },
            None,
        );
        let at = |metres: f64| move |file: &mut ScenarioFile| file.recovery.height = Length::new(metres);
        check(at(121.0), Some(("/limits/height_limit/height", "above the height limit")));
        check(at(120.0), None);
        // The ground falls 30 m from home to the circle: 120 m over it there are 90 m above home.
        let slope = |file: &mut ScenarioFile| {
            let field = file.field.as_mut().unwrap();
            let spot = |at_m, height| SpotFile { at_m, height: Length::new(height) };
            field.ground = vec![spot([0.0, 0.0], 0.0), spot([0.0, -80.0], -30.0)];
            file.recovery.height = Length::new(100.0);
        };
        check(slope, Some(("/limits/height_limit/height", "90 m above home")));
    }
}
