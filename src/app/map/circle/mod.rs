//! What the board of the circle adds to the map: where the cases circle, and handles for hub, radius and wind.

mod envelope;
mod grip;
mod handles;

use bevy_egui::egui::Painter;

use super::labels::Labels;
use crate::app::lens::Lens;
use crate::app::panels::View;

pub(super) use envelope::words;
pub(super) use handles::over;

/// Draws what lies under the path.
pub(super) fn under(painter: &Painter, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    envelope::under(painter, lens, view, labels);
    handles::keep_clear(lens, view, labels);
}
