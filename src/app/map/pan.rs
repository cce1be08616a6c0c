//! The map as a thing to point at: what dragging and turning the wheel ask for.

use bevy_egui::egui::{Id, Response, Sense, Ui, WidgetInfo, WidgetType, vec2};
use glam::DVec2;

use crate::app::look::lens::{Lens, MapView};
use crate::app::session::AppCommand;

/// The room that is left, as the map of the field: the lens of it, and how the pointer stands to it. Where `keyboard` is
/// [`Sense::FOCUSABLE`] the map takes the keyboard; a map that is `held` is not moved.
pub fn field(ui: &Ui, look: MapView, keyboard: Sense, held: bool, out: &mut Vec<AppCommand>) -> (Lens, Response) {
    let lens = Lens::new(look, ui.available_rect_before_wrap());
    let map = pan_and_zoom(ui, &lens, ("map of the field", keyboard), held, out);
    (lens, map)
}

/// Moves and scales the view as the pointer asks, and returns how the pointer stands to the map. What is put on the map
/// after this, such as a handle, has the pointer first. A map that is `held` is not moved.
pub fn pan_and_zoom(
    ui: &Ui,
    lens: &Lens,
    (label, more): (&str, Sense),
    held: bool,
    out: &mut Vec<AppCommand>,
) -> Response {
    let response = ui.interact(lens.rect, Id::new(label), Sense::CLICK | Sense::DRAG | more);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, label));
    let drag = response.drag_delta();
    if drag != vec2(0.0, 0.0) && !held {
        out.push(AppCommand::Pan(DVec2::new(f64::from(-drag.x), f64::from(drag.y)) * lens.metres_a_point));
    }
    if let Some(pointer) = response.hover_pos() {
        let (wheel, pinch) = ui.input(|input| (input.smooth_scroll_delta().y, input.zoom_delta()));
        let factor = f64::from((-wheel / 240.0).exp() / pinch);
        if (factor - 1.0).abs() > 1e-6 {
            out.push(AppCommand::Zoom { factor, about: Some(lens.ground(pointer)) });
        }
    }
    response
}
