//! The answers of every flight and study of a plan, as a committee reads them first.

use super::{Answer, Plan, Recovery, StudyReport};
use crate::run::WindChoice;
use crate::words::not_made;

impl Plan<'_> {
    /// The answers of every flight and study there is, each in a sentence or two.
    pub(crate) fn answers(&self) -> Vec<String> {
        let flown = [(WindChoice::Mean, &self.margins), (WindChoice::Gust, &self.gust)].map(|(wind, margins)| {
            let (warnings, changes) = (self.warnings, self.changes);
            Recovery {
                scenario: self.scenario,
                run: &self.run,
                wind,
                margins,
                trials: None,
                remedy: None,
                warnings,
                changes,
            }
            .headline()
        });
        let studies = &self.studies;
        let radius = studies.radius.map(|study| ("Which circle", Answer::Radius(study)));
        let wind_limit = studies.wind_limit.map(|study| ("Up to what wind", Answer::WindLimit(study)));
        let losses = studies.losses.map(|study| ("From where", Answer::Losses(study)));
        let studied = [radius, wind_limit, losses].into_iter().flatten().map(|(name, answer)| {
            let (warnings, changes) = (self.warnings, self.changes);
            let report = StudyReport { scenario: self.scenario, answer, remedy: None, warnings, changes };
            format!("{name}: {}", report.headline())
        });
        let met = self.facts().met.map(|met| format!("The circle of the plan {met}."));
        let missing = [
            (studies.own_circle.is_none(), "The circle of the plan in trials"),
            (studies.radius.is_none(), "Which circle"),
            (studies.wind_limit.is_none(), "Up to what wind"),
            (studies.losses.is_none(), "From where a loss is recovered"),
        ];
        let missing = missing.into_iter().filter(|(missing, _)| *missing).map(|(_, what)| not_made(what));
        [self.scenario.losses_told()].into_iter().chain(flown).chain(met).chain(studied).chain(missing).collect()
    }
}
