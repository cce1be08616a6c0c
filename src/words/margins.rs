//! How a margin is told: so much of what was asked for, by how much it was missed, and never rounded to what it is below.

use crate::margins::{Gap, Limit, LimitInfo, MarginRow, MarginUnit, Verdict};
use crate::units::{below, decimals};

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
    let (margin, buffer) = (leaving(row.margin, row.buffer, row.limit), amount(row.buffer, row.limit));
    format!("{margin} {} left, {buffer} asked for", row.unit)
}

fn told(limit: Limit, unit: MarginUnit, verdict: Verdict, margin: f64, buffer: f64) -> String {
    let left = leaving(margin, buffer, limit);
    match verdict {
        Verdict::Crossed => format!("by {} {unit}", left.trim_start_matches('-')),
        Verdict::InsideBuffer if margin < 0.0 && limit == Limit::TimeHome => {
            format!("{} {unit} late", left.trim_start_matches('-'))
        }
        Verdict::InsideBuffer if margin < 0.0 => format!("{} {unit} too little", left.trim_start_matches('-')),
        Verdict::Clear if buffer == 0.0 => format!("{left} {unit} left"),
        Verdict::InsideBuffer | Verdict::Clear => format!("{left} of {} {unit} asked for", amount(buffer, limit)),
        Verdict::Counted => format!("{left} {unit} over it"),
    }
}

/// A number of a limit, with the digits that its kind deserves: one decimal, three for the small angles of sight.
pub fn amount(value: f64, limit: Limit) -> String {
    decimals(value, digits(limit))
}

/// A margin beside what was asked for: with more digits where those would hide a crossing, or that something is
/// missing.
pub fn leaving(margin: f64, buffer: f64, limit: Limit) -> String {
    below(margin, &[0.0, buffer], digits(limit))
}

fn digits(limit: Limit) -> usize {
    if limit == Limit::SightAngle { 3 } else { 1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: f64, limit: Limit, expected: &str) {
        assert_eq!(leaving(value, 20.0, limit), expected);
    }

    #[test]
    fn a_margin_has_the_digits_that_tell_a_crossing_from_nothing() {
        check(-12.34, Limit::Boundary, "-12.3");
        check(0.0, Limit::Boundary, "0.0");
        check(-0.0, Limit::Boundary, "0.0");
        check(-0.04, Limit::Boundary, "-0.04");
        check(19.98, Limit::Boundary, "19.98");
        check(20.0, Limit::Boundary, "20.0");
        check(0.0003, Limit::Boundary, "0.0");
        check(0.0123, Limit::SightAngle, "0.012");
    }
}
