//! A rehearsal that was flown, and a class of several who flew the same one, in every format that fits.

mod attempt;
mod class;
mod flown;
mod json;
mod ladder;
mod text;

pub use attempt::{Attempt, ClassSheet};
pub use flown::Rehearsed;
pub use ladder::{ladder_json, ladder_text};

use super::prints::DOTS_AN_INCH;
use super::{Format, bytes, csv, geojson, gpx, kml, unfit};
use crate::{Error, Result, draw};

impl Rehearsed<'_> {
    /// What it can be written as.
    pub const FORMATS: &'static [Format] =
        &[Format::Text, Format::Json, Format::Csv, Format::GeoJson, Format::Gpx, Format::Kml];

    /// This rehearsal in a format. The path is that of the whole flight, its times count from the beginning.
    ///
    /// # Errors
    ///
    /// Where the scenario's names or date can't be written in that format, or it is none of [`Rehearsed::FORMATS`].
    pub fn render(&self, format: Format) -> Result<Vec<u8>> {
        let text = match format {
            Format::Text => text::rehearsal(self),
            Format::Json => json::rehearsal(self)?,
            Format::Csv => csv::track(&self.path())?,
            Format::GeoJson => geojson::track(&self.path()),
            Format::Gpx => gpx::track(&self.path())?,
            Format::Kml => kml::track(&self.path())?,
            Format::Svg | Format::Png | Format::Pdf | Format::Html => return Err(unfit("a rehearsal", format)),
        };
        Ok(bytes(text))
    }
}

impl ClassSheet<'_> {
    /// What it can be written as.
    pub const FORMATS: &'static [Format] =
        &[Format::Text, Format::Json, Format::Csv, Format::Pdf, Format::Html, Format::Svg, Format::Png];

    /// The class in a format; of those that have one page a file, the page of that number, from 1.
    ///
    /// # Errors
    ///
    /// Where there is no such page, or the format is none of [`ClassSheet::FORMATS`].
    pub fn render(&self, format: Format, page: usize) -> Result<Vec<u8>> {
        let one = || {
            let (pages, wanted) = (self.sheets(), page.wrapping_sub(1));
            let count = pages.len();
            let none = || Error::Asked(format!("there is no page {page}: the table of the class has {count}"));
            pages.into_iter().nth(wanted).ok_or_else(none)
        };
        Ok(match format {
            Format::Text => bytes(class::text(self)),
            Format::Json => bytes(class::json(self)?),
            Format::Csv => bytes(class::csv(self)?),
            Format::Pdf => draw::pdf(&class::document(self))?,
            Format::Html => bytes(draw::html(&class::document(self))),
            Format::Svg => bytes(one()?.svg()),
            Format::Png => draw::png(&one()?, DOTS_AN_INCH)?,
            Format::GeoJson | Format::Gpx | Format::Kml => return Err(unfit("a class", format)),
        })
    }
}
