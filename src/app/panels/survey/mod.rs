//! The survey: where the field is drawn, and jet and wind are entered.

mod brief;
mod field;
mod jet;
mod limits;
mod loss;
mod place_box;
mod sheets;
pub mod tools;
mod wind;

use bevy_egui::egui::{CentralPanel, CollapsingHeader, Panel, RichText, ScrollArea, Ui};

use crate::app::lens::Lens;
use crate::app::panels::room::{ROOMY, frame, side};
use crate::app::{AppCommand, View, map};

/// What only some people need, folded away until its words are pressed.
fn more(ui: &mut Ui, salt: &str, words: &str, add: impl FnOnce(&mut Ui)) {
    CollapsingHeader::new(RichText::new(words)).id_salt(("more", salt)).show_unindented(ui, add);
}

/// Words that explain, small and soft.
fn soft(ui: &mut Ui, view: &View<'_>, text: &str) {
    ui.label(RichText::new(text).size(14.0).color(view.palette.soft));
}

/// Lays the board out and returns the lens of its map.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) -> Lens {
    Panel::left("survey tools").frame(frame(view, ROOMY)).resizable(false).exact_size(side(ui)).show(ui, |ui| {
        ScrollArea::vertical().show(ui, |ui| tools::show(ui, view, out));
    });
    let width = if ui.available_width() > 1500.0 { 540.0 } else { 470.0 };
    Panel::right("sheets").frame(frame(view, ROOMY)).resizable(false).exact_size(width).show(ui, |ui| {
        sheets::show(ui, view, out);
    });
    CentralPanel::no_frame().show(ui, |ui| map::survey::show(ui, view, out)).inner
}
