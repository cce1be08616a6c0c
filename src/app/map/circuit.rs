//! Where the jet is flown, on the map: a line of its own with heads of arrows for the way round, or the edge of an area.

use bevy_egui::egui::{Painter, Pos2, Rect, Shape, Stroke, vec2};
use glam::DVec2;

use crate::app::look::clip::seen;
use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::pens::pen_line;
use crate::app::look::theme::{Palette, Pen};
use crate::app::session::field_board::circuit::is_area;
use crate::field::{CircuitFile, FieldFile, Loop, Way};

/// From one head of an arrow to the next, points, and fewest and most of them.
const APART: f64 = 110.0;
const HEADS: (f64, f64) = (6.0, 40.0);
/// Over how much of the line an arrow points, metres.
const CHORD_M: f64 = 10.0;

fn corners(flown: &CircuitFile) -> Vec<DVec2> {
    let ring = if is_area(flown) { &flown.area_m } else { &flown.line_m };
    ring.iter().copied().map(DVec2::from_array).collect()
}

/// The closed line on the screen.
fn closed(lens: &Lens, flown: &CircuitFile) -> Vec<Pos2> {
    let corners = corners(flown);
    corners.iter().chain(corners.first()).map(|&at| lens.screen(at)).collect()
}

/// Draws it, as far as a field has one.
pub fn draw(painter: &Painter, lens: &Lens, field: Option<&FieldFile>, palette: &Palette) {
    let Some(flown) = field.and_then(|field| field.circuit.as_ref()) else { return };
    let pieces = seen(&closed(lens, flown), lens.rect.expand(20.0));
    for piece in &pieces {
        pen_line(painter, piece, Pen { colour: palette.paper, width: 6.0, dash: &[] });
    }
    for piece in &pieces {
        pen_line(painter, piece, palette.circuit());
    }
    if is_area(flown) {
        return;
    }
    for (at, course) in arrows(&Loop::new(&corners(flown)), flown.way, lens.metres_a_point) {
        let at = lens.screen(at);
        if lens.rect.contains(at) {
            head(painter, at, course, palette);
        }
    }
}

/// Where heads of arrows stand, metres, and which way each points.
fn arrows(line: &Loop, way: Way, metres_a_point: f64) -> Vec<(DVec2, DVec2)> {
    if line.corners.len() < 2 {
        return Vec::new();
    }
    // An even number, so that of both ways there are as many of each.
    let pairs = (line.length_m() / (2.0 * APART * metres_a_point)).round().clamp(HEADS.0 / 2.0, HEADS.1 / 2.0);
    let count = pairs * 2.0;
    let numbers = std::iter::successors(Some(0.0), |number| Some(number + 1.0)).take_while(|number| *number < count);
    let arrow = |number: f64| {
        let along = line.length_m() * (number + 0.5) / count;
        let against = match way {
            Way::Drawn => false,
            Way::Reversed => true,
            // Every other one points the other way.
            Way::Both => number % 2.0 > 0.5,
        };
        (line.place(along), line.course(along, CHORD_M) * if against { -1.0 } else { 1.0 })
    };
    numbers.map(arrow).collect()
}

fn head(painter: &Painter, at: Pos2, course: DVec2, palette: &Palette) {
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let along = vec2(course.x as f32, -course.y as f32);
    let corners =
        vec![at + along * 9.0, at - along * 6.0 + along.rot90() * 6.5, at - along * 6.0 - along.rot90() * 6.5];
    painter.add(Shape::convex_polygon(corners, palette.circuit().colour, Stroke::new(1.5, palette.ink)));
}

/// Keeps words off it where there is room elsewhere.
pub fn keep_clear(lens: &Lens, field: Option<&FieldFile>, labels: &mut Labels) {
    let Some(flown) = field.and_then(|field| field.circuit.as_ref()) else { return };
    for piece in seen(&closed(lens, flown), lens.rect) {
        for pair in piece.windows(2) {
            labels
                .rather_not(&(0..=30_u8).map(|step| pair[0].lerp(pair[1], f32::from(step) / 30.0)).collect::<Vec<_>>());
        }
    }
}

/// Names it at the corner of it that is furthest to the upper right of what is seen.
pub fn name(painter: &Painter, lens: &Lens, field: Option<&FieldFile>, palette: &Palette, labels: &mut Labels) {
    let Some(flown) = field.and_then(|field| field.circuit.as_ref()) else { return };
    let room: Rect = lens.rect.shrink(30.0);
    let pieces = seen(&closed(lens, flown), room);
    let best = pieces.iter().flatten().max_by(|a, b| (a.x - a.y).total_cmp(&(b.x - b.y)));
    if let Some(&at) = best {
        labels.write(painter, palette, at, 8.0, "circuit");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arrows_point_the_way_flown_and_both_ways_as_often() {
        // Anticlockwise from the south-western corner: along the first side to the east, back along the third.
        let line = Loop::new(&[(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)].map(|(x, y)| DVec2::new(x, y)));
        let middle = DVec2::splat(50.0);
        let turning = |way| -> Vec<f64> {
            let arrows = arrows(&line, way, 0.2);
            arrows.into_iter().map(|(at, course)| (at - middle).perp_dot(course).signum()).collect()
        };
        assert!(turning(Way::Drawn).len() >= 6 && turning(Way::Drawn).iter().all(|turn| *turn > 0.0));
        assert!(turning(Way::Reversed).iter().all(|turn| *turn < 0.0));
        assert_eq!(turning(Way::Both).iter().sum::<f64>(), 0.0);
        assert!(arrows(&Loop::new(&[]), Way::Drawn, 1.0).is_empty());
    }
}
