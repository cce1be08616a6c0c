//! What is asked about files before anything else goes on: save or not, which path, replace or not.

use bevy_egui::egui::{Align, Button, Context, Frame, Id, Key, Margin, Modal, RichText, TextEdit, Ui, vec2};

use super::intake;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Ask, FileCommand, Purpose, Reply, View};

/// Shows the question that waits, where one does.
pub fn show(ctx: &Context, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(ask) = &view.session.front.ask else { return };
    let frame = Frame::window(&ctx.global_style()).inner_margin(Margin::same(18));
    Modal::new(Id::new("ask")).frame(frame).show(ctx, |ui| {
        if !matches!(ask, Ask::Import(_)) {
            ui.set_max_width(560.0);
        }
        match ask {
            Ask::Unsaved { then } => unsaved(ui, view, then, out),
            Ask::System(purpose) => system(ui, *purpose, out),
            Ask::Path { purpose, why, start } => path(ui, *purpose, why, start, out),
            Ask::Replace { path, .. } => {
                ui.heading("There is a file of that name");
                ui.label(path.display().to_string());
                buttons(ui, &[("Replace it", Reply::Save), ("Another name", Reply::GoBack)], 1, out);
            }
            Ask::Import(found) => intake::show(ui, view, found, out),
            Ask::Told { title, text } => {
                ui.heading(title);
                ui.label(text);
                buttons(ui, &[("I see", Reply::GoBack)], 0, out);
            }
        }
    });
}

const fn reply(reply: Reply) -> AppCommand {
    AppCommand::File(FileCommand::Reply(reply))
}

fn unsaved(ui: &mut Ui, view: &View<'_>, then: &FileCommand, out: &mut Vec<AppCommand>) {
    ui.heading("Save your changes?");
    let name = &view.session.draft.file().name;
    let before = match then {
        FileCommand::Quit => "the window is closed",
        FileCommand::New => "a new field is begun",
        FileCommand::Tour => "the tour begins on the demo",
        FileCommand::Demo | FileCommand::Sample(_) => "the sample field is opened",
        FileCommand::BringBack => "the other changes are brought back",
        _ => "another file is opened",
    };
    ui.label(format!("\u{201c}{name}\u{201d} has changes that are in no file yet. They would be gone once {before}."));
    let all = [("Save", Reply::Save), ("Don't save", Reply::DoNotSave), ("Go back", Reply::GoBack)];
    buttons(ui, &all, 0, out);
}

fn system(ui: &mut Ui, purpose: Purpose, out: &mut Vec<AppCommand>) {
    ui.heading(purpose.title());
    ui.label("Choose the file in the dialog of the system. It may have opened behind this window.");
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if ui.add(Button::new("Type the path here instead").min_size(vec2(0.0, TARGET))).clicked() {
            out.push(AppCommand::File(FileCommand::PathBox));
        }
        if ui.add(Button::new("Go back").min_size(vec2(0.0, TARGET))).clicked() {
            out.push(reply(Reply::GoBack));
        }
    });
}

fn path(ui: &mut Ui, purpose: Purpose, why: &str, start: &str, out: &mut Vec<AppCommand>) {
    let (title, word) = match purpose {
        Purpose::Open => ("Which scenario is to be opened?", "Open"),
        Purpose::SaveAs => ("Where is it to be saved?", "Save"),
        Purpose::Import => ("Which file is to be imported?", "Import"),
        Purpose::Print(_) => ("Where is the print to be saved?", "Save"),
        Purpose::Rehearsal(_) => ("Where is the rehearsal to be saved?", "Save"),
        Purpose::Recording => ("Which recording is to be flown again?", "Open"),
        Purpose::Log => ("Which log is to be read?", "Open"),
        Purpose::Logs => ("The logs of which folder are to be read?", "Open"),
        Purpose::Debrief(_) => ("Where is the debrief to be saved?", "Save"),
    };
    ui.heading(title);
    if !why.is_empty() {
        ui.label(format!("{why} Type the path instead, or drop the file on this window."));
    }
    ui.add_space(6.0);
    let id = Id::new(("path", title, start));
    let mut text = ui.data_mut(|data| data.get_temp_mut_or(id, start.to_owned()).clone());
    let label = ui.label(RichText::new("path").family(bold()));
    let edit = TextEdit::singleline(&mut text).desired_width(520.0).min_size(vec2(0.0, TARGET));
    let box_ = ui.add(edit.vertical_align(Align::Center)).labelled_by(label.id);
    if ui.memory(|memory| memory.focused()).is_none() && !box_.lost_focus() {
        box_.request_focus();
    }
    let entered = box_.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    ui.data_mut(|data| data.insert_temp(id, text.clone()));
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        let go = Button::new(RichText::new(word).family(bold())).min_size(vec2(76.0, TARGET));
        let pressed = ui.add_enabled(!text.trim().is_empty(), go).clicked();
        if pressed || entered {
            ui.data_mut(|data| data.remove_temp::<String>(id));
            out.push(AppCommand::File(FileCommand::Typed(text)));
        }
        if ui.add(Button::new("Go back").min_size(vec2(0.0, TARGET))).clicked() {
            out.push(reply(Reply::GoBack));
        }
    });
}

/// The answers; the one numbered `first` has the keyboard.
fn buttons(ui: &mut Ui, all: &[(&str, Reply)], first: usize, out: &mut Vec<AppCommand>) {
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        for (number, (text, answer)) in all.iter().enumerate() {
            let button = ui.add(Button::new(RichText::new(*text).family(bold())).min_size(vec2(90.0, TARGET)));
            if number == first && ui.memory(|memory| memory.focused()).is_none() {
                button.request_focus();
            }
            if button.clicked() {
                out.push(reply(*answer));
            }
        }
    });
}
