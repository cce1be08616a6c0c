//! The path really flown, one pen a stretch, the part at the maximum bank, and the commanded ring apart from both.

use std::ops::Range;

use bevy_egui::egui::{Color32, Painter, Pos2, Stroke};
use glam::DVec2;

use crate::app::look::lens::Lens;
use crate::app::look::pens::{LIMIT_BAND, pen_line, rungs};
use crate::app::look::theme::Palette;
use crate::app::session::Flown;
use crate::run::{Stretch, Trace};

/// Points of a path nearer than this to the last one drawn are left out, points of the screen.
const FINEST: f32 = 1.0;
/// A bank this near to the limit counts as at it, radians.
const AT_LIMIT: f64 = 0.01;
/// The stretches of a path in the order flown, each with its samples.
pub fn stretches(trace: &Trace) -> Vec<(Stretch, Range<usize>)> {
    runs(trace.len(), |index| trace.stretch[index])
}

/// Samples in a row for which `kind` gives the same answer.
fn runs<K: PartialEq>(count: usize, kind: impl Fn(usize) -> K) -> Vec<(K, Range<usize>)> {
    let mut found: Vec<(K, Range<usize>)> = Vec::new();
    for index in 0..count {
        let this = kind(index);
        match found.last_mut() {
            Some((last, range)) if *last == this => range.end = index + 1,
            _ => found.push((this, index..index + 1)),
        }
    }
    found
}

/// Draws the ring, the path and the part of it at the maximum bank; returns the path on the screen.
pub fn draw(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette) -> Vec<Vec<Pos2>> {
    let trace = &flown.run.trace;
    let limit = flown.run.drawn.jet.maximum_bank - AT_LIMIT;
    let at_limit: Vec<Vec<Pos2>> = runs(trace.len(), |index| trace.bank_rad[index].abs() >= limit)
        .into_iter()
        .filter(|(is, _)| *is)
        .flat_map(|(_, range)| visible(lens, trace, range))
        .collect();
    for piece in &at_limit {
        painter.line(piece.clone(), Stroke::new(13.0, LIMIT_BAND));
    }
    let path = visible(lens, trace, 0..trace.len());
    for piece in &path {
        painter.line(piece.clone(), Stroke::new(7.5, palette.paper));
    }
    for piece in &at_limit {
        for rung in rungs(piece) {
            painter.line_segment(rung, Stroke::new(1.2, Color32::BLACK));
        }
    }
    for (stretch, range) in stretches(trace) {
        for piece in visible(lens, trace, range) {
            pen_line(painter, &piece, palette.pen(stretch));
        }
    }
    // Last, so that it shows where the path lies upon it.
    ring(painter, lens, flown, palette);
    path
}

/// A path up to a sample, one pen a stretch; returns it on the screen.
pub fn draw_path(painter: &Painter, lens: &Lens, trace: &Trace, until: usize, palette: &Palette) -> Vec<Vec<Pos2>> {
    let path = visible(lens, trace, 0..until);
    for piece in &path {
        painter.line(piece.clone(), Stroke::new(7.5, palette.paper));
    }
    for (stretch, range) in runs(until, |index| trace.stretch[index]) {
        for piece in visible(lens, trace, range.start..(range.end).min(until.saturating_sub(1))) {
            pen_line(painter, &piece, palette.pen(stretch));
        }
    }
    path
}

/// The commanded ring.
pub fn ring(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette) {
    let centre = flown.scenario.field.centre;
    let radius = flown.scenario.file.recovery.radius.m();
    let around: Vec<Pos2> = (0..=180)
        .map(|step| lens.screen(centre + DVec2::from_angle(f64::from(step).to_radians() * 2.0) * radius))
        .collect();
    pen_line(painter, &around, palette.ring());
}

/// Samples as lines on the screen: as fine as can be seen, and only what is on it.
fn visible(lens: &Lens, trace: &Trace, range: Range<usize>) -> Vec<Vec<Pos2>> {
    let room = lens.rect.expand(40.0);
    // One sample more than asked for, so that each stretch reaches the next.
    let last = (range.end + 1).min(trace.len());
    let mut pieces: Vec<Vec<Pos2>> = vec![Vec::new()];
    let mut before: Option<Pos2> = None;
    for index in range.start..last {
        let at = lens.screen(trace.point(index));
        let Some(previous) = before else {
            before = Some(at);
            continue;
        };
        if previous.distance(at) < FINEST && index + 1 < last {
            continue;
        }
        let seen = room.contains(previous) || room.contains(at);
        if let Some(piece) = pieces.last_mut().filter(|_| seen) {
            if piece.is_empty() {
                piece.push(previous);
            }
            piece.push(at);
        } else if pieces.last().is_some_and(|piece| !piece.is_empty()) {
            pieces.push(Vec::new());
        }
        before = Some(at);
    }
    pieces.retain(|piece| piece.len() > 1);
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_cover_every_sample_once_and_in_order() {
        let trace = Trace {
            x_m: vec![0.0; 5],
            stretch: vec![
                Stretch::BeforeFailsafe,
                Stretch::BeforeFailsafe,
                Stretch::HeadingHome,
                Stretch::Joining,
                Stretch::Joining,
            ],
            ..Trace::default()
        };
        let found = stretches(&trace);
        assert_eq!(found, [(Stretch::BeforeFailsafe, 0..2), (Stretch::HeadingHome, 2..3), (Stretch::Joining, 3..5)]);
    }
}
