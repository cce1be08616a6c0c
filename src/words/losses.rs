//! The keep-inside line, and how closely a map of losses was looked at.

use super::{counted, number};
use crate::study::keep_inside::{Bounds, Headings, KeepInside, KeepLine, Pace};
use crate::study::losses::{Cell, LossStudy};
use crate::study::stats::percent;

/// How many trials a map rests on, and where it has none.
pub fn looked(study: &LossStudy) -> String {
    let (trials, without) = (study.trials().flown, study.not_checked_closely());
    if trials == 0 {
        return "N = 0 trials: only the plan as entered was flown, and no cell was checked closely.".into();
    }
    let fewest = study.cells.iter().map(|cell| cell.trials.flown).filter(|flown| *flown > 0).min().unwrap_or(0);
    let without = match without {
        0 => String::new(),
        cells => format!(" {cells} cells without any were not checked closely."),
    };
    format!(
        "N = {trials} trials, at least {fewest} a cell and more where the answer is uncertain, so they are no even sample \
         of the field.{without}"
    )
}

/// What the trials from a cell came to, in two parts.
pub fn looked_at(cell: &Cell, confidence: f64) -> String {
    let all = cell.trials;
    if !cell.checked_closely() {
        return "not checked closely: only the plan as entered was flown".into();
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
pub fn keep_inside(keep: &KeepInside) -> String {
    match keep.drawn() {
        Some(line) => format!("Keep-inside line, {}: {}.", lost(line), kept_inside(keep, line)),
        None => "No keep-inside line: the plan does not fly home, or it was stopped.".into(),
    }
}
