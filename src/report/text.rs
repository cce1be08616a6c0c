//! A recovery for people: what was asked, what came of it, how near it came to what, and what to remember.

use super::layout::Side::{Left, Right};
use super::layout::{headed, listed, named, paragraph, table};
use crate::brief::origins::unmeasured;
use crate::brief::{Recovery, spans};
use crate::margins::{Figures, MarginRow, Verdict};
use crate::run::{Scenario, ScenarioFile, Stretch};
use crate::units::{Speed, decimals};
use crate::words::{bearing, cautions, gusts, height, number, pair, place, speed};
use crate::{VERSION, words};

/// The whole report.
pub(super) fn recovery(recovery: &Recovery) -> String {
    let margins = recovery.margins;
    let end = format!("It ended {:.0} s after the loss: {}.", margins.end_s, words::ending(margins.ending));
    let five = recovery.five_lines();
    let five = five.as_ref();
    let sections = [
        format!("Peewit {VERSION}: where one loss would lead\n"),
        five.map_or_else(String::new, |five| headed("The answer", &named(five.rows()))),
        headed("What was asked", &setting(recovery)),
        headed(
            "What came of this one run",
            &paragraph("  ", &format!("{} {end}{}", recovery.one_run(), unasked(recovery))),
        ),
        headed("How near it came", &margin_lines(&margins.rows)),
        headed("People", &paragraph("  ", &words::people(&recovery.people()))),
        headed("How it went", &stretches(recovery)),
        headed("Figures", &figures(&margins.figures, recovery)),
        listed("Besides", &margins.remarks),
        listed("Not as in the file", recovery.changes),
        headed("Nobody has measured", &origins(&recovery.scenario.file)),
        listed("Warnings about the file", recovery.warnings),
        foot(),
    ];
    sections.into_iter().filter(|section| !section.is_empty()).collect::<Vec<_>>().join("\n")
}

/// What stands at the foot of every answer on a terminal: in two lines what matters most, and where the rest is.
pub(super) fn foot() -> String {
    paragraph("", cautions::FOOT) + &paragraph("", cautions::IN_FULL)
}

/// Every caution, a paragraph each.
pub fn all_cautions() -> String {
    listed("Before you rely on any of it", &cautions::ALL)
}

/// One run by itself is not to be taken for a verdict.
fn unasked(recovery: &Recovery) -> &'static str {
    if recovery.trials.is_some() { "" } else { " How many trials of the plan hold was not asked." }
}

fn setting(recovery: &Recovery) -> String {
    let trial = match recovery.run.trial {
        0 => "trial 0, the plan as entered".into(),
        trial => format!("trial {trial}, drawn from the spreads"),
    };
    let seed = recovery.scenario.file.seed;
    planned(recovery.scenario, "Run", format!("{trial}, in the {}, seed {seed}", words::wind(recovery.wind)))
}

/// What an answer is about, a line each; second how it was flown.
pub(super) fn planned(scenario: &Scenario, flown: &str, how: String) -> String {
    let file = &scenario.file;
    let (loss, plan, sky) = (&file.loss, &file.recovery, &file.wind);
    let [mean, gust] = scenario.wind_at_circle().map(Speed::new).map(speed);
    let lines = [
        ("Scenario", format!("{}, {} ({})", file.name, file.date, scenario.hash())),
        (flown, how),
        (
            "Loss",
            format!(
                "{} lost at {}, {} above home, flying {} towards {}",
                words::loss(loss.kind),
                place(loss.at_m.into()),
                height(loss.height.m()),
                speed(loss.speed),
                bearing(loss.heading)
            ),
        ),
        ("Failsafe", format!("{}, {}", words::failsafe_action(plan), file.authority().words())),
        (
            "Circle",
            format!(
                "{} m {} about {}, {} above home",
                number(plan.radius.m()),
                words::turn(plan.turn),
                place(scenario.field.centre),
                height(plan.height.m())
            ),
        ),
        (
            "Wind",
            format!(
                "from {}, {} and {} at {} above the ground; at the circle {mean} and {gust}",
                bearing(sky.from),
                speed(sky.mean),
                gusts(sky),
                height(sky.measured_at.m()),
            ),
        ),
    ];
    lines.iter().map(|(name, words)| paragraph(&format!("  {name:<10}"), words)).collect()
}

pub(super) fn margin_lines(rows: &[MarginRow]) -> String {
    let head = ["limit", "verdict", "left", "asked", "", "at", "x, y", "height", "while"].map(String::from);
    let lines = rows.iter().map(|row| {
        let [left, asked] = words::left_of(row.margin, row.buffer);
        [
            row.name.clone(),
            match row.verdict {
                Verdict::Crossed => "CROSSED".into(),
                other => other.name().into(),
            },
            left,
            if row.verdict == Verdict::Counted { String::new() } else { asked },
            row.unit.to_string(),
            format!("{:.1} s", row.at_s),
            pair(row.at),
            format!("{} m", decimals(row.height_m, 0)),
            row.stretch.map_or("", Stretch::name).into(),
        ]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Left, Right, Right, Left, Right, Right, Right, Left], &rows)
        + &paragraph(
            "  ",
            "Places are metres east and north of the datum, heights above home. Less than nothing left of a limit that can be crossed is crossed.",
        )
}

fn stretches(recovery: &Recovery) -> String {
    let trace = &recovery.run.trace;
    let head = ["stretch", "from", "to", "over the ground", "height at its end"].map(String::from);
    let lines = spans(trace).into_iter().filter(|span| span.to > span.from).map(|span| {
        [
            span.stretch.name().into(),
            format!("{:.1} s", trace.time_s(span.from)),
            format!("{:.1} s", trace.time_s(span.to)),
            format!("{:.0} m", span.along_m(trace)),
            format!("{} m", decimals(trace.height_m[span.to], 0)),
        ]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Right, Right, Right, Right], &rows)
}

fn figures(figures: &Figures, recovery: &Recovery) -> String {
    let [still, mean, gust] = figures.smallest_radius_m;
    let wh = |joules: f64| format!("{} Wh", decimals(joules / 3600.0, 1));
    let metres = |value: f64| format!("{} m", decimals(value, 0));
    let glides = recovery.run.trace.stretch.iter().any(|stretch| {
        use crate::run::Stretch::{Drifting, Gliding, Waiting};
        matches!(stretch, Drifting | Gliding | Waiting)
    });
    let lines = [
        ("went on beyond the loss point", Some(metres(figures.turn_back_m))),
        ("furthest from the centre once settled", figures.furthest_m.map(metres)),
        ("outside the ring while joining", figures.joining_overshoot_m.map(metres)),
        ("from the loss to the end of the run", glides.then(|| metres(figures.drift_m))),
        (
            "smallest radius the maximum bank holds",
            Some(format!("{still:.0} m in still air, {mean:.0} m in the mean wind, {gust:.0} m in the gusts")),
        ),
        ("time from the loss to the circle", figures.home_s.map(|s| format!("{s:.0} s"))),
        ("time of the last lap", figures.lap_s.map(|s| format!("{s:.0} s"))),
        ("of that lap at the maximum bank", figures.saturated_share.map(|share| format!("{:.0} %", share * 100.0))),
        ("energy of the last lap", figures.lap_energy_j.map(wh)),
        ("left in the pack at the circle, or at the end", Some(wh(figures.energy_left_j))),
        ("laps to the reserve", figures.laps_to_reserve.map(|laps| decimals(laps, 1))),
        ("reach of a glide from circle height, still air", Some(metres(figures.glide_footprint_m))),
        ("where it would fall from circle height", Some(metres(figures.fall_footprint_m))),
    ];
    let known = lines.into_iter().filter_map(|(name, value)| value.map(|value| [name.to_owned(), value]));
    table([Left, Left], &known.collect::<Vec<_>>())
}

pub(super) fn origins(file: &ScenarioFile) -> String {
    let found = unmeasured(file);
    let line = |lead: &str, names: &[String]| match names {
        [] => String::new(),
        names => paragraph(lead, &names.join(", ")),
    };
    line("  default    ", &found.defaults) + &line("  estimated  ", &found.estimates)
}
