//! A hatch on a page of PDF: its lines themselves, clipped by the surface. Viewers make tiles of a pattern, blurred or with
//! seams between them; lines stay lines on paper.

use glam::DVec2;
use krilla::geom::PathBuilder;
use krilla::paint::{LineCap, Stroke, StrokeDash};
use krilla::surface::Surface;

use super::shape::stroke;
use super::short;
use crate::report::draw::sheet::corners;
use crate::report::draw::{Hatch, Pen};

/// Draws the lines that cross an upright rectangle, in step with those of every other surface of the sheet.
pub(super) fn draw(surface: &mut Surface, hatch: Hatch, low: DVec2, high: DVec2) {
    if !(low.cmplt(high).all()) {
        return;
    }
    let along = DVec2::from_angle(hatch.turned_deg().to_radians());
    let (level, upright) = hatch.families();
    let (pen, step) = (Pen::plain(hatch.ink, hatch.line_mm()), hatch.step_mm());
    let mut path = PathBuilder::new();
    if level {
        lines(&mut path, along, step, low, high);
    }
    if upright {
        lines(&mut path, along.perp(), step, low, high);
    }
    let mut pen = stroke(&pen);
    if let Some(radius) = hatch.dot_mm() {
        // A dash without length and with round ends is a dot.
        lines(&mut path, along, step, low, high);
        let dots = StrokeDash { array: vec![0.0, short(step)], offset: 0.0 };
        pen = Stroke { width: short(2.0 * radius), line_cap: LineCap::Round, dash: Some(dots), ..pen };
    }
    if let Some(path) = path.finish() {
        surface.set_fill(None);
        surface.set_stroke(Some(pen));
        surface.draw_path(&path);
    }
}

/// Lines half a step and whole steps from the corner of the sheet, each begun half a step and whole steps along.
fn lines(path: &mut PathBuilder, along: DVec2, step: f64, low: DVec2, high: DVec2) {
    let across = along.perp();
    let reach = |way: DVec2| {
        let shares = corners(low, high).map(|corner| corner.dot(way) / step - 0.5);
        let fold = |pick: fn(f64, f64) -> f64| shares.into_iter().reduce(pick).unwrap_or_default();
        (fold(f64::min).floor(), fold(f64::max).ceil())
    };
    let ((begin, end), (first, last)) = (reach(along), reach(across));
    let mut line = first;
    while line <= last {
        let at = |share: f64| (along * (share + 0.5) * step + across * (line + 0.5) * step).to_array().map(short);
        let ([ax, ay], [bx, by]) = (at(begin), at(end));
        path.move_to(ax, ay);
        path.line_to(bx, by);
        line += 1.0;
    }
}
