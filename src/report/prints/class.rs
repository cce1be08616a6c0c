//! The table of a class: A4 lying, a person a row, with what a good run looks like.

use glam::DVec2;

use super::paper::{EDGE, GAP, PAD, boxed, foot, size, strip};
use crate::draw::{Fill, Frame, Ink, Lettering, Pen, Room, Sheet};
use crate::rehearsal::{PartKind, Stage};
use crate::report::rehearsal::{Attempt, ClassSheet};
use crate::units::decimals;
use crate::words::rehearsal as words;
use crate::words::{Units, number};

/// Smallest letters, mm.
const LEAST: f64 = 2.4;
/// Height of a row and of the head of the table, mm.
const ROW: f64 = 7.6;
const HEAD: f64 = 11.0;
/// Height of the box under the table.
const GOOD: f64 = 22.0;
/// Width of the columns, mm: pilot, what it came to, a part, a stage.
const PILOT: f64 = 32.0;
const CAME_TO: f64 = 58.0;
const PART: f64 = 14.4;

/// One cell of the table: where it begins and how wide it is.
#[derive(Debug, Clone, Copy)]
struct Column {
    left: f64,
    wide: f64,
}

fn columns() -> Vec<Column> {
    let stages = Stage::ALL.len();
    #[allow(clippy::cast_precision_loss, reason = "a handful of columns")]
    let stage = (size::A4_LYING.x - 2.0 * EDGE - PILOT - CAME_TO - PART * PartKind::ALL.len() as f64) / stages as f64;
    let widths = [PILOT, CAME_TO].into_iter().chain([PART; PartKind::ALL.len()]).chain(vec![stage; stages]);
    let mut left = EDGE;
    widths
        .map(|wide| {
            let column = Column { left, wide };
            left += wide;
            column
        })
        .collect()
}

impl ClassSheet<'_> {
    /// The pages.
    pub fn sheets(&self) -> Vec<Sheet> {
        let paper = size::A4_LYING;
        // As many rows as find room between title and foot, which are as high on every page.
        let (top, low) = (EDGE + 24.0 + GAP, foot(&mut self.empty(), EDGE, 2.6, &self.stamp()) - GAP);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a handful of rows")]
        let rows = (((low - GOOD - GAP - top - HEAD) / ROW).floor() as usize).max(1);
        let parts: Vec<&[Attempt]> =
            if self.attempts.is_empty() { vec![&[]] } else { self.attempts.chunks(rows).collect() };
        let count = parts.len();
        let pages = parts.into_iter().enumerate().map(|(number, attempts)| {
            let mut sheet = self.empty();
            self.title(&mut sheet, number + 1, count);
            let end = table(&mut sheet, top, attempts);
            let good = Frame { low: DVec2::new(EDGE, end + GAP), high: DVec2::new(paper.x - EDGE, end + GAP + GOOD) };
            self.good_run(&mut sheet, good);
            foot(&mut sheet, EDGE, 2.6, &self.stamp());
            sheet
        });
        pages.collect()
    }

    fn empty(&self) -> Sheet {
        let (name, exercise) = (&self.base.file.name, &self.exercise.name);
        let about = format!("How {} people did in the exercise {exercise} on {name}", self.attempts.len());
        Sheet::new(size::A4_LYING.x, size::A4_LYING.y, format!("{name}: {exercise}"), about)
    }

    /// Exercise, field and day on a dark strip, and what was rehearsed below it.
    fn title(&self, sheet: &mut Sheet, page: usize, count: usize) {
        let file = &self.base.file;
        let right = size::A4_LYING.x - EDGE;
        let (low, high) = (DVec2::splat(EDGE), DVec2::new(right, EDGE + 12.0));
        let white = strip(sheet, low, high);
        let split = high.x - 92.0;
        let name = Frame { low: low + DVec2::new(PAD, 2.0), high: DVec2::new(split, high.y) };
        sheet.fitted(Room::new(name, 6.6, 3.0), &[format!("Rehearsal: {}", self.exercise.name)], white);
        let pages = if count > 1 { format!(", {page} of {count}") } else { String::new() };
        let beside = Frame { low: DVec2::new(split + 2.0, low.y + 3.4), high: high - DVec2::new(PAD, 0.0) };
        sheet.fitted(Room::new(beside, 4.2, LEAST), &[format!("{}, {}{pages}", file.name, file.date)], white.end());
        let below = Frame { low: DVec2::new(EDGE, high.y + 2.0), high: DVec2::new(right, EDGE + 24.0) };
        let told = words::exercise(self.exercise, &Units::default());
        sheet.fitted(Room::new(below, 3.6, LEAST), &[told], Lettering::new(0.0));
    }

    fn good_run(&self, sheet: &mut Sheet, frame: Frame) {
        let inside = boxed(sheet, frame, "What a good run looks like");
        let good = self.good().unwrap_or("Every stage of the drill in order, and nothing crossed.");
        let told = [good.to_owned(), words::FOR_DISCUSSION.to_owned()];
        sheet.fitted(Room::new(inside, 3.8, LEAST), &told, Lettering::new(0.0));
    }
}

/// Draws the table; returns its lower edge.
fn table(sheet: &mut Sheet, top: f64, attempts: &[Attempt]) -> f64 {
    let columns = columns();
    let head = ["pilot".to_owned(), "came to".into()]
        .into_iter()
        .chain(PartKind::ALL.map(|kind| format!("{} of {}", words::short_part(kind), decimals(kind.most(), 0))))
        .chain(Stage::ALL.map(|stage| format!("{} s", words::done(stage))));
    row(sheet, &columns, [top, HEAD], head, true);
    let mut y = top + HEAD;
    for attempt in attempts {
        sheet.line([DVec2::new(EDGE, y), DVec2::new(size::A4_LYING.x - EDGE, y)], Pen::plain(Ink::RULE, 0.2));
        let parts = PartKind::ALL.map(|kind| {
            let part = attempt.score.parts.iter().find(|part| part.kind == kind);
            part.map_or_else(String::new, words::points)
        });
        let stages =
            attempt.stages_s.map(|done_s| done_s.map_or_else(|| "-".into(), |s| number((s * 10.0).round() / 10.0)));
        let cells = [attempt.pilot.clone(), words::result(&attempt.score, &Units::default())];
        row(sheet, &columns, [y, ROW], cells.into_iter().chain(parts).chain(stages), attempt.score.points().is_none());
        y += ROW;
    }
    sheet.rectangle(
        DVec2::new(EDGE, top),
        DVec2::new(size::A4_LYING.x - EDGE, y),
        Some(Pen::plain(Ink::BLACK, 0.45)),
        Fill::None,
    );
    sheet.line(
        [DVec2::new(EDGE, top + HEAD), DVec2::new(size::A4_LYING.x - EDGE, top + HEAD)],
        Pen::plain(Ink::BLACK, 0.3),
    );
    y
}

/// One row; the words of a head, and the name of what failed, stand in the heavy weight.
fn row(sheet: &mut Sheet, columns: &[Column], [top, tall]: [f64; 2], cells: impl Iterator<Item = String>, bold: bool) {
    for (index, (column, words)) in columns.iter().zip(cells).enumerate() {
        let low = DVec2::new(column.left + 1.0, top + 1.0);
        let high = DVec2::new(column.left + column.wide - 1.0, top + tall - 0.2);
        let lettering = Lettering::new(0.0);
        let heavy = bold && (index < 2 || tall > ROW);
        let lettering = if heavy { lettering.bold() } else { lettering };
        sheet.fitted(Room::new(Frame { low, high }, 3.2, LEAST), &[words], lettering);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::VERSION;
    use crate::draw::Mark;
    use crate::rehearsal::{Exercise, HardEvent, Part, RehearsalScore, ladder};
    use crate::run::Scenario;
    use crate::words::cautions::FOOT;

    fn attempt(pilot: &str, events: usize) -> Attempt {
        let part = |kind: PartKind| Part { kind, points: kind.most() / 3.0, value: None, at_s: None, row: None };
        let hit = HardEvent::HitTheGround { at_s: 142.0, sink_mps: 12.5, bank_deg: 44.0 };
        Attempt {
            pilot: pilot.into(),
            score: RehearsalScore {
                events: vec![hit; events],
                parts: PartKind::ALL.map(part).into(),
                rows: Vec::new(),
                landed: false,
            },
            stages_s: [Some(1.26), Some(2.0), None, Some(123.45), None, Some(14.0), None],
            ready_s: Some(14.0),
        }
    }

    #[test]
    fn a_class_of_any_size_stays_on_its_paper_and_says_where_it_comes_from() {
        let scenario = Scenario::tight_strip();
        let long = "Somebody With A Name That Goes On Behind The Old Windmill By The Flooded Quarry Pond";
        let odd = Exercise { name: long.into(), ..Exercise::default() };
        for (exercise, attempts) in [
            (
                &ladder()[3].exercise,
                vec![attempt("A. Reeve", 0), attempt(long, 1), attempt("Llanfairpwllgwyngyllgo", 9)],
            ),
            (&odd, vec![attempt(long, 9); 47]),
            (&odd, Vec::new()),
        ] {
            let class = ClassSheet { base: &scenario, exercise, attempts: &attempts };
            let pages = class.sheets();
            let told: Vec<String> = pages.iter().flat_map(|page| page.lettered()).map(|(words, ..)| words).collect();
            assert_eq!(told.iter().filter(|words| *words == "123.4" || *words == "123.5").count(), attempts.len());
            for page in &pages {
                let all = page.lettered();
                let said: String = all.iter().map(|(words, ..)| words.clone() + " ").collect();
                for origin in [&scenario.hash(), VERSION, FOOT, words::FOR_DISCUSSION] {
                    assert!(said.contains(origin), "{said} does not say {origin}");
                }
                for (index, (words, low, high)) in all.iter().enumerate() {
                    let inside = low.min_element() >= 5.0 && (page.size_mm - *high).min_element() >= 5.0;
                    assert!(inside, "\"{words}\" from {low} to {high}");
                    for (other, other_low, other_high) in &all[index + 1..] {
                        let across = high.min(*other_high) - low.max(*other_low);
                        assert!(across.x < 0.3 || across.y < 0.6, "\"{words}\" lies on \"{other}\" by {across}");
                    }
                }
                let small =
                    |mark: &&Mark| matches!(mark, Mark::Words { lettering, .. } if lettering.size_mm < LEAST - 1e-9);
                assert!(page.marks.iter().find(small).is_none());
            }
        }
    }
}
