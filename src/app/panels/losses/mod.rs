//! From where a loss is recovered: the map of losses with its legend, and the replay of the one pressed.

use bevy_egui::egui::{CentralPanel, Panel, Ui};

use super::{ROOMY, View, frame, height, legend, replay};
use crate::app::lens::Lens;
use crate::app::{AppCommand, map};

/// Lays the board out and returns the lens of its map.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    Panel::right("loss map").frame(frame(view, ROOMY)).resizable(false).exact_size(400.0).show(ui, |ui| {
        ui.heading("From where a loss is recovered");
    });
    Panel::bottom("replay").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| {
        ui.scope(|ui| legend::show(ui, view, out));
        replay::show(ui, view, out);
        height::show(ui, view, out);
    });
    CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
}
