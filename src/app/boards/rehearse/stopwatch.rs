//! The drill with a real pair of goggles and a stopwatch, and what the tries amount to.

use bevy_egui::egui::{Button, Grid, RichText, Ui, vec2};

use crate::app::look::theme::{TARGET, bold, primary};
use crate::app::session::{AppCommand, RehearseCommand, Stopwatch, StopwatchCommand, TRIES, View};
use crate::app::widgets::help::mark;
use crate::rehearsal::{LEAST_TRIES, Lost, TakeOverTimes};
use crate::words::help::Topic;
use crate::words::rehearsal as words;

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.heading("Stopwatch drill");
        mark(ui, Topic::DrillTimes, out);
    });
    ui.label(
        "With a real pair of goggles, a spotter, and any model held up across the field. Goggles on, press Ready. After a \
         while the program calls the loss. Press the space bar for each stage as it is done.",
    );
    let watch = &view.session.rehearse.stopwatch;
    let mut ask = |command| out.push(AppCommand::Rehearse(RehearseCommand::Stopwatch(command)));
    run(ui, view, watch, &mut ask);
    ui.add_space(8.0);
    let tries = &view.session.settings.practice.tries_s;
    ui.label(RichText::new(format!("{} of {TRIES} tries", tries.len())).family(bold()));
    fitted(ui, view, tries, &mut ask);
    ui.horizontal_wrapped(|ui| {
        for (index, seconds) in tries.iter().enumerate() {
            if ui.button(format!("{seconds:.1} s")).on_hover_text("forgets this try").clicked() {
                ask(StopwatchCommand::Forget(index));
            }
        }
    });
    if !tries.is_empty() && ui.add(Button::new("Forget all").min_size(vec2(0.0, TARGET))).clicked() {
        ask(StopwatchCommand::ForgetAll);
    }
}

fn run(ui: &mut Ui, view: &View<'_>, watch: &Stopwatch, ask: &mut impl FnMut(StopwatchCommand)) {
    if watch.runs() {
        match (watch.since_s(), watch.next()) {
            (Some(since), Some(stage)) => {
                ui.label(RichText::new(format!("VIDEO LOST  {since:.1} s")).family(bold()).size(26.0));
                let word = format!("{} (Space)", words::to_do(stage, Lost::Video));
                if ui.add(primary(&word, view.palette).min_size(vec2(220.0, 44.0))).clicked() {
                    ask(StopwatchCommand::Press);
                }
            }
            _ => {
                let told = if watch.early { "Not yet: nothing is lost." } else { "Wait for the call\u{2026}" };
                ui.label(RichText::new(told).family(bold()).size(22.0));
            }
        }
        if ui.add(Button::new("This one does not count (Esc)").min_size(vec2(0.0, TARGET))).clicked() {
            ask(StopwatchCommand::GiveUp);
        }
    } else if ui.add(primary("Ready", view.palette).min_size(vec2(140.0, 44.0))).clicked() {
        ask(StopwatchCommand::Ready);
    }
    if !watch.done_s.is_empty() {
        Grid::new("try").num_columns(2).spacing(vec2(8.0, 2.0)).show(ui, |ui| {
            for (stage, at) in Stopwatch::stages().into_iter().zip(&watch.done_s) {
                ui.label(words::done(stage));
                ui.label(format!("{at:.1} s"));
                ui.end_row();
            }
        });
    }
}

fn fitted(ui: &mut Ui, view: &View<'_>, tries: &[f64], ask: &mut impl FnMut(StopwatchCommand)) {
    let Some(fit) = TakeOverTimes::fit(tries) else {
        ui.label(format!("From {LEAST_TRIES} tries on they say something; {TRIES} say it well."));
        return;
    };
    ui.label(format!(
        "Half of all take less than {:.1} s (95 % interval {:.1} to {:.1} s); one in ten takes more than {:.1} s.",
        fit.median_s,
        fit.median_within_s.low,
        fit.median_within_s.high,
        fit.below_s(0.9)
    ));
    let (now, next) = (view.session.draft.file().limits.take_over, fit.entry());
    let told = |entry: crate::jet::Entry<crate::units::Time>| {
        format!("{:.1} s \u{b1} {:.1} s", entry.value.s(), entry.spread.s())
    };
    ui.label(format!("The plan counts on {}; these tries say {}.", told(now), told(next)));
    if tries.len() < TRIES {
        ui.label(RichText::new(format!("{} more make it {TRIES}.", TRIES - tries.len())).color(view.palette.soft));
    }
    if ui.add_enabled(now != next, primary("Use it in the plan", view.palette).min_size(vec2(180.0, TARGET))).clicked()
    {
        ask(StopwatchCommand::Use);
    }
}
