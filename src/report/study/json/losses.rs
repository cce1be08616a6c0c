//! The loss map's own part of the JSON.

use glam::DVec2;
use serde_json::{Value, json};

use super::{interval, number, outcomes};
use crate::margins::Outcome;
use crate::report::values::tidy;
use crate::study::losses::{Cell, Count, LossStudy};

pub(super) fn answer(study: &LossStudy) -> Value {
    let ask = &study.ask;
    let mut totals = [0; Outcome::ALL.len()];
    for cell in &study.cells {
        totals.iter_mut().zip(cell.outcomes).for_each(|(total, count)| *total += count);
    }
    let trials = study.trials();
    let as_entered = Outcome::ALL.map(|outcome| count(study, |cell| cell.plan_worst == outcome));
    let rings = |rings: &[Vec<DVec2>]| rings.iter().map(|ring| places(ring)).collect::<Vec<_>>();
    json!({
        "headings": ask.headings,
        "heights_m": ask.heights_m,
        "speeds_mps": ask.speeds_mps,
        "trials": ask.trials,
        "confidence": ask.confidence,
        "grid": { "corner": place(study.corner), "cell_m": tidy(study.cell_m), "columns": study.size[0], "rows": study.size[1] },
        "cells_as_entered": outcomes(&as_entered),
        "flown": study.count().flown,
        "trials": counted(trials, ask.confidence),
        "cells_not_checked_closely": study.not_checked_closely(),
        "outcomes": outcomes(&totals),
        "keep_inside": study.keep_inside.as_ref().map(crate::report::study::keep::answer),
        "turn_back_m": rings(&study.turn_back),
        "no_return_m": places(&study.no_return),
        "cells": study.cells.iter().map(|cell| cell_json(cell, ask.confidence)).collect::<Vec<_>>(),
    })
}

fn count(study: &LossStudy, which: impl Fn(&Cell) -> bool) -> u64 {
    study.cells.iter().filter(|cell| which(cell)).count() as u64
}

fn cell_json(cell: &Cell, confidence: f64) -> Value {
    let replay = cell.replay;
    json!({
        "column": cell.at[0],
        "row": cell.at[1],
        "middle": place(cell.middle),
        "as_entered": cell.plan_worst.name(),
        "worst": cell.worst.name(),
        "outcomes": outcomes(&cell.outcomes),
        "flown": cell.count.flown,
        "trials": counted(cell.trials, confidence),
        "checked_closely": cell.checked_closely(),
        "crossed_kept_and_flown_by_heading":
            cell.by_heading.iter().map(|count| [count.crossed, count.kept, count.flown]).collect::<Vec<_>>(),
        "home_middle_and_longest_s": cell.home_s.map(|pair| pair.map(number)),
        "energy_middle_and_most_wh": cell.energy_wh.map(|pair| pair.map(number)),
        "replay": {
            "at": place(replay.at),
            "heading_deg": tidy(replay.heading_deg),
            "height_m": tidy(replay.height_m),
            "airspeed_mps": tidy(replay.speed_mps),
            "trial": replay.trial,
        },
    })
}

/// Trials in two parts: those that crossed a limit, and those that kept every buffer.
fn counted(count: Count, confidence: f64) -> Value {
    json!({
        "flown": count.flown,
        "crossed": count.crossed,
        "crossed_interval": interval(count.crossed, count.flown, confidence),
        "kept": count.kept,
        "kept_interval": interval(count.kept, count.flown, confidence),
    })
}

fn place(at: DVec2) -> Value {
    json!({ "x_m": tidy(at.x), "y_m": tidy(at.y) })
}

fn places(ring: &[DVec2]) -> Value {
    ring.iter().map(|at| json!([tidy(at.x), tidy(at.y)])).collect()
}
