//! How the last run went: what failed it, its parts with their moments, the stages, and the way to keep it.

use bevy_egui::egui::{Button, Grid, Label, RichText, Sense, Slider, TextEdit, Ui, vec2};

use crate::app::look::marks::verdict_mark;
use crate::app::look::theme::{TARGET, bold, primary};
use crate::app::session::{AppCommand, FileCommand, RehearsalFile, RehearseCommand, Rehearsed, View};
use crate::app::widgets::help::mark;
use crate::rehearsal::Stage;
use crate::words::help::Topic;
use crate::words::rehearsal as words;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, last: &Rehearsed, out: &mut Vec<AppCommand>) {
    let units = view.units();
    ui.horizontal(|ui| {
        ui.heading(&last.flown.exercise().name);
        mark(ui, Topic::RehearsalScore, out);
    });
    ui.label(RichText::new(words::headline(&last.score, units)).family(bold()).size(18.0));
    ui.label(RichText::new(compared(last)).color(view.palette.soft));
    ui.horizontal(|ui| {
        if ui.add(primary("Fly it again", view.palette).min_size(vec2(120.0, TARGET))).clicked() {
            out.push(AppCommand::Rehearse(RehearseCommand::Begin));
        }
        if ui.add(Button::new("Another exercise").min_size(vec2(120.0, TARGET))).clicked() {
            out.push(AppCommand::Rehearse(RehearseCommand::Leave));
        }
    });
    ui.add_space(6.0);
    replay(ui, last, out);
    enter(ui, view, last, out);
    ui.add_space(6.0);
    let mut go = |at_s: f64| out.push(AppCommand::Rehearse(RehearseCommand::Replay(at_s)));
    for event in &last.score.events {
        let words = RichText::new(words::event(event, units)).family(bold());
        let response = ui.add(Label::new(words).sense(Sense::click())).on_hover_text("shows the moment");
        if let Some(at_s) = event.at_s().filter(|_| response.clicked()) {
            go(at_s);
        }
    }
    ui.label(RichText::new("Parts").family(bold()));
    Grid::new("parts").num_columns(2).striped(true).spacing(vec2(8.0, 4.0)).show(ui, |ui| {
        for part in &last.score.parts {
            let told = words::part(part, last.score.landed, last.flown.scenario(), units);
            ui.add(Label::new(format!("{} of {:.0}", words::points(part), part.kind.most())));
            let response = ui.add(Label::new(told).wrap().sense(Sense::click()));
            if let Some(at_s) = part.at_s.filter(|_| response.on_hover_text("shows the moment").clicked()) {
                go(at_s);
            }
            ui.end_row();
        }
    });
    stages(ui, last, &mut go);
    ui.collapsing("Every margin", |ui| margins(ui, view, last, &mut go));
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        for file in RehearsalFile::OF_A_RUN {
            if ui.add(Button::new(file.name()).min_size(vec2(0.0, TARGET))).on_hover_text(file.hint()).clicked() {
                out.push(AppCommand::File(FileCommand::SaveRehearsal(file)));
            }
        }
    });
}

fn compared(last: &Rehearsed) -> String {
    match (last.before, last.score.points()) {
        (None, _) => "The first run of this exercise with this plan.".into(),
        (Some(None), _) => "Last time it failed.".into(),
        (Some(Some(before)), Some(now)) => format!("Last time {before:.0} points: {:+.0}.", now - before),
        (Some(Some(before)), None) => format!("Last time {before:.0} points."),
    }
}

fn replay(ui: &mut Ui, last: &Rehearsed, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let word = if last.playing { "Pause" } else { "Play" };
        if ui.add(Button::new(word).min_size(vec2(70.0, TARGET))).clicked() {
            out.push(AppCommand::Rehearse(RehearseCommand::PlayReplay(!last.playing)));
        }
        let mut at_s = last.at_s;
        ui.spacing_mut().slider_width = 200.0;
        let scrub = Slider::new(&mut at_s, 0.0..=last.flown.time_s().max(0.1)).show_value(false).step_by(0.1);
        if ui.add(scrub).changed() {
            out.push(AppCommand::Rehearse(RehearseCommand::Replay(at_s)));
        }
        ui.label(format!("{at_s:.1} s"));
    });
}

#[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
fn stages(ui: &mut Ui, last: &Rehearsed, go: &mut impl FnMut(f64)) {
    let Some(lost) = last.flown.lost_at() else { return };
    ui.label(RichText::new("The drill, seconds since the loss").family(bold()));
    let step_s = last.flown.step_s();
    Grid::new("drill").num_columns(2).spacing(vec2(8.0, 2.0)).show(ui, |ui| {
        for stage in Stage::ALL {
            let at = last.flown.stages().at(stage);
            let response = ui.add(Label::new(words::done(stage)).sense(Sense::click()));
            ui.label(at.map_or("not done".into(), |at| format!("{:.1} s", (at - lost.min(at)) as f64 * step_s)));
            if let Some(at) = at.filter(|_| response.clicked()) {
                go(at as f64 * step_s);
            }
            ui.end_row();
        }
    });
}

fn margins(ui: &mut Ui, view: &View<'_>, last: &Rehearsed, go: &mut impl FnMut(f64)) {
    Grid::new("rehearsal margins").num_columns(3).striped(true).spacing(vec2(8.0, 2.0)).show(ui, |ui| {
        for row in &last.score.rows {
            let (room, _) = ui.allocate_exact_size(vec2(20.0, 20.0), Sense::hover());
            verdict_mark(ui.painter(), room.center(), 7.0, row.verdict, view.palette);
            let response = ui.add(Label::new(&row.name).sense(Sense::click()));
            ui.label(crate::words::margin(row));
            if response.clicked() {
                go(row.at_s);
            }
            ui.end_row();
        }
    });
}

/// The way into the class.
fn enter(ui: &mut Ui, view: &View<'_>, last: &Rehearsed, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        let mut pilot = view.session.rehearse.pilot.clone();
        let name = TextEdit::singleline(&mut pilot).hint_text("who flew it").desired_width(150.0).char_limit(60);
        if ui.add_enabled(!last.entered, name).changed() {
            out.push(AppCommand::Rehearse(RehearseCommand::Pilot(pilot)));
        }
        let word = if last.entered { "In the class" } else { "Into the class" };
        if ui.add_enabled(!last.entered, Button::new(word).min_size(vec2(0.0, TARGET))).clicked() {
            out.push(AppCommand::Rehearse(RehearseCommand::Enter));
        }
    });
}
