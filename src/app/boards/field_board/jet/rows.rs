//! The numbers of the jet sheet in the order people look for them.

use crate::app::widgets::entry::{EntryKind, Number, Numbered as _};
use crate::jet::JetSheet;
use crate::words::Measure;
use crate::words::help::Topic;

/// One number of the sheet.
pub(super) struct JetRow {
    /// Its name.
    pub(super) name: &'static str,
    /// Its place in the scenario's file.
    pub(super) place: &'static str,
    /// What it measures.
    pub(super) kind: EntryKind,
    /// What explains it, where something does.
    pub(super) topic: Option<Topic>,
    /// Reads it.
    pub(super) get: fn(&JetSheet) -> Number,
    /// Writes it.
    pub(super) put: fn(&mut JetSheet, Number),
}

macro_rules! row {
    ($key:ident, $name:literal, $kind:expr) => {
        row!($key, $name, $kind, None)
    };
    ($key:ident, $name:literal, $kind:expr, $topic:expr) => {
        JetRow {
            name: $name,
            place: concat!("/jet/", stringify!($key)),
            kind: $kind,
            topic: $topic,
            get: |jet| jet.$key.number(),
            put: |jet, number| jet.$key.take(number),
        }
    };
}

/// A row for a number that may be left out: what it then is stands there, and what is typed is entered.
macro_rules! maybe {
    ($key:ident, $name:literal, $kind:expr) => {
        maybe!($key, $name, $kind, None)
    };
    ($key:ident, $name:literal, $kind:expr, $topic:expr) => {
        JetRow {
            name: $name,
            place: concat!("/jet/", stringify!($key)),
            kind: $kind,
            topic: $topic,
            get: |jet| jet.whole().$key.unwrap_or_default().number(),
            put: |jet, number| jet.$key.get_or_insert_default().take(number),
        }
    };
}

/// Title of the group that the count of cells belongs to.
pub(super) const BATTERY: &str = "Fan and battery";
/// Title of the group of coefficients.
const FLIES: &str = "How it flies";

/// The numbers, by what a person does to find them.
pub(super) static GROUPS: &[(&str, &[JetRow])] = &[
    (
        "On the scales and with the tape",
        &[
            row!(mass, "mass", EntryKind::Of(Measure::Mass)),
            maybe!(wing_area, "wing area", EntryKind::Area),
            maybe!(span, "span", EntryKind::Of(Measure::Distance)),
            maybe!(nozzle_area, "nozzle area", EntryKind::Area),
        ],
    ),
    (
        "How it is set",
        &[
            row!(return_speed, "return speed", EntryKind::Of(Measure::Speed), Some(Topic::ReturnSpeed)),
            row!(maximum_bank, "maximum bank", EntryKind::Angle, Some(Topic::MaximumBank)),
            row!(climb_limit, "climb limit", EntryKind::Angle),
            row!(roll_lag, "roll lag", EntryKind::Time),
            row!(roll_rate, "fastest roll", EntryKind::Rate),
        ],
    ),
    (
        BATTERY,
        &[
            maybe!(full_power, "full power, standing", EntryKind::Power),
            row!(capacity, "battery charge", EntryKind::Charge),
            row!(avionics_power, "radio and camera", EntryKind::Power),
            maybe!(fan_efficiency, "fan efficiency", EntryKind::Share),
            row!(part_throttle_loss, "loss at part throttle", EntryKind::Plain, Some(Topic::PartThrottle)),
            row!(fan_lag, "fan spin-up", EntryKind::Time),
        ],
    ),
    (
        FLIES,
        &[
            maybe!(lift_max, "largest lift coefficient", EntryKind::Plain, Some(Topic::StallMargin)),
            maybe!(drag_zero_lift, "drag at no lift", EntryKind::Plain),
            row!(drag_fan_stopped, "drag of a stopped fan", EntryKind::Plain),
            row!(span_efficiency, "span efficiency", EntryKind::Plain),
        ],
    ),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::jet::Origin;
    use crate::run::Scenario;

    #[test]
    fn every_entry_of_the_sheet_has_its_row_and_comes_back_as_it_went() {
        let jet = Scenario::tight_strip().file.jet;
        let value = serde_json::to_value(&jet).unwrap();
        let keys = value.as_object().unwrap().iter().filter(|(_, entry)| entry.get("origin").is_some());
        let keys: Vec<String> = keys.map(|(key, _)| format!("/jet/{key}")).collect();
        let rows: Vec<&JetRow> = GROUPS.iter().flat_map(|(_, rows)| *rows).collect();
        assert_eq!(rows.len(), keys.len());
        for row in rows {
            assert!(keys.iter().any(|key| key == row.place), "{}", row.place);
            let mut new = jet.clone();
            let number = Number { value: 0.5, spread: 0.25, origin: Origin::Default };
            (row.put)(&mut new, number);
            assert_eq!((row.get)(&new), number, "{}", row.place);
            let there = serde_json::to_value(&new).unwrap();
            assert_ne!(there.pointer(&row.place["/jet".len()..]), value.pointer(&row.place["/jet".len()..]));
        }
    }
}
