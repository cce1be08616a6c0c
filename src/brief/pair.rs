//! A circle that is too small beside the plan's: the same field, the same wind, two commands.

use super::{Plan, Studies};
use crate::margins::{judge, lap};
use crate::recovery::FailsafeAction;
use crate::run::{Scenario, WindChoice, fly};
use crate::units::Length;

/// The plan told a radius, and what comes of it.
#[derive(Debug, Clone)]
pub(crate) struct Told {
    /// Told, metres.
    pub(crate) radius_m: f64,
    /// Flown out to, metres; none where no whole lap is flown.
    pub(crate) furthest_m: Option<f64>,
    /// None where nobody may be told that.
    scenario: Option<Scenario>,
}

impl Plan<'_> {
    /// A circle half as wide as the least that the wind allows, to the next 5 m, and the plan's own.
    pub(crate) fn pair(&self) -> [Told; 2] {
        let (least, own) = (self.margins.figures.smallest_radius_m[1], self.scenario.file.recovery.radius.m());
        let half = if least.is_finite() { least / 2.0 } else { own / 2.0 };
        [(half / 5.0).round().max(2.0) * 5.0, own].map(|radius_m| self.told(radius_m))
    }

    fn told(&self, radius_m: f64) -> Told {
        let mut file = self.scenario.file.clone();
        file.recovery.radius = Length::new(radius_m);
        // A plan that stops the fan is shown as if it returned: else there is no circle to compare.
        file.recovery.failsafe_action = FailsafeAction::Return;
        let scenario = Scenario::from_file(file).ok();
        let furthest_m = scenario.as_ref().and_then(|scenario| {
            let run = fly(scenario, 0, WindChoice::Mean);
            judge(scenario, &run).figures.furthest_m.filter(|_| lap(scenario, &run).is_some())
        });
        Told { radius_m, furthest_m, scenario }
    }
}

impl Told {
    /// All that a map shows of it.
    pub(crate) fn plan<'a>(&'a self, on: &'a str) -> Option<Plan<'a>> {
        let scenario = self.scenario.as_ref()?;
        Some(Plan::new(scenario, on, Studies::default(), &[], &[]))
    }
}
