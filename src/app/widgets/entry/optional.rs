//! A number that may be left out: an empty box, with words in it for what is then taken.

use bevy_egui::egui::Ui;

use super::{EntryKind, Line};
use crate::app::session::{AppCommand, View};
use crate::words::help::Topic;

/// A number that may be left out.
#[derive(Debug, Clone, Copy)]
pub struct Optional<'a> {
    /// Its name.
    pub name: &'a str,
    /// What it measures.
    pub kind: EntryKind,
    /// The value in SI, where there is one.
    pub now: Option<f64>,
    /// What stands in the empty box.
    pub hint: &'a str,
    /// Its place in the scenario's file, as a JSON pointer.
    pub place: &'a str,
    /// What explains it.
    pub topic: Option<Topic>,
}

impl Optional<'_> {
    /// Shows it, and below it what is wrong. Returns what was entered: a value in SI, or none where the box was emptied.
    pub fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Option<Option<f64>> {
        let units = view.units();
        let shown = self.now.map_or_else(String::new, |si| self.kind.show(units, si));
        let line = Line { name: self.name, shown: &shown, hint: self.hint, place: self.place, topic: self.topic };
        line.show(ui, view, out, |text| match text.trim() {
            "" => Ok(None),
            text => self.kind.read(units, text).map(Some),
        })
    }
}
