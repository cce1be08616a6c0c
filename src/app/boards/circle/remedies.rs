//! Why the usable radii end where they end, and what would help where there are none, each pressed to be taken over.

use bevy_egui::egui::{Button, RichText, Ui, vec2};

use super::apply;
use crate::app::look::theme::{TARGET, bold, boxed};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::recovery::Turn;
use crate::study::radius::{RadiusRange, RadiusStudy, Remedy};
use crate::words::help::Topic;
use crate::words::{self, end};

/// Shows both.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    for line in reasons(view, study) {
        ui.label(line);
    }
    if study.usable.mean.is_empty() || study.usable.gust.is_empty() {
        remedies(ui, view, study, out);
    }
}

/// The ends of the usable radii in words, reasons that repeat said once: first the plan's way round.
fn reasons(view: &View<'_>, study: &RadiusStudy) -> Vec<String> {
    let planned = view.session.draft.file().recovery.turn;
    let mut said: Vec<(Turn, String, Vec<&str>)> = Vec::new();
    let usable = &study.usable;
    for (kind, list) in [
        ("trials", &usable.trials),
        ("undecided by trials", &usable.undecided),
        ("as entered", &usable.mean),
        ("in gusts", &usable.gust),
    ] {
        for range in list {
            let both = ends(view, range);
            match said.iter_mut().find(|(turn, words, _)| *turn == range.turn && *words == both) {
                Some((_, _, kinds)) => kinds.push(kind),
                None => said.push((range.turn, both, vec![kind])),
            }
        }
    }
    said.sort_by_key(|(turn, ..)| *turn != planned);
    let line = |(turn, both, kinds): (Turn, String, Vec<&str>)| {
        let way = if turn == planned { String::new() } else { format!("{}, ", words::turn(turn)) };
        format!("{way}{}: {both}", kinds.join(" and "))
    };
    said.into_iter().map(line).collect()
}

fn ends(view: &View<'_>, range: &RadiusRange) -> String {
    let (low, high) = (view.metres(range.low.radius_m), view.metres(range.high.radius_m));
    format!("below {low}: {}; above {high}: {}.", end(&range.low), end(&range.high))
}

fn remedies(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let wanted = if study.usable.mean.is_empty() { "What would help" } else { "What would hold in the gusts" };
        ui.label(RichText::new(wanted).family(bold()));
        mark(ui, Topic::WhatWouldHelp, out);
    });
    if study.remedies.is_empty() {
        // Every study that looks for them finds some that do not help.
        ui.label("Not looked for yet.");
        return;
    }
    let wanted = |remedy: &&Remedy| {
        let usable = if study.usable.mean.is_empty() { &remedy.usable } else { &remedy.gust };
        !usable.is_empty()
    };
    for remedy in study.remedies.iter().filter(wanted) {
        show_remedy(ui, view, remedy, out);
    }
    let nothing: Vec<&str> =
        study.remedies.iter().filter(|remedy| !wanted(remedy)).map(|remedy| remedy.change.as_str()).collect();
    if !nothing.is_empty() {
        ui.label(format!("Tried, and does not help: {}.", nothing.join("; ")));
    }
}

/// One change with the usable radii it gives, to be pressed.
fn show_remedy(ui: &mut Ui, view: &View<'_>, remedy: &Remedy, out: &mut Vec<AppCommand>) {
    let text = format!("{}\n{}", remedy.change, gives(view, remedy));
    let hint = if remedy.step.is_a_choice() {
        "press to take it over into the plan"
    } else {
        "nobody chooses this: press to see the plan as it would be then"
    };
    boxed(ui);
    let button = Button::new(text).wrap().min_size(vec2(ui.available_width(), TARGET));
    if ui.add_enabled(view.session.is_current(), button).on_hover_text(hint).clicked() {
        out.extend(apply::remedy(view, remedy));
    }
}

/// The usable radii of a change, in both winds.
fn gives(view: &View<'_>, remedy: &Remedy) -> String {
    let mean = spans(view, &remedy.usable);
    let gust = if remedy.gust.is_empty() { "none".into() } else { spans(view, &remedy.gust) };
    format!("gives {mean}; in the gusts {gust}")
}

/// Usable radii in words, such as "110 m to 135 m clockwise".
pub(super) fn spans(view: &View<'_>, usable: &[RadiusRange]) -> String {
    if usable.is_empty() {
        return "none".into();
    }
    let span = |range: &RadiusRange| {
        format!("{} to {}", view.metres(range.low.radius_m), view.circle(range.high.radius_m, range.turn))
    };
    usable.iter().map(span).collect::<Vec<_>>().join("; ")
}
