//! How much room panels leave round what is in them, how wide those at the side are, and what is in sight of what can be
//! scrolled.

use bevy_egui::egui::{Frame, Margin, Ui};

use crate::app::session::View;

/// Margin of a panel with several things in it.
pub const ROOMY: Margin = Margin::symmetric(10, 8);

/// A panel on paper, with a margin.
pub fn frame(view: &View<'_>, margin: Margin) -> Frame {
    Frame::new().fill(view.palette.paper).inner_margin(margin)
}

/// Width of the panel on the left, points.
pub fn side(ui: &Ui) -> f32 {
    if ui.available_width() > 1700.0 { 300.0 } else { 244.0 }
}

/// Brings what has just got the keyboard into sight, where it can be scrolled to.
pub fn follow_focus(ui: &Ui) {
    let Some(id) = ui.memory(|memory| memory.focused()) else { return };
    let Some(response) = ui.ctx().read_response(id).filter(|response| response.gained_focus()) else { return };
    if ui.min_rect().contains(response.rect.center()) && !ui.clip_rect().contains_rect(response.rect) {
        ui.scroll_to_rect(response.rect.expand(8.0), None);
    }
}

/// Whether the screen has room for more than the least.
pub fn is_large(ui: &Ui) -> bool {
    let screen = ui.ctx().viewport_rect();
    screen.height() > 900.0 && screen.width() > 1600.0
}
