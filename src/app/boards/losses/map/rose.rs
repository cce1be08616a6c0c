//! One sector a heading round the chosen cell: how many of the flights that began on that heading crossed no limit.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Shape, Stroke, Vec2};
use glam::DVec2;

use super::look::ShareStep;
use crate::app::look::labels::nearest;
use crate::app::look::lens::Lens;
use crate::app::look::theme::{Palette, bold};
use crate::study::losses::Cell;
use crate::study::stats::Share;

/// Radius of the hole round the cell and of the rose, points.
const RING: (f32, f32) = (16.0, 62.0);
/// Steps along the arc of a sector.
const ARC: u32 = 8;

pub(super) fn draw(painter: &Painter, lens: &Lens, cell: &Cell, palette: &Palette) {
    let place = lens.screen(cell.middle);
    // A rose at the edge of the map stands beside its cell.
    let middle = nearest(lens.rect.shrink(RING.1 + 8.0), place);
    if middle != place {
        painter.line_segment([place, middle], Stroke::new(2.5, palette.focus));
    }
    let count = cell.by_heading.len();
    painter.circle_stroke(middle, RING.1 + 3.0, Stroke::new(6.0, palette.paper));
    for (index, inside) in cell.by_heading.iter().map(|count| count.inside()).enumerate() {
        #[allow(clippy::cast_precision_loss, reason = "a few headings")]
        let turns = |part: f64| (index as f64 + part) / count as f64;
        let look = ShareStep::of(inside).map(|step| step.look(palette));
        let ground = look.map_or(palette.paper, |look| look.ground);
        // A ring cut into pieces has dents, which the painter does not fill: small pieces have none.
        let edge = |turn: f64, radius: f32| middle + along(turn) * radius;
        for piece in 0..ARC {
            let at = |step: u32| turns(f64::from(step) / f64::from(ARC) - 0.5);
            let corners = vec![
                edge(at(piece), RING.0),
                edge(at(piece), RING.1),
                edge(at(piece + 1), RING.1),
                edge(at(piece + 1), RING.0),
            ];
            painter.add(Shape::convex_polygon(corners, ground, Stroke::new(1.0, ground)));
        }
        let side = along(turns(-0.5));
        painter.line_segment([middle + side * RING.0, middle + side * RING.1], Stroke::new(1.5, palette.ink));
        number(painter, middle + along(turns(0.0)) * (RING.1 * 0.68), inside, palette);
    }
    for radius in [RING.0, RING.1] {
        painter.circle_stroke(middle, radius, Stroke::new(2.0, palette.ink));
    }
}

/// So many of so many, on a plate.
fn number(painter: &Painter, at: Pos2, inside: Share, palette: &Palette) {
    let font = FontId::new(14.0, bold());
    let galley = painter.layout_no_wrap(format!("{}/{}", inside.count, inside.of), font, palette.ink);
    let rect = Align2::CENTER_CENTER.anchor_size(at, galley.size());
    painter.rect_filled(rect.expand2(Vec2::new(2.0, 0.0)), 2.0, palette.paper);
    painter.galley(rect.min, galley, palette.ink);
}

/// A direction on the screen, by its share of a turn clockwise from north.
fn along(turn: f64) -> Vec2 {
    let way = DVec2::from_angle(turn * std::f64::consts::TAU);
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let way = Vec2::new(way.y as f32, -way.x as f32);
    way
}
