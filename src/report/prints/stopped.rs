//! What stands in the place of a print of a plan that something stops: DO NOT FLY across the sheet, why, and what to do
//! about it.

use glam::DVec2;

use super::Print;
use super::paper::{PAD, strip};
use crate::brief::{DO_NOT_FLY, Plan};
use crate::draw::{Frame, Ink, Lettering, Pen, Room, Sheet, width_mm};

/// Largest letters of the reasons on a sheet as wide as A4, mm.
const REASON: f64 = 6.0;
/// Width that these sizes are for, mm.
const A4: f64 = 210.0;

impl Plan<'_> {
    /// The sheet in the place of a print: no numeral, no box to tick.
    pub(super) fn stopped(&self, print: Print, paper: DVec2, edge: f64) -> Sheet {
        let name = &self.scenario.file.name;
        let release = self.release();
        let reasons = release.reasons();
        let about = format!("{DO_NOT_FLY}. {}", reasons.join(" "));
        let mut sheet = Sheet::new(paper.x, paper.y, format!("{name}: {DO_NOT_FLY}"), about);
        // A wall is read from further off; what is held in a hand is not.
        let times = (paper.x / A4).clamp(0.62, 1.6);
        let foot = self.foot(&mut sheet, edge, (2.6 * times).max(2.4));
        let band = Frame { low: DVec2::splat(edge), high: DVec2::new(paper.x - edge, paper.y / 3.0) };
        self.across(&mut sheet, band, &[name.clone(), format!("in the place of the {}", print.purpose())], times);
        let (left, right) = (edge + PAD, paper.x - edge - PAD);
        let rows = |from: f64, to: f64| Frame { low: DVec2::new(left, from), high: DVec2::new(right, to) };
        let below = band.high.y + 4.0 * times;
        // What to do has more words than why.
        let why = rows(below, below + (foot - below) * 0.4);
        let (_, under) = sheet.fitted(Room::new(why, REASON * times, 2.4), &reasons, Lettering::new(0.0).bold());
        let rule = under + 2.5 * times;
        sheet.line([DVec2::new(edge, rule), DVec2::new(paper.x - edge, rule)], Pen::plain(Ink::BLACK, 0.6));
        let mut todo: Vec<String> = release.stops.iter().map(|stop| stop.way_out().to_owned()).collect();
        if let Some(five) = self.five_lines() {
            todo.extend(five.rows().map(|(name, words)| format!("{name}: {words}")));
        }
        let rest = rows(rule + 3.0 * times, foot - 1.0);
        sheet.fitted(Room::new(rest, 4.6 * times, 2.4), &todo, Lettering::new(0.0));
        sheet
    }

    /// The band with the words, and what it is about small above and below them.
    fn across(&self, sheet: &mut Sheet, band: Frame, [over, under]: &[String; 2], times: f64) {
        let white = strip(sheet, band.low, band.high);
        let inside = Frame { low: band.low + DVec2::splat(PAD), high: band.high - DVec2::splat(PAD) };
        let small = 4.6 * times;
        let room = |from: f64| Frame {
            low: DVec2::new(inside.low.x, from),
            high: DVec2::new(inside.high.x, from + small * Sheet::LEADING + 0.1),
        };
        let plain = Lettering { bold: false, ..white.middle() };
        sheet.fitted(Room::new(room(inside.low.y), small, 2.4), std::slice::from_ref(over), plain);
        let low = inside.high.y - small * Sheet::LEADING;
        sheet.fitted(Room::new(room(low), small, 2.4), std::slice::from_ref(under), plain);
        let free = inside.size() - DVec2::new(0.0, 2.0 * small * Sheet::LEADING);
        let size = (0.98 * free.x / width_mm(DO_NOT_FLY, 1.0, true)).min(free.y / Sheet::LEADING);
        let at = DVec2::new(inside.middle().x, inside.middle().y + 0.34 * size);
        sheet.words(at, DO_NOT_FLY, Lettering { size_mm: size, ..white.middle() });
    }
}
