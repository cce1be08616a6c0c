//! What must not be overlooked whatever is told or printed: the plan is past the day until which it holds.

use bevy_egui::egui::{Button, Frame, Margin, Panel, RichText, Stroke, Ui, vec2};

use crate::app::look::theme::{TARGET, bold};
use crate::app::session::{AppCommand, Board, FieldSheet, View};

/// Height of the bar, points.
const HIGH: f32 = 48.0;

/// Room that the bar takes, points.
pub(super) fn height(view: &View<'_>) -> f32 {
    if view.session.draft.file().expiry(&view.session.today).is_some() { HIGH } else { 0.0 }
}

/// Shows the bar, where there is something to say.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(expired) = view.session.draft.file().expiry(&view.session.today) else { return };
    let palette = view.palette;
    let frame = Frame::new()
        .fill(palette.tint[0])
        .stroke(Stroke::new(3.0, palette.hatch[0]))
        .inner_margin(Margin::symmetric(12, 5));
    Panel::top("expired").frame(frame).resizable(false).exact_size(HIGH).show(ui, |ui| {
        ui.horizontal_centered(|ui| {
            ui.label(RichText::new(format!("{}.", expired.problem)).family(bold()).size(18.0));
            let button = Button::new("Set a new day").min_size(vec2(0.0, TARGET));
            if ui.add(button).on_hover_text(expired.way_out).clicked() {
                out.extend([AppCommand::Board(Board::Field), AppCommand::Sheet(FieldSheet::Brief)]);
            }
        });
    });
}
