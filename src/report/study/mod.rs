//! The studies as reports: which circle, up to what wind, and from where a loss is recovered.
//!
//! Every one is a pure function of scenario and study: the same study gives the same bytes.

mod counts;
mod geojson;
mod json;
pub(super) mod keep;
mod table;
mod text;
mod words;

#[cfg(test)]
pub(super) mod fixture;
#[cfg(test)]
mod tests;

pub use counts::counted;
pub(super) use json::verdict as verdict_json;
pub use keep::{kept_inside, looked, looked_at, lost};
use words::asked;
pub use words::{asks, at_circle, bands, direction, end, here, holds, limit, met, up_to, way};

use super::{Format, cautions, picture, unfit};
use crate::error::Fault;
use crate::ledger::Outcome;
use crate::run::Scenario;
use crate::study::ceiling::CeilingStudy;
use crate::study::losses::LossStudy;
use crate::study::radius::RadiusStudy;
use crate::study::verdict;
use crate::{Result, draw};

/// Dots an inch of a PNG: letters of 3 mm stay sharp on A4.
const DOTS_AN_INCH: f64 = 150.0;

/// What was studied.
#[derive(Debug, Clone, Copy)]
pub enum Answer<'a> {
    /// Which circle.
    Radius(&'a RadiusStudy),
    /// Up to what wind.
    Ceiling(&'a CeilingStudy),
    /// From where a loss is recovered.
    Losses(&'a LossStudy),
}

/// A study and what it was made of.
#[derive(Debug, Clone, Copy)]
pub struct StudyReport<'a> {
    /// What was flown.
    pub scenario: &'a Scenario,
    /// What came of it.
    pub answer: Answer<'a>,
    /// What is odd about the scenario's file.
    pub warnings: &'a [Fault],
    /// What was asked for differently than the file says, in words.
    pub changes: &'a [String],
}

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

    /// What came of it, in one or two sentences that claim no more than was flown.
    pub fn headline(&self) -> String {
        words::headline(self)
    }

    /// This study in a format.
    ///
    /// # Errors
    ///
    /// Where it can't be written in that format.
    pub fn render(&self, format: Format) -> Result<Vec<u8>> {
        Ok(match (format, self.answer) {
            (Format::Text, _) => text::study(self).into_bytes(),
            (Format::Json, _) => json::study(self)?.into_bytes(),
            (Format::Csv, _) => table::study(self)?.into_bytes(),
            (Format::Svg, _) => self.picture().svg().into_bytes(),
            (Format::Png, _) => draw::png(&self.picture(), DOTS_AN_INCH)?,
            (Format::Pdf, _) => draw::pdf(&self.document())?,
            (Format::Html, _) => draw::html(&self.document()).into_bytes(),
            (Format::GeoJson, Answer::Losses(losses)) => geojson::losses(self, losses).into_bytes(),
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

    /// Whether it was stopped before it was complete.
    pub fn partial(&self) -> bool {
        match self.answer {
            Answer::Radius(study) => study.partial,
            Answer::Ceiling(study) => study.partial,
            Answer::Losses(study) => study.partial,
        }
    }

    /// Whether the trials of the plan's own circle say yes; none where no radius was studied.
    pub fn plan_holds(&self) -> Option<bool> {
        let Answer::Radius(study) = self.answer else { return None };
        Some(study.plan.is_some_and(|verdict| verdict.answer == verdict::Answer::Yes))
    }

    /// Whether every flight from the cell of the plan's own loss was recovered; none where no losses were studied.
    pub fn loss_recovered(&self) -> Option<bool> {
        let Answer::Losses(study) = self.answer else { return None };
        let cell = study.cell_at(self.scenario.file.loss.at_m.into());
        Some(cell.is_some_and(|cell| cell.worst == Outcome::Recovered))
    }

    /// Whether the circle holds in the file's mean wind at circle height, from the nearest direction flown; none where no
    /// ceilings were studied.
    pub fn under_the_ceiling(&self) -> Option<bool> {
        let Answer::Ceiling(study) = self.answer else { return None };
        let here = here(study, self.scenario.file.wind.from)?;
        Some(here.answer(at_circle(self.scenario)) == verdict::Answer::Yes)
    }

    /// What the answer can be repeated from: version, scenario, hash, seed and the number of flights.
    pub fn stamp(&self) -> String {
        let file = &self.scenario.file;
        let (version, hash) = (crate::VERSION, self.scenario.hash());
        let partial = if self.partial() { " STOPPED BEFORE IT WAS COMPLETE." } else { "" };
        format!(
            "Peewit {version}, scenario {} ({hash}), {}, seed {}, {}.{partial}",
            file.name,
            file.date,
            file.seed,
            asked(self)
        )
    }
}
