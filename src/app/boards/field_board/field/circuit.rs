//! Where the jet is flown: a line or an area, which way round, how wide, high, fast, and with how much charge.

use bevy_egui::egui::{Button, Ui, vec2};

use crate::app::look::theme::TARGET;
use crate::app::session::field_board::{Chosen, FieldCommand, Part, circuit};
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind};
use crate::field::{CircuitFile, Way};
use crate::units::Quantity;
use crate::words::Measure;

/// One of its numbers: name, place, kind, how it is read and written.
struct Row {
    name: &'static str,
    place: &'static str,
    kind: EntryKind,
    get: fn(&CircuitFile) -> f64,
    put: fn(&mut CircuitFile, f64),
}

macro_rules! row {
    ($key:ident, $name:literal, $kind:expr) => {
        Row {
            name: $name,
            place: concat!("/field/circuit/", stringify!($key)),
            kind: $kind,
            get: |flown| flown.$key.si(),
            put: |flown, si| flown.$key = Quantity::from_si(si),
        }
    };
}

/// Of a line only.
static WIDTH: Row = row!(width, "spread to the side", EntryKind::Of(Measure::Distance));
static ROWS: &[Row] = &[
    row!(lowest, "lowest over home", EntryKind::Of(Measure::Height)),
    row!(highest, "highest over home", EntryKind::Of(Measure::Height)),
    row!(slowest, "slowest airspeed", EntryKind::Of(Measure::Speed)),
    row!(fastest, "fastest airspeed", EntryKind::Of(Measure::Speed)),
    row!(charge_low, "least charge left", EntryKind::Share),
    row!(charge_high, "most charge left", EntryKind::Share),
];

/// Shows its numbers.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let Some(field) = view.session.draft.field() else { return };
    let Some(flown) = &field.circuit else { return };
    let area = circuit::is_area(flown);
    let shapes = [(false, "a closed line"), (true, "an area, any heading")];
    if let Some(area) = entry::choice(ui, out, "circuit is", area, &shapes) {
        entry::edited(view, out, |file| circuit::shaped(file, area));
    }
    if !area {
        let ways = [Way::Drawn, Way::Reversed, Way::Both].map(|way| (way, way.name()));
        if let Some(way) = entry::choice(ui, out, "flown", flown.way, &ways) {
            entry::change(view, out, "set which way round the circuit is flown", |file| {
                put(file, |flown| flown.way = way);
            });
        }
        number(ui, view, out, &WIDTH, flown);
    }
    for row in ROWS {
        number(ui, view, out, row, flown);
    }
    if field.runway.is_some() {
        beside_runway(ui, view, out, "Lay it beside the runway");
    }
}

fn number(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, row: &Row, flown: &CircuitFile) {
    let found = Entry::new(row.name, row.kind, (row.get)(flown), row.place).show(ui, view, out);
    let what = format!("{} of the circuit", row.name);
    entry::set(view, out, &what, found, |file, si| put(file, |flown| (row.put)(flown, si)));
}

fn put(file: &mut crate::run::ScenarioFile, change: impl Fn(&mut CircuitFile)) {
    file.field.iter_mut().filter_map(|field| field.circuit.as_mut()).for_each(change);
}

/// A button that lays a circuit along the runway, in front of the people, and chooses it.
pub(super) fn beside_runway(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>, words: &str) {
    if ui.add(Button::new(words).min_size(vec2(0.0, TARGET))).clicked() {
        entry::edited(view, out, circuit::beside_runway);
        out.push(AppCommand::Settle);
        out.push(AppCommand::Field(FieldCommand::Choose(Some(Chosen { part: Part::Circuit, corner: None }))));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Speed;

    #[test]
    fn every_number_of_a_circuit_has_its_row() {
        let flown = CircuitFile::of_line(vec![], [20.0, 30.0].map(Speed::new));
        let value = serde_json::to_value(&flown).unwrap();
        // Quantities are text in a file; the way round is chosen.
        let rows: Vec<&Row> = ROWS.iter().chain([&WIDTH]).collect();
        let keys = value.as_object().unwrap().iter().filter(|(key, value)| value.is_string() && *key != "way");
        assert_eq!(keys.count(), rows.len());
        for row in rows {
            let mut new = flown.clone();
            (row.put)(&mut new, 0.3125);
            assert_eq!((row.get)(&new), 0.3125);
            let key = row.place.rsplit('/').next().unwrap();
            assert_ne!(serde_json::to_value(&new).unwrap()[key], value[key]);
        }
    }
}
