//! The box for the day something has happened: whom to call, and how they get here.

use bevy_egui::egui::{RichText, Ui};

use super::rows::Rows;
use super::text;
use crate::app::look::theme::bold;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::run::Emergency;
use crate::words::help::Topic;

const CALLS: Rows = Rows {
    one: "call",
    place: "/brief/emergency/call",
    hint: "112 emergency",
    add: "Add a number to call",
    get: |brief| &brief.emergency.call,
    of: |brief| &mut brief.emergency.call,
};

/// Shows the box.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.heading("When something has happened");
        mark(ui, Topic::Emergency, out);
    });
    ui.label(RichText::new("Numbers to call, each with whose it is").family(bold()));
    CALLS.show(ui, view, out);
    ui.add_space(4.0);
    let box_ = &view.session.draft.file().brief.emergency;
    let all: [(&str, &str, &str, &str, fn(&mut Emergency) -> &mut String); 4] = [
        ("gate", &box_.gate, "the lower one, code on the board", "/brief/emergency/gate", |box_| &mut box_.gate),
        ("grid reference", &box_.grid_reference, "", "/brief/emergency/grid_reference", |box_| {
            &mut box_.grid_reference
        }),
        ("fire kit", &box_.fire_kit, "red bin beside the pilot position", "/brief/emergency/fire_kit", |box_| {
            &mut box_.fire_kit
        }),
        ("landowner", &box_.landowner, "name and number", "/brief/emergency/landowner", |box_| &mut box_.landowner),
    ];
    for (name, shown, hint, place, part) in all {
        text(ui, view, out, (name, shown, hint, place), |brief, text| *part(&mut brief.emergency) = text);
    }
}
