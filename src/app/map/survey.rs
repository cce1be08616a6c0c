//! What the survey adds to the map: the field as it is being drawn, its handles, lengths and faults.

use bevy_egui::egui::{Painter, Response, Ui};

use super::labels::Labels;
use crate::app::AppCommand;
use crate::app::lens::Lens;
use crate::app::panels::View;

/// Draws what lies under the path.
pub(super) fn under(_painter: &Painter, _lens: &Lens, _view: &View<'_>, _labels: &mut Labels) {}

/// Draws what lies over everything, takes what is done with it, and what is done with the map where nothing lies.
pub(super) fn over(_ui: &Ui, _lens: &Lens, _view: &View<'_>, _map: &Response, _out: &mut Vec<AppCommand>) {}
