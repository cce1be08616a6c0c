//! A class in words, as a table for a spreadsheet, for other programs, and as a document to print.

use serde_json::{Map, Value, json};

use super::json::{event, parts};
use super::{Attempt, ClassSheet};
use crate::draw::{Document, Section};
use crate::error::letters::cell;
use crate::rehearsal::{PartKind, Stage};
use crate::report::json::written;
use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{headed, listed, named, paragraph, table};
use crate::report::text::foot;
use crate::units::decimals;
use crate::words::rehearsal as words;
use crate::words::{Units, cautions};
use crate::{Error, Result, VERSION};

/// For a screen.
pub(super) fn text(class: &ClassSheet<'_>) -> String {
    let file = &class.base.file;
    let about = named([
        ("Scenario", &format!("{}, {} ({})", file.name, file.date, class.base.hash())),
        ("Exercise", &format!("{}. {}", class.exercise.name, words::exercise(class.exercise, &Units::default()))),
        ("Trial", &format!("{}, seed {}, the same for everybody", class.exercise.trial, file.seed)),
        ("A good run", class.good().unwrap_or("Every stage of the drill in order, and nothing crossed.")),
    ]);
    let failed: Vec<String> = class
        .attempts
        .iter()
        .filter(|attempt| attempt.score.points().is_none())
        .map(|attempt| format!("{}: {}", attempt.pilot, words::result(&attempt.score, &Units::default())))
        .collect();
    let sections = [
        format!("Peewit {VERSION}: a class\n"),
        headed("What was rehearsed", &about),
        headed("The points", &(points(class) + &paragraph("  ", words::FOR_DISCUSSION))),
        listed("What failed", &failed),
        headed("The drill, seconds since the loss", &drill(class)),
        foot(),
    ];
    sections.into_iter().filter(|section| !section.is_empty()).collect::<Vec<_>>().join("\n")
}

/// Points of 100, or that it failed.
fn short(attempt: &Attempt) -> String {
    let result = words::result(&attempt.score, &Units::default());
    result.split([':', ' ']).next().unwrap_or_default().to_owned()
}

fn points(class: &ClassSheet<'_>) -> String {
    let [a, b, c, d, e, f] =
        PartKind::ALL.map(|kind| format!("{} {}", words::short_part(kind), decimals(kind.most(), 0)));
    let head = ["pilot".into(), "of 100".into(), a, b, c, d, e, f];
    let lines = class.attempts.iter().map(|attempt| {
        let part = |kind| attempt.score.parts.iter().find(|part| part.kind == kind);
        let [a, b, c, d, e, f] = PartKind::ALL.map(|kind| part(kind).map_or_else(String::new, words::points));
        [attempt.pilot.clone(), short(attempt), a, b, c, d, e, f]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Right, Right, Right, Right, Right, Right, Right], &rows)
}

fn drill(class: &ClassSheet<'_>) -> String {
    let [a, b, c, d, e, f, g] = Stage::ALL.map(|stage| words::done(stage).to_owned());
    let head = ["pilot".into(), a, b, c, d, e, f, g];
    let lines = class.attempts.iter().map(|attempt| {
        let [a, b, c, d, e, f, g] =
            attempt.stages_s.map(|done_s| done_s.map_or_else(|| "-".into(), |seconds| format!("{seconds:.1}")));
        [attempt.pilot.clone(), a, b, c, d, e, f, g]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    table([Left, Right, Right, Right, Right, Right, Right, Right], &rows)
}

/// For a spreadsheet: RFC 4180, a person a row.
pub(super) fn csv(class: &ClassSheet<'_>) -> Result<String> {
    let refused = |why: &dyn std::fmt::Display| Error::Asked(format!("can't write the class as CSV: {why}"));
    let mut table = ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
    let parts = PartKind::ALL.map(|kind| format!("{}_points", words::part_key(kind)));
    let stages = Stage::ALL.map(|stage| format!("{}_s", words::stage_key(stage)));
    let head = ["pilot", "points", "failed_by"].map(String::from).into_iter().chain(parts).chain(stages);
    table.write_record(head.chain(["ready_s".to_owned()])).map_err(|why| refused(&why))?;
    let seconds = |done_s: Option<f64>| done_s.map_or_else(String::new, |seconds| format!("{seconds:.2}"));
    for attempt in class.attempts {
        let score = &attempt.score;
        let failed: Vec<_> = score.events.iter().map(|failed| words::event(failed, &Units::default())).collect();
        let points = score.points().map_or_else(|| "FAILED".into(), |points| format!("{points:.1}"));
        let parts = PartKind::ALL.map(|kind| {
            let part = score.parts.iter().find(|part| part.kind == kind);
            part.map_or_else(String::new, |part| format!("{:.1}", part.points))
        });
        let row = [cell(&attempt.pilot), points, cell(&failed.join("; "))].into_iter().chain(parts);
        let row = row.chain(attempt.stages_s.map(seconds)).chain([seconds(attempt.ready_s)]);
        table.write_record(row).map_err(|why| refused(&why))?;
    }
    let bytes = table.into_inner().map_err(|why| refused(&why))?;
    String::from_utf8(bytes).map_err(|why| refused(&why))
}

/// For other programs.
pub(super) fn json(class: &ClassSheet<'_>) -> Result<String> {
    let file = &class.base.file;
    let attempts = class.attempts.iter().map(|attempt| {
        let stages: Map<String, Value> = Stage::ALL
            .into_iter()
            .zip(attempt.stages_s)
            .map(|(stage, done_s)| (words::stage_key(stage).to_owned(), json!({ "since_loss_s": done_s })))
            .collect();
        json!({
            "pilot": attempt.pilot,
            "headline": words::headline(&attempt.score, &Units::default()),
            "failed": !attempt.score.events.is_empty(),
            "points": attempt.score.points(),
            "events": attempt.score.events.iter().map(event).collect::<Vec<_>>(),
            "parts": parts(&attempt.score, class.base),
            "stages": stages,
            "ready_s": attempt.ready_s,
        })
    });
    written(&json!({
        "report": "rehearsal-class",
        "peewit_version": VERSION,
        "scenario": file.name,
        "scenario_hash": class.base.hash(),
        "date": file.date,
        "seed": file.seed,
        "trial": class.exercise.trial,
        "exercise": class.exercise,
        "good": class.good(),
        "points_most": 100,
        "failed": class.failed(),
        "attempts": attempts.collect::<Vec<_>>(),
        "cautions": cautions::ALL,
    }))
}

/// To print, with the same in words for those who can't see it.
pub(super) fn document(class: &ClassSheet<'_>) -> Document {
    let file = &class.base.file;
    let section = |heading: &str, paragraphs: Vec<String>| Section { heading: heading.into(), paragraphs };
    let results = class.attempts.iter().map(|attempt| {
        let ready = attempt.ready_s.map_or_else(
            || "the attitude was never said".into(),
            |seconds| format!("the attitude said {seconds:.1} s after the loss"),
        );
        format!("{}: {}; {ready}.", attempt.pilot, words::result(&attempt.score, &Units::default()))
    });
    let words = vec![
        section("What was rehearsed", vec![words::exercise(class.exercise, &Units::default())]),
        section("How it went", results.chain([words::FOR_DISCUSSION.to_owned()]).collect()),
        section("A good run", class.good().into_iter().map(String::from).collect()),
        section("Before you rely on this", cautions::ALL.map(String::from).into()),
    ];
    Document {
        title: format!("{}: {}", file.name, class.exercise.name),
        author: String::new(),
        subject: class.stamp(),
        pages: class.sheets(),
        words: words.into_iter().filter(|section| !section.paragraphs.is_empty()).collect(),
    }
}
