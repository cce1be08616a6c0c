//! The way through the briefing: back, a mark for every step, next.

use bevy_egui::egui::{Align, Button, Layout, Rect, RichText, Sense, Stroke, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::look::theme::bold;
use crate::app::session::{AppCommand, BriefCommand, View};
use crate::brief::Step;

/// Size of a mark and of a button, points.
const MARK: f32 = 42.0;
const BUTTON: f32 = 132.0;

/// Asks for a step by its number.
pub(super) fn go(steps: &[Step], number: usize, out: &mut Vec<AppCommand>) {
    out.extend(steps.get(number).map(|step| AppCommand::Brief(BriefCommand::Step(number, step.live))));
}

/// Shows the row.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, steps: &[Step], now: usize, out: &mut Vec<AppCommand>) {
    let room = ui.available_rect_before_wrap();
    ui.horizontal_centered(|ui| {
        if big(ui, "Back", "the step before (Page up)", now > 0) {
            go(steps, now.wrapping_sub(1), out);
        }
        #[allow(clippy::cast_precision_loss, reason = "a handful of steps")]
        let wide = steps.len() as f32 * (MARK + 6.0);
        ui.add_space((room.center().x - wide / 2.0 - ui.cursor().left()).max(6.0));
        for (number, step) in steps.iter().enumerate() {
            if mark(ui, view, number, steps.len(), step.title, number == now) {
                go(steps, number, out);
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if big(ui, "Next", "the step after it (Page down)", now + 1 < steps.len()) {
                go(steps, now + 1, out);
            }
            ui.label(RichText::new("keys: Page up, Page down").size(14.0).color(view.palette.soft));
        });
    });
}

fn big(ui: &mut Ui, word: &str, hint: &str, on: bool) -> bool {
    let button = Button::new(RichText::new(word).family(bold()).size(20.0)).min_size(vec2(BUTTON, MARK));
    ui.add_enabled(on, button).on_hover_text(hint).clicked()
}

/// A number in a ring, filled where it is the step on the screen; whether it was pressed.
fn mark(ui: &mut Ui, view: &View<'_>, number: usize, count: usize, title: &str, now: bool) -> bool {
    let (rect, response) = ui.allocate_exact_size(vec2(MARK, MARK), Sense::CLICK | Sense::FOCUSABLE);
    let label = format!("step {} of {count}: {title}", number + 1);
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, true, now, &label));
    let palette = view.palette;
    let (fill, ink) = if now { (palette.ink, palette.paper) } else { (palette.button, palette.ink) };
    let edge = if response.has_focus() {
        Stroke::new(3.5, palette.focus)
    } else if response.hovered() {
        Stroke::new(2.5, palette.ink)
    } else {
        Stroke::new(1.5, palette.soft)
    };
    ui.painter().circle(rect.center(), MARK / 2.0 - 2.0, fill, edge);
    number_in(ui, rect, number + 1, ink);
    response.on_hover_text(label).clicked()
}

fn number_in(ui: &Ui, rect: Rect, number: usize, ink: bevy_egui::egui::Color32) {
    use bevy_egui::egui::{Align2, FontId};
    ui.painter().text(rect.center(), Align2::CENTER_CENTER, number, FontId::new(18.0, bold()), ink);
}
