//! What must not be overlooked whatever is told or printed: nobody flies by this plan yet, and why. It stands wherever
//! the prints say so.

use bevy_egui::egui::text::LayoutJob;
use bevy_egui::egui::{Align, Button, FontId, Frame, Layout, Margin, Panel, RichText, Stroke, TextFormat, Ui, vec2};

use crate::app::look::theme::{TARGET, TEXT, bold};
use crate::app::session::{AppCommand, Board, FieldSheet, View};
use crate::brief::{DO_NOT_FLY, Release, Stop};

/// Height of the bar, points: two lines.
const HIGH: f32 = 52.0;

/// What stops the plan, by what is known of it as it stands: that of an earlier one counts for nothing, so that a draft
/// that can't be flown is none to fly by.
fn release(view: &View<'_>) -> Release {
    let session = view.session;
    let own = session.answers.own_circle.as_ref().filter(|answer| !view.is_stale(answer));
    let trials = own.and_then(|answer| answer.found.plan_on(answer.found.points.first()?));
    Release::of(session.draft.file(), &session.today, trials.as_ref())
}

/// Room that the bar takes, points.
pub(super) fn height(view: &View<'_>) -> f32 {
    if release(view).stopped() { HIGH } else { 0.0 }
}

/// Shows the bar, where anything stops the plan.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let release = release(view);
    if !release.stopped() {
        return;
    }
    let palette = view.palette;
    let frame = Frame::new()
        .fill(palette.tint[0])
        .stroke(Stroke::new(3.0, palette.hatch[0]))
        .inner_margin(Margin::symmetric(12, 5));
    let ways_out: Vec<&str> = release.stops.iter().map(Stop::way_out).collect();
    Panel::top("do not fly").frame(frame).resizable(false).exact_size(HIGH).show(ui, |ui| {
        ui.horizontal_centered(|ui| {
            ui.label(RichText::new(DO_NOT_FLY).family(bold()).size(20.0));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if release.stops.iter().any(|stop| matches!(stop, Stop::Expired(_))) {
                    let button = Button::new("Set a new day").min_size(vec2(0.0, TARGET));
                    if ui.add(button).clicked() {
                        out.extend([AppCommand::Board(Board::Field), AppCommand::Sheet(FieldSheet::Brief)]);
                    }
                }
                let format = TextFormat::simple(FontId::proportional(TEXT), palette.ink);
                let mut reasons = LayoutJob::single_section(release.reasons().join(" "), format);
                (reasons.wrap.max_width, reasons.wrap.max_rows) = (ui.available_width(), 2);
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    ui.label(reasons).on_hover_text(ways_out.join("\n"));
                });
            });
        });
    });
}
