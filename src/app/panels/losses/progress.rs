//! How far the work beside the window is. It stands in for the bar that every board will share.

use bevy_egui::egui::{RichText, Ui};

use crate::app::panels::View;
use crate::app::{AppCommand, Doing};

/// Shows it.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, _out: &mut Vec<AppCommand>) {
    let words = match view.session.doing {
        Doing::Resting => return,
        Doing::Stopped => "stopped".to_owned(),
        Doing::Working { what, done, of } => format!("working out {what}: {done} of {of}"),
    };
    ui.label(RichText::new(words).color(view.palette.soft));
}
