//! Page 4, conditions and signatures: up to what wind, until when, who authorises, who signs, whom to ring.

use glam::DVec2;

use super::grid::{Entry, Grid};
use crate::brief::{Plan, SignLine};
use crate::draw::{Frame, Sheet};

impl Plan<'_> {
    pub(super) fn page_of_conditions(&self, sheet: &mut Sheet, mut room: Frame) {
        let wind = format!("{} Read it on a meter in the hand, at 2 m.", self.facts().wind_for_day());
        room.low.y = super::heading(sheet, room, "4", "Conditions and signatures", &[wind]);
        let share = |share: f64, from: f64| DVec2::new(room.high.x, from + share * (room.high.y - room.low.y));
        let pair = |(name, told): (&str, String)| vec![Entry::bold(name), Entry::or_open(told)];
        let two = [("", 34.0), ("", 150.0)];
        let frame = Frame { low: room.low, high: share(0.4, room.low.y) };
        let held = super::under(sheet, frame, "It holds only so long as");
        let rows: Vec<Vec<Entry>> = self.conditions().into_iter().map(pair).collect();
        let top = Grid { columns: &two, size: 3.6, least: 0.0 }.set(sheet, held, &rows) + 4.0;
        let frame = Frame { low: DVec2::new(room.low.x, top), high: share(0.38, top) };
        let title = format!("Signed, for version {}", self.scenario.file.plan_hash());
        let signed = super::under(sheet, frame, &title);
        let columns = [("as", 40.0), ("name", 50.0), ("signature", 64.0), ("day", 26.0)];
        let row = |line: SignLine<'_>| {
            vec![Entry::bold(line.role), Entry::or_open(line.name), Entry::open(line.lapsed), Entry::or_open(line.on)]
        };
        let rows: Vec<Vec<Entry>> = self.sign_lines().into_iter().map(row).collect();
        let top = Grid { columns: &columns, size: 3.6, least: 14.0 }.set(sheet, signed, &rows) + 4.0;
        let ring = Frame { low: DVec2::new(room.low.x, top), high: room.high };
        let ring = super::under(sheet, ring, "Who to ring");
        let rows: Vec<Vec<Entry>> = self.to_ring().into_iter().map(pair).collect();
        Grid { columns: &two, size: 3.6, least: 8.0 }.set(sheet, ring, &rows);
    }
}
