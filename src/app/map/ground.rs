//! The field itself: land inside and outside, areas with their hatch, tall things, the strip, lines every 100 m.

use glam::DVec2;

use super::sketch::Sketch;
use crate::app::look::hatch::{Hatch, dots, rule};
use crate::app::look::theme::Palette;
use crate::field::{Field, FieldArea, Rule, Runway};
use crate::geometry::Region;

/// Distance between lines of the grid, metres.
pub const GRID_M: f64 = 100.0;
/// Width of the boundary, points of the screen.
const BOUNDARY: f64 = 3.0;
/// Distance between lines of a hatch, points.
const SPACING: f64 = 11.0;
/// A hatch has at most so many lines across an area, however near one looks.
const LINES: f64 = 150.0;

/// The hatch and the place in the palette of a rule; none where the rule rests.
pub fn hatch_of(rule: Rule) -> Option<(Hatch, usize)> {
    match rule {
        Rule::NoFly => Some((Hatch::Crossed, 0)),
        Rule::Above(_) => Some((Hatch::Slanted, 1)),
        Rule::Caution => Some((Hatch::Dotted, 2)),
        Rule::People => Some((Hatch::Upright, 3)),
        Rule::Idle => None,
    }
}

/// The origin of what is drawn, metres.
pub fn origin(field: &Field) -> DVec2 {
    let (low, high) = field.boundary.bounds();
    let middle = (low + high) / 2.0;
    // A boundary that nobody has drawn yet has no middle.
    if middle.is_finite() { middle } else { field.home }
}

/// Draws a field. Widths and spacings are points of the screen, of `metres_a_point` each.
pub fn draw(field: &Field, palette: &Palette, metres_a_point: f64) -> Sketch {
    let px = metres_a_point;
    let mut sketch = Sketch::new(origin(field));
    sketch.fill(&field.boundary, palette.inside);
    grid(&mut sketch, &field.boundary, palette, px);
    if let Some(runway) = field.runway {
        strip(&mut sketch, runway, palette, px);
    }
    for area in &field.areas {
        ground_with_rule(&mut sketch, area, palette, px);
    }
    for obstacle in &field.obstacles {
        tall(&mut sketch, &obstacle.region, palette, px);
    }
    if let Some([a, b]) = field.flight_line_ends {
        let inward = field.flight_line.map_or(DVec2::ZERO, |line| line.inward);
        flight_line(&mut sketch, [a, b], inward, palette, px);
    }
    sketch.edges(&field.boundary, BOUNDARY * px, palette.ink);
    sketch
}

/// Draws only what bounds a flight, over whatever covers the land: edges of areas, tall things, the strip, the flight
/// line, the boundary.
pub fn draw_limits(field: &Field, palette: &Palette, metres_a_point: f64) -> Sketch {
    let px = metres_a_point;
    let mut sketch = Sketch::new(origin(field));
    if let Some(runway) = field.runway {
        strip(&mut sketch, runway, palette, px);
    }
    for area in &field.areas {
        let colour = hatch_of(area.rule).map_or(palette.rule, |(_, colours)| palette.hatch[colours]);
        sketch.edges(&area.region, 5.0 * px, palette.paper);
        sketch.edges(&area.region, 2.0 * px, colour);
    }
    for obstacle in &field.obstacles {
        tall(&mut sketch, &obstacle.region, palette, px);
    }
    if let Some([a, b]) = field.flight_line_ends {
        let inward = field.flight_line.map_or(DVec2::ZERO, |line| line.inward);
        flight_line(&mut sketch, [a, b], inward, palette, px);
    }
    sketch.edges(&field.boundary, (BOUNDARY + 3.0) * px, palette.paper);
    sketch.edges(&field.boundary, BOUNDARY * px, palette.ink);
    sketch
}

fn grid(sketch: &mut Sketch, boundary: &Region, palette: &Palette, px: f64) {
    for direction in [DVec2::X, DVec2::Y] {
        for piece in rule(boundary, direction, GRID_M) {
            sketch.line(piece, px, palette.grid);
        }
    }
}

fn strip(sketch: &mut Sketch, runway: Runway, palette: &Palette, px: f64) {
    // A strip narrower than this would vanish in a view of a large field.
    sketch.line([runway.from, runway.to], runway.width_m.max(5.0 * px), palette.runway);
    let dash = (8.0 * px).max(runway.from.distance(runway.to) / LINES);
    for [from, to] in dashes([runway.from, runway.to], dash, dash) {
        sketch.line([from, to], 1.5 * px, palette.paper);
    }
}

fn ground_with_rule(sketch: &mut Sketch, area: &FieldArea, palette: &Palette, px: f64) {
    let Some((hatch, colours)) = hatch_of(area.rule) else {
        for edge in area.region.edges() {
            let dash = (4.0 * px).max(edge.from.distance(edge.to) / LINES);
            for piece in dashes([edge.from, edge.to], dash, dash) {
                sketch.line(piece, 1.5 * px, palette.rule);
            }
        }
        return;
    };
    let (tint, colour) = (palette.tint[colours], palette.hatch[colours]);
    sketch.fill(&area.region, tint);
    let (low, high) = area.region.bounds();
    let spacing = (SPACING * px).max((high - low).max_element() / LINES);
    let slant = DVec2::new(1.0, 1.0).normalize();
    match hatch {
        Hatch::Crossed => {
            for piece in [slant, slant.perp()].iter().flat_map(|&way| rule(&area.region, way, spacing)) {
                sketch.line(piece, 1.2 * px, colour);
            }
        }
        Hatch::Slanted => {
            for piece in rule(&area.region, slant, spacing * 0.8) {
                sketch.line(piece, 1.2 * px, colour);
            }
        }
        Hatch::Upright => {
            for piece in rule(&area.region, DVec2::Y, spacing * 0.6) {
                sketch.line(piece, 1.6 * px, colour);
            }
        }
        Hatch::Dotted => {
            for dot in dots(&area.region, spacing * 0.8) {
                sketch.dot(dot, 3.0 * px, colour);
            }
        }
    }
    sketch.edges(&area.region, 2.0 * px, colour);
}

fn tall(sketch: &mut Sketch, region: &Region, palette: &Palette, px: f64) {
    if let [ring] = region.rings()
        && let [at] = ring[..]
    {
        // A single mast or tree: a peak, whatever its width.
        let peak = [(-6.0, -5.0), (6.0, -5.0), (0.0, 8.0)].map(|(x, y)| at + DVec2::new(x, y) * px);
        sketch.convex(&peak, palette.obstacle);
    } else {
        sketch.fill(region, palette.obstacle);
        sketch.edges(region, 2.0 * px, palette.obstacle);
    }
}

fn flight_line(sketch: &mut Sketch, [a, b]: [DVec2; 2], inward: DVec2, palette: &Palette, px: f64) {
    sketch.line([a, b], 2.5 * px, palette.ink);
    // Ticks on the side that is out of bounds.
    for [from, _] in dashes([a, b], 0.0, (12.0 * px).max(a.distance(b) / LINES)) {
        sketch.line([from, from - inward * 6.0 * px], 1.5 * px, palette.ink);
    }
}

/// A straight line in pieces `on` long with gaps `off` long.
fn dashes([from, to]: [DVec2; 2], on: f64, off: f64) -> Vec<[DVec2; 2]> {
    let length = from.distance(to);
    let Some(along) = (to - from).try_normalize() else { return Vec::new() };
    let mut pieces = Vec::new();
    let mut at = 0.0;
    while at < length && on + off > 0.0 {
        pieces.push([from + along * at, from + along * (at + on).min(length)]);
        at += on + off;
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::theme::Theme;
    use crate::run::Scenario;

    #[test]
    fn the_built_in_field_is_drawn_in_few_enough_triangles_to_draw_on_every_zoom() {
        let field = Scenario::tight_strip().field;
        for metres_a_point in [0.1, 1.2, 20.0] {
            let sketch = draw(&field, Theme::Light.palette(), metres_a_point);
            assert!((20..400_000).contains(&sketch.triangles()), "{} triangles", sketch.triangles());
        }
    }

    #[test]
    fn dashes_end_where_the_line_ends() {
        let pieces = dashes([DVec2::ZERO, DVec2::new(10.0, 0.0)], 4.0, 2.0);
        assert_eq!(pieces.len(), 2);
        assert!((pieces[1][1].x - 10.0).abs() < 1e-12);
    }
}
