//! The Field board: where the field is drawn, and jet and wind are entered.

mod brief;
mod checklist;
mod field;
mod jet;
mod limits;
mod loss;
mod map;
mod place_box;
mod sheets;
pub mod tools;
mod wind;

use bevy_egui::egui::{CentralPanel, CollapsingHeader, Panel, RichText, ScrollArea, Ui};

use crate::app::boards::Panels;
use crate::app::look::lens::Lens;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::room::{ROOMY, frame, side};
use crate::words::both_norths;

/// What only some people need, folded away until its words are pressed.
fn more(ui: &mut Ui, salt: &str, words: &str, add: impl FnOnce(&mut Ui)) {
    CollapsingHeader::new(RichText::new(words)).id_salt(("more", salt)).show_unindented(ui, add);
}

/// Words that explain, small and soft.
fn soft(ui: &mut Ui, view: &View<'_>, text: &str) {
    ui.label(RichText::new(text).size(14.0).color(view.palette.soft));
}

/// A bearing as a compass reads it, where the field says how far that is off.
fn compass(ui: &mut Ui, view: &View<'_>, true_deg: f64) {
    if let Some(declination) = view.session.draft.field().and_then(|field| field.magnetic_declination) {
        soft(ui, view, &both_norths(true_deg, declination));
    }
}

/// The board.
#[derive(Debug)]
pub struct FieldPanels;

impl Panels for FieldPanels {
    fn show(&self, ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
        Panel::left("field tools").frame(frame(view, ROOMY)).resizable(false).exact_size(side(ui)).show(ui, |ui| {
            ScrollArea::vertical().show(ui, |ui| tools::show(ui, view, out));
        });
        let width = if ui.available_width() > 1500.0 { 540.0 } else { 470.0 };
        Panel::right("sheets").frame(frame(view, ROOMY)).resizable(false).exact_size(width).show(ui, |ui| {
            sheets::show(ui, view, out);
        });
        CentralPanel::no_frame().show(ui, |ui| map::show(ui, view, out)).inner
    }

    fn works_unflown(&self) -> bool {
        true
    }

    /// With a handle in the keyboard's hands plus is a new corner.
    fn keeps_plus(&self, view: &View<'_>) -> bool {
        view.session.field_board.chosen.is_some()
    }
}
