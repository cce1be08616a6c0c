//! The jet at the play head.

use bevy_egui::egui::{Painter, Pos2, Shape, Stroke, vec2};
use glam::DVec2;

use crate::app::look::lens::Lens;
use crate::app::look::theme::Palette;
use crate::app::session::Flown;
use crate::run::Trace;

/// Size of the jet with the clearing round it, points.
pub const JET: f32 = 44.0;

/// Where the jet is on the screen.
pub fn jet_on_screen(lens: &Lens, flown: &Flown, at_s: f64) -> Option<Pos2> {
    let trace = &flown.run.trace;
    (!trace.is_empty()).then(|| lens.screen(trace.point_between(flown.sample_at(at_s))))
}

/// The jet at the play head, seen from above, nose first.
pub fn draw(painter: &Painter, lens: &Lens, flown: &Flown, at_s: f64, palette: &Palette) {
    let Some(at) = jet_on_screen(lens, flown, at_s) else { return };
    let trace = &flown.run.trace;
    let sample = flown.sample_at(at_s);
    let nose = DVec2::new(Trace::between(&trace.nose_x, sample), Trace::between(&trace.nose_y, sample));
    draw_at(painter, at, nose, palette);
}

/// A jet at a point of the screen.
pub fn draw_at(painter: &Painter, at: Pos2, nose: DVec2, palette: &Palette) {
    let nose = nose.try_normalize().unwrap_or(DVec2::Y);
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let (ahead, right) = (vec2(nose.x as f32, -nose.y as f32), vec2(nose.y as f32, nose.x as f32));
    let part =
        |points: &[(f32, f32)]| -> Vec<Pos2> { points.iter().map(|&(x, y)| at + right * x + ahead * y).collect() };
    // A swept wing and a body; each is without dents, as the painter wants.
    let wing_left = part(&[(0.0, 5.0), (-15.0, -9.0), (-15.0, -13.0), (0.0, -6.0)]);
    let wing_right = part(&[(0.0, 5.0), (15.0, -9.0), (15.0, -13.0), (0.0, -6.0)]);
    let body = part(&[(0.0, 19.0), (3.2, 8.0), (3.2, -14.0), (-3.2, -14.0), (-3.2, 8.0)]);
    let tail = part(&[(0.0, -9.0), (7.0, -17.0), (-7.0, -17.0)]);
    painter.circle_filled(at, JET / 2.0, palette.paper.gamma_multiply(0.55));
    for shape in [wing_left, wing_right, tail, body] {
        painter.add(Shape::convex_polygon(shape, palette.ink, Stroke::new(1.0, palette.paper)));
    }
}
