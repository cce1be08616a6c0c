//! A line of words, or of something that is read from words, such as a date.

use bevy_egui::egui::{Align, Color32, Id, Layout, TextStyle, Ui, vec2};

use super::typed::{TypedEntry, TypedOutcome};
use super::{NAME, NARROW, faults, name};
use crate::app::look::theme::TARGET;
use crate::app::session::{AppCommand, View};
use crate::words::help::Topic;

/// A line to be entered.
#[derive(Debug, Clone, Copy)]
pub struct Line<'a> {
    /// Its name.
    pub name: &'a str,
    /// What stands in it.
    pub shown: &'a str,
    /// What stands there while it is empty.
    pub hint: &'a str,
    /// Its place in the scenario's file, as a JSON pointer.
    pub place: &'a str,
    /// What explains it.
    pub topic: Option<Topic>,
}

/// A line in a row of several things.
#[derive(Debug)]
pub struct LineCell<'a, T> {
    line: Line<'a>,
    outcome: TypedOutcome<T>,
}

/// Takes words as they are, without the spaces round them.
///
/// # Errors
/// Never.
pub fn words(text: &str) -> Result<String, String> {
    Ok(text.trim().to_owned())
}

impl<'a> Line<'a> {
    /// Shows it with its name, and below it what is wrong. Returns what was entered.
    pub fn show<T>(
        &self,
        ui: &mut Ui,
        view: &View<'_>,
        out: &mut Vec<AppCommand>,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> Option<T> {
        // Who authorised what must be read whole.
        let font = TextStyle::Body.resolve(ui.style());
        let room = ui.available_width() - NAME - 26.0;
        let long = ui.painter().layout_no_wrap(self.shown.to_owned(), font, Color32::BLACK).size().x > room;
        let narrow = long || ui.available_width() < NARROW;
        if narrow {
            name(ui, self.name, self.topic, out);
        }
        let cell = ui
            .horizontal(|ui| {
                if !narrow {
                    let room = vec2(NAME, TARGET);
                    ui.allocate_ui_with_layout(room, Layout::left_to_right(Align::Center), |ui| {
                        ui.set_min_width(room.x);
                        name(ui, self.name, self.topic, out);
                    });
                }
                self.cell(ui, view, out, ui.available_width() - 2.0, read)
            })
            .inner;
        cell.below(ui, view);
        cell.outcome.found
    }

    /// Shows the box alone, this many points wide, for a row with several of them.
    pub fn cell<T>(
        &self,
        ui: &mut Ui,
        view: &View<'_>,
        out: &mut Vec<AppCommand>,
        width: f32,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> LineCell<'a, T> {
        let outcome = self.typed(width).show(ui, view, out, read, |_, _| None);
        LineCell { line: *self, outcome }
    }

    fn typed(&self, width: f32) -> TypedEntry<'a> {
        TypedEntry { id: Id::new(("line", self.place)), name: self.name, shown: self.shown, hint: self.hint, width }
    }
}

impl<T> LineCell<'_, T> {
    /// What was entered.
    pub fn found(self) -> Option<T> {
        self.outcome.found
    }

    /// Says below the row what is wrong in this box.
    pub fn below(&self, ui: &mut Ui, view: &View<'_>) {
        if let Some(Err(why)) = &self.outcome.typing
            && faults::wrong(ui, view, self.line.name, why, self.line.shown)
        {
            self.line.typed(0.0).put_back(ui);
        }
        faults(ui, view, self.line.place);
    }
}
