//! A picture of a page or of a step, as large as there is room, with a word where it is not there yet.

use bevy_egui::egui::{
    Color32, Rect, RichText, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo, WidgetType, pos2, vec2,
};

use crate::app::beside::pages::Seen;
use crate::app::look::theme::PALE;
use crate::app::session::View;

/// Shows it in the middle of a room.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, seen: &Seen, room: Vec2) {
    let Some(drawn) = &seen.drawn else {
        ui.label(RichText::new("Drawing the page.").size(18.0));
        return;
    };
    let Some(picture) = &drawn.picture else {
        ui.label(RichText::new(&drawn.about).size(18.0));
        return;
    };
    let scale = ui.ctx().pixels_per_point();
    let mut size = picture.size_vec2() / scale;
    let fits = (room / size).min_elem();
    // Dots of the picture on dots of the screen, unless it was drawn for another room or could not be drawn as large.
    if (fits - 1.0).abs() > 0.01 {
        size *= fits;
    }
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), size.y), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, &drawn.about));
    let left = ((rect.center().x - size.x / 2.0) * scale).round() / scale;
    let at = Rect::from_min_size(pos2(left, (rect.top() * scale).round() / scale), size);
    let shade = if drawn.edition == view.session.edition { 1.0 } else { PALE };
    let all = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
    ui.painter().image(picture.id(), at, all, Color32::WHITE.gamma_multiply(shade));
    ui.painter().rect_stroke(at, 0.0, Stroke::new(1.0, view.palette.rule), StrokeKind::Inside);
}
