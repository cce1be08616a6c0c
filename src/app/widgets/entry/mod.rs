//! Boxes and buttons in which a scenario is entered: numbers in whatever unit a person has, words, choices, switches.
//!
//! A number is taken when the box is left or Enter is pressed. What can't be read stays as it was typed, with what is
//! wrong below it, until it is fixed or put back with Escape.

mod choice;
mod edit;
mod faults;
mod kind;
mod number;
mod optional;
mod text;
mod typed;

pub use choice::{choice, marked, switch};
pub use edit::{change, edited, set};
pub use faults::{barred, faults, note};
pub use kind::EntryKind;
pub use number::{About, Number, Numbered, key, number};
pub use optional::Optional;
pub use text::{Line, LineCell, words};

use bevy_egui::egui::{Align, Id, Layout, RichText, Ui, vec2};

use crate::app::look::theme::TARGET;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::words::help::Topic;
use typed::{TypedEntry, TypedOutcome};

/// Room for a name before its box, points.
const NAME: f32 = 168.0;
/// Room for a box, points.
const BOX: f32 = 112.0;
/// Below this width a name stands above its box, points.
const NARROW: f32 = 330.0;

/// A number to be entered.
#[derive(Debug, Clone, Copy)]
pub struct Entry<'a> {
    name: &'a str,
    kind: EntryKind,
    si: f64,
    place: &'a str,
    topic: Option<Topic>,
    width: f32,
}

impl<'a> Entry<'a> {
    /// A number with its name, what it measures, its value in SI, and its place in the scenario's file, as a JSON pointer.
    pub fn new(name: &'a str, kind: impl Into<EntryKind>, si: f64, place: &'a str) -> Self {
        Self { name, kind: kind.into(), si, place, topic: None, width: BOX }
    }

    /// The same with a button that explains it.
    #[must_use]
    pub const fn help(self, topic: Topic) -> Self {
        Self { topic: Some(topic), ..self }
    }

    /// The same with a box this many points wide.
    #[must_use]
    pub const fn wide(self, width: f32) -> Self {
        Self { width, ..self }
    }

    /// Shows name, box, the value in a second unit, and below them what is wrong. Returns a new value in SI when one has
    /// been entered; see [`set`] for what to do with it.
    pub fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Option<f64> {
        let narrow = ui.available_width() < NARROW;
        if narrow {
            name(ui, self.name, self.topic, out);
        }
        let outcome = ui
            .horizontal(|ui| {
                if !narrow {
                    let room = vec2(NAME.min(ui.available_width()), TARGET);
                    ui.allocate_ui_with_layout(room, Layout::left_to_right(Align::Center), |ui| {
                        ui.set_min_width(room.x);
                        name(ui, self.name, self.topic, out);
                    });
                }
                let outcome = self.bare(ui, view, out);
                let also = match &outcome.typing {
                    Some(Ok(si)) => format!("= {}", self.kind.show(view.units(), *si)),
                    _ => self.kind.second(view.units(), self.si),
                };
                ui.label(RichText::new(also).color(view.palette.soft));
                outcome
            })
            .inner;
        self.below(ui, view, &outcome);
        outcome.found
    }

    /// Shows the box alone; [`Self::below`] says what is wrong, wherever there is room for it.
    fn bare(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> TypedOutcome<f64> {
        let units = view.units();
        let shown = self.kind.show(units, self.si);
        let read = |text: &str| self.kind.read(units, text);
        let step = |from: Option<f64>, steps| Some(self.kind.stepped(units, from.unwrap_or(self.si), steps));
        self.typed(&shown).show(ui, view, out, read, step)
    }

    /// Shows the box alone, for a row with several of them, and gives it back with what came of it.
    pub fn cell(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Cell<'a> {
        Cell { entry: *self, outcome: self.bare(ui, view, out) }
    }

    fn typed<'b>(&'b self, shown: &'b str) -> TypedEntry<'b> {
        TypedEntry { id: Id::new(("entry", self.place)), name: self.name, shown, hint: "", width: self.width }
    }

    fn below(&self, ui: &mut Ui, view: &View<'_>, outcome: &TypedOutcome<f64>) {
        if let Some(Err(why)) = &outcome.typing {
            let shown = self.kind.show(view.units(), self.si);
            if faults::wrong(ui, view, self.name, why, &shown) {
                self.typed(&shown).put_back(ui);
            }
        }
        faults(ui, view, self.place);
    }
}

/// A box in a row of several.
#[derive(Debug)]
pub struct Cell<'a> {
    entry: Entry<'a>,
    outcome: TypedOutcome<f64>,
}

impl Cell<'_> {
    /// A new value in SI, where one was entered.
    pub const fn found(&self) -> Option<f64> {
        self.outcome.found
    }

    /// Says below the row what is wrong in this box.
    pub fn below(&self, ui: &mut Ui, view: &View<'_>) {
        self.entry.below(ui, view, &self.outcome);
    }
}

/// The name of something to be entered, with the button that explains it.
pub fn name(ui: &mut Ui, text: &str, topic: Option<Topic>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.label(text);
        if let Some(topic) = topic {
            mark(ui, topic, out);
        }
    });
}
