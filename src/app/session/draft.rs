//! What a person is writing: the scenario as it stands on the screen, faulty or not, and the way back to every earlier
//! state of it.

use crate::error::{Fault, Severity};
use crate::field::FieldFile;
use crate::run::{Scenario, ScenarioFile};

/// Edits that can be taken back.
const MOST_STEPS: usize = 500;

/// One edit: the whole scenario as it is to be, and what was done, in words such as "move corner 3 of the boundary".
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// What was done. Edits of the same words are one step until [`Draft::settle`] says that they have come to an end.
    pub what: String,
    /// The scenario.
    pub file: ScenarioFile,
}

/// A scenario being written.
#[derive(Debug, Clone)]
pub struct Draft {
    file: ScenarioFile,
    saved: ScenarioFile,
    faults: Vec<Fault>,
    /// Each edit with the state before it.
    done: Vec<Change>,
    /// Each edit taken back with the state after it.
    undone: Vec<Change>,
    /// Whether the last edit is still going on.
    going_on: bool,
}

impl Draft {
    /// A draft as it was opened, with what is wrong with it. Its field must be inline.
    pub fn new(file: ScenarioFile, faults: Vec<Fault>) -> Self {
        Self { saved: file.clone(), file, faults, done: Vec::new(), undone: Vec::new(), going_on: false }
    }

    /// The scenario as it stands.
    pub const fn file(&self) -> &ScenarioFile {
        &self.file
    }

    /// Its field.
    pub const fn field(&self) -> Option<&FieldFile> {
        self.file.field.as_ref()
    }

    /// The scenario as it was opened or last saved.
    pub const fn saved(&self) -> &ScenarioFile {
        &self.saved
    }

    /// What is wrong with it, warnings too.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// The faults for which it can't be flown.
    pub fn errors(&self) -> impl Iterator<Item = &Fault> {
        self.faults.iter().filter(|fault| fault.severity == Severity::Error)
    }

    /// Whether it differs from what was opened or last saved.
    pub fn is_changed(&self) -> bool {
        self.file != self.saved
    }

    /// It has been saved as it stands.
    pub fn mark_saved(&mut self) {
        self.saved = self.file.clone();
    }

    /// It differs from what is on the disk: that is this.
    pub fn saved_as(&mut self, saved: ScenarioFile) {
        self.saved = saved;
    }

    /// An edit asked of the draft as it was before, as an edit of the draft as it is now: what else was asked in the same
    /// frame stays. Where the two don't go together the later one counts.
    pub fn upon(&self, before: &ScenarioFile, change: Change) -> Change {
        if *before == self.file {
            return change;
        }
        let merged = || {
            let value = |file: &ScenarioFile| serde_json::to_value(file).ok();
            let patch = json_patch::diff(&value(before)?, &value(&change.file)?);
            let mut now = value(&self.file)?;
            json_patch::patch(&mut now, &patch).ok()?;
            serde_json::from_value(now).ok()
        };
        match merged() {
            Some(file) => Change { file, ..change },
            None => change,
        }
    }

    /// Takes an edit; returns the scenario where it can be flown.
    pub fn edit(&mut self, change: Change) -> Option<Scenario> {
        if change.file == self.file {
            return self.check();
        }
        let same = self.going_on && self.done.last().is_some_and(|last| last.what == change.what);
        let before = std::mem::replace(&mut self.file, change.file);
        if !same {
            self.done.push(Change { what: change.what, file: before });
            let extra = self.done.len().saturating_sub(MOST_STEPS);
            self.done.drain(..extra);
        }
        self.undone.clear();
        self.going_on = true;
        self.check()
    }

    /// The edit that was going on has come to an end: what follows is a step of its own.
    pub const fn settle(&mut self) {
        self.going_on = false;
    }

    /// Takes the last edit back; returns the scenario where it can be flown.
    pub fn undo(&mut self) -> Option<Scenario> {
        self.going_on = false;
        let Change { what, file } = self.done.pop()?;
        let file = std::mem::replace(&mut self.file, file);
        self.undone.push(Change { what, file });
        self.check()
    }

    /// Does the edit taken back last again; returns the scenario where it can be flown.
    pub fn redo(&mut self) -> Option<Scenario> {
        self.going_on = false;
        let Change { what, file } = self.undone.pop()?;
        let file = std::mem::replace(&mut self.file, file);
        self.done.push(Change { what, file });
        self.check()
    }

    /// What would be taken back, in words.
    pub fn to_undo(&self) -> Option<&str> {
        self.done.last().map(|change| change.what.as_str())
    }

    /// What would be done again, in words.
    pub fn to_redo(&self) -> Option<&str> {
        self.undone.last().map(|change| change.what.as_str())
    }

    fn check(&mut self) -> Option<Scenario> {
        match Scenario::from_file(self.file.clone()) {
            Ok(scenario) => {
                self.faults = scenario.warnings();
                Some(scenario)
            }
            Err(faults) => {
                self.faults = faults;
                None
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    fn radius(draft: &Draft, metres: f64, what: &str) -> Change {
        let mut file = draft.file().clone();
        file.recovery.radius = Length::new(metres);
        Change { what: what.into(), file }
    }

    fn draft() -> Draft {
        Draft::new(Scenario::tight_strip().file, Vec::new())
    }

    #[test]
    fn every_edit_can_be_taken_back_and_done_again() {
        let mut draft = draft();
        let first = draft.file().clone();
        for (step, metres) in [80.0, 90.0, 100.0].into_iter().enumerate() {
            assert!(draft.edit(radius(&draft, metres, &format!("step {step}"))).is_some());
        }
        let last = draft.file().clone();
        assert!(draft.is_changed() && draft.to_undo() == Some("step 2"));
        for _ in 0..3 {
            assert!(draft.undo().is_some());
        }
        assert!(draft.file() == &first && !draft.is_changed() && draft.undo().is_none());
        assert_eq!(draft.to_redo(), Some("step 0"));
        for _ in 0..3 {
            assert!(draft.redo().is_some());
        }
        assert!(draft.file() == &last && draft.redo().is_none());
    }

    #[test]
    fn one_drag_is_one_step_and_the_next_is_another() {
        let mut draft = draft();
        for metres in [80.0, 81.0, 82.0] {
            draft.edit(radius(&draft, metres, "radius"));
        }
        draft.settle();
        draft.edit(radius(&draft, 90.0, "radius"));
        draft.undo();
        assert_eq!(draft.file().recovery.radius.m(), 82.0);
        draft.undo();
        assert!(!draft.is_changed() && draft.to_undo().is_none());
    }

    #[test]
    fn an_edit_that_spoils_it_is_kept_with_its_faults_and_can_be_taken_back() {
        let mut draft = draft();
        assert!(draft.edit(radius(&draft, -5.0, "radius")).is_none());
        assert!(draft.errors().count() > 0);
        assert!(draft.undo().is_some());
        assert_eq!(draft.errors().count(), 0);
    }

    #[test]
    fn two_edits_of_one_frame_both_count() {
        let mut draft = draft();
        let before = draft.file().clone();
        let mut other = radius(&draft, 85.0, "b");
        other.file.recovery.radius = before.recovery.radius;
        other.file.recovery.height = Length::new(61.5);
        draft.edit(radius(&draft, 80.25, "a"));
        let other = draft.upon(&before, other);
        draft.edit(other);
        let mut both = before.clone();
        (both.recovery.radius, both.recovery.height) = (Length::new(80.25), Length::new(61.5));
        assert!(draft.file() == &both);
        // Where the place that the later one changes is gone, it counts as it was asked.
        let mut base = before.clone();
        base.notes.push("a note".into());
        let mut asked = base.clone();
        *asked.notes.last_mut().unwrap() = "another note".into();
        let found = draft.upon(&base, Change { what: "c".into(), file: asked.clone() });
        assert!(found.file == asked);
    }

    #[test]
    fn a_new_edit_ends_what_could_be_done_again() {
        let mut draft = draft();
        draft.edit(radius(&draft, 80.0, "a"));
        draft.undo();
        draft.edit(radius(&draft, 85.0, "b"));
        assert!(draft.to_redo().is_none() && draft.redo().is_none());
    }
}
