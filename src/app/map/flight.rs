//! The path really flown, one pen a stretch, the part at the bank limit, and the commanded ring apart from both.

use std::ops::Range;

use bevy_egui::egui::{Color32, Painter, Pos2, Shape, Stroke};
use glam::DVec2;

use crate::app::Flown;
use crate::app::lens::Lens;
use crate::app::theme::{Palette, Pen};
use crate::run::{Stretch, Trace};

/// Points of a path nearer than this to the last one drawn are left out, points of the screen.
const FINEST: f32 = 1.0;
/// A bank this near to the limit counts as at it, radians.
const AT_LIMIT: f64 = 0.01;
/// Distance between the rungs that mark the bank limit, points.
const RUNG: f32 = 8.0;
/// The band behind the part at the bank limit: the yellow of Okabe and Ito.
pub(crate) const LIMIT_BAND: Color32 = Color32::from_rgb(0xF0, 0xE4, 0x42);

/// The stretches of a path in the order flown, each with its samples.
pub(crate) fn stretches(trace: &Trace) -> Vec<(Stretch, Range<usize>)> {
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

/// Draws a line with a pen.
pub fn pen_line(painter: &Painter, points: &[Pos2], pen: Pen) {
    let stroke = Stroke::new(pen.width, pen.colour);
    painter.extend(dashes(points, pen.dash).into_iter().map(|dash| Shape::line(dash, stroke)));
}

/// The parts of a line that a dash pattern draws; the whole line for an empty pattern. Dashes bend where the line does.
fn dashes(line: &[Pos2], pattern: &[f32]) -> Vec<Vec<Pos2>> {
    let (Some(&first), true) = (line.first(), pattern.iter().sum::<f32>() > 0.0) else { return vec![line.to_vec()] };
    let mut lengths = pattern.iter().copied().cycle().enumerate();
    let mut dashes = vec![vec![first]];
    let (mut part, mut left) = lengths.next().unwrap_or_default();
    for pair in line.windows(2) {
        let length = pair[0].distance(pair[1]);
        let mut gone = 0.0;
        while gone + left < length {
            gone += left;
            let at = pair[0].lerp(pair[1], gone / length);
            // Even parts of the pattern are drawn, odd ones left out.
            match dashes.last_mut().filter(|_| part % 2 == 0) {
                Some(dash) => dash.push(at),
                None => dashes.push(vec![at]),
            }
            (part, left) = lengths.next().unwrap_or_default();
        }
        left -= length - gone;
        if let Some(dash) = dashes.last_mut().filter(|_| part % 2 == 0) {
            dash.push(pair[1]);
        }
    }
    dashes.retain(|dash| dash.len() > 1);
    dashes
}

/// Draws the ring, the path and the part of it at the bank limit; returns the path on the screen.
pub(super) fn draw(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette) -> Vec<Vec<Pos2>> {
    let trace = &flown.run.trace;
    let limit = flown.run.drawn.jet.bank_limit - AT_LIMIT;
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

fn ring(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette) {
    let hub = flown.scenario.field.hub;
    let radius = flown.scenario.file.recovery.radius.m();
    let around: Vec<Pos2> = (0..=180)
        .map(|step| lens.screen(hub + DVec2::from_angle(f64::from(step).to_radians() * 2.0) * radius))
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

/// Short lines across a line, evenly spaced along it.
pub(crate) fn rungs(line: &[Pos2]) -> Vec<[Pos2; 2]> {
    let mut rungs = Vec::new();
    let mut to_next = RUNG / 2.0;
    for pair in line.windows(2) {
        let along = pair[1] - pair[0];
        let length = along.length();
        if length <= 0.0 {
            continue;
        }
        let side = along.rot90() / length * 6.0;
        while to_next < length {
            let at = pair[0] + along * (to_next / length);
            rungs.push([at - side, at + side]);
            to_next += RUNG;
        }
        to_next -= length;
    }
    rungs
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy_egui::egui::pos2;

    #[test]
    fn stretches_cover_every_sample_once_and_in_order() {
        let trace = Trace {
            x_m: vec![0.0; 5],
            stretch: vec![Stretch::Silence, Stretch::Silence, Stretch::Inbound, Stretch::Join, Stretch::Join],
            ..Trace::default()
        };
        let found = stretches(&trace);
        assert_eq!(found, [(Stretch::Silence, 0..2), (Stretch::Inbound, 2..3), (Stretch::Join, 3..5)]);
    }

    #[test]
    fn dashes_have_their_lengths_whatever_the_samples_are() {
        let fine: Vec<Pos2> = (0..=200_u8).map(|x| pos2(f32::from(x) * 0.3, 5.0)).collect();
        for line in [vec![pos2(0.0, 5.0), pos2(60.0, 5.0)], fine] {
            let ends: Vec<[f32; 2]> =
                dashes(&line, &[16.0, 6.0]).iter().map(|dash| [dash[0].x, dash[dash.len() - 1].x]).collect();
            for (found, expected) in ends.iter().flatten().zip([0.0, 16.0, 22.0, 38.0, 44.0, 60.0]) {
                assert!((found - expected).abs() < 0.01, "{ends:?}");
            }
            assert_eq!(ends.len(), 3);
        }
    }

    #[test]
    fn a_pen_without_gaps_draws_the_line_as_it_is() {
        let line = [pos2(0.0, 0.0), pos2(10.0, 0.0), pos2(10.0, 10.0)];
        assert_eq!(dashes(&line, &[]), [line.to_vec()]);
    }

    #[test]
    fn rungs_are_evenly_spaced_round_corners() {
        let line = [pos2(0.0, 0.0), pos2(10.0, 0.0), pos2(10.0, 10.0)];
        // At 4, 12 and 20 less a hair along a line 20 long.
        assert_eq!(rungs(&line).len(), 2);
    }
}
