//! The drill while it is flown: what is done and when, what comes next, and a button for everything that a key does.

use bevy_egui::egui::{Button, Grid, RichText, Ui, vec2};

use super::keys::{HEADINGS, LEANS};
use crate::app::look::theme::{TARGET, bold, primary};
use crate::app::session::{AppCommand, RehearseCommand, View};
use crate::rehearsal::{Deed, Rehearsal, SeenAttitude, Stage, When};
use crate::words::rehearsal as words;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, flown: &Rehearsal, out: &mut Vec<AppCommand>) {
    let rehearse = &view.session.rehearse;
    let mut ask = |command| out.push(AppCommand::Rehearse(command));
    ui.heading(&flown.exercise().name);
    ui.label(RichText::new(state(flown)).family(bold()).size(18.0));
    ui.horizontal(|ui| {
        let word = if rehearse.paused.is_some() { "Go on (Esc)" } else { "Pause (Esc)" };
        if ui.add(Button::new(word).min_size(vec2(0.0, TARGET))).clicked() {
            ask(RehearseCommand::Pause(rehearse.paused.is_none()));
        }
        if ui.add(Button::new("End it here (E)").min_size(vec2(0.0, TARGET))).clicked() {
            ask(RehearseCommand::Pause(false));
            ask(RehearseCommand::Do(Deed::End));
        }
        if ui.add(Button::new("Give up").min_size(vec2(0.0, TARGET))).clicked() {
            ask(RehearseCommand::GiveUp);
        }
    });
    ui.add_space(6.0);
    if flown.lost_at().is_none() {
        ui.label("Fly it: arrows are the stick, down is nose up; W and S are the throttle.");
        if flown.exercise().when == When::Pressed
            && ui.add(primary("Lose it now (X)", view.palette).min_size(vec2(160.0, TARGET))).clicked()
        {
            ask(RehearseCommand::Do(Deed::Lose));
        }
    } else {
        stages(ui, view, flown);
        next(ui, view, flown, &mut ask);
    }
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        let can = flown.has_control() && flown.by_hand() && flown.lost_at().is_some();
        if ui.add_enabled(can, Button::new("Return (R)").min_size(vec2(120.0, TARGET))).clicked() {
            ask(RehearseCommand::Do(Deed::Return));
        }
        let take = flown.has_control() && !flown.by_hand();
        if ui.add_enabled(take, Button::new("I have control (Enter)").min_size(vec2(120.0, TARGET))).clicked() {
            ask(RehearseCommand::Do(Deed::TakeOver));
        }
    });
    ui.add_space(6.0);
    if flown.stages().at(Stage::TakenOver).is_some() {
        ui.label("Land on the runway, or climb away level and end it there (E).");
    }
    ui.label(RichText::new("A rehearsal is for practice and discussion, not a licence. Sit down for it; stop where it turns your stomach.").size(13.0).color(view.palette.soft));
}

/// What flies it at the moment.
fn state(flown: &Rehearsal) -> String {
    let lost = flown.since_loss_s().map_or_else(String::new, |since| format!(", lost {since:.0} s ago"));
    let link = if flown.has_control() { "" } else { ", sticks dead" };
    let picture = if flown.has_video() { "" } else { ", no picture" };
    let who = if flown.by_hand() { "in your hands" } else { flown.stretch().name() };
    format!("{:.0} s: {who}{link}{picture}{lost}", flown.time_s())
}

#[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
fn stages(ui: &mut Ui, view: &View<'_>, flown: &Rehearsal) {
    let stages = flown.stages();
    let lost = flown.lost_at().unwrap_or_default();
    Grid::new("stages").num_columns(3).spacing(vec2(8.0, 2.0)).show(ui, |ui| {
        for stage in Stage::ALL {
            let done = stages.at(stage).map(|at| (at - lost.min(at)) as f64 * flown.step_s());
            let is_next = stages.next() == Some(stage);
            let mark = if done.is_some() {
                "done"
            } else if is_next {
                "\u{25b6}"
            } else {
                ""
            };
            ui.label(mark);
            let words = words::to_do(stage, flown.exercise().lost);
            let text = RichText::new(words);
            ui.label(if is_next { text.family(bold()) } else { text });
            ui.label(done.map_or_else(String::new, |seconds| format!("{seconds:.1} s")));
            ui.end_row();
        }
    });
    let missed = [(stages.missed, "pointed beside it"), (stages.misread, "said another attitude")];
    for (count, what) in missed.into_iter().filter(|(count, _)| *count > 0) {
        ui.label(RichText::new(format!("{what} {count} times")).color(view.palette.soft));
    }
}

/// What is to be done next, as buttons.
fn next(ui: &mut Ui, view: &View<'_>, flown: &Rehearsal, ask: &mut impl FnMut(RehearseCommand)) {
    let rehearse = &view.session.rehearse;
    match flown.stages().next() {
        Some(Stage::Cued) if !view.session.settings.practice.with_spotter => {
            ui.label("The spotter looks\u{2026}");
        }
        Some(stage) if stage.is_said() => {
            let words = format!("{} (Space)", words::to_do(stage, flown.exercise().lost));
            if ui.add(primary(&words, view.palette).min_size(vec2(220.0, 40.0))).clicked() {
                ask(RehearseCommand::Next);
            }
        }
        Some(Stage::Found) => {
            ui.label("Press on the jet in the picture. I, J, K, L turn the eye, U and O narrow and widen it, 0 points at the middle.");
        }
        Some(Stage::Said) => {
            ui.label("Which way does it fly, and which wing is down?");
            ui.horizontal_wrapped(|ui| {
                for (_, heading, word) in HEADINGS {
                    let chosen = rehearse.heading == Some(heading);
                    if ui.add(Button::new(word).selected(chosen).min_size(vec2(90.0, TARGET))).clicked() {
                        ask(RehearseCommand::Heading(heading));
                    }
                }
            });
            ui.horizontal_wrapped(|ui| {
                for (_, lean, word) in LEANS {
                    let button = Button::new(word).min_size(vec2(90.0, TARGET));
                    if ui.add_enabled(rehearse.heading.is_some(), button).clicked()
                        && let Some(heading) = rehearse.heading
                    {
                        ask(RehearseCommand::Do(Deed::Say { seen: SeenAttitude { heading, lean } }));
                    }
                }
            });
        }
        Some(_) => {
            ui.label("Wait for the slow side, then take over: Enter.");
        }
        None => {}
    }
}
