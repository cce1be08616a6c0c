//! The program's own checks, made where the pack is looked at that prints them: asked for, ended, and what came of them.

use bevy_egui::egui::{Button, RichText, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, BriefCommand, View};
use crate::app::widgets::{entry, progress};
use crate::study::work::Work;
use crate::words::checks::{ASK, ASKED, MISSED, in_a_line};

/// Shows them.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let checks = &view.session.checks;
    ui.separator();
    match &checks.going {
        Some(work) => {
            if progress::bar(ui, view, &how_far(work), progress::share(work.progress()), ("Stop", true)) {
                out.push(AppCommand::Brief(BriefCommand::Check(false)));
            }
        }
        None => {
            let button = Button::new(RichText::new(ASK).family(bold())).min_size(vec2(ui.available_width(), TARGET));
            if ui.add(button).clicked() {
                out.push(AppCommand::Brief(BriefCommand::Check(true)));
            }
        }
    }
    ui.label(ASKED);
    if !checks.trouble.is_empty() {
        let words = format!("The checks were not made: {}.", checks.trouble);
        entry::barred(ui, view, true, |ui| ui.label(words));
    }
    match &checks.made {
        Some(made) if made.holds() => {
            ui.label(in_a_line(made));
        }
        Some(made) => {
            entry::barred(ui, view, true, |ui| ui.label(RichText::new(in_a_line(made)).family(bold())));
            ui.label(MISSED);
        }
        None => {}
    }
}

fn how_far(work: &Work) -> String {
    match work.progress() {
        (_, 0) => "Checking".into(),
        (done, of) => format!("Checking: {done} of {of} parts"),
    }
}
