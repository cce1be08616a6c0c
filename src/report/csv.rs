//! The path as a table: RFC 4180, one sample a row, units in the header.

use crate::brief::{FlownPath, samples_of};
use crate::{Error, Result};

/// The columns, in order.
const COLUMNS: [&str; 13] = [
    "time_s",
    "x_m",
    "y_m",
    "latitude_deg",
    "longitude_deg",
    "height_m",
    "airspeed_mps",
    "ground_speed_mps",
    "course_deg",
    "bank_deg",
    "load",
    "energy_wh",
    "stretch",
];

/// The path as CSV. Metres to the millimetre, degrees to a tenth of one.
pub(super) fn track(path: &FlownPath) -> Result<String> {
    let mut table = ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
    table.write_record(COLUMNS).map_err(refused)?;
    for sample in samples_of(path.scenario, path.trace) {
        table
            .write_record([
                format!("{:.3}", sample.time_s),
                format!("{:.3}", sample.at.x),
                format!("{:.3}", sample.at.y),
                format!("{:.9}", sample.latitude_deg),
                format!("{:.9}", sample.longitude_deg),
                format!("{:.3}", sample.height_m),
                format!("{:.3}", sample.airspeed_mps),
                format!("{:.3}", sample.ground_speed_mps),
                format!("{:.2}", sample.course.deg()),
                format!("{:.3}", sample.bank_deg),
                format!("{:.4}", sample.load),
                format!("{:.5}", sample.energy_wh),
                sample.stretch.name().into(),
            ])
            .map_err(refused)?;
    }
    let bytes = table.into_inner().map_err(refused)?;
    String::from_utf8(bytes).map_err(refused)
}

fn refused(why: impl std::fmt::Display) -> Error {
    Error::Asked(format!("can't write the path as CSV: {why}"))
}
