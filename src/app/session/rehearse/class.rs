//! The class: one exercise with one seed for all, a line a person.

use super::Session;
use crate::report::rehearsal::{Attempt, Rehearsed};

impl Session {
    /// Puts the last run into the class. Another exercise than the one the class flies begins a new class.
    pub(super) fn enter_class(&mut self) {
        let rehearse = &mut self.rehearse;
        let Some(last) = rehearse.last.as_mut().filter(|last| !last.entered) else { return };
        if rehearse.class_exercise.as_ref() != Some(last.flown.exercise()) {
            rehearse.class.clear();
            rehearse.class_exercise = Some(last.flown.exercise().clone());
        }
        let named = !rehearse.pilot.trim().is_empty();
        let pilot =
            if named { rehearse.pilot.trim().to_owned() } else { format!("pilot {}", rehearse.class.len() + 1) };
        let Some(plan) = &self.flown else { return };
        let (base, flown, score) = (&plan.scenario, &last.flown, &last.score);
        rehearse.class.push(Attempt::of(&Rehearsed { base, flown, score, pilot: &pilot, warnings: &[] }));
        last.entered = true;
        rehearse.pilot.clear();
    }
}
