//! How a margin is told: so much of what was asked for, by how much it was missed, and never rounded to what it is below.

use crate::margins::{Gap, Limit, LimitInfo, MarginRow, MarginUnit, Verdict};
use crate::units::left_of;

/// A row's margin in words, such as "by 12.3 m" or "5.0 of 8.0 m asked for".
pub fn margin(row: &MarginRow) -> String {
    told(row.limit, row.unit, row.verdict, row.margin, row.buffer)
}

/// The same of the numbers of a score.
pub fn gap(info: &LimitInfo, gap: &Gap) -> String {
    if gap.margin.is_finite() {
        told(info.limit, info.unit, gap.verdict, gap.margin, gap.buffer)
    } else {
        "never came into it".into()
    }
}

/// What a row has left, and what was asked for.
pub fn left(row: &MarginRow) -> String {
    if row.verdict == Verdict::Crossed {
        return format!("crossed {}", margin(row));
    }
    let [left, asked] = left_of(row.margin, row.buffer);
    format!("{left} {} left, {asked} asked for", row.unit)
}

fn told(limit: Limit, unit: MarginUnit, verdict: Verdict, margin: f64, buffer: f64) -> String {
    let [left, asked] = left_of(margin, buffer);
    let less = left.trim_start_matches('-');
    match verdict {
        Verdict::Crossed => format!("by {less} {unit}"),
        Verdict::InsideBuffer if margin < 0.0 && limit == Limit::TimeHome => format!("{less} {unit} late"),
        Verdict::InsideBuffer if margin < 0.0 => format!("{less} {unit} too little"),
        Verdict::Clear if buffer == 0.0 => format!("{left} {unit} left"),
        Verdict::InsideBuffer | Verdict::Clear => format!("{left} of {asked} {unit} asked for"),
        Verdict::Counted => format!("{left} {unit} over it"),
    }
}
