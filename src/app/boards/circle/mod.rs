//! Which circle holds here today: the plan on the left, the answer and what
//! explains it on the right, the flight below a map that has at least half of the window.

mod apply;
mod doubts;
mod figures;
mod five;
mod flight;
mod lap;
mod map;
mod plan;
mod remedies;
mod room;
mod rose;
mod say;
mod views;
mod wind;

use bevy_egui::egui::{CentralPanel, Frame, Margin, Panel, ScrollArea, Ui};

use crate::app::boards::Panels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::GAP;
use crate::app::session::{AppCommand, CircleView, View};
use crate::app::widgets::progress;
use crate::app::widgets::room::{ROOMY, frame, is_large};

/// Least height of a view, points.
const LEAST_VIEW: f32 = 150.0;
/// Margin of the row below the map, points.
const LOW: Margin = Margin::symmetric(10, 3);

/// Width of the plan, points.
fn plan_wide(ui: &Ui) -> f32 {
    if is_large(ui) { 260.0 } else { 206.0 }
}

/// Width of the answers, points: on a small screen the views that need more room take it from the map while they are
/// open, and leave it half of the width.
fn answers_wide(ui: &Ui, circle: CircleView) -> f32 {
    match circle {
        _ if is_large(ui) => 540.0,
        CircleView::Radii => 312.0,
        _ => 472.0,
    }
}

/// The board.
#[derive(Debug)]
pub struct CirclePanels;

impl Panels for CirclePanels {
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
        views::keys(ui, view, out);
        let wide = plan_wide(ui);
        Panel::left("plan").frame(frame(view, ROOMY)).resizable(false).exact_size(wide).show(ui, |ui| {
            ScrollArea::vertical().show(ui, |ui| plan::show(ui, view, out));
        });
        let wide = answers_wide(ui, view.session.circle);
        Panel::right("answers").frame(frame(view, ROOMY)).resizable(false).exact_size(wide).show(ui, |ui| {
            let foot = Panel::bottom("work").frame(Frame::NONE).resizable(false).show_separator_line(false);
            foot.show(ui, |ui| progress::show(ui, view, out));
            // Where the screen has not even room for a view of the least height, all of it can be scrolled.
            let room = ui.available_height();
            ScrollArea::vertical().id_salt("answers").auto_shrink([false, false]).show(ui, |ui| {
                let top = ui.cursor().top();
                five::show(ui, view, out);
                ui.add_space(GAP);
                views::buttons(ui, view, out);
                let left = room - (ui.cursor().top() - top);
                views::show(ui, view, left.max(LEAST_VIEW), out);
            });
        });
        Panel::bottom("replay").frame(frame(view, LOW)).resizable(false).show(ui, |ui| flight::show(ui, view, out));
        CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
    }

    fn compares(&self) -> bool {
        true
    }
}
