//! Which line is which: the pens of the stretches flown, the commanded ring and the mark of the maximum bank.

use bevy_egui::egui::{Color32, FontId, Rect, Sense, Stroke, Ui, WidgetInfo, WidgetType, vec2};

use crate::app::look::pens::{LIMIT_BAND, pen_line, rungs};
use crate::app::look::theme::{Pen, TEXT};
use crate::app::session::{AppCommand, View};
use crate::run::Stretch;

/// Length of a sample of a line, points.
const SAMPLE: f32 = 38.0;

/// Shows the samples, as many to a line as there is room for.
pub fn show(ui: &mut Ui, view: &View<'_>, _out: &mut Vec<AppCommand>) {
    let Some(flown) = &view.session.flown else { return };
    let palette = view.palette;
    ui.spacing_mut().interact_size.y = 20.0;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(5.0, 0.0);
        let trace = &flown.run.trace;
        for stretch in Stretch::ALL {
            if stretch != Stretch::TakenOver && trace.stretch.contains(&stretch) {
                sample(ui, palette.pen(stretch), stretch.name());
            }
        }
        sample(ui, palette.ring(), "commanded ring");
        let at = sample(ui, Pen { colour: palette.paper, width: 7.0, dash: &[] }, "at the maximum bank");
        let line = [at.left_center(), at.right_center()];
        ui.painter().line_segment(line, Stroke::new(13.0, LIMIT_BAND));
        for rung in rungs(&line) {
            ui.painter().line_segment(rung, Stroke::new(1.2, Color32::BLACK));
        }
    });
}

/// A sample of a line with its word, which stay together; returns where the line is.
fn sample(ui: &mut Ui, pen: Pen, word: &str) -> Rect {
    let galley = ui.painter().layout_no_wrap(word.to_owned(), FontId::proportional(TEXT), ui.visuals().text_color());
    let size = vec2(SAMPLE + 6.0 + galley.size().x + 14.0, 20.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, word));
    let line = Rect::from_min_size(rect.min, vec2(SAMPLE, rect.height()));
    pen_line(ui.painter(), &[line.left_center(), line.right_center()], pen);
    let at = line.right_center() + vec2(6.0, -galley.size().y / 2.0);
    ui.painter().galley(at, galley, ui.visuals().text_color());
    line
}
