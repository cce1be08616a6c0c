//! Logs that were debriefed, in every format that fits: what was flown against what was said.

mod json;
mod text;
mod tracks;

use super::prints::DOTS_AN_INCH;
use super::{Format, bytes, unfit};
use crate::debrief::{Correction, Debriefed, Marks, Tally, corrections, debrief_marked, find};
use crate::log::FlightLog;
use crate::run::Scenario;
use crate::study::work::Work;
use crate::{Error, Result, VERSION, draw};

/// One log with the recoveries in it.
#[derive(Debug, Clone)]
pub struct LogDebrief {
    /// The log.
    pub log: FlightLog,
    /// The recoveries, in order.
    pub recoveries: Vec<Debriefed>,
    /// What of the sheet it would correct, by its first recovery that says something.
    pub corrections: Vec<Correction>,
    /// The plan that it is held against, by its hash.
    pub plan: String,
}

impl LogDebrief {
    /// A log, with every recovery in it and what it corrects.
    pub fn of(scenario: &Scenario, log: FlightLog, work: &Work) -> Self {
        let marks = find(scenario, &log.track);
        Self::marked(scenario, log, marks, work)
    }

    /// The same where the moments of its recoveries are given.
    pub fn marked(scenario: &Scenario, log: FlightLog, marks: Vec<Marks>, work: &Work) -> Self {
        let recoveries: Vec<Debriefed> =
            marks.into_iter().map(|marks| debrief_marked(scenario, &log.track, marks, work)).collect();
        let first = recoveries.iter().find_map(|one| Some((one, one.learned.as_ref()?)));
        let corrections = first.map_or_else(Vec::new, |(one, learned)| {
            corrections(&scenario.file, learned, one.steering.as_ref().ok(), &log.name, log.day.as_deref())
        });
        Self { log, recoveries, corrections, plan: scenario.hash() }
    }

    /// The same log held against another plan, its moments as they are.
    pub fn against(&self, scenario: &Scenario, work: &Work) -> Self {
        let marks = self.recoveries.iter().map(|one| one.marks.clone()).collect();
        Self::marked(scenario, self.log.clone(), marks, work)
    }
}

/// Logs of one scenario, debriefed.
#[derive(Debug, Clone, Copy)]
pub struct DebriefReport<'a> {
    /// The plan that they are held against.
    pub scenario: &'a Scenario,
    /// The logs.
    pub logs: &'a [LogDebrief],
    /// Whether places are told: left out, nothing says where it was.
    pub places: bool,
}

impl DebriefReport<'_> {
    /// What it can be written as.
    pub const FORMATS: &'static [Format] = &[
        Format::Text,
        Format::Json,
        Format::Csv,
        Format::GeoJson,
        Format::Gpx,
        Format::Pdf,
        Format::Html,
        Format::Svg,
        Format::Png,
    ];

    /// How often the envelope held, over all of them.
    pub fn tally(&self) -> Tally {
        Tally::of(self.logs.iter().flat_map(|log| &log.recoveries))
    }

    /// What it can be repeated from.
    pub fn stamp(&self) -> String {
        let file = &self.scenario.file;
        let logs: Vec<_> = self.logs.iter().map(|log| log.log.name.as_str()).collect();
        format!(
            "Peewit {VERSION}, scenario {} ({}), seed {}, logs {}",
            file.name,
            self.scenario.hash(),
            file.seed,
            logs.join(", ")
        )
    }

    /// The debrief in a format. Tracks are of the first log; a print is of its first recovery.
    ///
    /// # Errors
    ///
    /// Where places are to be left out of a format that is nothing else, or something can't be written in it.
    pub fn render(&self, format: Format) -> Result<Vec<u8>> {
        let only_places = matches!(format, Format::Csv | Format::GeoJson | Format::Gpx);
        if only_places && !self.places {
            let told = format!("a .{} is nothing but places: leave it out, or let the places in", format.ending());
            return Err(Error::Asked(told));
        }
        Ok(match format {
            Format::Text => bytes(text::debrief(self)),
            Format::Json => bytes(json::debrief(self)?),
            Format::Csv => bytes(tracks::csv(self)?),
            Format::GeoJson => bytes(tracks::geojson(self)),
            Format::Gpx => bytes(tracks::gpx(self)?),
            Format::Pdf => draw::pdf(&self.document())?,
            Format::Html => bytes(draw::html(&self.document())),
            Format::Svg => bytes(self.sheet().svg()),
            Format::Png => draw::png(&self.sheet(), DOTS_AN_INCH)?,
            Format::Kml => return Err(unfit("a debrief", format)),
        })
    }
}
