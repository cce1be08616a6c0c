//! What does the file of a flown flight say: GPX, CSV with any columns, NMEA 0183 sentences, IGC? As a track in seconds and
//! metres about the field's datum, with everything that had to be repaired said.

mod cells;
mod clock;
mod columns;
mod fill;
mod fix;
mod folder;
mod gpx;
mod ground;
mod guess;
mod igc;
mod jumps;
mod nmea;
mod notes;
mod order;
mod read;
mod rows;
mod table;
#[cfg(test)]
mod tests;

pub use columns::{Column, ColumnUnit, Columns, Role};
pub use folder::{ENDINGS, bytes, listed};
pub use read::{guess_columns, read};

use crate::error::Fault;
use crate::run::Track;

/// A flight as its file tells it.
#[derive(Debug, Clone, PartialEq)]
pub struct FlightLog {
    /// Name of the file, without its folder.
    pub name: String,
    /// Day of the first fix, year-month-day; none where the file tells no day.
    pub day: Option<String>,
    /// What was flown: times since the first fix that is kept, places about the datum, heights above home's ground.
    pub track: Track,
    /// What was repaired, left out or taken for granted, each with its place in the file.
    pub repairs: Vec<Fault>,
}
