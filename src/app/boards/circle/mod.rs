//! Which circle holds here today: the plan on the left, the answers on the right, the flight below the map.

mod apply;
mod doubts;
mod figures;
mod five;
mod lap;
mod map;
mod plan;
mod remedies;
mod room;
mod rose;
mod say;
mod views;
mod wind;

use bevy_egui::egui::{CentralPanel, Panel, ScrollArea, Ui};

use crate::app::boards::Panels;
use crate::app::look::lens::Lens;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::room::{ROOMY, frame, is_large, side};
use crate::app::widgets::{height, legend, progress, radius, replay};

/// Least height of a view, points.
const LEAST_VIEW: f32 = 150.0;

/// The board.
#[derive(Debug)]
pub struct CirclePanels;

impl Panels for CirclePanels {
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
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
                five::show(ui, view, out);
                progress::show(ui, view, out);
                say::show(ui, view, out);
                radius::show(ui, view, out);
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
        CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
    }

    fn compares(&self) -> bool {
        true
    }
}
