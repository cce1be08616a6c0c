//! What the club wants done in each emergency, where that is not what the tool proposes.

use bevy_egui::egui::{RichText, Ui};

use super::rows::Rows;
use super::soft;
use crate::app::boards::field_board::more;
use crate::app::look::theme::bold;
use crate::app::session::{AppCommand, View};

macro_rules! drill {
    ($key:ident, $one:literal) => {
        Rows {
            one: $one,
            place: concat!("/brief/drills/", stringify!($key)),
            hint: "one action, a verb first",
            add: concat!("Add an action: ", $one),
            get: |brief| &brief.drills.$key,
            of: |brief| &mut brief.drills.$key,
        }
    };
}

const DRILLS: [(&str, Rows); 5] = [
    ("Video lost", drill!(video_lost, "video lost")),
    ("Control lost", drill!(control_lost, "control lost")),
    ("Both lost", drill!(both_lost, "both lost")),
    ("Falling", drill!(falling, "falling")),
    ("Flying away, or a crewed aircraft", drill!(flying_away, "flying away")),
];

/// Shows them, folded: most clubs take what is proposed.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    more(ui, "drills", "What your club does in an emergency", |ui| {
        soft(ui, view, "What is written here takes the place of the card's own lines, one action a line.");
        for (title, rows) in &DRILLS {
            ui.label(RichText::new(*title).family(bold()));
            rows.show(ui, view, out);
        }
    });
}
