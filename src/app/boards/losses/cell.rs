//! The chosen cell: what was counted there, heading by heading, and its worst trial to fly.

use bevy_egui::egui::{Button, Grid, RichText, Sense, Stroke, Ui, vec2};

use crate::app::boards::losses::map::{ShareStep, at_place, heading, home, press, swatch};
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::study::losses::Cell;
use crate::units::Bearing;
use crate::words::{counted, looked_at};

/// Shows it, or how to choose one.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(answer) = view.session.loss_answer() else { return };
    ui.separator();
    ui.spacing_mut().item_spacing.y = 2.0;
    let Some(cell) = view.session.chosen_cell() else {
        ui.heading("Chosen cell: none");
        ui.label("Press a cell of the map to fly its worst trial, or choose one with the arrow keys while the map has the keyboard and press return.");
        return;
    };
    let confidence = answer.found.ask.confidence;
    ui.horizontal(|ui| {
        ui.heading("Chosen cell");
        ui.label(at_place(cell.middle, view.units()));
    });
    ui.label(format!("{}.", looked_at(cell, confidence)));
    ui.label(format!("Worst as entered: {}; in any trial: {}.", cell.plan_worst.name(), cell.worst.name()));
    if let Some(home) = home(cell) {
        ui.label(home);
    }
    headings(ui, view, cell, confidence);
    let words = format!("Fly its worst: heading {}, trial {}", heading(cell.replay.heading_deg), cell.replay.trial);
    if ui.add(Button::new(RichText::new(words).family(bold())).min_size(vec2(0.0, TARGET))).clicked() {
        press(cell, out);
    }
}

/// Flights that crossed no limit, a heading: two columns, clockwise from north.
fn headings(ui: &mut Ui, view: &View<'_>, cell: &Cell, confidence: f64) {
    let count = cell.by_heading.len();
    let rows = count.div_ceil(2);
    Grid::new("headings").num_columns(6).spacing([6.0, 1.0]).min_col_width(18.0).min_row_height(19.0).show(ui, |ui| {
        for row in 0..rows {
            for index in [row, row + rows].into_iter().filter(|&index| index < count) {
                let inside = cell.by_heading[index].inside();
                #[allow(clippy::cast_precision_loss, reason = "a few headings")]
                let deg = 360.0 * index as f64 / count as f64;
                let (rect, _) = ui.allocate_exact_size(vec2(22.0, 17.0), Sense::hover());
                if let Some(step) = ShareStep::of(inside) {
                    swatch(ui.painter(), rect, step.look(view.palette), Stroke::new(1.0, view.palette.ink));
                }
                ui.label(RichText::new(Bearing::from_deg(deg).point()).family(bold()));
                ui.label(RichText::new(counted(inside.count, inside.of, confidence)).size(14.0));
            }
            ui.end_row();
        }
    });
}
