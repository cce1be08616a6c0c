//! The part that is being moved over the ground, from one frame to the next.

use bevy_egui::egui::{Id, Ui};
use glam::DVec2;

fn held_id() -> Id {
    Id::new("what the Field board holds")
}

/// How far the first corner of the part that is being moved is from the pointer, metres.
pub(super) fn held(ui: &Ui) -> Option<DVec2> {
    ui.data(|data| data.get_temp::<Option<DVec2>>(held_id())).flatten()
}

pub(super) fn hold(ui: &Ui, off: Option<DVec2>) {
    ui.data_mut(|data| data.insert_temp(held_id(), off));
}

pub(super) fn is_held(ui: &Ui) -> bool {
    held(ui).is_some()
}
