//! The field sheet: name, day and datum, the points, and every part with its properties and its corners.

mod area;
mod circuit;
mod degrees;
mod head;
mod part;
mod parts;
mod place;
mod points;

use bevy_egui::egui::Ui;

use crate::app::session::{AppCommand, View};

/// Shows the sheet.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    head::show(ui, view, out);
    ui.add_space(6.0);
    points::show(ui, view, out);
    ui.add_space(6.0);
    parts::show(ui, view, out);
}
