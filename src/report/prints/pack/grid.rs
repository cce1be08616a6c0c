//! A table that keeps to the room it is given: as large as fits, and a question has a line to write its answer on.

use glam::DVec2;

use crate::draw::{Fill, Frame, Ink, Lettering, Pen, Room, Sheet, lines};

/// Between columns, mm.
const APART: f64 = 3.0;
/// Over and under the words of a row, mm.
const PAD: f64 = 0.9;
/// Room for an answer by hand, mm.
const BY_HAND: f64 = 6.4;
/// Smallest letters, mm.
const LEAST: f64 = 2.4;

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Entry {
    words: String,
    bold: bool,
    /// Whether there is a line to write on under the words.
    open: bool,
}

impl<T: Into<String>> From<T> for Entry {
    fn from(words: T) -> Self {
        Self { words: words.into(), bold: false, open: false }
    }
}

impl Entry {
    /// In the heavy weight.
    pub(super) fn bold(words: impl Into<String>) -> Self {
        Self { bold: true, ..words.into().into() }
    }

    /// Words with a line to write on.
    pub(super) fn open(words: impl Into<String>) -> Self {
        Self { open: true, ..words.into().into() }
    }

    /// The words, or a line to write on where there are none.
    pub(super) fn or_open(words: impl Into<String>) -> Self {
        let words: String = words.into();
        Self { open: words.trim().is_empty(), ..Self::from(words) }
    }

    /// Height in a width, mm.
    #[allow(clippy::cast_precision_loss, reason = "a few lines")]
    fn tall(&self, size: f64, width: f64) -> f64 {
        let count = if self.words.is_empty() { 0 } else { lines(&self.words, size, self.bold, width).len() };
        count as f64 * size * Sheet::LEADING + if self.open { BY_HAND } else { 0.0 }
    }
}

/// Columns and sizes of a table.
pub(super) struct Grid<'c> {
    /// Heads and parts of the width.
    pub(super) columns: &'c [(&'c str, f64)],
    /// Largest letters, mm.
    pub(super) size: f64,
    /// Rows are at least so tall where there is room, mm.
    pub(super) least: f64,
}

impl Grid<'_> {
    /// Sets rows in a room; returns the lower edge. What finds no room ends in three dots, and rows that find none are
    /// counted in the last one.
    pub(super) fn set(&self, sheet: &mut Sheet, room: Frame, rows: &[Vec<Entry>]) -> f64 {
        let edges = self.edges(room);
        let head = if self.columns.iter().all(|column| column.0.is_empty()) { 0.0 } else { line(self.size.min(3.0)) };
        let free = room.size().y - head;
        let (size, heights) = self.heights(rows, &edges, free);
        let short = heights.iter().sum::<f64>() > free + 0.01;
        let end = room.high.y + if short { -3.4 } else { 0.01 };
        let mut y = room.low.y;
        if head > 0.0 {
            let high = DVec2::new(room.high.x, y + head);
            sheet.rectangle(room.low, high, None, Fill::Plain(Ink::FAINT));
            for ((name, _), [from, to]) in self.columns.iter().zip(&edges) {
                let own = Frame { low: DVec2::new(*from, y + PAD), high: DVec2::new(*to, y + head) };
                sheet.fitted(Room::new(own, self.size.min(3.0), LEAST), &[(*name).into()], Lettering::new(0.0).bold());
            }
            y += head;
        }
        for (index, (cells, tall)) in rows.iter().zip(&heights).enumerate() {
            if y + tall > end {
                let told = format!("and {} more: see the annex", rows.len() - index);
                sheet.words(DVec2::new(room.high.x, y + 2.6), told, Lettering::new(LEAST).bold().end());
                break;
            }
            row(sheet, cells, &edges, [y, y + tall], size);
            y += tall;
            sheet.line([DVec2::new(room.low.x, y), DVec2::new(room.high.x, y)], Pen::plain(Ink::RULE, 0.2));
        }
        y
    }

    fn edges(&self, room: Frame) -> Vec<[f64; 2]> {
        #[allow(clippy::cast_precision_loss, reason = "a handful of columns")]
        let free = room.size().x - APART * self.columns.len().saturating_sub(1) as f64;
        let whole: f64 = self.columns.iter().map(|column| column.1).sum();
        let mut x = room.low.x;
        let edge = |column: &(&str, f64)| {
            let from = x;
            x += free * column.1 / whole + APART;
            [from, x - APART]
        };
        self.columns.iter().map(edge).collect()
    }

    /// The largest size at which all fits, and the height of each row; at the smallest size long rows are cut.
    fn heights(&self, rows: &[Vec<Entry>], edges: &[[f64; 2]], free: f64) -> (f64, Vec<f64>) {
        let heights = |size: f64, least: f64| -> Vec<f64> {
            let tall = |cells: &Vec<Entry>| {
                let each = cells.iter().zip(edges).map(|(cell, [from, to])| cell.tall(size, to - from));
                (each.fold(0.0, f64::max) + 2.0 * PAD).max(least)
            };
            rows.iter().map(tall).collect()
        };
        let fits = |heights: &[f64]| heights.iter().sum::<f64>() <= free;
        let mut size = self.size;
        loop {
            for least in [self.least, 0.0] {
                let found = heights(size, least);
                if fits(&found) {
                    return (size, found);
                }
            }
            if size <= LEAST {
                break;
            }
            size = (size - 0.1).max(LEAST);
        }
        let all = heights(LEAST, 0.0);
        let capped = (1..60).rev().map(|count| {
            let most = f64::from(count) * LEAST * Sheet::LEADING + 2.0 * PAD;
            all.iter().map(|tall| tall.min(most)).collect::<Vec<f64>>()
        });
        (LEAST, capped.clone().find(|found| fits(found)).or_else(|| capped.clone().next_back()).unwrap_or_default())
    }
}

fn line(size: f64) -> f64 {
    size * Sheet::LEADING + 2.0 * PAD
}

fn row(sheet: &mut Sheet, cells: &[Entry], edges: &[[f64; 2]], [top, foot]: [f64; 2], size: f64) {
    for (cell, [from, to]) in cells.iter().zip(edges) {
        // A row that was cut has no line to write on.
        let open = cell.open && foot - top >= BY_HAND;
        let high = foot - if open { BY_HAND - 1.0 } else { 0.0 };
        let own = Frame { low: DVec2::new(*from, top + PAD), high: DVec2::new(*to, high) };
        if !cell.words.is_empty() {
            let lettering = Lettering { bold: cell.bold, ..Lettering::new(0.0) };
            sheet.fitted(Room::new(own, size, size.min(LEAST)), std::slice::from_ref(&cell.words), lettering);
        }
        if open {
            let y = foot - 1.4;
            sheet.line([DVec2::new(*from, y), DVec2::new(*to, y)], Pen::plain(Ink::BLACK, 0.25));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_without_number_keep_to_the_room_and_say_how_many_are_missing() {
        let grid = Grid { columns: &[("what", 1.0), ("answer", 2.0)], size: 4.0, least: 8.0 };
        let room = Frame { low: DVec2::splat(10.0), high: DVec2::new(110.0, 70.0) };
        for count in [2, 8, 90] {
            let mut sheet = Sheet::new(120.0, 80.0, "", "");
            let rows = vec![vec![Entry::bold("a gate down the lane"), Entry::open("who holds the key?")]; count];
            assert!(grid.set(&mut sheet, room, &rows) <= 70.01);
            let lettered = sheet.lettered();
            assert!(lettered.iter().all(|(_, low, high)| low.x >= 10.0 && high.x <= 110.01 && high.y <= 72.0));
            let asked = lettered.iter().filter(|(words, ..)| words.contains("key")).count();
            let missing = lettered
                .iter()
                .find_map(|(words, ..)| words.strip_prefix("and ")?.split(' ').next()?.parse::<usize>().ok());
            assert_eq!(asked + missing.unwrap_or(0), count, "{count}");
            assert_eq!(missing.is_some(), count == 90);
        }
    }
}
