//! Tables in the flow: columns that wrap, rows that move to the next page, and a head that is said again there.

use glam::DVec2;

use super::flow::{Flow, wrapped};
use crate::draw::{Fill, Ink, Lettering, Pen, Sheet};
use crate::report::picture::losses::diamond;

/// Size of words in tables, mm.
pub(super) const SMALL: f64 = 2.8;
/// Between columns, mm.
const APART: f64 = 2.4;
/// Over and under the words of a row, mm.
const PAD: f64 = 0.75;
/// Paper that a sign takes, mm.
const SIGN: f64 = 4.6;

/// A column: its head, its part of the width, and whether it holds numbers that stand at its right edge.
#[derive(Debug, Clone, Copy)]
pub(super) struct Column(pub(super) &'static str, pub(super) f64, pub(super) bool);

/// What stands before the words of a cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Sign {
    /// A full square: somebody measured it.
    Full,
    /// A square half full: somebody judged it.
    Half,
    /// An open square: nobody looked.
    Open,
    /// A dot: it was decided, or read off the day.
    Dot,
    /// A box to tick.
    Tick,
    /// A square of a fill.
    Swatch(Fill),
    /// A small diamond.
    Diamond,
}

/// A cell.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Cell {
    words: String,
    bold: bool,
    sign: Option<Sign>,
}

impl<T: Into<String>> From<T> for Cell {
    fn from(words: T) -> Self {
        Self { words: words.into(), bold: false, sign: None }
    }
}

impl Cell {
    /// In the heavy weight.
    pub(super) fn bold(words: impl Into<String>) -> Self {
        Self { bold: true, ..words.into().into() }
    }

    /// After a sign.
    pub(super) fn signed(sign: Sign, words: impl Into<String>) -> Self {
        Self { sign: Some(sign), ..words.into().into() }
    }

    /// In the heavy weight where something is amiss.
    pub(super) fn loud(words: impl Into<String>, loud: bool) -> Self {
        Self { bold: loud, ..words.into().into() }
    }

    fn lead(&self) -> f64 {
        if self.sign.is_some() { SIGN } else { 0.0 }
    }
}

/// A column of words.
pub(super) const fn text(title: &'static str, part: f64) -> Column {
    Column(title, part, false)
}

/// A column of numbers.
pub(super) const fn digits(title: &'static str, part: f64) -> Column {
    Column(title, part, true)
}

/// A table while it is set: edges of its columns and the height of a line.
struct Set<'t> {
    columns: &'t [Column],
    edges: Vec<[f64; 2]>,
}

const LINE: f64 = SMALL * Sheet::LEADING;

#[allow(clippy::cast_precision_loss, reason = "a page has few lines")]
fn tall(lines: usize) -> f64 {
    lines as f64 * LINE + 2.0 * PAD
}

impl Set<'_> {
    fn broken(&self, cells: &[Cell]) -> Vec<Vec<String>> {
        let width = |[from, to]: [f64; 2], cell: &Cell| to - from - cell.lead();
        let pairs = cells.iter().zip(&self.edges);
        pairs.map(|(cell, edges)| wrapped(&cell.words, SMALL, cell.bold, width(*edges, cell))).collect()
    }

    fn row(&self, sheet: &mut Sheet, y: f64, cells: &[Cell], lines: &[Vec<String>], signs: bool) {
        for (((cell, lines), [from, to]), column) in cells.iter().zip(lines).zip(&self.edges).zip(self.columns) {
            let lettering = Lettering { bold: cell.bold, ..Lettering::new(SMALL) };
            if let Some(sign) = cell.sign.filter(|_| signs) {
                sign.draw(sheet, DVec2::new(*from, y + PAD));
            }
            let mut foot = y + PAD + 0.82 * SMALL;
            for line in lines {
                let (x, lettering) = if column.2 { (*to, lettering.end()) } else { (from + cell.lead(), lettering) };
                sheet.words(DVec2::new(x, foot), line.as_str(), lettering);
                foot += LINE;
            }
        }
    }
}

impl Sign {
    /// Draws it from an upper left corner.
    fn draw(self, sheet: &mut Sheet, at: DVec2) {
        let side = 2.3;
        let (low, high) = (at + DVec2::new(0.3, 0.25), at + DVec2::new(0.3 + side, 0.25 + side));
        let pen = Some(Pen::plain(Ink::BLACK, 0.35));
        let open = Fill::Plain(Ink::PAPER);
        match self {
            Self::Full => sheet.rectangle(low, high, pen, Fill::Plain(Ink::BLACK)),
            Self::Half => {
                sheet.rectangle(low, high, pen, open);
                sheet.ring([low, DVec2::new(low.x, high.y), high], None, Fill::Plain(Ink::BLACK));
            }
            Self::Open => sheet.rectangle(low, high, pen, open),
            Self::Dot => sheet.circle((low + high) / 2.0, 0.6, None, Fill::Plain(Ink::BLACK)),
            Self::Tick => sheet.rectangle(low - DVec2::splat(0.2), high + DVec2::splat(0.6), pen, open),
            Self::Swatch(fill) => sheet.rectangle(low, low + DVec2::new(3.6, side + 0.3), pen, fill),
            Self::Diamond => diamond(sheet, (low + high) / 2.0, 1.1),
        }
    }
}

impl Flow<'_> {
    /// Sets a table.
    pub(super) fn table(&mut self, columns: &[Column], rows: &[Vec<Cell>]) {
        self.tall_table(columns, rows, 0.0);
    }

    /// Sets a table whose rows leave room to write in, at least so tall, mm.
    pub(super) fn tall_table(&mut self, columns: &[Column], rows: &[Vec<Cell>], least: f64) {
        #[allow(clippy::cast_precision_loss, reason = "a handful of columns")]
        let free = self.room.size().x - APART * columns.len().saturating_sub(1) as f64;
        let whole: f64 = columns.iter().map(|column| column.1).sum();
        let mut x = self.room.low.x;
        let mut edge = |column: &Column| {
            let from = x;
            x += free * column.1 / whole + APART;
            [from, x - APART]
        };
        let set = Set { columns, edges: columns.iter().map(&mut edge).collect() };
        // The head and the first rows stay together.
        let lines = |row: &Vec<Cell>| set.broken(row).iter().map(Vec::len).max().unwrap_or(0);
        let first: f64 = rows.iter().take(4).map(|row| tall(lines(row).min(12)).max(least)).sum();
        self.need(tall(1) + first.min(self.room.size().y / 3.0));
        self.head(&set);
        for cells in rows {
            self.row(&set, cells, least);
        }
        self.y += 1.8;
    }

    fn head(&mut self, set: &Set<'_>) {
        if set.columns.iter().all(|column| column.0.is_empty()) {
            return;
        }
        let cells: Vec<Cell> = set.columns.iter().map(|column| Cell::bold(column.0)).collect();
        let lines = set.broken(&cells);
        let high = tall(lines.iter().map(Vec::len).max().unwrap_or(1));
        let corners = [self.y, self.y + high].map(|y| y - 0.2);
        let (low, far) = (DVec2::new(self.room.low.x, corners[0]), DVec2::new(self.room.high.x, corners[1]));
        self.sheet.rectangle(low, far, None, Fill::Plain(Ink::FAINT));
        set.row(&mut self.sheet, self.y, &cells, &lines, true);
        self.y += high;
    }

    fn row(&mut self, set: &Set<'_>, cells: &[Cell], least: f64) {
        let lines = set.broken(cells);
        let count = lines.iter().map(Vec::len).max().unwrap_or(0).max(1);
        let mut from = 0;
        while from < count {
            let wanted = tall(count - from).max(least);
            let mut to = count;
            if wanted > self.left() {
                // A row taller than half a page is torn apart; any other moves as it is.
                let long = wanted > self.room.size().y / 2.0;
                #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "lines of a page")]
                let fit = ((self.left() - 2.0 * PAD) / LINE).max(0.0) as usize;
                if !long || fit == 0 {
                    self.turn();
                    self.head(set);
                    continue;
                }
                to = (from + fit).min(count);
            }
            let part: Vec<Vec<String>> =
                lines.iter().map(|all| all.iter().skip(from).take(to - from).cloned().collect()).collect();
            set.row(&mut self.sheet, self.y, cells, &part, from == 0);
            self.y += tall(to - from).max(if to == count { least.min(self.left()) } else { 0.0 });
            let ends = [DVec2::new(self.room.low.x, self.y), DVec2::new(self.room.high.x, self.y)];
            self.sheet.line(ends, Pen::plain(Ink::RULE, 0.2));
            from = to;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::Frame;

    #[test]
    fn rows_move_on_with_their_head_and_every_word_keeps_to_its_column() {
        let mut flow = Flow::new(|| {
            (Sheet::new(120.0, 80.0, "", ""), Frame { low: DVec2::splat(10.0), high: DVec2::new(110.0, 70.0) })
        });
        let columns = [text("limit", 2.0), digits("left", 1.0)];
        let name = |index: usize| format!("hedge {index} along the lane that leads down to the water and the far gate");
        let mut rows: Vec<Vec<Cell>> = (0..30).map(|index| vec![name(index).into(), "12.3 m".into()]).collect();
        // One row that no page holds.
        rows.push(vec!["a name without an end ".repeat(80).into(), Cell::signed(Sign::Open, "1 m")]);
        flow.table(&columns, &rows);
        let pages = flow.finish();
        assert!(pages.len() > 3);
        for page in &pages {
            let lettered = page.lettered();
            let said = |words: &str| lettered.iter().filter(|(other, ..)| other == words).count();
            assert_eq!((said("limit"), said("left")), (1, 1));
            assert!(
                lettered
                    .iter()
                    .all(|(_, low, high)| low.cmpge(DVec2::splat(10.0)).all() && high.x <= 110.01 && high.y <= 70.0)
            );
        }
        let told = pages.iter().flat_map(Sheet::lettered).filter(|(words, ..)| words == "12.3 m").count();
        assert_eq!(told, 30);
    }
}
