//! The answer in its five lines, in the words of every report, with the one set of changes to be made with a press.

use bevy_egui::egui::text::LayoutJob;
use bevy_egui::egui::{Align, FontId, FontSelection, RichText, Ui, vec2};

use super::apply;
use crate::app::look::theme::{PALE, TARGET, TEXT, bold, primary};
use crate::app::session::{AppCommand, Doing, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::{standing, verdict};
use crate::brief::FiveLines;
use crate::study::remedy::Found;
use crate::words::help::Topic;

/// The line below which the proposed changes are made.
const REMEDY: usize = 2;

/// Shows them.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    let answers = &view.session.answers;
    let own = answers.own_circle.as_ref();
    let trials = own.and_then(|answer| answer.found.plan_on(answer.found.points.first()?));
    // What would help the plan before is nothing to be told, and less to be done, of this one.
    let remedy = answers.remedy.as_ref().filter(|answer| !view.is_stale(answer)).map(|answer| &*answer.found);
    let stale = own.is_some_and(|answer| view.is_stale(answer));
    let five = match &trials {
        Some(trials) => FiveLines::beside(&flown.entered, trials, remedy),
        None => FiveLines::untried(&flown.entered, verdict::unknown(view)),
    };
    let five = if stale && remedy.is_none() { FiveLines { remedy: None, ..five } } else { five };
    let losses = answers.losses.as_ref().filter(|answer| !view.is_stale(answer));
    let five = five.kept(losses.and_then(|answer| answer.found.keep_inside.as_ref()));
    for (index, (name, words)) in five.rows_or(waiting(view)).into_iter().enumerate() {
        ui.scope(|ui| {
            if stale && index < REMEDY {
                ui.multiply_opacity(PALE);
            }
            line(ui, view, (name, words), index == 0);
        });
        if index == 0
            && let Some(answer) = own.filter(|_| trials.is_some())
        {
            let said = standing::words(view, answer, answer.found.partial);
            if !said.is_empty() {
                ui.label(RichText::new(format!("[{said}]")).size(14.0));
            }
        }
        if index == REMEDY
            && let Some(Found::Changes(remedy)) = remedy
        {
            ui.horizontal(|ui| {
                let button = primary("Change the plan so", view.palette).min_size(vec2(0.0, TARGET));
                if ui.add(button).on_hover_text("one step, which undo takes back").clicked() {
                    out.extend(apply::proposed(view, &remedy.changes));
                }
                mark(ui, Topic::WhatWouldHelp, out);
            });
        }
    }
}

/// What is said of changes that nobody has found yet.
fn waiting(view: &View<'_>) -> &'static str {
    match view.session.doing {
        _ if !view.session.is_current() => "Looked for once the plan can be flown.",
        Doing::Stopped => "Not worked out: stopped.",
        _ => "Being worked out.",
    }
}

/// One line: its name, then what it says, heavy where it is what people ask first.
fn line(ui: &mut Ui, view: &View<'_>, (name, words): (&str, &str), first: bool) {
    let mut job = LayoutJob::default();
    let mut add = |text: RichText| text.append_to(&mut job, ui.style(), FontSelection::Default, Align::Min);
    add(RichText::new(format!("{name}  ")).color(view.palette.soft).font(FontId::proportional(14.0)));
    let font = if first { FontId::new(TEXT, bold()) } else { FontId::proportional(TEXT) };
    add(RichText::new(words).color(view.palette.ink).font(font));
    ui.label(job);
}
