//! Logs that were debriefed, in every format that fits: what was flown against what was said.

mod json;
mod text;
mod tracks;

use std::path::Path;

use glam::DVec2;

use super::prints::DOTS_AN_INCH;
use super::{Format, bytes, unfit};
use crate::debrief::{
    ByHeight, Correction, Debriefed, Evidence, Marks, Tally, by_height, corrections, debrief_marked, find, levels,
};
use crate::error::Faults;
use crate::geometry::TangentPlane;
use crate::log::{Columns, FlightLog, read};
use crate::run::{Scenario, ScenarioFile};
use crate::study::work::Work;
use crate::{Error, Result, VERSION, draw};

/// What of a plan the metres of a log rest on, as [`read`] takes them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LaidOn {
    plane: TangentPlane,
    home: DVec2,
    /// Of the field above the sea, metres.
    elevation_m: f64,
}

impl LaidOn {
    /// That of a plan.
    pub const fn of(scenario: &Scenario) -> Self {
        let field = &scenario.field;
        Self { plane: field.plane, home: field.home, elevation_m: scenario.file.air.elevation.m() }
    }
}

/// One log with the recoveries in it.
#[derive(Debug, Clone)]
pub struct LogDebrief {
    /// The log.
    pub log: FlightLog,
    /// The recoveries, in order.
    pub recoveries: Vec<Debriefed>,
    /// The wind by height, from whole turns at one height.
    pub heights: ByHeight,
    /// The plan that it is held against, by its hash.
    pub plan: String,
    /// What its metres rest on: against a plan that differs there it is to be read again.
    pub laid_on: LaidOn,
}

impl LogDebrief {
    /// Reads a file, given what is in it, and debriefs it. `columns` says what those of a table hold; else they are guessed.
    ///
    /// # Errors
    ///
    /// Where it is no log that can be used.
    pub fn read(
        path: &Path,
        bytes: &[u8],
        scenario: &Scenario,
        columns: Option<&Columns>,
        work: &Work,
    ) -> Result<Self> {
        let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
        let log = read(&name, bytes, scenario, columns)
            .map_err(|faults| Error::Input(Faults { file: path.into(), faults }))?;
        Ok(Self::of(scenario, log, work))
    }

    /// A log, with every recovery in it and what it corrects.
    pub fn of(scenario: &Scenario, log: FlightLog, work: &Work) -> Self {
        let marks = find(scenario, &log.track);
        Self::marked(scenario, log, marks, work)
    }

    /// The same where the moments of its recoveries are given. The log is one read on this plan.
    pub fn marked(scenario: &Scenario, log: FlightLog, marks: Vec<Marks>, work: &Work) -> Self {
        let recoveries: Vec<Debriefed> =
            marks.into_iter().map(|marks| debrief_marked(scenario, &log.track, marks, work)).collect();
        let heights = by_height(&log.track, &levels(&log.track));
        Self { log, recoveries, heights, plan: scenario.hash(), laid_on: LaidOn::of(scenario) }
    }

    /// The same log held against another plan that it lies on alike, its moments as they are.
    pub fn against(&self, scenario: &Scenario, work: &Work) -> Self {
        let marks = self.recoveries.iter().map(|one| one.marks.clone()).collect();
        Self::marked(scenario, self.log.clone(), marks, work)
    }

    /// What it says of the sheet.
    pub fn evidence(&self) -> Evidence<'_> {
        let name = &self.log.name;
        Evidence {
            source: self.log.day.as_ref().map_or_else(|| name.clone(), |day| format!("{name} on {day}")),
            learned: self.recoveries.iter().filter_map(|one| one.learned.as_ref()).collect(),
            steering: self.recoveries.iter().filter_map(|one| one.steering.as_ref().ok()).collect(),
            growth: self.heights.law.as_ref(),
        }
    }
}

/// What logs would correct in a plan, all of them together.
pub fn together<'a>(file: &ScenarioFile, logs: impl IntoIterator<Item = &'a LogDebrief>) -> Vec<Correction> {
    corrections(file, &logs.into_iter().map(LogDebrief::evidence).collect::<Vec<_>>())
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

    /// What they would correct in the plan, all of them together.
    pub fn corrections(&self) -> Vec<Correction> {
        together(&self.scenario.file, self.logs)
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

    /// The debrief in a format: tracks of all logs, a print of the first recovery in them.
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
