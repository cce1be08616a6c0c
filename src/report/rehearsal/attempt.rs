//! Several people who flew the same exercise on the same field, side by side.

use super::Rehearsed;
use crate::rehearsal::{Exercise, RehearsalScore, Stage, ladder};
use crate::run::Scenario;
use crate::{Error, Result, VERSION};

/// One person's rehearsal.
#[derive(Debug, Clone, PartialEq)]
pub struct Attempt {
    /// Who flew it, or what its recording is called.
    pub pilot: String,
    /// How it went.
    pub score: RehearsalScore,
    /// Seconds from the loss until each stage was done, in the order of [`Stage::ALL`]; none where it was not.
    pub stages_s: [Option<f64>; 7],
    /// Seconds from the loss until the attitude was said: when the person was ready to take over.
    pub ready_s: Option<f64>,
}

impl Attempt {
    /// Of a rehearsal that was scored, by somebody.
    pub fn of(rehearsed: &Rehearsed<'_>) -> Self {
        let stages_s = rehearsed.stages_s();
        Self {
            pilot: rehearsed.pilot.to_owned(),
            score: rehearsed.score.clone(),
            ready_s: stages_s[Stage::Said as usize],
            stages_s,
        }
    }
}

/// A class: everybody's attempt at one exercise, in the order given. It names no winner.
#[derive(Debug, Clone, Copy)]
pub struct ClassSheet<'a> {
    /// The plan that it was flown on, as it stands in its file.
    pub base: &'a Scenario,
    /// What was rehearsed.
    pub exercise: &'a Exercise,
    /// The attempts.
    pub attempts: &'a [Attempt],
}

impl<'a> ClassSheet<'a> {
    /// The one exercise of several recordings, each with its name.
    ///
    /// # Errors
    ///
    /// Where they are of different ones: those can't be held against each other. Or where there is none.
    pub fn one_exercise<'b>(recorded: &[(&str, &'b Exercise)]) -> Result<&'b Exercise> {
        let Some((first, exercise)) = recorded.first() else {
            return Err(Error::Asked("there is no recording: a class needs one a person".into()));
        };
        match recorded.iter().find(|(_, other)| other != exercise) {
            Some((second, other)) => {
                let differs = if other.name == exercise.name {
                    format!("both are called {}, but the one is set otherwise than the other", exercise.name)
                } else {
                    format!("{first} is of {}, {second} of {}", exercise.name, other.name)
                };
                Err(Error::Asked(format!(
                    "these are rehearsals of different exercises, which no one table can compare: {differs}. Give the \
                     recordings of one exercise at a time"
                )))
            }
            None => Ok(exercise),
        }
    }

    /// What a good run looks like, where the exercise is one of the ladder.
    pub fn good(&self) -> Option<&'static str> {
        ladder().into_iter().find(|rung| rung.exercise == *self.exercise).map(|rung| rung.good)
    }

    /// How many failed.
    pub fn failed(&self) -> usize {
        self.attempts.iter().filter(|attempt| attempt.score.points().is_none()).count()
    }

    /// What it can be made again from, together with the recordings: version, scenario, hash, seed, exercise and trial.
    pub fn stamp(&self) -> String {
        let file = &self.base.file;
        format!(
            "Peewit {VERSION}, scenario {} ({}), seed {}, exercise {}, trial {}. Nobody is ranked.",
            file.name,
            self.base.hash(),
            file.seed,
            self.exercise.name,
            self.exercise.trial
        )
    }
}
