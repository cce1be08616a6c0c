//! A line of words, or of something that is read from words, such as a date.

use bevy_egui::egui::{Align, Id, Layout, Ui, vec2};

use super::typed::Typed;
use super::{NAME, NARROW, faults, name};
use crate::app::AppCommand;
use crate::app::panels::View;
use crate::app::theme::TARGET;
use crate::report::help::Topic;

/// What is read from the words, and how; `Err` says what is wrong and what may be written.
pub type Reader<'a, T> = &'a dyn Fn(&str) -> Result<T, String>;

/// A line to be entered.
#[derive(Debug, Clone, Copy)]
pub struct LineKind<'a> {
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

/// Shows a line with its name, and below it what is wrong. Returns what was entered.
pub fn line<T>(
    ui: &mut Ui,
    view: &View<'_>,
    out: &mut Vec<AppCommand>,
    kind: LineKind<'_>,
    read: Reader<'_, T>,
) -> Option<T> {
    let id = Id::new(("line", kind.place));
    let narrow = ui.available_width() < NARROW;
    if narrow && !kind.name.is_empty() {
        name(ui, kind.name, kind.topic, out);
    }
    let outcome = ui
        .horizontal(|ui| {
            if !narrow {
                let room = vec2(NAME, TARGET);
                ui.allocate_ui_with_layout(room, Layout::left_to_right(Align::Center), |ui| {
                    ui.set_min_width(room.x);
                    name(ui, kind.name, kind.topic, out);
                });
            }
            let width = ui.available_width() - 4.0;
            let typed = Typed { id, name: kind.name, shown: kind.shown, hint: kind.hint, width };
            typed.show(ui, view, out, read, |_, _| None)
        })
        .inner;
    if let Some(Err(why)) = &outcome.typing
        && faults::wrong(ui, view, kind.name, why, kind.shown)
    {
        Typed { id, name: kind.name, shown: kind.shown, hint: kind.hint, width: 0.0 }.put_back(ui);
    }
    faults(ui, view, kind.place);
    outcome.found
}
