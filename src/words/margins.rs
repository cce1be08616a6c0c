//! How a margin is told: so much of what was asked for, by how much it was missed, and never rounded to what it is below.

use crate::margins::{Gap, Lacked, Limit, LimitInfo, MarginRow, MarginUnit, Verdict};
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

/// A limit that a track can't be judged by, and why, such as "maximum bank: not judged, the track has no bank and no
/// stretches".
pub fn lacked(lacked: &Lacked) -> String {
    let names: Vec<_> = lacked.channels.iter().map(|channel| channel.name()).collect();
    format!("{}: not judged, the track has no {}", lacked.limit.name, names.join(" and no "))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::margins::Channel;

    #[test]
    fn a_limit_that_is_not_judged_says_what_the_track_has_not() {
        let limit =
            |name: &str| LimitInfo { limit: Limit::Bank, name: name.into(), unit: MarginUnit::Degrees, crosses: false };
        let bank = Lacked { limit: limit("maximum bank"), channels: vec![Channel::Bank, Channel::Stretches] };
        assert_eq!(lacked(&bank), "maximum bank: not judged, the track has no bank and no stretches");
        let home = Lacked { limit: limit("time home"), channels: vec![Channel::Stretches] };
        assert_eq!(lacked(&home), "time home: not judged, the track has no stretches");
    }
}
