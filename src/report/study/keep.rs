//! The keep-inside line and how closely a map of losses was looked at, in words, in a table and for other programs.

use serde_json::{Value, json};

use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{paragraph, table};
use crate::report::values::tidy;
use crate::study::keep_inside::{Bounds, Headings, KeepInside, KeepLine, Pace};
use crate::study::stats::percent;
use crate::words::{capital, kept_inside, lost, number};

/// The section of the text: each line, and all of them by direction.
pub(super) fn text(keep: &KeepInside) -> String {
    let told: String = keep
        .lines
        .iter()
        .map(|line| paragraph("  ", &format!("{}: {}.", capital(&lost(line)), kept_inside(keep, line))))
        .collect();
    let drawn: Vec<&KeepLine> = keep.lines.iter().filter(|line| !line.bounds.is_empty()).collect();
    let (Some(first), confidence) = (drawn.first(), percent(keep.ask.confidence)) else { return told };
    let bearings = first.bounds.len();
    let name = |line: &&KeepLine| match (line.headings, line.pace) {
        (Headings::Circuit, Pace::Return) => "circuit, return",
        (Headings::Circuit, Pace::Fastest) => "circuit, fastest",
        (Headings::Any, Pace::Return) => "any, return",
        (Headings::Any, Pace::Fastest) => "any, fastest",
    };
    let row = |cells: Vec<String>| -> [String; 5] {
        let mut cells = cells.into_iter();
        std::array::from_fn(|_| cells.next().unwrap_or_default())
    };
    let head = row(std::iter::once("from centre".into()).chain(drawn.iter().map(|line| name(line).into())).collect());
    #[allow(clippy::cast_precision_loss, reason = "a few dozen")]
    let rows = (0..bearings).map(|index| {
        let deg = 360.0 * index as f64 / bearings as f64;
        let known = |line: &&KeepLine| {
            let bounds = line.bounds[index];
            format!("{} / {} m", number(bounds.inside_m), number(bounds.outside_m))
        };
        row(std::iter::once(format!("{deg:.0} deg")).chain(drawn.iter().map(known)).collect())
    });
    let rows: Vec<_> = std::iter::once(head).chain(rows).collect();
    let note = format!(
        "Known inside / known outside, {confidence} confidence at each place, {} trials in all; between the two it is not \
         known. Losses are level; \"any heading\" flies the quarter of all headings with least left at the place.",
        keep.trials()
    );
    told + &table([Right, Left, Left, Left, Left], &rows) + &paragraph("  ", &note)
}

/// What a line rests on, for other programs.
pub(super) fn properties(keep: &KeepInside, line: &KeepLine) -> Value {
    let metres = |of: fn(&Bounds) -> f64| line.bounds.iter().map(|bounds| tidy(of(bounds))).collect::<Vec<_>>();
    json!({
        "role": "keep-inside",
        "headings": match line.headings { Headings::Circuit => "circuit", Headings::Any => "any" },
        "speed": match line.pace { Pace::Return => "return", Pace::Fastest => "fastest" },
        "speed_mps": tidy(line.speed_mps),
        "crossed_at_most_share": keep.ask.crossed_at_most,
        "confidence": keep.ask.confidence,
        "trials": line.trials,
        "centre_crossed": line.centre.count,
        "centre_trials": line.centre.of,
        "limit": line.limit.and_then(|index| keep.limits.get(index)).map(|info| info.name.clone()),
        "known_inside_m": metres(|bounds| bounds.inside_m),
        "known_outside_m": metres(|bounds| bounds.outside_m),
    })
}

/// All lines: distances from the centre, clockwise from north.
pub(super) fn answer(keep: &KeepInside) -> Value {
    json!({
        "centre": { "x_m": tidy(keep.centre.x), "y_m": tidy(keep.centre.y) },
        "bearings": keep.ask.bearings,
        "step_m": tidy(keep.ask.step_m),
        "most_trials": keep.ask.most,
        "partial": keep.partial,
        "lines": keep.lines.iter().map(|line| properties(keep, line)).collect::<Vec<_>>(),
    })
}
