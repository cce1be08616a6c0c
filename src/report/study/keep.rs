//! The keep-inside line and how closely a map of losses was looked at, in words, in a table and for other programs.

use serde_json::{Value, json};

use super::counted;
use crate::report::json::tidy;
use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{paragraph, table};
use crate::report::text::number;
use crate::study::keep_inside::{Bounds, Headings, KeepInside, KeepLine, Pace};
use crate::study::losses::{Cell, LossStudy};
use crate::study::stats::percent;

/// How many trials a map rests on, and where it has none.
pub fn looked(study: &LossStudy) -> String {
    let (trials, without) = (study.trials().flown, study.not_looked_at_closely());
    if trials == 0 {
        return "N = 0 trials: the plan as written alone was flown, and no cell was looked at closely.".into();
    }
    let fewest = study.cells.iter().map(|cell| cell.trials.flown).filter(|flown| *flown > 0).min().unwrap_or(0);
    let without = match without {
        0 => String::new(),
        cells => format!(" {cells} cells without any were not looked at closely."),
    };
    format!(
        "N = {trials} trials, at least {fewest} a cell and more where the answer is uncertain, so they are no even sample \
         of the field.{without}"
    )
}

/// What the trials from a cell came to, in two parts.
pub fn looked_at(cell: &Cell, confidence: f64) -> String {
    let all = cell.trials;
    if !cell.looked_at_closely() {
        return "not looked at closely: the plan as written alone was flown".into();
    }
    let [crossed, kept] = [all.crossed, all.kept].map(|count| counted(count, all.flown, confidence));
    format!("a limit crossed in {crossed} trials, every buffer kept in {kept}")
}

/// Which losses a line is about.
pub fn lost(line: &KeepLine) -> String {
    let headings = match line.headings {
        Headings::Circuit => "lost on the circuit's headings",
        Headings::Any => "lost on any heading",
    };
    let pace = match line.pace {
        Pace::Return => "at the return speed",
        Pace::Fastest => "at the fastest",
    };
    format!("{headings}, {pace}, {:.0} m/s", line.speed_mps)
}

/// How far a line goes, and what lies beyond; or why there is none.
pub fn kept_inside(keep: &KeepInside, line: &KeepLine) -> String {
    let limit = line.limit.and_then(|index| keep.limits.get(index));
    let named = limit.map_or_else(String::new, |info| format!(", most often {}", info.name));
    let asked = percent(keep.ask.crossed_at_most);
    if line.bounds.is_empty() {
        let over = counted(line.centre.count, line.centre.of, keep.ask.confidence);
        return format!(
            "nowhere is it known that at most {asked} of losses cross a limit; lost over the centre of the circle {over} \
             do{named}"
        );
    }
    format!(
        "at most {asked} cross a limit within {} of the centre, by direction; more do beyond {}{named}",
        span(line, |bounds| bounds.inside_m),
        span(line, |bounds| bounds.outside_m)
    )
}

fn span(line: &KeepLine, of: fn(&Bounds) -> f64) -> String {
    let all = line.bounds.iter().map(of);
    let (least, most) = (all.clone().fold(f64::INFINITY, f64::min), all.fold(0.0, f64::max));
    if least < most { format!("{} to {} m", number(least), number(most)) } else { format!("{} m", number(most)) }
}

/// The line that is drawn, as a sentence.
pub(super) fn headline(keep: &KeepInside) -> String {
    match keep.drawn() {
        Some(line) => format!("Keep-inside line, {}: {}.", lost(line), kept_inside(keep, line)),
        None => "No keep-inside line: the plan does not fly home, or it was stopped.".into(),
    }
}

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

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
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
