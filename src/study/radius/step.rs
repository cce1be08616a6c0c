//! The changes that may help where no radius is usable, as a person can take them over into the plan.

use glam::DVec2;

use crate::recovery::FailsafeAction;
use crate::run::ScenarioFile;
use crate::units::{Angle, Length, Speed};

/// One change of a scenario.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Step {
    /// Return at this airspeed.
    ReturnSpeed(Speed),
    /// Circle about this place, metres.
    Centre(DVec2),
    /// Be lost at this place, metres.
    LossAt(DVec2),
    /// Fly in no more than this mean wind, measured where it was; its gusts in proportion.
    MeanWind(Speed),
    /// Bank up to this.
    MaximumBank(Angle),
    /// Do this about a loss.
    FailsafeAction(FailsafeAction),
    /// Circle at this height.
    Height(Length),
}

impl Step {
    /// Takes it over into a scenario. A centre needs a field that is written in the scenario itself.
    pub fn take(self, file: &mut ScenarioFile) {
        match self {
            Self::ReturnSpeed(speed) => file.jet = file.jet.returning_at(speed, file.air.density()),
            Self::Centre(centre) => {
                if let Some(field) = &mut file.field {
                    field.centre_m = Some(centre.to_array());
                }
            }
            Self::LossAt(at) => file.loss.at_m = at.to_array(),
            Self::MeanWind(mean) => {
                file.wind = file.wind.with_mean(mean);
            }
            Self::MaximumBank(bank) => file.jet.maximum_bank.value = bank,
            Self::FailsafeAction(failsafe_action) => file.recovery.failsafe_action = failsafe_action,
            Self::Height(height) => file.recovery.height = height,
        }
    }

    /// What it changes.
    pub const fn kind(self) -> &'static str {
        match self {
            Self::ReturnSpeed(_) => "the return speed",
            Self::Centre(_) => "the centre",
            Self::LossAt(_) => "the place of the loss",
            Self::MeanWind(_) => "the wind",
            Self::MaximumBank(_) => "the maximum bank",
            Self::FailsafeAction(_) => "the failsafe action",
            Self::Height(_) => "the height of the circle",
        }
    }

    /// Whether a person can decide it: the wind and where a loss happens can't be.
    pub const fn is_a_choice(self) -> bool {
        !matches!(self, Self::MeanWind(_) | Self::LossAt(_))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[test]
    fn every_step_changes_what_it_says_and_nothing_else() {
        #[track_caller]
        fn check(step: Step, undo: impl Fn(&mut ScenarioFile, &ScenarioFile)) {
            let before = Scenario::tight_strip().file;
            let mut after = before.clone();
            step.take(&mut after);
            assert!(after != before, "{step:?}");
            undo(&mut after, &before);
            assert!(after == before, "{step:?}");
        }
        check(Step::ReturnSpeed(Speed::new(17.0)), |after, before| after.jet.return_speed = before.jet.return_speed);
        check(Step::Centre(DVec2::new(3.0, 4.0)), |after, before| after.field.clone_from(&before.field));
        check(Step::LossAt(DVec2::new(3.0, 4.0)), |after, before| after.loss = before.loss);
        check(Step::MeanWind(Speed::new(2.0)), |after, before| after.wind = before.wind);
        check(Step::MaximumBank(Angle::new(0.8)), |after, before| after.jet.maximum_bank = before.jet.maximum_bank);
        check(Step::FailsafeAction(FailsafeAction::Cut), |after, before| {
            after.recovery.failsafe_action = before.recovery.failsafe_action;
        });
        check(Step::Height(Length::new(90.0)), |after, before| after.recovery.height = before.recovery.height);
    }

    #[test]
    fn gusts_keep_their_proportion_to_the_mean() {
        let mut file = Scenario::tight_strip().file;
        let before = file.wind;
        Step::MeanWind(Speed::new(before.mean.mps() / 2.0)).take(&mut file);
        assert!((file.wind.gust().mps() - before.gust().mps() / 2.0).abs() < 1e-12);
    }
}
