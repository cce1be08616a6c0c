//! What the signs on the map of losses mean, with their counts.

use glam::DVec2;

use super::field::ruled;
use super::losses::{KEEP_INSIDE, NO_RETURN, TURN_BACK, diamond, look};
use crate::brief::StudyReport;
use crate::draw::{Fill, Frame, Ink, Lettering, MapFrame, Pen, Sheet};
use crate::field::Rule;
use crate::margins::Outcome;
use crate::study::losses::LossStudy;
use crate::words::{counted, kept_inside, looked, lost, number};

const WORDS: Lettering = Lettering::new(3.5);
/// From a sign to its words.
const BESIDE: f64 = 11.5;

/// Draws it down a frame.
pub(super) fn draw(sheet: &mut Sheet, map: &MapFrame, room: Frame, report: &StudyReport, study: &LossStudy) {
    let mut legend = Legend { sheet, at: room.low, left: room.low.x, width: room.size().x };
    legend.outcomes(study);
    legend.lines(map, study);
    legend.areas(report);
    let told = format!(
        "Lost {} above home at {}, on {} headings. {}",
        list(&study.ask.heights_m, "m"),
        list(&study.ask.speeds_mps, "m/s"),
        study.ask.headings,
        looked(study)
    );
    legend.sheet.paragraph(legend.at, legend.width, &told, Lettering::new(3.1).ink(Ink::SOFT));
}

/// A legend as far as it is drawn.
struct Legend<'a> {
    sheet: &'a mut Sheet,
    at: DVec2,
    left: f64,
    width: f64,
}

impl Legend<'_> {
    fn swatch(&mut self, fill: Fill) {
        let low = self.at - DVec2::new(0.0, 3.4);
        self.sheet.rectangle(low, low + DVec2::new(9.0, 4.6), Some(Pen::plain(Ink::BLACK, 0.25)), fill);
    }

    /// Words beside the sign just drawn; the next sign comes below them.
    fn tell(&mut self, words: &str) {
        let foot = self.sheet.paragraph(self.at + DVec2::new(BESIDE, 0.0), self.width - BESIDE, words, WORDS);
        self.at = DVec2::new(self.left, foot.y + 0.8);
    }

    fn outcomes(&mut self, study: &LossStudy) {
        let head = "The plan as entered, worst of all headings: cells; and all flights: counts with interval";
        self.at = self.sheet.paragraph(self.at, self.width, head, WORDS.bold());
        self.at.y += 1.0;
        let (all, flown) = (study.cells.len(), study.count().flown);
        for outcome in Outcome::ALL {
            let (cells, flights) = (study.cells_as_entered(outcome), study.flights(outcome));
            self.swatch(look(outcome));
            let beside = self.at + DVec2::new(BESIDE, 0.0);
            self.sheet.words(beside, format!("{}: {cells} of {all} cells", outcome.name()), WORDS.bold());
            let counts = format!("{} flights", counted(flights, flown, study.ask.confidence));
            self.sheet.words(beside + DVec2::new(0.0, 4.0), counts, Lettering::new(3.1));
            self.at.y += 7.8;
        }
        diamond(self.sheet, self.at + DVec2::new(4.5, -1.2), 1.1);
        self.tell("a trial came to something worse there");
    }

    fn lines(&mut self, map: &MapFrame, study: &LossStudy) {
        if let Some((keep, line)) = study.keep_inside.as_ref().and_then(|keep| Some((keep, keep.drawn()?))) {
            if !line.bounds.is_empty() {
                let from = self.at + DVec2::new(0.0, -1.2);
                self.sheet.line([from, from + DVec2::new(9.0, 0.0)], KEEP_INSIDE);
            }
            self.tell(&format!("keep-inside line, {}: {}", lost(line), kept_inside(keep, line)));
        }
        if !study.turn_back.is_empty() {
            self.dashed(TURN_BACK);
            self.tell(
                "turn-back line, a check in closed form: inside it a loss on any heading turns back within the boundary",
            );
        }
        let shown = |at: DVec2| at.cmpge(map.frame.low).all() && at.cmple(map.frame.high).all();
        if !study.no_return.is_empty() {
            self.dashed(NO_RETURN);
            let seen = map.all(&study.no_return).any(shown);
            let where_else = if seen { "" } else { " (it lies beyond this map)" };
            let told = "no-return line: from beyond it the energy does not reach home over the reserve";
            self.tell(&format!("{told}{where_else}"));
        }
    }

    fn dashed(&mut self, dash: &'static [f64]) {
        let from = self.at + DVec2::new(0.0, -1.2);
        self.sheet.line([from, from + DVec2::new(9.0, 0.0)], Pen::plain(Ink::BLACK, 0.8).dashed(dash));
    }

    /// The rules that the field has, each once.
    fn areas(&mut self, report: &StudyReport) {
        let name = |rule| match rule {
            Rule::NoFly => "no-fly",
            Rule::Above(_) => "above a height",
            Rule::People => "people",
            Rule::Caution => "a caution area",
            Rule::Idle => "no rule today",
        };
        let mut told: Vec<&str> = Vec::new();
        for rule in report.scenario.field.areas.iter().map(|area| area.rule) {
            if !told.contains(&name(rule)) {
                told.push(name(rule));
                self.swatch(Fill::Hatch(ruled(rule)));
                self.sheet.words(self.at + DVec2::new(BESIDE, 0.0), format!("area: {}", name(rule)), WORDS);
                self.at.y += 5.8;
            }
        }
    }
}

fn list(values: &[f64], unit: &str) -> String {
    let words: Vec<String> = values.iter().map(|value| number(*value)).collect();
    format!("{} {unit}", words.join(", "))
}
