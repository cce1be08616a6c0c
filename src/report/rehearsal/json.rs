//! A rehearsal for other programs: SI, units in the keys, no points where something failed it.

use serde_json::{Map, Value, json};

use super::Rehearsed;
use crate::margins::MarginRow;
use crate::rehearsal::{HardEvent, Part, PartKind, RehearsalScore, Stage};
use crate::report::json::{amounts, written};
use crate::run::Scenario;
use crate::words::rehearsal as words;
use crate::words::{Units, cautions, ending_key};
use crate::{Result, VERSION};

/// The whole report.
pub(super) fn rehearsal(about: &Rehearsed<'_>) -> Result<String> {
    let (file, flown, score) = (&about.flown.base().file, about.flown, about.score);
    let scenario = flown.scenario();
    let lost_s = about.lost_at_s();
    let stages: Map<String, Value> = Stage::ALL
        .into_iter()
        .zip(about.stages_s())
        .map(|(stage, done_s)| {
            let told = json!({ "since_loss_s": done_s, "since_beginning_s": done_s.zip(lost_s).map(|(a, b)| a + b) });
            (words::stage_key(stage).to_owned(), told)
        })
        .collect();
    written(&json!({
        "report": "rehearsal",
        "peewit_version": VERSION,
        "scenario": file.name,
        "scenario_hash": about.flown.base().hash(),
        "date": file.date,
        "seed": file.seed,
        "trial": flown.exercise().trial,
        "exercise": flown.exercise(),
        "pilot": about.pilot,
        "headline": about.headline(),
        "failed": !score.events.is_empty(),
        "points": score.points(),
        "points_most": 100,
        "events": score.events.iter().map(event).collect::<Vec<_>>(),
        "parts": parts(score, scenario),
        "lost_at_s": lost_s,
        "stages": stages,
        "pointed_beside": flown.stages().missed,
        "attitude_misread": flown.stages().misread,
        "landed": score.landed,
        "ending": flown.ending().map_or("ended-by-the-person", ending_key),
        "end_s": flown.time_s(),
        "times_count_from_the": "beginning",
        "margins": score.rows.iter().map(|row| margin(row, scenario)).collect::<Vec<_>>(),
        "warnings": about.warnings.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "cautions": cautions::ALL,
    }))
}

/// What failed it.
pub(super) fn event(failed: &HardEvent) -> Value {
    let mut told = json!({
        "event": words::event_key(failed),
        "told": words::event(failed, &Units::default()),
        "at_s": failed.at_s(),
    });
    let more = match failed {
        HardEvent::Crossed(row) => {
            let mut more = amounts(row.unit, row.verdict, [row.margin, row.buffer]);
            more.insert("limit".into(), row.name.clone().into());
            more
        }
        HardEvent::HitTheGround { sink_mps, bank_deg, .. } => [("sink_mps", *sink_mps), ("bank_deg", *bank_deg)]
            .map(|(key, value)| (key.into(), value.into()))
            .into_iter()
            .collect(),
        HardEvent::Empty { .. } | HardEvent::NotTakenOver | HardEvent::NothingLost => Map::new(),
    };
    if let Some(told) = told.as_object_mut() {
        told.extend(more);
    }
    told
}

/// The parts, in order.
pub(super) fn parts(score: &RehearsalScore, scenario: &Scenario) -> Vec<Value> {
    let one = |part: &Part| {
        let mut told = json!({
            "part": words::part_key(part.kind),
            "points": part.points,
            "points_most": part.kind.most(),
            "at_s": part.at_s,
            "limit": part.row.as_ref().map(|row| &row.name),
            "told": words::part(part, score.landed, scenario, &Units::default()),
        });
        let key = match part.kind {
            PartKind::Boundary | PartKind::Areas => "margin_m",
            PartKind::Heights => "kept_share",
            PartKind::Time => "since_loss_s",
            PartKind::Place => "ground_speed_mps",
            PartKind::Landing => "sink_mps",
        };
        told[key] = json!(part.value);
        told
    };
    score.parts.iter().map(one).collect()
}

fn margin(row: &MarginRow, scenario: &Scenario) -> Value {
    let (latitude_deg, longitude_deg) = scenario.field.plane.to_degrees(row.at);
    let mut told = json!({
        "limit": row.name,
        "verdict": row.verdict.name(),
        "at_s": row.at_s,
        "at": { "x_m": row.at.x, "y_m": row.at.y, "latitude_deg": latitude_deg, "longitude_deg": longitude_deg },
        "height_m": row.height_m,
    });
    if let Some(told) = told.as_object_mut() {
        told.extend(amounts(row.unit, row.verdict, [row.margin, row.buffer]));
    }
    told
}
