//! The keep-inside lines, for other programs.

use serde::Serialize;

use super::blocks::Point;
use crate::study::keep_inside::{self, Headings, KeepLine, Pace};

/// All lines: distances from the centre, clockwise from north.
#[derive(Serialize)]
pub(super) struct KeepInside<'a> {
    centre: Point,
    bearings: u32,
    step_m: f64,
    most_trials: u64,
    partial: bool,
    lines: Vec<Line<'a>>,
}

/// What a line rests on.
#[derive(Serialize)]
pub(in crate::report) struct Line<'a> {
    role: &'static str,
    headings: &'static str,
    speed: &'static str,
    speed_mps: f64,
    crossed_at_most_share: f64,
    confidence: f64,
    trials: u64,
    centre_crossed: u64,
    centre_trials: u64,
    limit: Option<&'a str>,
    known_inside_m: Vec<f64>,
    known_outside_m: Vec<f64>,
}

impl<'a> From<&'a keep_inside::KeepInside> for KeepInside<'a> {
    fn from(keep: &'a keep_inside::KeepInside) -> Self {
        Self {
            centre: keep.centre.into(),
            bearings: keep.ask.bearings,
            step_m: keep.ask.step_m,
            most_trials: keep.ask.most,
            partial: keep.partial,
            lines: keep.lines.iter().map(|line| Line::new(keep, line)).collect(),
        }
    }
}

impl<'a> Line<'a> {
    pub(in crate::report) fn new(keep: &'a keep_inside::KeepInside, line: &KeepLine) -> Self {
        Self {
            role: "keep-inside",
            headings: match line.headings {
                Headings::Circuit => "circuit",
                Headings::Any => "any",
            },
            speed: match line.pace {
                Pace::Return => "return",
                Pace::Fastest => "fastest",
            },
            speed_mps: line.speed_mps,
            crossed_at_most_share: keep.ask.crossed_at_most,
            confidence: keep.ask.confidence,
            trials: line.trials,
            centre_crossed: line.centre.count,
            centre_trials: line.centre.of,
            limit: line.limit.and_then(|index| keep.limits.get(index)).map(|info| info.name.as_str()),
            known_inside_m: line.bounds.iter().map(|bounds| bounds.inside_m).collect(),
            known_outside_m: line.bounds.iter().map(|bounds| bounds.outside_m).collect(),
        }
    }
}
