//! The studies as reports: which circle, up to what wind, and from where a loss is recovered.
//!
//! Every one is a pure function of scenario and study: the same study gives the same bytes.

mod geojson;
mod keep;
mod table;
mod text;

#[cfg(test)]
mod tests;

use super::{Format, bytes, json, picture, unfit};
use crate::brief::{Answer, StudyReport};
use crate::words::cautions;
use crate::{Result, draw};

/// Dots an inch of a PNG: letters of 3 mm stay sharp on A4.
const DOTS_AN_INCH: f64 = 150.0;

impl StudyReport<'_> {
    /// What a study of the radius or of the wind can be written as.
    pub const CIRCLE_FORMATS: &'static [Format] =
        &[Format::Text, Format::Json, Format::Csv, Format::Svg, Format::Png, Format::Pdf, Format::Html];

    /// What a loss map can be written as.
    pub const LOSS_FORMATS: &'static [Format] = &[
        Format::Text,
        Format::Json,
        Format::Csv,
        Format::GeoJson,
        Format::Svg,
        Format::Png,
        Format::Pdf,
        Format::Html,
    ];

    /// This study in a format.
    ///
    /// # Errors
    ///
    /// Where it can't be written in that format.
    pub fn render(&self, format: Format) -> Result<Vec<u8>> {
        Ok(match (format, self.answer) {
            (Format::Text, _) => bytes(text::study(self)),
            (Format::Json, _) => bytes(json::study(self)?),
            (Format::Csv, _) => bytes(table::study(self)?),
            (Format::Svg, _) => bytes(self.picture().svg()),
            (Format::Png, _) => draw::png(&self.picture(), DOTS_AN_INCH)?,
            (Format::Pdf, _) => draw::pdf(&self.document())?,
            (Format::Html, _) => bytes(draw::html(&self.document())),
            (Format::GeoJson, Answer::Losses(losses)) => bytes(geojson::losses(self, losses)),
            (Format::GeoJson | Format::Gpx | Format::Kml, _) => return Err(unfit("this study", format)),
        })
    }

    /// Its picture.
    pub fn picture(&self) -> draw::Sheet {
        picture::study(self)
    }

    /// Its picture, and in words what came of it, from what, and what to remember.
    pub fn document(&self) -> draw::Document {
        let section = |heading: &str, paragraphs| draw::Section { heading: heading.into(), paragraphs };
        let odd = self.warnings.iter().map(ToString::to_string).chain(self.changes.iter().cloned());
        let made_of = std::iter::once(self.stamp()).chain(odd).collect();
        let words = vec![
            section("What came of it", vec![self.headline()]),
            section("What it was made of", made_of),
            section("To remember", cautions::ALL.map(String::from).into()),
        ];
        draw::Document { words, ..self.picture().into() }
    }
}
