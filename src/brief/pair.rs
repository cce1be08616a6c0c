//! A circle that is too small beside the plan's: the same field, the same wind, two commands.

use super::Plan;
use crate::margins::{judge, lap};
use crate::recovery::FailsafeAction;
use crate::run::{Scenario, WindChoice, fly};
use crate::units::Length;

/// What comes of a circle that is too small.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Small {
    /// Told, metres.
    pub(crate) radius_m: f64,
    /// Flown out to, metres.
    pub(crate) furthest_m: Option<f64>,
}

impl Plan<'_> {
    /// A circle half as wide as the least that the wind allows, to the next 5 m.
    pub(crate) fn small(&self) -> Small {
        let least = self.margins.figures.smallest_radius_m[1];
        let half = if least.is_finite() { least / 2.0 } else { self.scenario.file.recovery.radius.m() / 2.0 };
        let radius_m = (half / 5.0).round().max(2.0) * 5.0;
        let furthest_m = self.told_radius(radius_m).and_then(|scenario| {
            let run = fly(&scenario, 0, WindChoice::Mean);
            judge(&scenario, &run).figures.furthest_m.filter(|_| lap(&scenario, &run).is_some())
        });
        Small { radius_m, furthest_m }
    }

    /// How far out the plan's own circle is flown, metres.
    pub(crate) fn big(&self) -> Option<f64> {
        let scenario = self.told_radius(self.scenario.file.recovery.radius.m())?;
        judge(&scenario, &fly(&scenario, 0, WindChoice::Mean)).figures.furthest_m
    }

    /// The same scenario told another radius.
    pub(crate) fn told_radius(&self, radius_m: f64) -> Option<Scenario> {
        let mut file = self.scenario.file.clone();
        file.recovery.radius = Length::new(radius_m);
        // A plan that stops the fan is shown as if it returned: else there is no circle to compare.
        file.recovery.failsafe_action = FailsafeAction::Return;
        Scenario::from_file(file).ok()
    }
}
