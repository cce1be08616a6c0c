//! How the checks of the program by itself are told: what a line was held against, and what came of all of them.

use crate::VERSION;
use crate::verify::{Checked, Expected, Group, Line};

/// What a person presses in the window to have the checks made.
pub const ASK: &str = "Check this program";

/// What comes of that.
pub const ASKED: &str = "Makes the checks of the command peewit verify on this machine, which takes some seconds. The annex of \
                         the pack then says when, on what machine and with what outcome.";

/// Lines that did not hold which are named where there is one line for all.
const FEW: usize = 3;

/// What a group of lines is held against.
pub const fn group(group: Group) -> &'static str {
    match group {
        Group::ClosedForms => "Closed forms",
        Group::Published => "Published figures",
        Group::Energy => "Work and energy over whole recoveries",
        Group::Frames => "The same flight turned, in a mirror, in moving air",
        Group::Step => "The same flight in finer steps",
        Group::SameBits => "The same flight in other company",
        Group::Coverage => "Fresh cases, drawn anew at every run",
    }
}

/// Whether it held, in a word.
pub const fn held(held: bool) -> &'static str {
    if held { "held" } else { "NOT HELD" }
}

/// What was expected, without the unit.
pub fn expected(line: &Line) -> String {
    match line.expected {
        Expected::Near { value, .. } => digits(value, line),
        Expected::AtMost(most) => format!("at most {}", short(most)),
        Expected::Between(low, high) => format!("{} to {}", digits(low, line), digits(high, line)),
    }
}

/// What came out, without the unit.
pub fn got(line: &Line) -> String {
    match line.expected {
        Expected::AtMost(_) => short(line.got),
        Expected::Near { .. } | Expected::Between(..) => digits(line.got, line),
    }
}

/// What it may be off by, without the unit; nothing where a bound says it all.
pub fn tolerance(line: &Line) -> String {
    match line.expected {
        Expected::Near { within, .. } => short(within),
        Expected::AtMost(_) | Expected::Between(..) => String::new(),
    }
}

/// A number with the digits that the tolerance leaves.
fn digits(value: f64, line: &Line) -> String {
    let room = match line.expected {
        Expected::Near { within, .. } => within,
        Expected::Between(low, high) => (high - low) / 10.0,
        Expected::AtMost(most) => most,
    };
    if room <= 0.0 || !value.is_finite() {
        return short(value);
    }
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 12")]
    let decimals = (-room.log10().floor()).clamp(0.0, 12.0) as usize;
    crate::units::decimals(value, decimals)
}

/// A number in two figures, as powers of ten where it is small.
fn short(value: f64) -> String {
    let size = value.abs();
    if !value.is_finite() {
        return "nothing".into();
    }
    if size > 0.0 && size < 1e-3 {
        return format!("{value:.1e}");
    }
    let text = format!("{:.*}", if size >= 10.0 { 0 } else { 4 }, value);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// When and where it ran.
pub fn ran(checked: &Checked) -> String {
    let Checked { at, took_s, seed, machine, .. } = checked;
    format!(
        "Peewit {}, begun {at} UTC, {took_s:.0} s, on {} ({}), {} threads, {} trials side by side, seed {seed} of the fresh \
         cases",
        machine.version, machine.os, machine.arch, machine.threads, machine.lanes
    )
}

/// What came of it.
pub fn outcome(checked: &Checked) -> String {
    summed_up(checked, "")
}

/// What came of it and when, in a line: of what did not hold, the first few by name.
pub fn in_a_line(checked: &Checked) -> String {
    let missed: Vec<&str> = checked.missed().map(|line| line.name.as_str()).collect();
    let (named, others) = missed.split_at(missed.len().min(FEW));
    let mut names = if named.is_empty() { String::new() } else { format!(": {}", named.join("; ")) };
    if !others.is_empty() {
        names += &format!(" and {} more", others.len());
    }
    format!("{} Begun {} UTC.", summed_up(checked, &names), checked.at)
}

fn summed_up(checked: &Checked, names: &str) -> String {
    let all = checked.lines.len();
    let missed = checked.missed().count();
    let told =
        if missed == 0 { format!("All {all} checks held") } else { format!("{missed} of {all} checks did NOT hold") };
    let stopped = if checked.partial { "; stopped before every check was made" } else { "" };
    format!("{told}{names}{stopped}.")
}

/// What takes from the worth of a run that is handed to a print of this version.
pub fn warnings(checked: &Checked) -> Vec<String> {
    let version = &checked.machine.version;
    let other = (version != VERSION)
        .then(|| format!("The checks were made by version {version}; this pack was worked out by version {VERSION}."));
    let missed = checked.missed().map(|line| format!("Not held: {}.", line.name));
    let partial = checked.partial.then(|| "The run was stopped before every check was made.".to_owned());
    other.into_iter().chain(partial).chain(missed).collect()
}

/// What to make of a line that did not hold.
pub const MISSED: &str = "A line that does not hold puts every number of this program on this machine in doubt, with one \
                          exception: chance alone makes a few of a thousand runs miss a line of the fresh cases. Run it again \
                          with another seed; what misses twice is a fault. Do not plan with it, and tell who gave it to you.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verify::Machine;

    fn line(expected: Expected, got: f64) -> Line {
        let (name, unit, source) = ("lap".into(), "s".into(), "closed form".into());
        Line { group: Group::ClosedForms, name, expected, got, unit, source }
    }

    #[test]
    fn a_line_for_all_names_the_first_few_that_did_not_hold() {
        #[track_caller]
        fn check(missed: usize, wanted: &str) {
            let lines = (0..5).map(|index| Line {
                name: format!("lap {index}"),
                ..line(Expected::AtMost(1.0), if index < missed { 2.0 } else { 1.0 })
            });
            let (at, machine) = ("2026-04-18 09:41:07".into(), Machine::this());
            let lines = lines.collect();
            assert_eq!(in_a_line(&Checked { at, took_s: 9.0, seed: 7, machine, partial: false, lines }), wanted);
        }
        check(0, "All 5 checks held. Begun 2026-04-18 09:41:07 UTC.");
        check(1, "1 of 5 checks did NOT hold: lap 0. Begun 2026-04-18 09:41:07 UTC.");
        check(3, "3 of 5 checks did NOT hold: lap 0; lap 1; lap 2. Begun 2026-04-18 09:41:07 UTC.");
        check(5, "5 of 5 checks did NOT hold: lap 0; lap 1; lap 2 and 2 more. Begun 2026-04-18 09:41:07 UTC.");
    }

    #[test]
    fn numbers_have_the_digits_that_the_tolerance_leaves() {
        let told = |expected_, got_| {
            let line = line(expected_, got_);
            (expected(&line), got(&line), tolerance(&line))
        };
        let check = |told: (String, String, String), wanted: [&str; 3]| {
            assert_eq!([told.0.as_str(), &told.1, &told.2], wanted);
        };
        check(told(Expected::Near { value: 149.5, within: 0.051 }, 149.523_4), ["149.50", "149.52", "0.051"]);
        check(told(Expected::Near { value: 299.0, within: 0.0 }, 299.0), ["299", "299", "0"]);
        check(
            told(Expected::Near { value: 0.226_474_88, within: 5.1e-9 }, 0.226_474_881),
            ["0.226474880", "0.226474881", "5.1e-9"],
        );
        check(told(Expected::AtMost(1e-6), 3.21e-12), ["at most 1.0e-6", "3.2e-12", ""]);
        check(told(Expected::AtMost(0.1), 0.0), ["at most 0.1", "0", ""]);
        check(told(Expected::Between(0.93, 0.97), 0.951), ["0.930 to 0.970", "0.951", ""]);
        check(told(Expected::Between(850.0, 940.0), f64::NAN), ["850 to 940", "nothing", ""]);
    }
}
