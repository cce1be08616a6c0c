//! What goes to people and to other programs.
//!
//! A report is a pure function of a [`Recovery`] to bytes: no clock, no machine, so the same recovery gives the same
//! bytes everywhere.

pub mod cautions;
mod csv;
mod format;
mod geojson;
mod gpx;
pub mod help;
mod json;
mod kml;
mod layout;
mod origins;
mod picture;
pub mod prints;
pub mod study;
mod text;
mod track;
mod words;

pub use format::Format;
pub use kml::field_kml;
pub use picture::{look, reach};
pub use study::{Answer, StudyReport};
pub use track::{Sample, Span, samples, spans};
pub use words::headline;

use crate::error::Fault;
use crate::ledger::Ledger;
use crate::run::{Run, Scenario, WindChoice};
use crate::study::verdict::PlanVerdict;
use crate::{Error, Result};

/// One recovery, flown and judged: what the reports of this room are about.
#[derive(Debug, Clone, Copy)]
pub struct Recovery<'a> {
    /// What was flown.
    pub scenario: &'a Scenario,
    /// How it was flown.
    pub run: &'a Run,
    /// The wind it was flown in.
    pub wind: WindChoice,
    /// Its margins.
    pub ledger: &'a Ledger,
    /// What the plan's trials say, without which one run says little; none where they were not asked for.
    pub trials: Option<&'a PlanVerdict>,
    /// What is odd about the scenario's file.
    pub warnings: &'a [Fault],
    /// What was asked for differently than the file says, in words.
    pub changes: &'a [String],
}

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
            Format::Csv => csv::track(self)?,
            Format::GeoJson => geojson::track(self),
            Format::Gpx => gpx::track(self)?,
            Format::Kml => kml::track(self)?,
            Format::Svg | Format::Png | Format::Pdf | Format::Html => return Err(unfit("a recovery", format)),
        };
        Ok(text.into_bytes())
    }
}

fn unfit(what: &str, format: Format) -> Error {
    Error::Asked(format!("{what} can't be written as .{}", format.ending()))
}
