//! The sentences of a report that more than one format carries.

use super::{Recovery, VERSION};
use crate::ledger::{Limit, Row, Verdict};
use crate::recovery::{Policy, Turn};
use crate::run::{Ending, LossKind, WindChoice};

/// What came of it, in one sentence that claims no more than one run can.
pub fn headline(recovery: &Recovery) -> String {
    let (ledger, wind) = (recovery.ledger, wind(recovery.wind));
    let named = |verdict: Verdict| {
        let rows = ledger.rows.iter().filter(|row| row.verdict == verdict);
        rows.map(|row| format!("{} ({})", row.name, margin(row))).collect::<Vec<_>>()
    };
    let (breached, thin) = (named(Verdict::Breached), named(Verdict::Thin));
    let remarks = ledger.remarks.iter().map(|remark| remark.trim_end_matches('.').to_owned());
    let breached: Vec<_> = breached.into_iter().chain(remarks).collect();
    if !breached.is_empty() {
        format!("Breached in this one run, in the {wind}: {}.", breached.join("; "))
    } else if !thin.is_empty() {
        format!("Nothing breached in this one run, in the {wind}, but nearer than asked for: {}.", thin.join("; "))
    } else {
        format!("Met the margins asked for in this one run, in the {wind}, in this model.")
    }
}

/// A row's margin in words, such as "by 12.3 m" or "5.0 of 8.0 m asked for".
pub(super) fn margin(row: &Row) -> String {
    let (unit, amount) = (row.unit, |value| amount(value, row.limit));
    match row.verdict {
        Verdict::Breached => format!("by {} {unit}", amount(-row.margin)),
        Verdict::Thin | Verdict::Clear => {
            format!("{} of {} {unit} asked for", amount(row.margin), amount(row.standoff))
        }
        Verdict::Counted => format!("{} {unit} over it", amount(row.margin)),
    }
}

/// A margin's digits: one decimal, three for the small angles of sight, and as many as it takes to tell it from
/// nothing.
pub(super) fn amount(value: f64, limit: Limit) -> String {
    let least = if limit == Limit::SightAngle { 3 } else { 1 };
    let nothing =
        |digits: &usize| value != 0.0 && format!("{:.digits$}", value.abs()).bytes().all(|b| b".0".contains(&b));
    let digits = (least..6).find(|digits| !nothing(digits)).unwrap_or(6);
    format!("{:.digits$}", value + 0.0)
}

/// What the answer can be repeated from: version, scenario, hash, seed and case.
pub(super) fn stamp(recovery: &Recovery) -> String {
    let file = &recovery.scenario.file;
    format!(
        "Peewit {VERSION}, scenario {} ({}), seed {}, case {}, {}",
        file.name,
        recovery.scenario.hash(),
        file.seed,
        recovery.run.case,
        wind(recovery.wind)
    )
}

pub(super) fn wind(choice: WindChoice) -> &'static str {
    match choice {
        WindChoice::Mean => "mean wind",
        WindChoice::Gust => "gust wind",
    }
}

pub(super) fn wind_key(choice: WindChoice) -> &'static str {
    match choice {
        WindChoice::Mean => "mean",
        WindChoice::Gust => "gust",
    }
}

pub(super) fn ending(ending: Ending) -> &'static str {
    match ending {
        Ending::HandedBack => "settled on the circle and handed back",
        Ending::Landed => "on the ground",
        Ending::Empty => "the battery was empty in the air",
        Ending::OutOfTime => "neither home nor down when the run was stopped",
    }
}

pub(super) fn ending_key(ending: Ending) -> &'static str {
    match ending {
        Ending::HandedBack => "handed-back",
        Ending::Landed => "landed",
        Ending::Empty => "empty",
        Ending::OutOfTime => "out-of-time",
    }
}

pub(super) fn loss(kind: LossKind) -> &'static str {
    match kind {
        LossKind::Picture => "picture",
        LossKind::Link => "control link",
        LossKind::Both => "picture and control link",
        LossKind::Fix => "position fix",
    }
}

pub(super) fn policy(policy: Policy) -> &'static str {
    match policy {
        Policy::Return => "return under power and circle",
        Policy::WaitThenCut => "wait, then cut the fan and glide",
        Policy::Cut => "cut the fan at once and glide",
    }
}

pub(super) fn turn(turn: Turn) -> &'static str {
    match turn {
        Turn::Anticlockwise => "anticlockwise",
        Turn::Clockwise => "clockwise",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: f64, limit: Limit, expected: &str) {
        assert_eq!(amount(value, limit), expected);
    }

    #[test]
    fn a_margin_never_reads_as_nothing_unless_it_is() {
        check(-12.34, Limit::Outline, "-12.3");
        check(0.0, Limit::Outline, "0.0");
        check(-0.0, Limit::Outline, "0.0");
        check(-0.04, Limit::Outline, "-0.04");
        check(0.0003, Limit::Outline, "0.0003");
        check(0.0123, Limit::SightAngle, "0.012");
    }
}
