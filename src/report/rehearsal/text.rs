//! A rehearsal for people: what it came to, the drill by the clock, what failed it, its points, and how near it came to what.

use super::Rehearsed;
use crate::VERSION;
use crate::rehearsal::Stage;
use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{headed, listed, named, paragraph, table};
use crate::report::text::{foot, margin_lines};
use crate::units::{Speed, number};
use crate::words::rehearsal as words;
use crate::words::{Units, bearing, speed};

/// The whole report.
pub(super) fn rehearsal(about: &Rehearsed<'_>) -> String {
    let events: Vec<_> = about.score.events.iter().map(|failed| words::event(failed, &Units::default())).collect();
    let sections = [
        format!("Peewit {VERSION}: how a rehearsal went\n"),
        paragraph("", &about.headline()),
        headed("What was rehearsed", &asked(about)),
        headed("The drill, seconds since the loss", &drill(about)),
        listed("What failed it", &events),
        headed("The points", &points(about)),
        headed("How near it came", &margin_lines(&about.score.rows)),
        listed("Warnings about the recording", about.warnings),
        foot(),
    ];
    sections.into_iter().filter(|section| !section.is_empty()).collect::<Vec<_>>().join("\n")
}

fn asked(about: &Rehearsed<'_>) -> String {
    let (file, exercise) = (&about.flown.base().file, about.flown.exercise());
    let sky = &about.flown.scenario().file.wind;
    let mean = about.flown.scenario().wind_at_circle()[0];
    let trial = match exercise.trial {
        0 => "trial 0, the plan as entered".to_owned(),
        trial => format!("trial {trial}, drawn from the spreads"),
    };
    named([
        ("Scenario", &format!("{}, {} ({})", file.name, file.date, about.flown.base().hash())),
        ("Exercise", &format!("{}. {}", exercise.name, words::exercise(exercise, &Units::default()))),
        ("Pilot", about.pilot_told()),
        ("Flight", &format!("{trial}, seed {}; {:.1} s long", file.seed, about.flown.time_s())),
        (
            "Wind",
            &format!(
                "from {}, {} as measured, {} at the circle",
                bearing(sky.from),
                speed(sky.mean),
                speed(Speed::new(mean))
            ),
        ),
    ])
}

fn drill(about: &Rehearsed<'_>) -> String {
    let Some(lost_s) = about.lost_at_s() else { return paragraph("  ", "Nothing was lost.") };
    let head = ["stage", "since the loss", "since the beginning"].map(String::from);
    let never = || ["not done".to_owned(), String::new()];
    let lines = Stage::ALL.into_iter().zip(about.stages_s()).map(|(stage, done_s)| {
        let [since, all] = done_s.map_or_else(never, |s| [s, lost_s + s].map(|seconds| format!("{seconds:.1} s")));
        [words::done(stage).to_owned(), since, all]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    let stages = about.flown.stages();
    let beside = |count: u32, what: &str| match count {
        0 => String::new(),
        1 => format!("Once {what}. "),
        count => format!("{count} times {what}. "),
    };
    let wrong = beside(stages.missed, "somebody pointed beside the jet")
        + &beside(stages.misread, "another attitude was said than it had");
    table([Left, Right, Right], &rows) + &if wrong.is_empty() { wrong } else { paragraph("  ", &wrong) }
}

fn points(about: &Rehearsed<'_>) -> String {
    let score = about.score;
    let head = ["part", "points", "of", "at", "measured"].map(String::from);
    let lines = score.parts.iter().map(|part| {
        [
            words::part_name(part.kind).to_owned(),
            words::points(part),
            number(part.kind.most()),
            part.at_s.map_or_else(String::new, |at| format!("{at:.1} s")),
            words::part(part, score.landed, about.flown.scenario(), &Units::default()),
        ]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    let failed = "What failed it stands above; the parts are told to learn from, and are not added up.";
    let note = if score.points().is_some() {
        "Each part runs straight from nothing at its limit to all at what was asked for. Weights are judgement. Times count from \
         the beginning."
    } else {
        failed
    };
    table([Left, Right, Right, Right, Left], &rows) + &paragraph("  ", note)
}
