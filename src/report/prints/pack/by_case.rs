//! Page 3, the risks: what each loss ends in, what is done about it and what remains; then what neighbours, an agent and an
//! insurer ask.

use glam::DVec2;

use super::grid::{Entry, Grid};
use crate::brief::{Asked, Plan};
use crate::draw::{Frame, Sheet};

/// Share of the page that the cases take.
const CASES: f64 = 0.6;

impl Plan<'_> {
    pub(super) fn page_of_risks(&self, sheet: &mut Sheet, mut room: Frame) {
        room.low.y = super::heading(sheet, room, "3", "Risks", &[self.facts().people]);
        let split = room.low.y + room.size().y * CASES;
        let upper = Frame { low: room.low, high: DVec2::new(room.high.x, split - 4.0) };
        let upper = super::under(sheet, upper, "By case");
        let columns = [
            ("lost", 19.0),
            ("what it ends in", 46.0),
            ("what is done", 50.0),
            ("what remains", 39.0),
            ("people at risk", 30.0),
        ];
        let rows: Vec<Vec<Entry>> = self
            .cases()
            .into_iter()
            .map(|case| {
                let told = [case.ends, case.done, case.remains, case.people].map(Entry::from);
                std::iter::once(Entry::bold(case.lost)).chain(told).collect()
            })
            .collect();
        let foot = Grid { columns: &columns, size: 3.2, least: 0.0 }.set(sheet, upper, &rows);
        let lower = Frame { low: DVec2::new(room.low.x, foot + 4.0), high: room.high };
        let lower = super::under(sheet, lower, "What neighbours, an agent and an insurer ask");
        let rows: Vec<Vec<Entry>> =
            self.asked_by_others().into_iter().map(|one| vec![Entry::bold(one.about), asked(one)]).collect();
        Grid { columns: &[("", 26.0), ("", 158.0)], size: 3.4, least: 9.0 }.set(sheet, lower, &rows);
    }
}

/// What a plan says to a question, with a line to write on where people have to answer.
pub(super) fn asked(one: Asked) -> Entry {
    match one.question {
        Some(question) => Entry::open(format!("{} {question}", one.told).trim()),
        None => one.told.into(),
    }
}
