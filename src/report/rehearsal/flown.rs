//! One rehearsal, flown and scored, and what is said of it first.

use crate::VERSION;
use crate::brief::FlownPath;
use crate::error::Fault;
use crate::rehearsal::{Rehearsal, RehearsalScore, Stage};
use crate::words::{Units, rehearsal as words};

/// One rehearsal, flown and scored.
#[derive(Debug, Clone, Copy)]
pub struct Rehearsed<'a> {
    /// How it was flown.
    pub flown: &'a Rehearsal,
    /// How it went.
    pub score: &'a RehearsalScore,
    /// Who flew it; empty where nobody is named.
    pub pilot: &'a str,
    /// What is odd about its recording.
    pub warnings: &'a [Fault],
}

impl<'a> Rehearsed<'a> {
    /// What it came to, in a line.
    pub fn headline(&self) -> String {
        words::headline(self.score, &Units::default())
    }

    /// Who flew it, in words.
    pub fn pilot_told(&self) -> &'a str {
        if self.pilot.trim().is_empty() { "nobody is named" } else { self.pilot }
    }

    /// What it can be repeated from, together with its recording: version, scenario, hash, seed, exercise and trial.
    pub fn stamp(&self) -> String {
        let (file, exercise) = (&self.flown.base().file, self.flown.exercise());
        format!(
            "Peewit {VERSION}, scenario {} ({}), seed {}, exercise {}, trial {}",
            file.name,
            self.flown.base().hash(),
            file.seed,
            exercise.name,
            exercise.trial
        )
    }

    /// Seconds from the beginning to a step.
    #[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
    pub(super) fn seconds(&self, step: usize) -> f64 {
        step as f64 * self.flown.step_s()
    }

    /// Seconds from the beginning to the loss.
    pub fn lost_at_s(&self) -> Option<f64> {
        self.flown.lost_at().map(|step| self.seconds(step))
    }

    /// Seconds from the loss until each stage was done; none where it was not.
    pub fn stages_s(&self) -> [Option<f64>; 7] {
        Stage::ALL.map(|stage| {
            let (done, lost) = (self.flown.stages().at(stage)?, self.flown.lost_at()?);
            Some(self.seconds(done.saturating_sub(lost)))
        })
    }

    /// The path of the whole flight.
    pub fn path(&self) -> FlownPath<'a> {
        let trace = self.flown.trace();
        let last = trace.len().saturating_sub(1);
        let step = |step: usize| step.min(last);
        let stages = self.flown.stages();
        let named = Stage::ALL.into_iter().filter_map(|stage| Some((words::done(stage), step(stages.at(stage)?))));
        let mut marks: Vec<_> = named.collect();
        marks.extend(self.flown.lost_at().map(|lost| ("loss", step(lost))));
        marks.extend([("beginning", 0), ("end", last)]);
        marks.sort_by_key(|(_, index)| *index);
        FlownPath {
            scenario: self.flown.base(),
            trace,
            rows: &self.score.rows,
            trial: self.flown.exercise().trial,
            since: "beginning",
            marks,
            headline: self.headline(),
            stamp: self.stamp(),
        }
    }
}
