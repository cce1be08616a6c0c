//! Which line is which: the pens of the stretches flown, the commanded ring and the mark of the bank limit.

use bevy_egui::egui::{Sense, Stroke, Ui, vec2};

use super::View;
use crate::app::theme::Pen;
use crate::app::{AppCommand, map};
use crate::run::Stretch;

/// Length of a sample of a line, points.
const SAMPLE: f32 = 38.0;

/// Shows the samples, as many to a line as there is room for.
pub fn show(ui: &mut Ui, view: &View<'_>, _out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    let palette = view.palette;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(5.0, 2.0);
        ui.spacing_mut().interact_size.y = 20.0;
        let trace = &flown.run.trace;
        for stretch in Stretch::ALL {
            if stretch != Stretch::HandedBack && trace.stretch.contains(&stretch) {
                sample(ui, palette.pen(stretch), stretch.name());
            }
        }
        sample(ui, palette.ring(), "commanded ring");
        let at = sample(ui, Pen { colour: palette.paper, width: 7.0, dash: &[] }, "at the bank limit");
        let line = [at.left_center(), at.right_center()];
        ui.painter().line_segment(line, Stroke::new(13.0, map::LIMIT_BAND));
        for rung in map::rungs(&line) {
            ui.painter().line_segment(rung, Stroke::new(1.2, bevy_egui::egui::Color32::BLACK));
        }
    });
}

fn sample(ui: &mut Ui, pen: Pen, word: &str) -> bevy_egui::egui::Rect {
    let (rect, _) = ui.allocate_exact_size(vec2(SAMPLE, 20.0), Sense::hover());
    map::pen_line(ui.painter(), &[rect.left_center(), rect.right_center()], pen);
    ui.label(word);
    ui.add_space(10.0);
    rect
}
