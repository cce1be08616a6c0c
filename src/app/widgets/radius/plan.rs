//! The plan's radius through ruler and curve, and how far out the flight on the screen goes.

use bevy_egui::egui::{Align2, Pos2, Rect, Shape, Stroke, Ui, pos2, vec2};

use crate::app::look::chart::{plate, width};
use crate::app::look::sheet::Laid;
use crate::app::session::{Flown, View};
use crate::draw::Axes;
use crate::report::picture::PictureUnit;

/// Draws them over a chart: `room` is what its ruler and curve take.
pub(super) fn draw(ui: &Ui, view: &View<'_>, laid: &Laid, axes: &Axes, unit: PictureUnit<'_>, room: Rect) {
    let (painter, palette) = (ui.painter(), view.palette);
    let radius = view.session.draft.file().recovery.radius.m();
    let place = |distance_m: f64| laid.at(axes.at(unit.of(radius), unit.of(distance_m)));
    let top = pos2(place(0.0).x, room.top());
    painter.line_segment([top - vec2(0.0, 4.0), pos2(top.x, room.bottom())], Stroke::new(2.5, palette.focus));
    let pointer: Vec<Pos2> = [(0.0, 0.0), (-6.0, -10.0), (6.0, -10.0)].map(|(x, y)| top + vec2(x, y)).to_vec();
    painter.add(Shape::convex_polygon(pointer, palette.focus, Stroke::new(1.5, palette.ink)));
    let words = format!("plan: {}", view.metres(radius));
    let fits = top.x + 12.0 + width(painter, &words) < room.right();
    let (away, align) = if fits { (11.0, Align2::LEFT_BOTTOM) } else { (-11.0, Align2::RIGHT_BOTTOM) };
    plate(painter, palette, top + vec2(away, -1.0), align, room, &words);
    let furthest = |flown: &Flown| flown.margins.figures.furthest_m;
    if let Some(at) = view.session.flown.as_ref().and_then(furthest).map(place).filter(|at| room.contains(*at)) {
        painter.circle(at, 6.5, palette.focus, Stroke::new(2.5, palette.paper));
        painter.circle_stroke(at, 7.5, Stroke::new(1.5, palette.ink));
    }
}
