//! Page 4, conditions and signatures: up to what wind, until when, who authorises, who signs, whom to ring.

use glam::DVec2;

use super::grid::{Entry, Grid};
use crate::brief::{Plan, SignLine};
use crate::draw::{Frame, Sheet};

impl Plan<'_> {
    pub(super) fn page_of_conditions(&self, sheet: &mut Sheet, mut room: Frame) {
        let wind = format!("Wind limit, hand-held at 2 m: {}", self.facts().wind_for_day());
        room.low.y = super::heading(sheet, room, "4", "Conditions and signatures", &[wind]);
        let height = room.size().y;
        let mut part = |sheet: &mut Sheet, share: f64, title: &str| {
            let frame = Frame { low: room.low, high: DVec2::new(room.high.x, room.low.y + share * height - 4.0) };
            room.low.y += share * height;
            super::under(sheet, frame, title)
        };
        let pair = |(name, told): (&str, String)| vec![Entry::bold(name), Entry::or_open(told)];
        let two = [("", 34.0), ("", 150.0)];
        let held = part(sheet, 0.4, "It holds only so long as");
        let rows: Vec<Vec<Entry>> = self.conditions().into_iter().map(pair).collect();
        Grid { columns: &two, size: 3.5, least: 0.0 }.set(sheet, held, &rows);
        let signed = part(sheet, 0.38, &format!("Signed, for version {}", self.scenario.file.plan_hash()));
        let columns = [("as", 40.0), ("name", 50.0), ("signature", 64.0), ("day", 26.0)];
        let row = |line: SignLine<'_>| {
            vec![Entry::bold(line.role), Entry::or_open(line.name), Entry::open(line.lapsed), Entry::or_open(line.on)]
        };
        let rows: Vec<Vec<Entry>> = self.sign_lines().into_iter().map(row).collect();
        Grid { columns: &columns, size: 3.6, least: 11.0 }.set(sheet, signed, &rows);
        let ring = part(sheet, 0.22, "Who to ring");
        let rows: Vec<Vec<Entry>> = self.to_ring().into_iter().map(pair).collect();
        Grid { columns: &two, size: 3.6, least: 7.0 }.set(sheet, ring, &rows);
    }
}
