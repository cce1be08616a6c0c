//! The loss map in counts, and as a map of letters.

use crate::brief::StudyReport;
use crate::margins::Outcome;
use crate::report::layout::Side::{Left, Right};
use crate::report::layout::{WIDTH, headed, paragraph, table};
use crate::report::study::keep;
use crate::study::losses::LossStudy;
use crate::words::{counted, looked, number, place};

/// The answer as one would say it at the flight line.
pub(super) fn said(study: &LossStudy) -> String {
    let (held, cells) = (study.cells_as_entered(Outcome::Recovered), study.cells.len());
    let lost = Outcome::ALL.into_iter().filter(|outcome| *outcome != Outcome::Recovered);
    let most = lost.map(|outcome| (study.cells_as_entered(outcome), outcome)).max_by_key(|(count, _)| *count);
    match most {
        Some((count, outcome)) if held < cells => format!(
            "The plan as entered brings the jet back from a loss over {held} of {cells} squares of {} m, whichever way it is \
             heading. From the others it ends most often with: {} ({count} squares).",
            number(study.cell_m),
            outcome.name()
        ),
        _ => "The plan as entered brings the jet back from a loss anywhere inside the boundary, whichever way it is heading."
            .into(),
    }
}

pub(super) fn sections(report: &StudyReport, study: &LossStudy) -> Vec<String> {
    vec![
        headed("What comes of a loss", &outcomes(study)),
        headed("The plan as entered, the worst of all headings, north up", &map(report, study)),
        headed("The keep-inside line", &study.keep_inside.as_ref().map_or_else(String::new, keep::text)),
        headed("The way home", &home(study)),
        headed("Losses to replay", &replays(study)),
    ]
}

/// The letter of an outcome on the map.
fn letter(outcome: Outcome) -> char {
    match outcome {
        Outcome::EnteredArea => 'P',
        Outcome::LeftBoundary => 'O',
        Outcome::HeightLimitOrGround => 'C',
        Outcome::Stalled => 'S',
        Outcome::NeverSettled => 'N',
        Outcome::EnergyOut => 'E',
        Outcome::LateOrUnseen => 'L',
        Outcome::Recovered => '.',
    }
}

fn outcomes(study: &LossStudy) -> String {
    let head = ["", "outcome", "cells, as entered", "cells, any trial", "flights"].map(String::from);
    let flown = study.count().flown;
    let lines = Outcome::ALL.map(|outcome| {
        [
            letter(outcome).to_string(),
            outcome.name().into(),
            study.cells_as_entered(outcome).to_string(),
            study.cells.iter().filter(|cell| cell.worst == outcome).count().to_string(),
            counted(study.flights(outcome), flown, study.ask.confidence),
        ]
    });
    let rows: Vec<_> = std::iter::once(head).chain(lines).collect();
    let told = format!(
        "{} cells of {} m inside the boundary, {} headings each. {}",
        study.cells.len(),
        number(study.cell_m),
        study.ask.headings,
        looked(study)
    );
    table([Left, Left, Right, Right, Left], &rows) + &paragraph("  ", &told)
}

/// A letter is half as wide as high: two letters a cell, or one letter for two cells above each other on a wide map.
fn map(report: &StudyReport, study: &LossStudy) -> String {
    let [columns, rows] = study.size.map(|count| count as usize);
    let wide = columns * 2 + 2 > WIDTH;
    let (tall, repeat) = if wide { (2, 1) } else { (1, 2) };
    let lines = rows.div_ceil(tall);
    let mut worst: Vec<Vec<Option<Outcome>>> = vec![vec![None; columns]; lines];
    for cell in &study.cells {
        let [column, row] = cell.at.map(|at| at as usize);
        if let Some(square) = worst.get_mut(row / tall).and_then(|line| line.get_mut(column)) {
            *square = Some(square.map_or(cell.plan_worst, |known| known.min(cell.plan_worst)));
        }
    }
    let centre = (report.scenario.field.centre - study.corner) / study.cell_m;
    let mut text = String::new();
    for (index, line) in worst.iter().enumerate().rev() {
        let row = line.iter().enumerate().map(|(column, square)| {
            #[allow(clippy::cast_precision_loss, reason = "rows and columns are few")]
            let here = centre.x.floor() == column as f64 && (centre.y / tall as f64).floor() == index as f64;
            let sign = if here { '+' } else { square.map_or(' ', letter) };
            sign.to_string().repeat(repeat)
        });
        text += format!("  {}", row.collect::<String>()).trim_end();
        text.push('\n');
    }
    let scale = number(study.cell_m * f64::from(u32::from(wide) + 1));
    let legend = format!(
        "A line is {scale} m. + centre, P area, people or obstacle, O boundary or flight line, C height limit or ground, S stalled, N never \
         settled, E energy out, L late or unseen, . recovered; blank: outside, or where no flight may be."
    );
    text + &paragraph("  ", &legend)
}

fn home(study: &LossStudy) -> String {
    let longest = |of: fn(&crate::study::losses::Cell) -> Option<[f64; 2]>| {
        let most = study.cells.iter().filter_map(|cell| Some((cell, of(cell)?[1])));
        most.max_by(|(_, a), (_, b)| a.total_cmp(b))
    };
    let time = longest(|cell| cell.home_s).map(|(cell, most)| format!("{most:.0} s, from {}", place(cell.middle)));
    let energy =
        longest(|cell| cell.energy_wh).map(|(cell, most)| format!("{most:.1} Wh, from {}", place(cell.middle)));
    let rows = [("longest time home", time), ("most energy home", energy)];
    let known = rows.into_iter().filter_map(|(name, value)| value.map(|value| [name.to_owned(), value]));
    let known: Vec<_> = known.collect();
    if known.is_empty() { String::new() } else { table([Left, Left], &known) }
}

/// The first loss of every outcome but recovered, so that each can be flown again.
fn replays(study: &LossStudy) -> String {
    let lines = Outcome::ALL.into_iter().filter(|outcome| *outcome != Outcome::Recovered).filter_map(|outcome| {
        let cell = study.cells.iter().find(|cell| cell.worst == outcome)?;
        let loss = cell.replay;
        Some([
            outcome.name().to_owned(),
            place(loss.at),
            format!("{} m up", number(loss.height_m)),
            format!("{} m/s", number(loss.speed_mps)),
            format!("towards {} deg", number(loss.heading_deg)),
            format!("trial {}", loss.trial),
        ])
    });
    let rows: Vec<_> = lines.collect();
    if rows.is_empty() { String::new() } else { table([Left, Right, Right, Right, Right, Right], &rows) }
}
