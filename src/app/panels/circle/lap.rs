//! Bank, load, speed over the ground and stall margin round the lap, by the bearing of the jet from the hub.

use bevy_egui::egui::Ui;

use crate::app::AppCommand;
use crate::app::panels::View;

/// Shows the view.
pub(super) fn show(ui: &mut Ui, _view: &View<'_>, _out: &mut Vec<AppCommand>) {
    ui.label("No whole lap of the circle is flown.");
}
