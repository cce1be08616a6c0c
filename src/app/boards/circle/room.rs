//! The room budget from the centre outwards to the nearest limit, what falls from the circle, and where there is more.

use bevy_egui::egui::{Align2, Button, Rect, RichText, Sense, Stroke, Ui, pos2, vec2};

use super::apply;
use super::remedies::spans;
use crate::app::look::chart::{cell, letters, plate};
use crate::app::look::sheet::swatch;
use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::help::mark;
use crate::app::widgets::standing;
use crate::draw::{Fill, Ink, Pattern};
use crate::study::radius::{BestCentre, RadiusStudy};
use crate::words::help::Topic;
use crate::words::met;

/// Height of a bar, points.
const BAR: f32 = 24.0;
/// Room for a name over a bar, points.
const NAME: f32 = 18.0;

/// Shows the view.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    ui.horizontal(|ui| {
        ui.label(RichText::new("From the centre outwards to the limit").family(bold()));
        mark(ui, Topic::RoomBudget, out);
    });
    standing::radius(ui, view, |ui, study| {
        if study.budget.is_empty() {
            ui.label("The room budget is not worked out yet.");
        } else {
            stack(ui, view, study);
            lines(ui, view, study, out);
        }
        best_centre(ui, view, study, out);
    });
}

/// How a line of the stack is filled: no two neighbours alike.
fn look(index: usize) -> Fill {
    const INKS: [Ink; 4] = [Ink::BLUE, Ink::VERMILION, Ink::GREEN, Ink::PURPLE];
    const PATTERNS: [Pattern; 5] =
        [Pattern::Rising, Pattern::Dotted, Pattern::Crossed, Pattern::Falling, Pattern::Upright];
    Fill::hatched(PATTERNS[index % PATTERNS.len()], INKS[index % INKS.len()])
}

/// How what falls is filled.
fn falling() -> Fill {
    Fill::hatched(Pattern::Falling, Ink::SOFT)
}

/// The stack as a bar that begins at the centre, under the distance there is, and the falls apart from it.
fn stack(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy) {
    let palette = view.palette;
    let (radius, turn) = study.looked_at;
    let total: f64 = study.budget.iter().map(|part| part.metres).sum();
    let free = study.free_m.max(0.0);
    let longest = (radius + total).max(free).max(radius + study.falls_m) * 1.03;
    let high = 2.0 * NAME + BAR + 38.0;
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::hover());
    let painter = ui.painter().clone();
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let x = |metres: f64| rect.left() + 2.0 + (rect.width() - 4.0) * (metres / longest) as f32;
    let bar = |from: f64, to: f64, top: f32| Rect::from_min_max(pos2(x(from), top), pos2(x(to), top + BAR));
    let limit_y = rect.top() + NAME;
    let top = limit_y + 6.0;
    swatch(&painter, palette, bar(0.0, radius, top), Fill::Plain(Ink::PAPER));
    let name = format!("circle {}", view.metres(radius));
    letters(&painter, palette, pos2(x(0.0) + 6.0, top + BAR / 2.0), Align2::LEFT_CENTER, &name);
    let mut at = radius;
    for (index, part) in study.budget.iter().enumerate() {
        if part.metres > 0.0 {
            swatch(&painter, palette, bar(at, at + part.metres, top), look(index));
        }
        at += part.metres;
    }
    // What there is: a rail from the centre to the limit, with a post that crosses the bar.
    let post = x(free);
    painter.hline(x(0.0)..=post, limit_y, Stroke::new(2.5, palette.ink));
    painter.vline(post, limit_y - 5.0..=top + BAR + 6.0, Stroke::new(4.0, palette.ink));
    let limit = format!("limit at {}: {}", view.metres(free), study.free_to);
    let align = if post > rect.center().x { Align2::RIGHT_BOTTOM } else { Align2::LEFT_BOTTOM };
    plate(&painter, palette, pos2(post, limit_y - 1.0), align, rect, &limit);
    // The falls, apart.
    let falls_top = top + BAR + NAME + 8.0;
    let words = format!("apart: what falls from the circle lands up to {} away", view.metres(study.falls_m));
    letters(&painter, palette, pos2(x(0.0), falls_top - 1.0), Align2::LEFT_BOTTOM, &words);
    let falls = bar(radius, radius + study.falls_m, falls_top).with_max_y(falls_top + 14.0);
    swatch(&painter, palette, falls, falling());
    painter.vline(post, falls_top - 2.0..=falls_top + 18.0, Stroke::new(2.0, palette.ink));
    let left = study.free_m - radius - total;
    let sum = format!("{}, {} together", view.circle(radius, turn), view.metres(total));
    let sum = if left < 0.0 {
        format!("{sum}: {} more than there is", view.metres(-left))
    } else {
        format!("{sum}: {} left", view.metres(left))
    };
    ui.label(RichText::new(sum).family(bold()));
}

/// The lines in words.
fn lines(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    for (index, part) in study.budget.iter().enumerate() {
        row(ui, view, look(index), (part.name, part.metres), |ui| {
            ui.label(RichText::new(&part.origin).size(14.0).color(view.palette.soft));
        });
    }
    row(ui, view, falling(), ("falls from here", study.falls_m), |ui| {
        ui.horizontal(|ui| {
            ui.label(RichText::new("apart, not one of them").size(14.0).color(view.palette.soft));
            mark(ui, Topic::FallsFromHere, out);
        });
    });
}

/// A line: its hatch, its name, how much, and where the number comes from.
fn row(ui: &mut Ui, view: &View<'_>, fill: Fill, (name, length): (&str, f64), origin: impl FnOnce(&mut Ui)) {
    ui.spacing_mut().interact_size.y = 18.0;
    ui.horizontal_top(|ui| {
        cell(ui, 22.0, |ui| {
            let (rect, _) = ui.allocate_exact_size(vec2(22.0, 14.0), Sense::hover());
            swatch(ui.painter(), view.palette, rect, fill);
        });
        cell(ui, 134.0, |ui| {
            ui.label(name);
        });
        cell(ui, 58.0, |ui| {
            ui.label(RichText::new(view.metres(length)).family(bold()));
        });
        let rest = ui.available_width() - 4.0;
        cell(ui, rest, origin);
    });
}

/// The best centre, to be taken over.
fn best_centre(ui: &mut Ui, view: &View<'_>, study: &RadiusStudy, out: &mut Vec<AppCommand>) {
    ui.separator();
    ui.horizontal(|ui| {
        ui.label(RichText::new("The best centre found").family(bold()));
        mark(ui, Topic::BestCentre, out);
    });
    let Some(best) = &study.best_centre else {
        ui.label("None is known yet.");
        return;
    };
    ui.label(best_centre_text(view, study, best));
    let words = format!("Move the centre there, {}", view.circle(best.radius_m, best.turn));
    let button = Button::new(words).min_size(vec2(0.0, TARGET));
    if ui.add_enabled(view.session.is_current(), button).clicked() {
        out.extend(apply::best_centre(view, best));
    }
}

fn best_centre_text(view: &View<'_>, study: &RadiusStudy, best: &BestCentre) -> String {
    let said = met(&study.limits, &best.mean).unwrap_or_else(|| "every buffer is kept".into());
    format!(
        "Centre {} of the datum: usable radii {} in the mean wind; {} there: {said}.",
        place(view, best.centre),
        spans(view, &best.usable),
        view.circle(best.radius_m, best.turn)
    )
}

/// A place as people walk there: so far east, so far north.
pub(super) fn place(view: &View<'_>, at: glam::DVec2) -> String {
    let part = |value: f64, ahead: &str, behind: &str| {
        format!("{} {}", view.metres(value.abs()), if value < 0.0 { behind } else { ahead })
    };
    format!("{}, {}", part(at.x, "east", "west"), part(at.y, "north", "south"))
}
