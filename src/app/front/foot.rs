//! The caution that is always on the screen. Nothing turns it off.

use bevy_egui::egui::{RichText, Ui};

use crate::app::session::{AppCommand, View};
use crate::words::cautions::FOOT;

/// Shows it.
pub fn show(ui: &mut Ui, view: &View<'_>, _out: &mut Vec<AppCommand>) {
    ui.label(RichText::new(FOOT).color(view.palette.ink).size(14.0));
}
