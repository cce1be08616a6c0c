//! A study and what it was made of, and what is said of it first.

use super::FiveLines;
use crate::VERSION;
use crate::error::Fault;
use crate::margins::Outcome;
use crate::run::Scenario;
use crate::study::losses::LossStudy;
use crate::study::radius::RadiusStudy;
use crate::study::remedy::Found;
use crate::study::verdict;
use crate::study::wind_limit::{WindLimitStudy, here};

/// What was studied.
#[derive(Debug, Clone, Copy)]
pub enum Answer<'a> {
    /// Which circle.
    Radius(&'a RadiusStudy),
    /// Up to what wind.
    WindLimit(&'a WindLimitStudy),
    /// From where a loss is recovered.
    Losses(&'a LossStudy),
}

/// A study and what it was made of.
#[derive(Debug, Clone, Copy)]
pub struct StudyReport<'a> {
    /// What was flown.
    pub scenario: &'a Scenario,
    /// What came of it.
    pub answer: Answer<'a>,
    /// What would make the plan hold where its trials don't say yes; none where it was not looked for.
    pub remedy: Option<&'a Found>,
    /// What is odd about the scenario's file.
    pub warnings: &'a [Fault],
    /// What was asked for differently than the file says, in words.
    pub changes: &'a [String],
}

impl StudyReport<'_> {
    /// Whether it was stopped before it was complete.
    pub fn partial(&self) -> bool {
        match self.answer {
            Answer::Radius(study) => study.partial,
            Answer::WindLimit(study) => study.partial,
            Answer::Losses(study) => study.partial,
        }
    }

    /// The answer in five lines; none where no radius was studied, or not the plan's own.
    pub fn five_lines(&self) -> Option<FiveLines> {
        let Answer::Radius(study) = self.answer else { return None };
        let plan = &self.scenario.file.recovery;
        let own = study.points.iter().find(|point| (point.radius_m, point.turn) == (plan.radius.m(), plan.turn))?;
        Some(FiveLines::of(self.scenario, &study.plan_on(own)?, self.remedy))
    }

    /// Whether the trials of the plan's own circle say yes; none where no radius was studied.
    pub fn plan_holds(&self) -> Option<bool> {
        let Answer::Radius(study) = self.answer else { return None };
        Some(study.plan.is_some_and(|verdict| verdict.answer == verdict::Answer::Yes))
    }

    /// Whether every flight from the cell of the plan's own loss was recovered; none where no losses were studied.
    pub fn loss_recovered(&self) -> Option<bool> {
        let Answer::Losses(study) = self.answer else { return None };
        let cell = study.cell_at(self.scenario.file.loss.at_m.into());
        Some(cell.is_some_and(|cell| cell.worst == Outcome::Recovered))
    }

    /// Whether the circle holds in the file's mean wind at circle height, from the nearest direction flown; none where no
    /// wind limits were studied.
    pub fn under_the_wind_limit(&self) -> Option<bool> {
        let Answer::WindLimit(study) = self.answer else { return None };
        let here = here(study, self.scenario.file.wind.from)?;
        Some(here.answer(self.scenario.wind_at_circle()[0]) == verdict::Answer::Yes)
    }

    /// What the answer can be repeated from: version, scenario, hash, seed and the number of flights.
    pub fn stamp(&self) -> String {
        let file = &self.scenario.file;
        let (version, hash) = (VERSION, self.scenario.hash());
        let partial = if self.partial() { " STOPPED BEFORE IT WAS COMPLETE." } else { "" };
        format!(
            "Peewit {version}, scenario {} ({hash}), {}, seed {}, {}.{partial}",
            file.name,
            file.date,
            file.seed,
            self.asked()
        )
    }
}
