//! How well the autopilot knows where it is: rate, age and errors of what it is told.

use bevy_egui::egui::Ui;

use crate::app::boards::field_board::soft;
use crate::app::session::{AppCommand, View};
use crate::app::widgets::entry;
use crate::app::widgets::entry::{Entry, EntryKind};
use crate::recovery::PerceptionSheet;
use crate::units::{Angle, Quantity};
use crate::words::Measure;

/// One of its numbers: name, key, kind, how it is read and written.
struct Row {
    name: &'static str,
    place: &'static str,
    kind: EntryKind,
    get: fn(&PerceptionSheet) -> f64,
    put: fn(&mut PerceptionSheet, f64),
}

macro_rules! row {
    ($key:ident, $name:literal, $kind:expr) => {
        Row {
            name: $name,
            place: concat!("/recovery/perception/", stringify!($key)),
            kind: $kind,
            get: |sheet| sheet.$key.si(),
            put: |sheet, si| sheet.$key = Quantity::from_si(si),
        }
    };
}

static ROWS: &[Row] = &[
    row!(fix_rate, "fixes a second", EntryKind::Frequency),
    row!(delay, "age of a fix", EntryKind::Time),
    row!(position_noise, "wander of position", EntryKind::Of(Measure::Distance)),
    row!(velocity_noise, "noise of speed", EntryKind::Of(Measure::Speed)),
    row!(home_error, "error of home", EntryKind::Of(Measure::Distance)),
    row!(height_error, "error of height", EntryKind::Of(Measure::Height)),
    row!(height_drift, "drift of height, most", EntryKind::Of(Measure::Height)),
    row!(height_wander, "wander of height", EntryKind::Of(Measure::Height)),
    row!(height_wander_over, "time of that wander", EntryKind::Time),
    row!(static_error, "static error, of q", EntryKind::Share),
];

/// Shows the boxes.
pub(super) fn show(ui: &mut Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let plan = &view.session.draft.file().recovery;
    for row in ROWS {
        let found = Entry::new(row.name, row.kind, (row.get)(&plan.perception), row.place).show(ui, view, out);
        entry::set(view, out, row.name, found, |file, si| (row.put)(&mut file.recovery.perception, si));
    }
    if let Some(on) = entry::switch(ui, out, "It took off before its fix had settled", plan.perception.flew_early) {
        entry::change(
            view,
            out,
            if on { "say that it flew early" } else { "say that it waited for its fix" },
            |file| {
                file.recovery.perception.flew_early = on;
            },
        );
    }
    let found = Entry::new("bank without a position", EntryKind::Angle, plan.drift_bank.rad(), "/recovery/drift_bank");
    let found = found.show(ui, view, out);
    entry::set(view, out, "bank without a position", found, |file, rad| file.recovery.drift_bank = Angle::new(rad));
    soft(
        ui,
        view,
        "Wander, noise and errors are one standard deviation, each way. Trials have them; the plan has none.",
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_of_the_sheet_has_its_row() {
        let sheet = PerceptionSheet::default();
        let value = serde_json::to_value(&sheet).unwrap();
        // Quantities are text in a file; what is ticked has no row.
        assert_eq!(value.as_object().unwrap().values().filter(|value| value.is_string()).count(), ROWS.len());
        for row in ROWS {
            let mut new = sheet.clone();
            (row.put)(&mut new, 0.3125);
            assert_eq!((row.get)(&new), 0.3125);
            let key = row.place.rsplit('/').next().unwrap();
            assert_ne!(serde_json::to_value(&new).unwrap()[key], value[key]);
        }
    }
}
