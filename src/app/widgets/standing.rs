//! What must be said beside an answer: that it is of another plan, a first look, or was stopped half-way.

use bevy_egui::egui::{RichText, Ui};

use crate::app::look::theme::{PALE, bold};
use crate::app::session::{Answer, Doing, Grade, View};
use crate::study::radius::RadiusStudy;

/// What must be said beside an answer; nothing where it is complete and of the plan on the screen.
pub fn words<T>(view: &View<'_>, answer: &Answer<T>, partial: bool) -> String {
    let session = view.session;
    let mut said = Vec::new();
    if !session.is_current() {
        said.push("of the last field that could be flown");
    }
    if view.is_stale(answer) {
        said.push(match session.doing {
            Doing::Stopped => "of the plan before; working out is stopped",
            _ => "of the plan before: being worked out again",
        });
    }
    if partial {
        said.push("stopped half-way: rests on what was flown until then");
    } else if answer.grade == Grade::Coarse {
        said.push("first look: few trials");
    }
    said.join("; ")
}

/// Shows what must be said beside an answer, where there is anything.
pub fn note<T>(ui: &mut Ui, view: &View<'_>, answer: &Answer<T>, partial: bool) {
    let said = words(view, answer, partial);
    if !said.is_empty() {
        ui.label(RichText::new(format!("[{said}]")).family(bold()).color(view.palette.ink));
    }
}

/// Shows what hangs on an answer whose note stands above it already: pale where it is of another plan.
pub fn pale<T>(ui: &mut Ui, view: &View<'_>, answer: &Answer<T>, contents: impl FnOnce(&mut Ui, &T)) {
    ui.scope(|ui| {
        if view.is_stale(answer) {
            ui.multiply_opacity(PALE);
        }
        contents(ui, &answer.found);
    });
}

/// Shows what hangs on the radius study of the plan.
pub fn radius(ui: &mut Ui, view: &View<'_>, contents: impl FnOnce(&mut Ui, &RadiusStudy)) {
    show(ui, view, view.session.answers.radius.as_ref(), |study| study.partial, contents);
}

/// Shows what hangs on an answer: pale, with the reason in words, where it is of another plan; a note where
/// there is no answer yet.
pub fn show<T>(
    ui: &mut Ui,
    view: &View<'_>,
    answer: Option<&Answer<T>>,
    partial: impl Fn(&T) -> bool,
    contents: impl FnOnce(&mut Ui, &T),
) {
    let Some(answer) = answer else {
        let words = if view.session.doing == Doing::Stopped { "Not worked out: stopped." } else { "Being worked out." };
        ui.label(words);
        return;
    };
    note(ui, view, answer, partial(&answer.found));
    pale(ui, view, answer, contents);
}
