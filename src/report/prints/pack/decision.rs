//! Page 1, the decision: what is asked for and of whom, the answer in five lines, and that it is one plan.

use glam::DVec2;

use super::grid::{Entry, Grid};
use crate::brief::{DO_NOT_FLY, Plan};
use crate::draw::{Frame, Lettering, Sheet};
use crate::report::prints::paper::{alarm_box, strip};

/// Height of the band of a plan that something stops, mm.
const BAND: f64 = 21.0;
/// Greatest height of what must not be overlooked, mm.
const ALARMS: f64 = 26.0;

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
        // Each part is as tall as it needs, and no taller than its share; the last has the rest.
        let two = [("", 34.0), ("", 150.0)];
        let rows: Vec<Vec<Entry>> =
            self.one_plan().into_iter().map(|(name, told)| vec![Entry::bold(name), told.into()]).collect();
        let tall = room.size().y;
        for (title, share, rows) in [("The answer", 0.43, self.answer_rows()), ("One plan", 0.24, rows)] {
            let frame = Frame { high: DVec2::new(room.high.x, room.low.y + share * tall - 3.5), ..room };
            let inside = super::under(sheet, frame, title);
            room.low.y = Grid { columns: &two, size: 3.8, least: 0.0 }.set(sheet, inside, &rows) + 3.5;
        }
        let inside = super::under(sheet, room, "What is asked of whom, by when");
        let columns = [("who", 31.0), ("is asked to", 62.0), ("by when", 46.0), ("so far", 45.0)];
        let rows: Vec<Vec<Entry>> = self
            .requests()
            .into_iter()
            .map(|one| vec![Entry::bold(one.of), one.asked.into(), one.by.into(), Entry::or_open(one.so_far)])
            .collect();
        Grid { columns: &columns, size: 3.6, least: 9.0 }.set(sheet, inside, &rows);
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
