//! The margins of both, row by row: matched by limit, and by name where a field may have several of its kind.

use crate::margins::{Limit, MarginRow, Margins, Verdict};
use crate::words::Units;

use super::line::{Judged, Line, Wanted, signed};

/// One line a limit that either of them has, in the order of the margins.
pub(super) fn lines(now: &Margins, kept: &Margins, units: &Units) -> Vec<Line> {
    let only_kept = kept.rows.iter().filter(|row| !now.rows.iter().any(|other| alike(other, row)));
    let ours = now.rows.iter().map(|row| line(Some(row), kept.rows.iter().find(|other| alike(row, other)), units));
    ours.chain(only_kept.map(|row| line(None, Some(row), units))).collect()
}

/// Whether two rows are about the same thing: areas and obstacles have numbers that another field may give to others.
fn alike(a: &MarginRow, b: &MarginRow) -> bool {
    match (a.limit, b.limit) {
        (Limit::Area(_), Limit::Area(_)) | (Limit::Obstacle(_), Limit::Obstacle(_)) => a.name == b.name,
        (a, b) => a == b,
    }
}

fn line(now: Option<&MarginRow>, kept: Option<&MarginRow>, units: &Units) -> Line {
    let words = |row: Option<&MarginRow>| {
        row.map_or_else(
            || "no such limit".to_owned(),
            |row| format!("{}, {}", units.left(row.margin, row.buffer, row.unit.symbol()), row.verdict.name()),
        )
    };
    let name = now.or(kept).map_or("", |row| row.name.as_str());
    let mut line = Line::words(name, words(now), words(kept));
    let (Some(now), Some(kept)) = (now, kept) else { return line };
    // Of a caution area the seconds over it are counted: fewer are better.
    let counted = now.verdict == Verdict::Counted || kept.verdict == Verdict::Counted;
    let wanted = if counted { Wanted::Less } else { Wanted::More };
    let text = |value: f64| units.margin(value, now.unit.symbol());
    let values = [now, kept].map(|row| Some(row.margin).filter(|margin| margin.is_finite()));
    let numbers = Line::numbers(name, values, "", wanted, text);
    line.difference = values[0].zip(values[1]).map(|(a, b)| signed(a - b, text)).unwrap_or_default();
    line.judged = match kept.verdict.cmp(&now.verdict) {
        std::cmp::Ordering::Equal => numbers.judged,
        _ if counted => numbers.judged,
        order => Judged::more(order),
    };
    line
}
