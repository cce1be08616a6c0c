//! What moves the answer, how the guidance laws differ, and how many trials met every margin.

use bevy_egui::egui::{Align2, Rect, RichText, Sense, Stroke, Ui, pos2, vec2};

use crate::app::look::chart::{cell, letters};
use crate::app::look::sheet::swatch;
use crate::app::look::theme::bold;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::standing;
use crate::draw::{Fill, Ink, Pattern};
use crate::margins::Outcome;
use crate::run::Input;
use crate::study::Tally;
use crate::study::radius::{RadiusStudy, Sensitivity};
use crate::words::help::Topic;
use crate::words::{Measure, counted, met};

/// Height of a row of the tornado, points.
const ROW: f32 = 22.0;
/// Room for an input's name and for its two values, points.
const NAME: f32 = 150.0;
const VALUES: f32 = 118.0;

/// Shows the view.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    standing::radius(ui, view, |ui, study| {
        share(ui, view, study, out);
        ui.separator();
        tornado(ui, view, study, out);
        ui.separator();
        family(ui, view, study, out);
    });
}

/// The trials of the circle recommended, or of the one that fails by least, else of the plan's.
fn tally(study: &RadiusStudy) -> Option<(f64, crate::recovery::Turn, &Tally)> {
    let choice = study.choice.as_ref().or(study.least_bad.as_ref());
    choice.map(|choice| (choice.radius_m, choice.turn, &choice.trials))
}

fn share(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    let Some((radius, turn, tally)) = tally(study).filter(|(.., tally)| tally.trials > 0) else {
        ui.label("No trial was flown yet.");
        return;
    };
    ui.horizontal(|ui| {
        let title = format!("Trials of {}", view.circle(radius, turn));
        ui.label(RichText::new(title).family(bold()));
        mark(ui, Topic::Share, out);
    });
    let choice = study.choice.as_ref().or(study.least_bad.as_ref());
    let said = choice.and_then(|choice| choice.verdict).map_or_else(
        || format!("A first look at {} trials: no verdict yet", tally.trials),
        |verdict| verdict.in_words(),
    );
    let confidence = crate::study::stats::percent(study.ask.confidence);
    ui.label(RichText::new(format!("{said}.")).family(bold()));
    ui.label(format!("In brackets below the interval of a share at {confidence} confidence, in this model."));
    ui.spacing_mut().interact_size.y = 18.0;
    for (outcome, count) in Outcome::ALL.into_iter().zip(tally.outcomes) {
        ui.horizontal_top(|ui| {
            cell(ui, 128.0, |ui| {
                ui.label(outcome.name());
            });
            cell(ui, 112.0, |ui| bar(ui, view, outcome, count, tally.trials));
            let rest = ui.available_width() - 4.0;
            cell(ui, rest, |ui| {
                ui.label(counted(count, tally.trials, study.ask.confidence));
            });
        });
    }
    let varied = Input::ALL.map(Input::name).join(", ");
    ui.label(RichText::new(format!("Varied: {varied}.")).size(14.0).color(view.palette.soft));
}

/// How many trials came to an outcome, as a bar.
fn bar(ui: &mut Ui, view: &View<'_>, outcome: Outcome, count: u64, of: u64) {
    let (rect, _) = ui.allocate_exact_size(vec2(110.0, 18.0), Sense::hover());
    let rect = rect.shrink2(vec2(0.0, 2.5));
    #[allow(clippy::cast_precision_loss, reason = "the length of a bar")]
    let share = count as f32 / of.max(1) as f32;
    let full = Rect::from_min_size(rect.min, vec2((rect.width() * share).max(if count > 0 { 2.0 } else { 0.0 }), 13.0));
    let fill = match outcome {
        Outcome::Recovered => Fill::Plain(Ink::GREEN),
        _ => Fill::hatched(Pattern::Rising, Ink::VERMILION),
    };
    swatch(ui.painter(), view.palette, full, fill);
    ui.painter().vline(rect.right(), rect.y_range(), Stroke::new(1.0, view.palette.rule));
}

fn tornado(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    let (radius, turn) = study.looked_at;
    ui.horizontal(|ui| {
        let title = format!("What moves the least spare, at {}", view.circle(radius, turn));
        ui.label(RichText::new(title).family(bold()));
        mark(ui, Topic::Sensitivity, out);
    });
    if study.sensitivity.is_empty() {
        ui.label("Not worked out yet.");
        return;
    }
    let told = "Each input alone, from its low to its high value. Left of the heavy line it is inside a buffer.";
    ui.label(RichText::new(told).size(14.0).color(view.palette.soft));
    let spares = study.sensitivity.iter().flat_map(|input| input.spare_m);
    let (low, high) = spares
        .filter(|spare| spare.is_finite())
        .fold((0.0_f64, 0.0_f64), |(low, high), spare| (low.min(spare), high.max(spare)));
    let (low, high) = (low.max(-200.0) - 4.0, high.min(200.0) + 4.0);
    for input in &study.sensitivity {
        show_input(ui, view, input, (low, high));
    }
    let ends = format!("{} to {} of spare", view.metres(low), view.metres(high));
    ui.label(RichText::new(ends).size(14.0).color(view.palette.soft));
}

/// One input: its name, how the spare moves, and the two values.
fn show_input(ui: &mut Ui, view: &View<'_>, input: &Sensitivity, (low, high): (f64, f64)) {
    let palette = view.palette;
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), ROW), Sense::hover());
    let room = Rect::from_min_max(pos2(rect.left() + NAME, rect.top()), pos2(rect.right() - VALUES, rect.bottom()));
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let x = |spare: f64| room.left() + room.width() * ((spare.max(low).min(high) - low) / (high - low)) as f32;
    letters(ui.painter(), palette, rect.left_center(), Align2::LEFT_CENTER, input.input);
    let values = format!("{} | {}", input.values[0], input.values[1]);
    letters(ui.painter(), palette, rect.right_center(), Align2::RIGHT_CENTER, &values);
    let [a, b] = input.spare_m;
    let (from, to) = (x(a.min(b)), x(a.max(b)).max(x(a.min(b)) + 2.0));
    let bar = Rect::from_min_max(pos2(from, room.top() + 4.0), pos2(to, room.bottom() - 4.0));
    // Which end belongs to the high value is seen from the hatch: it rises to it.
    let pattern = if b >= a { Pattern::Rising } else { Pattern::Falling };
    swatch(ui.painter(), palette, bar, Fill::hatched(pattern, Ink::BLUE));
    ui.painter().circle(pos2(x(b), room.center().y), 4.0, palette.ink, Stroke::new(1.0, palette.paper));
    ui.painter().vline(x(0.0), room.y_range(), Stroke::new(2.5, palette.ink));
    let spare = |value: f64| view.units().short(Measure::Distance, value);
    let furthest = |out: Option<f64>| out.map_or_else(|| "no lap".into(), |out| view.metres(out));
    response.on_hover_text(format!(
        "{}: at {} the least spare is {}, furthest {}; at {} (the dot) {}, furthest {}",
        input.input,
        input.values[0],
        spare(a),
        furthest(input.furthest_m[0]),
        input.values[1],
        spare(b),
        furthest(input.furthest_m[1])
    ));
}

fn family(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    let (radius, turn) = study.looked_at;
    ui.horizontal(|ui| {
        let title = format!("The guidance family, at {}", view.circle(radius, turn));
        ui.label(RichText::new(title).family(bold()));
        mark(ui, Topic::Guidance, out);
    });
    if study.family.is_empty() {
        ui.label("Not flown yet.");
        return;
    }
    let told = "Law and gain, furthest distance from the centre, and what is missed most in the mean wind.";
    ui.label(RichText::new(told).size(14.0).color(view.palette.soft));
    for member in &study.family {
        ui.horizontal_top(|ui| {
            cell(ui, 150.0, |ui| {
                ui.label(format!("{}, {}", crate::words::guidance(member.guidance), crate::words::gain(member.gain)));
            });
            cell(ui, 70.0, |ui| {
                let out = member.mean.furthest_m;
                ui.label(RichText::new(out.map_or_else(|| "no lap".into(), |out| view.metres(out))).family(bold()));
            });
            let rest = ui.available_width() - 4.0;
            cell(ui, rest, |ui| {
                ui.label(met(&study.limits, &member.mean).unwrap_or_else(|| "every buffer kept".into()));
            });
        });
    }
}
