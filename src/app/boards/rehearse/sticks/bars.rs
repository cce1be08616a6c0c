//! Where every axis of a device is at this moment, and where that puts the sticks.

use bevy_egui::egui::{Grid, Rect, RichText, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use crate::app::look::theme::Palette;
use crate::app::session::sticks::{Function, RawSticks, StickMap};
use crate::rehearsal::Sticks;

/// Shows a bar an axis, with what it is for, and the buttons that are down.
pub(super) fn axes(ui: &mut Ui, raw: &RawSticks, map: &StickMap, palette: &Palette) {
    Grid::new("axes").num_columns(3).spacing([8.0, 2.0]).min_row_height(20.0).show(ui, |ui| {
        for (id, value) in &raw.axes {
            let is_its = |function: &Function| map.axis(*function).is_some_and(|axis| axis.axis == *id);
            let what = Function::ALL.into_iter().find(is_its).map_or("", Function::name);
            ui.label(RichText::new(id).color(palette.soft));
            bar(ui, id, f64::from(*value), [-1.0, 1.0], palette);
            ui.label(what);
            ui.end_row();
        }
    });
    if raw.axes.is_empty() {
        ui.label("Nothing heard of it yet: move its sticks.");
    }
    if !raw.buttons.is_empty() {
        let down: Vec<_> = raw.buttons.iter().map(String::as_str).collect();
        ui.label(format!("Down: {}.", down.join(", ")));
    }
}

/// Shows a bar for each of roll, pitch and throttle.
pub(super) fn sticks(ui: &mut Ui, sticks: Sticks, palette: &Palette) {
    Grid::new("sticks").num_columns(3).spacing([8.0, 2.0]).min_row_height(20.0).show(ui, |ui| {
        for (name, share, range, [less, more]) in [
            ("roll", sticks.roll_share, [-1.0, 1.0], ["left", "right"]),
            ("pitch", sticks.pitch_share, [-1.0, 1.0], ["down", "up"]),
            ("throttle", sticks.throttle_share, [0.0, 1.0], ["", ""]),
        ] {
            ui.label(name);
            bar(ui, name, share, range, palette);
            let percent = (100.0 * share).round();
            let side = if percent < 0.0 { less } else { more };
            ui.label(if percent == 0.0 { "0 %".to_owned() } else { format!("{} % {side}", percent.abs()) });
            ui.end_row();
        }
    });
}

/// A bar that begins at nothing and ends at the value.
fn bar(ui: &mut Ui, name: &str, value: f64, [low, high]: [f64; 2], palette: &Palette) {
    let (rect, response) = ui.allocate_exact_size(vec2(140.0, 14.0), Sense::hover());
    let label = format!("{name} {value:.2}");
    response.widget_info(|| WidgetInfo::labeled(WidgetType::ProgressIndicator, true, &label));
    let at = |value: f64| {
        let share = ((value - low) / (high - low)).clamp(0.0, 1.0);
        rect.left() + rect.width() * share as f32
    };
    let (from, to) = (at(0.0), at(value));
    let painter = ui.painter();
    painter.rect_filled(rect, 0.0, palette.button);
    let filled = Rect::from_min_max(pos2(from.min(to), rect.top()), pos2(from.max(to), rect.bottom()));
    painter.rect_filled(filled, 0.0, palette.focus);
    painter.vline(to, rect.y_range(), Stroke::new(2.0, palette.ink));
    painter.rect_stroke(rect, 0.0, Stroke::new(1.0, palette.rule), StrokeKind::Inside);
}
