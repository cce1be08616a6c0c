//! Page 1, the decision: what is asked for and of whom, the answer in five lines, and that it is one plan.

use glam::DVec2;

use super::grid::{Entry, Grid};
use crate::brief::{DO_NOT_FLY, Plan};
use crate::draw::{Frame, Lettering, Sheet};
use crate::report::prints::paper::{alarm_box, strip};

/// Height of the band of a plan that something stops, mm.
const BAND: f64 = 21.0;
/// Greatest height of what must not be overlooked, mm.
const ALARMS: f64 = 34.0;

impl Plan<'_> {
    pub(super) fn page_of_decision(&self, sheet: &mut Sheet, mut room: Frame) {
        let release = self.release();
        if release.stopped() {
            room.low.y = self.stopped_here(sheet, room);
        }
        room.low.y = super::heading(sheet, room, "1", "Decision", &[self.asked_for()]);
        let reasons = release.reasons().len();
        let alarms: Vec<String> = self.facts().alarms.into_iter().skip(reasons).collect();
        if let Some(foot) = alarm_box(sheet, room.low, room.size().x, &alarms, [3.6, 2.4], ALARMS) {
            room.low.y = foot + 3.0;
        }
        let parts = [0.43, 0.19, 0.38].map(|part| part * room.size().y);
        let mut top = room.low.y;
        let mut part = |tall: f64| {
            let frame = Frame { low: DVec2::new(room.low.x, top), high: DVec2::new(room.high.x, top + tall - 4.0) };
            top += tall;
            frame
        };
        let answer = part(parts[0]);
        let answer = super::under(sheet, answer, "The answer");
        Grid { columns: &[("", 34.0), ("", 150.0)], size: 4.0, least: 0.0 }.set(sheet, answer, &self.answer_rows());
        let one = part(parts[1]);
        let one = super::under(sheet, one, "One plan");
        let rows: Vec<Vec<Entry>> =
            self.one_plan().into_iter().map(|(name, told)| vec![Entry::bold(name), told.into()]).collect();
        Grid { columns: &[("", 34.0), ("", 150.0)], size: 3.6, least: 0.0 }.set(sheet, one, &rows);
        let whom = part(parts[2]);
        let whom = super::under(sheet, whom, "What is asked of whom, by when");
        let columns = [("who", 31.0), ("is asked to", 66.0), ("by when", 36.0), ("so far", 51.0)];
        let rows: Vec<Vec<Entry>> = self
            .requests()
            .into_iter()
            .map(|one| vec![Entry::bold(one.of), one.asked.into(), one.by.into(), Entry::or_open(one.so_far)])
            .collect();
        Grid { columns: &columns, size: 3.6, least: 8.0 }.set(sheet, whom, &rows);
    }

    fn answer_rows(&self) -> Vec<Vec<Entry>> {
        match self.five_lines() {
            Some(five) => {
                let row = |(name, told): (&str, &str)| vec![Entry::bold(name), told.into()];
                five.rows().into_iter().map(row).collect()
            }
            None => vec![
                vec![Entry::bold("Does it hold"), "Nobody knows: no trials have judged it.".into()],
                vec![Entry::bold("People"), self.facts().people.into()],
                vec![Entry::bold("Where it is flown"), self.scenario.losses_told().into()],
            ],
        }
    }

    /// The band across the page, why, and what to do about it; returns the lower edge.
    fn stopped_here(&self, sheet: &mut Sheet, room: Frame) -> f64 {
        let high = DVec2::new(room.high.x, room.low.y + BAND);
        let white = strip(sheet, room.low, high);
        let at = DVec2::new(room.middle().x, room.low.y + BAND * 0.74);
        sheet.words(at, DO_NOT_FLY, Lettering { size_mm: BAND * 0.72, ..white.middle() });
        let rows: Vec<Vec<Entry>> =
            self.release().stops.iter().map(|stop| vec![Entry::bold(stop.told()), stop.way_out().into()]).collect();
        let below = Frame { low: DVec2::new(room.low.x, high.y + 1.5), high: DVec2::new(room.high.x, high.y + 44.0) };
        let columns = [("why", 84.0), ("what to do about it", 100.0)];
        Grid { columns: &columns, size: 3.8, least: 0.0 }.set(sheet, below, &rows) + 3.0
    }
}
