//! The class: one exercise on one plan, with one trial for all, a line a person.

use std::sync::Arc;

use super::super::Session;
use crate::rehearsal::Exercise;
use crate::report::rehearsal::{Attempt, Rehearsed};
use crate::run::Scenario;

/// Several people who fly the same.
#[derive(Debug, Clone)]
pub struct Class {
    /// The plan.
    pub base: Arc<Scenario>,
    /// The exercise.
    pub exercise: Exercise,
    /// How it went, in the order flown.
    pub attempts: Vec<Attempt>,
}

impl Session {
    /// Puts the last run into the class. Another exercise or plan than the class flies begins a new one.
    pub(super) fn enter_class(&mut self) {
        let rehearse = &mut self.rehearse;
        let Some(last) = rehearse.last.as_mut().filter(|last| !last.entered) else { return };
        let (base, exercise) = (last.flown.base(), last.flown.exercise());
        let mut class = rehearse
            .class
            .take()
            .filter(|class| class.exercise == *exercise && class.base.hash() == base.hash())
            .unwrap_or_else(|| Class { base: Arc::clone(base), exercise: exercise.clone(), attempts: Vec::new() });
        let pilot = match rehearse.pilot.trim() {
            "" => format!("pilot {}", class.attempts.len() + 1),
            name => name.to_owned(),
        };
        let (flown, score) = (&last.flown, &last.score);
        class.attempts.push(Attempt::of(&Rehearsed { flown, score, pilot: &pilot, warnings: &[] }));
        last.entered = true;
        rehearse.class = Some(class);
        rehearse.pilot.clear();
    }
}
