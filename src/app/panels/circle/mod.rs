//! Which circle holds here today: the plan on the left, the answers on the right, the flight below the map.

mod apply;
mod chart;
mod curve;
mod doubts;
mod lap;
mod openers;
mod paint;
mod room;
mod rose;
mod ruler;
mod say;
mod views;
mod wind;

use bevy_egui::egui::{CentralPanel, Panel, ScrollArea, Ui};

use super::{height, legend, plan, progress, replay};
use crate::app::lens::Lens;
use crate::app::panels::room::{ROOMY, frame, side};
use crate::app::{AppCommand, View, map};

/// Least height of a view, points.
const LEAST_VIEW: f32 = 150.0;

/// Lays the board out and returns the lens of its map.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    views::keys(ui, view, out);
    Panel::left("plan").frame(frame(view, ROOMY)).resizable(false).exact_size(side(ui)).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| plan::show(ui, view, out));
    });
    let wide = if is_large(ui) { 620.0 } else { 490.0 };
    Panel::right("answers").frame(frame(view, ROOMY)).resizable(false).exact_size(wide).show(ui, |ui| {
        // Where the screen has not even room for a view of the least height, all of it can be scrolled.
        let room = ui.available_height();
        ScrollArea::vertical().id_salt("answers").auto_shrink([false, false]).show(ui, |ui| {
            let top = ui.cursor().top();
            progress::show(ui, view, out);
            say::show(ui, view, out);
            chart::show(ui, view, out);
            views::buttons(ui, view, out);
            let left = room - (ui.cursor().top() - top);
            views::show(ui, view, left.max(LEAST_VIEW), out);
        });
    });
    Panel::bottom("replay").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| {
        ui.scope(|ui| legend::show(ui, view, out));
        replay::show(ui, view, out);
        height::show(ui, view, out);
    });
    CentralPanel::no_frame().show(ui, |ui| map::circle::show(ui, view, out)).inner
}

