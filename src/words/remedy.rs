//! What it would take for a plan to hold, in words.

use super::{capital, number, place, span, turn};
use crate::study::remedy::{Change, Found, Remedy};
use crate::units::Speed;

/// What a search for changes came to, as one or two sentences.
pub fn remedy(found: &Found) -> String {
    match found {
        Found::Holds => "Nothing to change: the plan holds as it is.".into(),
        Found::Changes(remedy) => changed(remedy),
        Found::Nothing => {
            "No centre, radius, way round, return speed, height or bank that was tried makes it hold in this wind."
                .into()
        }
        Found::Stopped => "Not known: the search was stopped.".into(),
    }
}

fn changed(remedy: &Remedy) -> String {
    let changes: Vec<String> = remedy.changes.iter().map(change).collect();
    let together = if changes.len() > 1 { "All together: " } else { "" };
    let bank = remedy.changes.iter().any(|change| matches!(change, Change::Bank(_)));
    let carried = if bank { " The airframe has to carry that bank." } else { "" };
    let made = format!("{together}{}", changes.join(", "));
    format!(
        "{}. Then it {}; {} {}.{carried}",
        capital(&made),
        remedy.verdict.verdict.shares_told(),
        span(remedy.usable_m),
        if remedy.usable_m[0] == remedy.usable_m[1] { "holds" } else { "hold" },
    )
}

/// One change, such as "return at 19 m/s instead of 22 m/s".
pub fn change(change: &Change) -> String {
    let metres = |what: &str, [from, to]: [f64; 2]| format!("{what} {} m instead of {} m", number(to), number(from));
    match *change {
        Change::Turn(to) => format!("circle {}", turn(to)),
        Change::Radius(radius) => metres("radius", radius),
        Change::Centre([from, to]) => format!("circle about {} instead of {}", place(to), place(from)),
        Change::ReturnSpeed([from, to]) => {
            format!("return at {:.1} instead of {:.1}", Speed::new(to), Speed::new(from))
        }
        Change::Height(height) => metres("circle at", height),
        Change::Circuit(up) if up < 0.0 => format!("fly the circuit {} m lower", number(-up)),
        Change::Circuit(up) => format!("fly the circuit {} m higher", number(up)),
        Change::Bank([from, to]) => format!("maximum bank {to:.0} deg instead of {from:.0} deg"),
    }
}

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;
    use crate::recovery::Turn;

    #[track_caller]
    fn check(one: Change, expected: &str) {
        assert_eq!(change(&one), expected);
    }

    #[test]
    fn a_change_is_told_as_one_would_make_it() {
        check(Change::Radius([260.0, 130.0]), "radius 130 m instead of 260 m");
        check(
            Change::Centre([DVec2::ZERO, DVec2::new(-120.0, 125.0)]),
            "circle about (-120, 125) m instead of (0, 0) m",
        );
        check(Change::ReturnSpeed([22.0, 19.5]), "return at 19.5 m/s instead of 22.0 m/s");
        check(Change::Height([118.0, 70.0]), "circle at 70 m instead of 118 m");
        check(Change::Circuit(-20.0), "fly the circuit 20 m lower");
        check(Change::Bank([35.0, 45.0]), "maximum bank 45 deg instead of 35 deg");
        check(Change::Turn(Turn::Clockwise), "circle clockwise");
    }
}
