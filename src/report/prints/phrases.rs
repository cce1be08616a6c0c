//! The card of phrases for pilot and spotter, A6: what is said at which moment, and how a place in the sky is told.

use glam::DVec2;

use super::paper::{size, strip};
use crate::brief::Plan;
use crate::draw::{Frame, Ink, Lettering, Pen, Room, Sheet};

/// Paper left free.
pub(super) const EDGE: f64 = 6.0;
/// Columns: the moment, the pilot, the spotter.
const COLUMNS: [f64; 4] = [0.0, 19.0, 51.0, 93.0];
/// Smallest letters, mm.
const LEAST: f64 = 2.4;

impl Plan<'_> {
    /// The card of phrases.
    pub fn phrases(&self) -> Sheet {
        let name = &self.scenario.file.name;
        let about = format!("Phrases for pilot and spotter at {name}");
        let mut sheet = Sheet::new(size::A6.x, size::A6.y, format!("{name}: phrases"), about);
        let foot = self.foot(&mut sheet, EDGE, 2.4);
        let (left, right) = (EDGE, size::A6.x - EDGE);
        let bar = Frame { low: DVec2::splat(EDGE), high: DVec2::new(right, EDGE + 8.6) };
        let white = strip(&mut sheet, bar.low, bar.high);
        let room = Frame { low: bar.low + DVec2::new(1.5, 1.4), high: bar.high - DVec2::new(1.5, 0.0) };
        let title = format!("Said on the line: {name}");
        sheet.fitted(Room::new(room, 4.8, 3.0), &[title], white);

        let mut y = bar.high.y + 1.6;
        let cell = |column: usize, y: f64, tall: f64| Frame {
            low: DVec2::new(left + COLUMNS[column], y),
            high: DVec2::new(left + COLUMNS[column + 1] - 1.6, y + tall),
        };
        for (column, title) in ["when", "the pilot says", "the spotter says"].into_iter().enumerate() {
            sheet.fitted(
                Room::new(cell(column, y, 3.6), 2.6, LEAST),
                &[title.into()],
                Lettering::new(0.0).ink(Ink::SOFT),
            );
        }
        y += 4.0;
        let told = self.sky();
        let below = 29.0;
        let said = self.phrases_said();
        #[allow(clippy::cast_precision_loss, reason = "nine")]
        let each = (foot - below - y) / said.len() as f64;
        for phrase in said {
            sheet.line([DVec2::new(left, y), DVec2::new(right, y)], Pen::plain(Ink::RULE, 0.25));
            let words = [phrase.moment.to_owned(), phrase.pilot.to_owned(), phrase.spotter];
            for (column, words) in words.into_iter().enumerate() {
                let lettering = Lettering::new(0.0);
                let lettering = if column == 0 { lettering } else { lettering.bold() };
                let room = cell(column, y + 1.0, each - 1.0);
                sheet.fitted(Room::new(room, if column == 0 { 2.8 } else { 3.1 }, LEAST), &[words], lettering);
            }
            y += each;
        }
        sheet.line([DVec2::new(left, y), DVec2::new(right, y)], Pen::plain(Ink::BLACK, 0.5));
        let room = Frame { low: DVec2::new(left, y + 1.4), high: DVec2::new(right, foot - 0.5) };
        sheet.fitted(Room::new(room, 2.9, LEAST), &told, Lettering::new(0.0));
        sheet
    }

    /// How a place in the sky is told here.
    fn sky(&self) -> Vec<String> {
        let facts = self.facts();
        let cue = facts.look.map(|look| format!("Here: {look}"));
        let first = format!("Hour, fists, way, attitude. {}. A fist at arm's length is about 10 deg.", facts.clock);
        let last = "A blank is filled as it is at that moment. Agree on the words before the flight. Repeat what you heard. \u{201c}Yes\u{201d} and \u{201c}no\u{201d}, never \u{201c}okay\u{201d}.";
        [Some(first), cue, Some(last.into())].into_iter().flatten().collect()
    }
}
