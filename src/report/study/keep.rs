//! The keep-inside line and how closely a map of losses was looked at, in words and in a table.

use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{paragraph, table};
use crate::study::keep_inside::{Headings, KeepInside, KeepLine, Pace};
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
