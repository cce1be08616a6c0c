//! Text set in columns and paragraphs for a screen or a sheet of 96 characters.

use std::borrow::Cow;

use crate::error::letters::on_one_line;

/// Characters a line.
pub(super) const WIDTH: usize = 96;

/// How a column is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A table: one row a line, whatever its cells hold, columns as wide as they need to be, two spaces in front of each. The first row is the head.
pub(super) fn table<const N: usize>(sides: [Side; N], rows: &[[String; N]]) -> String {
    let rows: Vec<[Cow<'_, str>; N]> = rows.iter().map(|row| row.each_ref().map(|cell| on_one_line(cell))).collect();
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
    let widths: [usize; N] = std::array::from_fn(width);
    let mut text = String::new();
    for row in &rows {
        let mut line = String::new();
        for ((cell, side), width) in row.iter().zip(sides).zip(widths) {
            line += &match side {
                Side::Left => format!("  {cell:<width$}"),
                Side::Right => format!("  {cell:>width$}"),
            };
        }
        text += line.trim_end();
        text.push('\n');
    }
    text
}

/// A paragraph broken at spaces, its first line after `lead` and the others below it. A number keeps its unit.
pub(super) fn paragraph(lead: &str, words: &str) -> String {
    let indent = lead.chars().count();
    let words: Vec<&str> = words.split_whitespace().collect();
    let pieces = words.chunk_by(|word, _| word.ends_with(|last: char| last.is_ascii_digit()));
    let mut text = String::from(lead);
    let mut used = indent;
    for (index, piece) in pieces.map(|piece| piece.join(" ")).enumerate() {
        let length = piece.chars().count();
        if index > 0 && used + 1 + length > WIDTH {
            text.push('\n');
            text += &" ".repeat(indent);
            used = indent;
        } else if index > 0 {
            text.push(' ');
            used += 1;
        }
        text += &piece;
        used += length;
    }
    text.push('\n');
    text
}

/// Lines that each have a name, the names in a column of their own.
pub(super) fn named<const N: usize>(lines: [(&str, &str); N]) -> String {
    let width = lines.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
    lines.iter().map(|(name, words)| paragraph(&format!("  {name:<width$}  "), words)).collect()
}

/// A section under its heading; nothing where it is empty.
pub(super) fn headed(head: &str, body: &str) -> String {
    if body.is_empty() { String::new() } else { format!("{head}\n{body}") }
}

/// The same of a list.
pub(super) fn listed(head: &str, items: &[impl ToString]) -> String {
    headed(head, &items.iter().map(|item| paragraph("  - ", &item.to_string())).collect::<String>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up_by_characters_not_bytes() {
        let rows = [["limit", "m"], ["\u{e9}tang", "-12.3"], ["x", "5"]].map(|row| row.map(String::from));
        let set = table([Side::Left, Side::Right], &rows);
        assert_eq!(set, "  limit      m\n  \u{e9}tang  -12.3\n  x          5\n");
    }

    #[test]
    fn paragraphs_keep_to_the_width_and_lose_no_word() {
        let words = "one two three ".repeat(40);
        let set = paragraph("  1. ", &words);
        assert!(set.lines().count() > 1);
        assert!(set.lines().all(|line| line.chars().count() <= WIDTH));
        assert!(set.lines().skip(1).all(|line| line.starts_with("     ") && !line.starts_with("      ")));
        let got: Vec<&str> = set.split_whitespace().skip(1).collect();
        assert_eq!(got, words.split_whitespace().collect::<Vec<_>>());
    }

    #[test]
    fn a_word_longer_than_a_line_stands_alone() {
        let long = "x".repeat(WIDTH + 10);
        assert_eq!(paragraph("", &format!("a {long} b")), format!("a\n{long}\nb\n"));
    }

    #[test]
    fn a_number_keeps_its_unit() {
        let filler = "x".repeat(WIDTH - 5);
        assert_eq!(paragraph("", &format!("{filler} (27.0 m/s)")), format!("{filler}\n(27.0 m/s)\n"));
    }
}
