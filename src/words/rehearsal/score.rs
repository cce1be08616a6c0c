//! How a rehearsal went, in words: what failed it and when, and otherwise its points, part by part.

use crate::margins::{MarginRow, Verdict};
use crate::rehearsal::{HardEvent, Part, PartKind, RehearsalScore};
use crate::run::Scenario;
use crate::units::decimals;
use crate::words::{Measure, Units, number};

/// What stands behind every number of points.
pub const FOR_DISCUSSION: &str = "For discussion: a score is no licence.";

/// What a rehearsal came to, in a line: FAILED with the names of what failed it, or its points.
pub fn headline(score: &RehearsalScore, units: &Units) -> String {
    match score.points() {
        Some(_) => format!("{} points. {FOR_DISCUSSION}", result(score, units)),
        None => format!("{}.", result(score, units)),
    }
}

/// The same for a table: "78 of 100", or FAILED with the names.
pub fn result(score: &RehearsalScore, units: &Units) -> String {
    match score.points() {
        Some(points) => format!("{} of 100", whole(points, 100.0)),
        None => {
            let events: Vec<_> = score.events.iter().map(|failed| event(failed, units)).collect();
            format!("FAILED: {}", events.join("; "))
        }
    }
}

/// Without decimals, and the most only where there is nothing less.
fn whole(points: f64, most: f64) -> String {
    let rounded = points.round();
    decimals(if rounded >= most && points < most - 1e-9 { most - 1.0 } else { rounded }, 0)
}

/// What failed it, by name, with its moment, such as "goat paddock, no-fly crossed by 4.2 m at 61 s".
pub fn event(failed: &HardEvent, units: &Units) -> String {
    match failed {
        HardEvent::Crossed(row) => format!("{} crossed by {} at {:.0} s", row.name, beyond(row, units), row.at_s),
        HardEvent::HitTheGround { at_s, sink_mps, bank_deg } => format!(
            "hit the ground at {at_s:.0} s, sinking {}, banked {:.0} deg",
            units.short(Measure::Speed, sink_mps.max(0.0)),
            bank_deg.abs()
        ),
        HardEvent::Empty { at_s } => format!("the pack was empty in the air at {at_s:.0} s"),
        HardEvent::NotTakenOver => "nobody had taken it over at the end".into(),
        HardEvent::NothingLost => "it ended before anything was lost".into(),
    }
}

/// The same, as other programs read it.
pub const fn event_key(failed: &HardEvent) -> &'static str {
    match failed {
        HardEvent::Crossed(_) => "crossed",
        HardEvent::HitTheGround { .. } => "hit_the_ground",
        HardEvent::Empty { .. } => "empty",
        HardEvent::NotTakenOver => "not_taken_over",
        HardEvent::NothingLost => "nothing_lost",
    }
}

/// How far beyond a limit, as a number above nothing.
fn beyond(row: &MarginRow, units: &Units) -> String {
    units.left(row.margin, row.buffer, row.unit.symbol()).trim_start_matches('\u{2212}').to_owned()
}

/// What a part is called.
pub const fn part_name(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Boundary => "margin to the boundary",
        PartKind::Areas => "margin to areas and people",
        PartKind::Heights => "height kept until the take-over",
        PartKind::Time => "time until the attitude is said",
        PartKind::Place => "place of the take-over",
        PartKind::Landing => "landing, or flying on",
    }
}

/// The same for the head of a narrow column.
pub const fn short_part(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Boundary => "boundary",
        PartKind::Areas => "areas",
        PartKind::Heights => "height",
        PartKind::Time => "time",
        PartKind::Place => "place",
        PartKind::Landing => "landing",
    }
}

/// The same, as other programs read it.
pub const fn part_key(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Boundary => "boundary",
        PartKind::Areas => "areas",
        PartKind::Heights => "heights",
        PartKind::Time => "time",
        PartKind::Place => "place",
        PartKind::Landing => "landing",
    }
}

/// Points of a part, with one decimal, and the most only where there is nothing less.
pub fn points(part: &Part) -> String {
    let most = part.kind.most();
    let tenth = (part.points * 10.0).round() / 10.0;
    number(if tenth >= most && part.points < most - 1e-9 { most - 0.1 } else { tenth })
}

/// What was measured of a part, against what was asked for.
pub fn part(part: &Part, landed: bool, scenario: &Scenario, units: &Units) -> String {
    match (part.kind, part.value) {
        (PartKind::Boundary | PartKind::Areas, _) => part.row.as_ref().map_or_else(
            || "nothing came into it".into(),
            |row| match row.verdict {
                Verdict::Crossed => format!("{}: crossed by {}", row.name, beyond(row, units)),
                _ => {
                    let left = units.left(row.margin, row.buffer, row.unit.symbol());
                    format!("{}: {left} left, {} asked for", row.name, asked(row, units))
                }
            },
        ),
        (PartKind::Heights, Some(share)) => {
            let percent = (share * 1000.0).floor() / 10.0;
            format!("{} % of the time within its buffers", number(percent))
        }
        (PartKind::Time, Some(took)) => {
            let counted_on = scenario.file.limits.take_over.value.s();
            format!("{took:.1} s after the loss, the plan counts on {} s", number(counted_on))
        }
        (PartKind::Time, None) => "never said".into(),
        (PartKind::Place, Some(speed)) => {
            format!("at {} over the ground, asked for is the slow side", units.short(Measure::Speed, speed))
        }
        (PartKind::Place, None) => "not taken over".into(),
        (PartKind::Landing, Some(sink)) => {
            format!("touched down sinking {}", units.short(Measure::Speed, sink.max(0.0)))
        }
        (PartKind::Landing, None) if !landed && part.points > 0.0 => "flew on, and kept its height".into(),
        (PartKind::Landing, None) => "neither landed nor flew on level".into(),
        (PartKind::Heights, None) => "nothing was flown".into(),
    }
}

/// What a row asked for, in the units of the reader.
fn asked(row: &MarginRow, units: &Units) -> String {
    match row.unit.symbol() {
        "m" => {
            let pair = units.of(Measure::Distance);
            format!("{} {}", number(units.first(Measure::Distance, row.buffer)), pair.first)
        }
        other => format!("{} {other}", number(row.buffer)),
    }
}

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;
    use crate::margins::{Limit, MarginUnit};

    fn row(name: &str, margin: f64, verdict: Verdict) -> MarginRow {
        MarginRow {
            limit: Limit::Area(0),
            name: name.into(),
            unit: MarginUnit::Metres,
            margin,
            buffer: 20.0,
            verdict,
            at_s: 61.2,
            at: DVec2::ZERO,
            height_m: 50.0,
            stretch: None,
        }
    }

    fn feet() -> Units {
        let mut units = Units::default();
        (units.distance.first, units.speed.first) = ("ft".into(), "mph".into());
        units
    }

    #[test]
    fn what_failed_it_has_its_name_its_amount_and_its_moment() {
        let crossed = HardEvent::Crossed(row("goat paddock, no-fly", -4.2, Verdict::Crossed));
        let hit = HardEvent::HitTheGround { at_s: 42.4, sink_mps: 8.940_8, bank_deg: -35.0 };
        for (failed, units, said) in [
            (&crossed, Units::default(), "goat paddock, no-fly crossed by 4.2 m at 61 s"),
            // A foot is 0.3048 m, exactly: 13.78 of them.
            (&crossed, feet(), "goat paddock, no-fly crossed by 13.8 ft at 61 s"),
            (&hit, Units::default(), "hit the ground at 42 s, sinking 8.9 m/s, banked 35 deg"),
            // A statute mile is 1609.344 m, exactly: 20 of them an hour.
            (&hit, feet(), "hit the ground at 42 s, sinking 20.0 mph, banked 35 deg"),
            (&HardEvent::Empty { at_s: 300.0 }, feet(), "the pack was empty in the air at 300 s"),
            (&HardEvent::NotTakenOver, feet(), "nobody had taken it over at the end"),
            (&HardEvent::NothingLost, feet(), "it ended before anything was lost"),
        ] {
            assert_eq!(event(failed, &units), said);
        }
        let hair = HardEvent::Crossed(row("boundary", -0.000_1, Verdict::Crossed));
        assert_eq!(event(&hair, &Units::default()), "boundary crossed by 0.0001 m at 61 s", "never by nothing");
        let score = RehearsalScore {
            events: vec![crossed, HardEvent::NotTakenOver],
            parts: Vec::new(),
            rows: Vec::new(),
            landed: false,
        };
        assert_eq!(
            headline(&score, &Units::default()),
            "FAILED: goat paddock, no-fly crossed by 4.2 m at 61 s; nobody had taken it over at the end."
        );
    }

    #[test]
    fn points_are_never_rounded_up_to_all_there_are() {
        let parts = |points: [f64; 2]| {
            let kinds = [PartKind::Boundary, PartKind::Areas];
            let parts = kinds.into_iter().zip(points);
            parts.map(|(kind, points)| Part { kind, points, value: None, at_s: None, row: None }).collect()
        };
        let said = |points| {
            let score = RehearsalScore { events: Vec::new(), parts: parts(points), rows: Vec::new(), landed: false };
            headline(&score, &Units::default())
        };
        for (points, whole) in [([50.0, 28.4], 78), ([50.0, 49.9], 99), ([50.0, 50.0], 100), ([0.0, 0.0], 0)] {
            assert_eq!(said(points), format!("{whole} of 100 points. For discussion: a score is no licence."));
        }
        for (kind, of, said) in
            [(PartKind::Place, 4.99, "4.9"), (PartKind::Place, 5.0, "5"), (PartKind::Time, 8.5, "8.5")]
        {
            assert_eq!(points(&Part { kind, points: of, value: None, at_s: None, row: None }), said);
        }
    }

    #[test]
    fn a_part_is_told_as_measured_against_what_was_asked_for() {
        let scenario = Scenario::tight_strip();
        let counted_on = number(scenario.file.limits.take_over.value.s());
        let told = |kind, points, value, row: Option<MarginRow>, units: &Units| {
            part(&Part { kind, points, value, at_s: None, row }, false, &scenario, units)
        };
        let metres = &Units::default();
        let near = Some(row("boundary", 12.0, Verdict::InsideBuffer));
        for (found, said) in [
            (told(PartKind::Boundary, 18.0, Some(12.0), near.clone(), metres), "boundary: 12.0 m left, 20 m asked for"),
            (told(PartKind::Boundary, 18.0, Some(12.0), near, &feet()), "boundary: 39.4 ft left, 65.6 ft asked for"),
            (
                told(PartKind::Areas, 0.0, Some(-4.2), Some(row("wood", -4.2, Verdict::Crossed)), metres),
                "wood: crossed by 4.2 m",
            ),
            (told(PartKind::Areas, 30.0, None, None, metres), "nothing came into it"),
            (told(PartKind::Heights, 14.9, Some(0.9999), None, metres), "99.9 % of the time within its buffers"),
            (told(PartKind::Time, 0.0, None, None, metres), "never said"),
            (told(PartKind::Place, 0.0, None, None, metres), "not taken over"),
            (told(PartKind::Landing, 9.0, Some(0.8), None, metres), "touched down sinking 0.80 m/s"),
            (told(PartKind::Landing, 9.0, None, None, metres), "flew on, and kept its height"),
            (told(PartKind::Landing, 0.0, None, None, metres), "neither landed nor flew on level"),
        ] {
            assert_eq!(found, said);
        }
        assert_eq!(
            told(PartKind::Time, 5.0, Some(24.25), None, metres),
            format!("24.2 s after the loss, the plan counts on {counted_on} s")
        );
    }
}
