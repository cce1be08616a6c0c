//! Numbers and names as the window writes them: with a unit, always, and no more figures than they deserve.

use crate::recovery::{FailsafeAction, Turn};
use crate::run::{Authority, Ending, LossKind, Scenario};
use crate::units::below;

/// A number with no more figures than it deserves, and a minus sign that is not overlooked.
pub(crate) fn number(value: f64) -> String {
    let size = value.abs();
    if size < 0.005 {
        return "0".to_owned();
    }
    let digits = [99.95, 0.995].iter().filter(|step| size < **step).count();
    format!("{value:.digits$}").replace('-', "\u{2212}")
}

/// A number with its unit.
pub(crate) fn with_unit(value: f64, unit: &str) -> String {
    format!("{} {unit}", number(value))
}

/// What is left of what was asked for, with as many figures as it takes to tell the two apart, and a crossing from
/// nothing.
pub(crate) fn left(margin: f64, asked: f64, unit: &str) -> String {
    let short = number(margin);
    let hides = (margin < asked && short == number(asked)) || (margin < 0.0 && short == "0");
    let text = if hides { below(margin, &[0.0, asked], 1).replace('-', "\u{2212}") } else { short };
    format!("{text} {unit}")
}

/// Metres.
pub(crate) fn metres(value: f64) -> String {
    with_unit(value, "m")
}

/// Seconds.
pub(crate) fn seconds(value: f64) -> String {
    with_unit(value, "s")
}

/// A number that may not exist.
pub(crate) fn maybe(value: Option<f64>, unit: &str) -> String {
    value.map_or_else(|| "not reached".to_owned(), |value| with_unit(value, unit))
}

/// How a run ended.
pub(crate) fn ending(ending: Ending, at_s: f64) -> String {
    let what = match ending {
        Ending::TakenOver => "taken over",
        Ending::Landed => "on the ground",
        Ending::Empty => "battery empty in the air",
        Ending::OutOfTime => "neither home nor down",
    };
    format!("{what} at {}", seconds(at_s))
}

/// What was lost.
pub(crate) fn loss(kind: LossKind) -> &'static str {
    match kind {
        LossKind::Video => "video lost",
        LossKind::Control => "control lost",
        LossKind::Both => "both lost",
        LossKind::Position => "position lost",
    }
}

/// What the jet does about it.
pub(crate) fn failsafe_action(scenario: &Scenario) -> String {
    let plan = &scenario.file.recovery;
    match plan.failsafe_action {
        FailsafeAction::Return => "return and circle".to_owned(),
        FailsafeAction::WaitThenCut => format!("wait {}, then cut", seconds(plan.wait.s())),
        FailsafeAction::Cut => "cut at once".to_owned(),
    }
}

/// Who allowed it.
pub(crate) fn authority(scenario: &Scenario) -> String {
    match scenario.file.authority() {
        Authority::Nobody => "nobody has authorised it".into(),
        Authority::By(by, version) => version.mark(by),
    }
}

/// Which way round.
pub(crate) fn turn(turn: Turn) -> &'static str {
    match turn {
        Turn::Anticlockwise => "anticlockwise (left turns)",
        Turn::Clockwise => "clockwise (right turns)",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: f64, expected: &str) {
        assert_eq!(number(value), expected);
    }

    #[test]
    fn what_is_missing_is_never_rounded_away() {
        assert_eq!(left(19.98, 20.0, "m"), "19.98 m");
        assert_eq!(left(12.34, 20.0, "m"), "12.3 m");
        assert_eq!(left(-0.001, 0.0, "m"), "\u{2212}0.001 m");
        assert_eq!(left(20.0, 20.0, "m"), "20.0 m");
    }

    #[test]
    fn numbers_keep_their_sign_and_no_more_figures_than_they_deserve() {
        check(31.24, "31.2");
        check(146.2, "146");
        check(-12.34, "\u{2212}12.3");
        check(99.96, "100");
        check(0.0651, "0.07");
        check(-0.01, "\u{2212}0.01");
        check(-0.001, "0");
        check(0.0, "0");
    }
}
