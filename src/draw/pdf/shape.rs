//! Lines and surfaces on a page of PDF.

use glam::DVec2;
use krilla::geom::PathBuilder;
use krilla::paint::{Fill as Surfacing, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;

use super::{colour, short};
use crate::draw::hatch::{dash_mm, lines, width_mm};
use crate::draw::tiles::tiles;
use crate::draw::{Fill, Hatch, Mark, Path, Pen};

/// From the end of a quarter of a circle to its handle, radii: the curve is off by less than 0.03 % (value from memory).
const HANDLE: f64 = 0.552_284_75;

/// Draws a shape, or several that are alike, on a sheet of a size, mm.
pub(super) fn shapes(surface: &mut Surface, run: &[Mark], size: DVec2) {
    if let Some((path, fill)) = tiles(run) {
        return shape(surface, &path, None, fill, FillRule::NonZero, size);
    }
    if let [Mark::Shape { path, pen, fill, .. }] = run {
        let rule = if path.leaves_out_even() { FillRule::EvenOdd } else { FillRule::NonZero };
        shape(surface, path, pen.as_ref(), *fill, rule, size);
    }
}

fn shape(surface: &mut Surface, path: &Path, pen: Option<&Pen>, fill: Fill, rule: FillRule, size: DVec2) {
    let Some(course) = course(path) else { return };
    let ground = match fill {
        Fill::None => None,
        Fill::Plain(ink) => Some(ink),
        Fill::Hatch(hatch) => hatch.ground,
    };
    if let Some(ink) = ground {
        surface.set_fill(Some(Surfacing { paint: colour(ink).into(), rule, ..Surfacing::default() }));
        surface.set_stroke(None);
        surface.draw_path(&course);
    }
    if let Fill::Hatch(hatch) = fill {
        surface.push_clip_path(&course, &rule);
        hatched(surface, hatch, &lines(hatch, path, size));
        surface.pop();
    }
    if let Some(pen) = pen {
        surface.set_fill(None);
        surface.set_stroke(Some(stroke(pen)));
        surface.draw_path(&course);
    }
}

fn hatched(surface: &mut Surface, hatch: Hatch, lines: &[[DVec2; 2]]) {
    let mut path = PathBuilder::new();
    for [[ax, ay], [bx, by]] in lines.iter().map(|line| line.map(|end| end.to_array().map(short))) {
        path.move_to(ax, ay);
        path.line_to(bx, by);
    }
    let Some(path) = path.finish() else { return };
    let mut stroke = stroke(&Pen::plain(hatch.ink, width_mm(hatch)));
    if let Some(dash) = dash_mm(hatch) {
        stroke.dash = Some(StrokeDash { array: dash.map(short).into(), offset: 0.0 });
        stroke.line_cap = LineCap::Round;
    }
    surface.set_fill(None);
    surface.set_stroke(Some(stroke));
    surface.draw_path(&path);
}

/// A line as a pen draws it.
fn stroke(pen: &Pen) -> Stroke {
    let dashes = pen.dash_mm.iter().all(|length| length.is_finite() && *length >= 0.0);
    let some = dashes && pen.dash_mm.iter().sum::<f64>() > 0.0;
    Stroke {
        paint: colour(pen.ink).into(),
        width: short(pen.width_mm),
        line_join: LineJoin::Round,
        dash: some
            .then(|| StrokeDash { array: pen.dash_mm.iter().map(|length| short(*length)).collect(), offset: 0.0 }),
        ..Stroke::default()
    }
}

/// A course of straight pieces, or a circle of four curves; none where it goes nowhere.
pub(super) fn course(path: &Path) -> Option<krilla::geom::Path> {
    let mut pen = PathBuilder::new();
    let mut through = |points: &[DVec2], close: bool| {
        for (index, [x, y]) in points.iter().map(|point| point.to_array().map(short)).enumerate() {
            if index == 0 { pen.move_to(x, y) } else { pen.line_to(x, y) }
        }
        if close && !points.is_empty() {
            pen.close();
        }
    };
    match path {
        Path::Open(points) => through(points, false),
        Path::Rings(rings) => rings.iter().for_each(|ring| through(ring, true)),
        Path::Circle(middle, radius) => circle(&mut pen, *middle, *radius),
    }
    pen.finish()
}

fn circle(pen: &mut PathBuilder, middle: DVec2, radius: f64) {
    let mut at = DVec2::X * radius;
    let place = |away: DVec2| (middle + away).to_array().map(short);
    let [x, y] = place(at);
    pen.move_to(x, y);
    for _ in 0..4 {
        let to = at.perp();
        let ([ax, ay], [bx, by], [x, y]) = (place(at + to * HANDLE), place(to + at * HANDLE), place(to));
        pen.cubic_to(ax, ay, bx, by, x, y);
        at = to;
    }
    pen.close();
}
