//! What the board of the circle adds to the map: where recoveries are flown, the keep-inside line where it is known, and
//! handles for hub, radius and wind.

mod envelope;
mod grip;
mod handles;

use bevy_egui::egui::Painter;

use super::labels::Labels;
use super::losses;
use crate::app::lens::Lens;
use crate::app::panels::View;

pub(super) use handles::over;

/// Draws what lies under the path.
pub(super) fn under(painter: &Painter, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    envelope::under(painter, lens, view, labels);
    handles::keep_clear(lens, view, labels);
}

/// Draws what lies over the path: the names of the rings, and the keep-inside line.
pub(super) fn words(painter: &Painter, lens: &Lens, view: &View<'_>, labels: &mut Labels) {
    envelope::words(painter, lens, view, labels);
    losses::keep_inside(painter, lens, view, labels);
}
