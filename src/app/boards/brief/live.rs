//! What moves in the place of a picture: the curve of the radius, the field, the flight from the loss to the circle.

use bevy_egui::egui::{CentralPanel, Panel, ScrollArea, Ui};

use super::map;
use crate::app::look::lens::Lens;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::room::{ROOMY, frame};
use crate::app::widgets::{height, legend, radius as chart, replay};

/// With less height than this the map needs what room there is, points.
const LEGEND_FROM: f32 = 480.0;

/// Shows the curve with the radius to be dragged.
pub(super) fn curve(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let shown = CentralPanel::no_frame().frame(frame(view, ROOMY)).show(ui, |ui| {
        let high = ui.available_height();
        ScrollArea::vertical().id_salt("curve").auto_shrink([false, false]).show(ui, |ui| {
            chart::show_high(ui, view, high, out);
        });
    });
    Lens::new(view.session.look, shown.response.rect)
}

/// Shows the field.
pub(super) fn field(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
}

/// Shows the field with the replay of the flight.
pub(super) fn flight(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    let room = ui.available_height();
    Panel::bottom("replay").frame(frame(view, ROOMY)).resizable(false).show(ui, |ui| {
        if room >= LEGEND_FROM {
            ui.scope(|ui| legend::show(ui, view, out));
        }
        replay::show(ui, view, out);
        height::show(ui, view, out);
    });
    field(ui, view, out)
}
