//! What goes to people and to other programs.
//!
//! A report is a pure function of a [`Recovery`] to bytes: no clock, no machine, so the same recovery gives the same
//! bytes everywhere.

mod checks;
mod csv;
pub mod debrief;
mod format;
mod geojson;
mod gpx;
mod json;
mod kml;
mod layout;
pub mod picture;
pub mod prints;
pub mod rehearsal;
mod said_back;
pub mod study;
mod text;
mod values;

pub use format::Format;
pub use kml::field_kml;
pub use said_back::said_back;
pub use text::all_cautions;

use crate::brief::Recovery;
use crate::error::letters::shown;
use crate::{Error, Result};

impl Recovery<'_> {
    /// What it can be written as.
    pub const FORMATS: &'static [Format] =
        &[Format::Text, Format::Json, Format::Csv, Format::GeoJson, Format::Gpx, Format::Kml];

    /// This recovery in a format.
    ///
    /// # Errors
    ///
    /// Where the scenario's names or date can't be written in that format, or it is none of [`Recovery::FORMATS`].
    pub fn render(&self, format: Format) -> Result<Vec<u8>> {
        let text = match format {
            Format::Text => text::recovery(self),
            Format::Json => json::recovery(self)?,
            Format::Csv => csv::track(&self.into())?,
            Format::GeoJson => geojson::track(&self.into()),
            Format::Gpx => gpx::track(&self.into())?,
            Format::Kml => kml::track(&self.into())?,
            Format::Svg | Format::Png | Format::Pdf | Format::Html => return Err(unfit("a recovery", format)),
        };
        Ok(bytes(text))
    }
}

/// A text as it goes out, to a screen or a file: every format that is text passes here.
fn bytes(text: impl AsRef<str>) -> Vec<u8> {
    shown(text.as_ref()).into_owned().into_bytes()
}

fn unfit(what: &str, format: Format) -> Error {
    Error::Asked(format!("{what} can't be written as .{}", format.ending()))
}
