//! The sentences of a report that more than one format carries.

use super::Recovery;
use crate::VERSION;
use crate::error::{Fault, Severity};
use crate::ledger::{Gap, Limit, LimitInfo, Row, Verdict};
use crate::recovery::{Policy, Turn};
use crate::run::{Ending, LossKind, REVIEW_BY, Scenario, WindChoice};
use crate::units::{below, decimals};

/// What came of it: the verdict of the trials where they were asked for, then one sentence that claims no more than one run
/// can.
pub fn headline(recovery: &Recovery) -> String {
    let (ledger, wind) = (recovery.ledger, wind(recovery.wind));
    let forbidden = format!("{}{}", not_permitted(recovery.scenario), expired(recovery.warnings));
    let named = |verdict: Verdict| {
        let rows = ledger.rows.iter().filter(|row| row.verdict == verdict);
        rows.map(|row| format!("{} ({})", row.name, margin(row))).collect::<Vec<_>>().join("; ")
    };
    let answer = match (ledger.verdict(), ledger.worst_margin()) {
        (Verdict::Breached, Verdict::Breached) => {
            format!("Crossed in this one run, in the {wind}: {}.", named(Verdict::Breached))
        }
        (Verdict::Breached, _) => format!("Crossed in this one run, in the {wind}: {}.", ending(ledger.ending)),
        (Verdict::Thin, _) => {
            let thin = named(Verdict::Thin);
            format!("Nothing crossed in this one run, in the {wind}, but the buffer used: {thin}.")
        }
        (Verdict::Clear | Verdict::Counted, _) => {
            format!("Met the margins asked for in this one run, in the {wind}, in this model.")
        }
    };
    // Without a circuit the trials are about that same one loss.
    let told = match (recovery.trials, &recovery.scenario.field.circuit) {
        (Some(_), None) => String::new(),
        _ => recovery.scenario.loss_told(recovery.run.case) + " ",
    };
    format!("{}{told}{answer}{forbidden}", plan_told(recovery))
}

/// What the plan's trials say, before anything is said of one run.
fn plan_told(recovery: &Recovery) -> String {
    recovery.trials.map_or_else(String::new, |trials| {
        let stopped = if trials.partial { " (stopped before it was decided)" } else { "" };
        format!("{} {}{stopped}. ", recovery.scenario.losses_told(), trials.verdict.told())
    })
}

/// What follows every answer about a return where none is permitted; nothing elsewhere.
pub(super) fn not_permitted(scenario: &Scenario) -> &'static str {
    if scenario.return_not_permitted() { " BUT AN AUTOMATIC RETURN IS NOT PERMITTED HERE." } else { "" }
}

/// What follows every answer about a plan that has expired; nothing else.
pub(super) fn expired(warnings: &[Fault]) -> String {
    let warned = warnings.iter().find(|fault| fault.severity == Severity::Warning && fault.place == REVIEW_BY);
    warned.map_or_else(String::new, |fault| format!(" {}.", fault.problem))
}

/// A row's margin in words, such as "by 12.3 m" or "5.0 of 8.0 m asked for".
pub(super) fn margin(row: &Row) -> String {
    left(row.limit, row.unit, row.verdict, row.margin, row.standoff)
}

/// The same of the numbers of a score.
pub(super) fn gap(info: &LimitInfo, gap: &Gap) -> String {
    if gap.margin.is_finite() {
        left(info.limit, info.unit, gap.verdict, gap.margin, gap.standoff)
    } else {
        "never came into it".into()
    }
}

fn left(limit: Limit, unit: &str, verdict: Verdict, margin: f64, standoff: f64) -> String {
    let left = leaving(margin, standoff, limit);
    match verdict {
        Verdict::Breached => format!("by {} {unit}", left.trim_start_matches('-')),
        Verdict::Thin if margin < 0.0 && limit == Limit::TimeHome => {
            format!("{} {unit} late", left.trim_start_matches('-'))
        }
        Verdict::Thin if margin < 0.0 => format!("{} {unit} too little", left.trim_start_matches('-')),
        Verdict::Clear if standoff == 0.0 => format!("{left} {unit} left"),
        Verdict::Thin | Verdict::Clear => format!("{left} of {} {unit} asked for", amount(standoff, limit)),
        Verdict::Counted => format!("{left} {unit} over it"),
    }
}

/// A number of a limit, with the digits that its kind deserves: one decimal, three for the small angles of sight.
pub(super) fn amount(value: f64, limit: Limit) -> String {
    decimals(value, digits(limit))
}

/// A margin beside what was asked for: with more digits where those would hide a breach, or that something is missing.
pub(super) fn leaving(margin: f64, standoff: f64, limit: Limit) -> String {
    below(margin, &[0.0, standoff], digits(limit))
}

fn digits(limit: Limit) -> usize {
    if limit == Limit::SightAngle { 3 } else { 1 }
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
    use glam::DVec2;

    use super::*;
    use crate::ledger::{Ledger, judge};
    use crate::run::{Scenario, Stretch, fly};

    fn row(name: &str, verdict: Verdict, margin: f64) -> Row {
        Row {
            limit: Limit::Outline,
            name: name.into(),
            unit: "m",
            margin,
            standoff: 20.0,
            verdict,
            at_s: 1.0,
            at: DVec2::ZERO,
            height_m: 70.0,
            stretch: Stretch::Circling,
        }
    }

    #[track_caller]
    fn says(rows: &[Row], ending: Ending, verdict: Verdict, expected: &str) {
        let scenario = Scenario::tight_strip();
        let run = fly(&scenario, 0, WindChoice::Mean);
        let ledger = Ledger { rows: rows.to_vec(), ending, ..judge(&scenario, &run) };
        let (warnings, changes) = (&[], &[]);
        let recovery = Recovery {
            scenario: &scenario,
            run: &run,
            wind: WindChoice::Mean,
            ledger: &ledger,
            trials: None,
            warnings,
            changes,
        };
        let told = format!("{} {expected}", scenario.loss_told(0));
        assert_eq!((ledger.verdict(), headline(&recovery)), (verdict, told));
    }

    #[test]
    fn the_headline_claims_no_more_than_one_run_can() {
        use Ending::{Empty, HandedBack};
        use Verdict::{Breached, Clear, Counted, Thin};
        let (clear, seconds) = (row("outline", Clear, 31.2), row("avoid: lane", Counted, 4.0));
        let (thin, breached) = (row("mast", Thin, 5.0), row("goats", Breached, -12.34));
        let met = "Met the margins asked for in this one run, in the mean wind, in this model.";
        says(std::slice::from_ref(&clear), HandedBack, Clear, met);
        says(&[clear.clone(), seconds], HandedBack, Counted, met);
        let nearer = "Nothing crossed in this one run, in the mean wind, but the buffer used: \
                      mast (5.0 of 20.0 m asked for).";
        says(&[clear.clone(), thin.clone()], HandedBack, Thin, nearer);
        let said = "Crossed in this one run, in the mean wind: goats (by 12.3 m).";
        says(&[clear.clone(), thin, breached], HandedBack, Breached, said);
        // A jet that never came home breaks nothing that has a margin, and is no success.
        let said = "Crossed in this one run, in the mean wind: the battery was empty in the air.";
        says(&[clear], Empty, Breached, said);
    }

    #[test]
    fn the_headline_says_that_a_return_is_not_permitted() {
        let mut file = Scenario::tight_strip().file;
        file.limits.no_automatic_return = true;
        let scenario = Scenario::from_file(file).unwrap();
        let run = fly(&scenario, 0, WindChoice::Mean);
        let (ledger, warnings, changes) = (&judge(&scenario, &run), &[], &[]);
        let said = headline(&Recovery {
            scenario: &scenario,
            run: &run,
            wind: WindChoice::Mean,
            ledger,
            trials: None,
            warnings,
            changes,
        });
        assert!(said.ends_with("in this model. BUT AN AUTOMATIC RETURN IS NOT PERMITTED HERE."), "{said}");
        assert!(ledger.remarks.iter().any(|remark| remark.contains("not permitted here")), "{:?}", ledger.remarks);
    }

    #[track_caller]
    fn check(value: f64, limit: Limit, expected: &str) {
        assert_eq!(leaving(value, 20.0, limit), expected);
    }

    #[test]
    fn a_margin_has_the_digits_that_tell_a_breach_from_nothing() {
        check(-12.34, Limit::Outline, "-12.3");
        check(0.0, Limit::Outline, "0.0");
        check(-0.0, Limit::Outline, "0.0");
        check(-0.04, Limit::Outline, "-0.04");
        check(19.98, Limit::Outline, "19.98");
        check(20.0, Limit::Outline, "20.0");
        check(0.0003, Limit::Outline, "0.0");
        check(0.0123, Limit::SightAngle, "0.012");
    }
}
