//! The field that a person begins with: nothing drawn yet, and nowhere that anybody could take for theirs.

use std::sync::LazyLock;

use crate::field::Datum;
use crate::run::{ScenarioFile, template, today};
use crate::wind::WindSheet;

/// What it is called until it has a name.
pub(super) const UNNAMED: &str = "New field";
/// Where it lies until somebody says where that is: mid-ocean.
pub(super) const NOWHERE: Datum = Datum { latitude_deg: 44.0, longitude_deg: -35.0 };
/// The wind that stands there until somebody enters one.
pub(super) static NOBODYS_WIND: LazyLock<WindSheet> = LazyLock::new(|| new_field().wind);

/// A scenario with no boundary yet.
pub fn new_field() -> ScenarioFile {
    let mut file = template(UNNAMED, &today(), NOWHERE);
    // The boards ask for each of these things themselves.
    file.notes.clear();
    if let Some(field) = &mut file.field {
        field.boundary.ring_m.clear();
        field.areas.clear();
        (field.runway, field.flight_line_m, field.centre_m, field.facing) = (None, None, None, None);
        field.circuit = None;
        field.pilot_m = [0.0, -15.0];
    }
    file
}
