//! The loss map's own part of the JSON.

use glam::DVec2;
use serde::Serialize;
use serde_json::{Map, Value};

use super::blocks::Point;
use super::keep::KeepInside;
use super::trials::{Counts, outcomes};
use crate::margins::Outcome;
use crate::study::losses::{self, LossStudy};

#[derive(Serialize)]
pub(super) struct Losses<'a> {
    headings: u32,
    heights_m: &'a [f64],
    speeds_mps: &'a [f64],
    trials: Trials,
    most_trials: u64,
    confidence: f64,
    grid: Grid,
    cells_as_entered: Map<String, Value>,
    flown: u64,
    cells_not_checked_closely: usize,
    outcomes: Map<String, Value>,
    keep_inside: Option<KeepInside<'a>>,
    turn_back_m: &'a [Vec<DVec2>],
    no_return_m: &'a [DVec2],
    cells: Vec<Cell>,
}

#[derive(Serialize)]
struct Grid {
    corner: Point,
    cell_m: f64,
    columns: u32,
    rows: u32,
}

#[derive(Serialize)]
struct Cell {
    column: u32,
    row: u32,
    middle: Point,
    as_entered: &'static str,
    worst: &'static str,
    outcomes: Map<String, Value>,
    flown: u64,
    trials: Trials,
    checked_closely: bool,
    crossed_kept_and_flown_by_heading: Vec<[u64; 3]>,
    home_middle_and_longest_s: Option<[f64; 2]>,
    energy_middle_and_most_wh: Option<[f64; 2]>,
    replay: Replay,
}

#[derive(Serialize)]
struct Trials {
    flown: u64,
    #[serde(flatten)]
    counts: Counts,
}

#[derive(Serialize)]
struct Replay {
    at: Point,
    heading_deg: f64,
    height_m: f64,
    airspeed_mps: f64,
    trial: u64,
}

impl<'a> From<&'a LossStudy> for Losses<'a> {
    fn from(study: &'a LossStudy) -> Self {
        let ask = &study.ask;
        let entered = Outcome::ALL.map(|outcome| study.cells_as_entered(outcome) as u64);
        Self {
            headings: ask.headings,
            heights_m: &ask.heights_m,
            speeds_mps: &ask.speeds_mps,
            trials: Trials::new(study.trials(), ask.confidence),
            most_trials: ask.trials,
            confidence: ask.confidence,
            grid: Grid {
                corner: study.corner.into(),
                cell_m: study.cell_m,
                columns: study.size[0],
                rows: study.size[1],
            },
            cells_as_entered: outcomes(&entered),
            flown: study.count().flown,
            cells_not_checked_closely: study.not_checked_closely(),
            outcomes: outcomes(&Outcome::ALL.map(|outcome| study.flights(outcome))),
            keep_inside: study.keep_inside.as_ref().map(Into::into),
            turn_back_m: &study.turn_back,
            no_return_m: &study.no_return,
            cells: study.cells.iter().map(|cell| Cell::new(cell, ask.confidence)).collect(),
        }
    }
}

impl Cell {
    fn new(cell: &losses::Cell, confidence: f64) -> Self {
        let by_heading = cell.by_heading.iter().map(|count| [count.crossed, count.kept, count.flown]);
        let replay = cell.replay;
        Self {
            column: cell.at[0],
            row: cell.at[1],
            middle: cell.middle.into(),
            as_entered: cell.plan_worst.name(),
            worst: cell.worst.name(),
            outcomes: outcomes(&cell.outcomes),
            flown: cell.count.flown,
            trials: Trials::new(cell.trials, confidence),
            checked_closely: cell.checked_closely(),
            crossed_kept_and_flown_by_heading: by_heading.collect(),
            home_middle_and_longest_s: cell.home_s,
            energy_middle_and_most_wh: cell.energy_wh,
            replay: Replay {
                at: replay.at.into(),
                heading_deg: replay.heading_deg,
                height_m: replay.height_m,
                airspeed_mps: replay.speed_mps,
                trial: replay.trial,
            },
        }
    }
}

impl Trials {
    fn new(count: losses::Count, confidence: f64) -> Self {
        Self { flown: count.flown, counts: Counts::new([count.crossed, count.kept], count.flown, confidence) }
    }
}
