//! The plan's numbers as they are entered into the stabiliser, to be read off or copied.

use bevy_egui::egui::{Button, Grid, RichText, Ui, vec2};

use crate::app::boards::field_board::soft;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::View;
use crate::brief::to_enter;

/// Shows the list.
pub(super) fn show(ui: &mut Ui, view: &View<'_>) {
    let all = to_enter(view.session.draft.file(), view.units());
    soft(ui, view, "The plan as it stands, in its own words. Read each back from the jet before the first flight.");
    Grid::new("to enter").num_columns(2).spacing(vec2(18.0, 2.0)).show(ui, |ui| {
        for (name, value) in &all {
            ui.label(*name);
            ui.label(RichText::new(value).family(bold()));
            ui.end_row();
        }
    });
    if ui.add(Button::new("Copy the list").min_size(vec2(0.0, TARGET))).clicked() {
        let lines = all.iter().map(|(name, value)| format!("{name}: {value}\n"));
        ui.ctx().copy_text(lines.collect());
    }
}
