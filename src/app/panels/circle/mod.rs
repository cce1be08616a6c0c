//! Which circle holds here today: the plan on the left, the answers on the right, the flight below the map.

use bevy_egui::egui::{CentralPanel, Frame, Panel, ScrollArea, Ui};

use super::{ROOMY, View, figures, frame, height, ledger, legend, plan, replay, side};
use crate::app::lens::Lens;
use crate::app::{AppCommand, map};

/// Lays the board out and returns the lens of its map.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    Panel::left("plan").frame(frame(view, ROOMY)).resizable(false).exact_size(side(ui)).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| plan::show(ui, view, out));
    });
    Panel::right("answers").frame(frame(view, ROOMY)).resizable(false).exact_size(490.0).show(ui, |ui| {
        Panel::bottom("figures").frame(Frame::NONE).resizable(false).show_separator_line(false).show(ui, |ui| {
            figures::show(ui, view, out);
        });
        ledger::show(ui, view, out);
    });
    Panel::bottom("replay").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| {
        ui.scope(|ui| legend::show(ui, view, out));
        replay::show(ui, view, out);
        height::show(ui, view, out);
    });
    CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
}
