//! What is wrong with the file: every fault with its place and the way out.

use bevy_egui::egui::{Button, Frame, Margin, RichText, ScrollArea, Stroke, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Change, FileCommand, View};
use crate::error::{Fault, Severity};
use crate::run::{ScenarioFile, TO_FILL_IN};

/// Room that warnings may take from the map, points.
const WARNINGS: f32 = 110.0;

/// Lists the faults: on their own where the file can't be used, above the map where it can.
pub fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let usable = view.session.refused.is_none();
    let faults = view.session.refused.as_deref().unwrap_or(view.session.draft.faults());
    if !usable {
        let errors = faults.iter().filter(|fault| fault.severity == Severity::Error).count();
        ui.heading(if errors == 1 {
            "This file can't be used yet: 1 error".to_owned()
        } else {
            format!("This file can't be used yet: {errors} errors")
        });
        ui.label("Fix what is listed here with an editor for text, save the file and open it again.");
        ui.horizontal(|ui| {
            for (text, command) in [
                ("Open another", FileCommand::Open),
                ("Open it again", FileCommand::OpenThis(view.session.path.clone().unwrap_or_default())),
                ("Demo", FileCommand::Demo),
                ("New", FileCommand::New),
            ] {
                let known = view.session.path.is_some() || !matches!(command, FileCommand::OpenThis(_));
                if known && ui.add(Button::new(text).min_size(vec2(0.0, TARGET))).clicked() {
                    out.push(AppCommand::File(command));
                }
            }
        });
        ui.add_space(6.0);
    }
    let room = if usable { WARNINGS } else { f32::INFINITY };
    ScrollArea::vertical().max_height(room).min_scrolled_height(room.min(WARNINGS)).auto_shrink([false, usable]).show(
        ui,
        |ui| {
            for fault in faults {
                show_fault(ui, view, fault, out);
            }
        },
    );
}

fn show_fault(ui: &mut Ui, view: &View<'_>, fault: &Fault, out: &mut Vec<AppCommand>) {
    let (word, colour) = match fault.severity {
        Severity::Error => ("error", view.palette.hatch[0]),
        Severity::Warning => ("warning", view.palette.hatch[2]),
    };
    let edge = Stroke::new(2.0, colour);
    let head = RichText::new(format!("{word}{}", place(fault))).family(bold());
    let frame = Frame::new().stroke(edge).corner_radius(4).inner_margin(Margin::symmetric(10, 6)).outer_margin(2);
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().interact_size.y = 18.0;
        if view.session.refused.is_none() {
            ui.horizontal_wrapped(|ui| {
                ui.label(head);
                ui.label(format!("{} {}", sentence(&fault.problem), sentence(&fault.way_out)));
                let file = view.session.draft.file();
                if let Some(note) = note(file, fault)
                    && ui.button(format!("Note {} is filled in", note + 1)).clicked()
                {
                    let mut file = file.clone();
                    file.notes.remove(note);
                    out.push(AppCommand::Edit(Box::new(Change { what: "take out a note".into(), file })));
                    out.push(AppCommand::Settle);
                }
            });
        } else {
            ui.label(head);
            ui.label(sentence(&fault.problem));
            ui.label(sentence(&fault.way_out));
        }
    });
}

/// The note that a fault is about, where the note asks for something.
fn note(file: &ScenarioFile, fault: &Fault) -> Option<usize> {
    let number: usize = fault.place.strip_prefix("/notes/")?.parse().ok()?;
    file.notes.get(number).filter(|note| note.starts_with(TO_FILL_IN)).map(|_| number)
}

/// Line and place of a fault, as far as they are known.
fn place(fault: &Fault) -> String {
    let line = fault.line.map_or_else(String::new, |line| format!(", line {line}"));
    let place = if fault.place.is_empty() { String::new() } else { format!(", {}", fault.place) };
    line + &place
}

/// With a capital and a full stop.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|first| first.to_uppercase().to_string()).unwrap_or_default();
    let end = if text.ends_with(['.', '!', '?']) { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}
