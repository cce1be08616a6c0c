//! A picture of a page or of a step, as large as there is room, with a word where it is not there yet.

use bevy_egui::egui::{Rect, RichText, Sense, Stroke, StrokeKind, Ui, WidgetInfo, WidgetType, pos2, vec2};

use crate::app::brief::Seen;
use crate::app::panels::{View, standing};

/// Shows it in the middle of the room there is.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, seen: &Seen) {
    let Some(drawn) = &seen.drawn else {
        ui.label(RichText::new("Drawing the page.").size(18.0));
        return;
    };
    let Some(picture) = &drawn.picture else {
        ui.label(RichText::new(&drawn.about).size(18.0));
        return;
    };
    let room = ui.available_size();
    let size = picture.size_vec2() / ui.ctx().pixels_per_point();
    // A picture of before may be larger than the room there is now.
    let size = if seen.fresh { size } else { size * (room.x / size.x).min(1.0) };
    let (rect, response) = ui.allocate_exact_size(vec2(size.x.max(room.x), size.y), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, &drawn.about));
    // Dots of the picture on dots of the screen.
    let scale = ui.ctx().pixels_per_point();
    let left = ((rect.center().x - size.x / 2.0) * scale).round() / scale;
    let at = Rect::from_min_size(pos2(left, (rect.top() * scale).round() / scale), size);
    let stale = drawn.edition != view.session.edition;
    let shade = if stale { standing::PALE } else { 1.0 };
    let all = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    ui.painter().image(picture.id(), at, all, bevy_egui::egui::Color32::WHITE.gamma_multiply(shade));
    ui.painter().rect_stroke(at, 0.0, Stroke::new(1.0, view.palette.rule), StrokeKind::Outside);
}
