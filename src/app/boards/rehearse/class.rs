//! The class: everybody's run of one exercise, side by side, with the way to paper.

use bevy_egui::egui::{Button, Grid, RichText, ScrollArea, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, FileCommand, RehearsalFile, RehearseCommand, View};
use crate::rehearsal::PartKind;
use crate::words::rehearsal as words;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let rehearse = &view.session.rehearse;
    ui.heading("Class");
    ui.label(
        "One exercise with one trial for all: the same wind, the same loss, at the same moment. Nobody is ranked.",
    );
    let Some(class) = &rehearse.class else {
        ui.label("Nobody yet. After a run, press \u{201c}Into the class\u{201d}.");
        return;
    };
    ui.label(RichText::new(&class.exercise.name).family(bold()));
    ScrollArea::horizontal().show(ui, |ui| {
        Grid::new("class").num_columns(3 + PartKind::ALL.len()).striped(true).spacing(vec2(10.0, 4.0)).show(ui, |ui| {
            for head in ["pilot", "points", "ready after"] {
                ui.label(RichText::new(head).family(bold()));
            }
            ui.end_row();
            for attempt in &class.attempts {
                ui.label(&attempt.pilot);
                ui.label(words::result(&attempt.score, view.units()));
                ui.label(attempt.ready_s.map_or("not".into(), |seconds| format!("{seconds:.1} s")));
                ui.end_row();
            }
        });
    });
    ui.horizontal_wrapped(|ui| {
        for file in RehearsalFile::OF_A_CLASS {
            if ui.add(Button::new(file.name()).min_size(vec2(0.0, TARGET))).on_hover_text(file.hint()).clicked() {
                out.push(AppCommand::File(FileCommand::SaveRehearsal(file)));
            }
        }
        if ui.add(Button::new("Empty the class").min_size(vec2(0.0, TARGET))).clicked() {
            out.push(AppCommand::Rehearse(RehearseCommand::EmptyClass));
        }
    });
}
