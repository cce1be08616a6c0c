//! The jet sheet: every number of the airframe with its spread and whose it is, and what they amount to.

mod derived;
mod known;
mod measured;
mod rows;
mod stabiliser;
mod start;

use bevy_egui::egui::{RichText, Ui};

use crate::app::boards::field_board::more;
use crate::app::look::theme::bold;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind, Line};
use crate::app::widgets::help::mark;
use crate::jet::Origin;
use crate::words::help::Topic;

use rows::{GROUPS, JetRow};

/// Shows the sheet.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let jet = &view.session.draft.file().jet;
    let line = Line { name: "jet", shown: &jet.name, hint: "what its owner calls it", place: "/jet/name", topic: None };
    let name = line.show(ui, view, out, entry::words);
    entry::set(view, out, "name of the jet", name, |file, name| file.jet.name = name);
    whose(ui, view, out);
    start::show(ui, view, out);
    derived::show(ui, view, out);
    known::show(ui, view, out);
    for (title, rows) in GROUPS {
        ui.add_space(6.0);
        ui.heading(*title);
        for row in *rows {
            show_number(ui, view, out, row);
        }
        if *title == rows::BATTERY {
            cells(ui, view, out);
            measured::show(ui, view, out);
        }
    }
    ui.add_space(6.0);
    more(ui, "to enter", "What to enter into the stabiliser", |ui| stabiliser::show(ui, view));
}

/// How many numbers are not measured yet.
fn whose(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let jet = &view.session.draft.file().jet;
    let mut all: Vec<Origin> = GROUPS.iter().flat_map(|(_, rows)| *rows).map(|row| (row.get)(jet).origin).collect();
    all.extend([jet.stall_speed, jet.top_speed, jet.climb].into_iter().flatten().map(|speed| speed.origin));
    all.extend(jet.return_power.map(|power| power.origin));
    all.extend(jet.flight_time.map(|time| time.origin));
    let unmeasured = all.iter().filter(|origin| **origin == Origin::Default).count();
    let words = match unmeasured {
        0 => format!("All {} numbers are somebody's", all.len()),
        1 => format!("1 of {} numbers is not measured yet", all.len()),
        _ => format!("{unmeasured} of {} numbers are not measured yet", all.len()),
    };
    ui.horizontal(|ui| {
        ui.label(RichText::new(words).family(bold()).size(17.0));
        mark(ui, Topic::JetSheet, out);
        mark(ui, Topic::Origin, out);
    });
    entry::key(ui, view);
}

fn show_number(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, row: &JetRow) {
    let about = entry::About { name: row.name, kind: row.kind, place: row.place, topic: row.topic };
    let new = entry::number(ui, view, out, &about, (row.get)(&view.session.draft.file().jet));
    entry::set(view, out, row.name, new, |file, number| (row.put)(&mut file.jet, number));
}

/// Cells of the pack: a count, which nobody misjudges.
fn cells(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let cells = view.session.draft.file().jet.cells;
    let found = Entry::new("cells in series", EntryKind::Plain, f64::from(cells), "/jet/cells").show(ui, view, out);
    entry::set(view, out, "number of cells", found, |file, cells| {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "kept between 0 and 1000")]
        let whole = cells.round().clamp(0.0, 1000.0) as u32;
        file.jet.cells = whole;
    });
}
