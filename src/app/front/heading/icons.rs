//! Signs on the small buttons of the heading, drawn, so that no font has to have them.

use std::f32::consts::PI;

use bevy_egui::egui::{Color32, Painter, Pos2, Shape, Stroke, Vec2, pos2, vec2};

/// A sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Icon {
    /// An arrow that turns back.
    Back,
    /// An arrow that turns forth.
    Forth,
    /// A frame round everything.
    Whole,
    /// Plus.
    Plus,
    /// Minus.
    Minus,
}

impl Icon {
    /// Paints it about a point.
    pub(super) fn paint(self, painter: &Painter, at: Pos2, ink: Color32) {
        let pen = Stroke::new(2.0, ink);
        let line = |from: Vec2, to: Vec2| {
            painter.line_segment([at + from, at + to], pen);
        };
        match self {
            Self::Back => turn(painter, at, -1.0, pen),
            Self::Forth => turn(painter, at, 1.0, pen),
            Self::Plus => {
                line(vec2(-6.0, 0.0), vec2(6.0, 0.0));
                line(vec2(0.0, -6.0), vec2(0.0, 6.0));
            }
            Self::Minus => line(vec2(-6.0, 0.0), vec2(6.0, 0.0)),
            Self::Whole => {
                for (x, y) in [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)] {
                    let corner = vec2(8.0 * x, 7.0 * y);
                    line(corner, corner - vec2(5.0 * x, 0.0));
                    line(corner, corner - vec2(0.0, 5.0 * y));
                }
            }
        }
    }
}

/// Half a turn over the top, ending in an arrow head on the side of `way`.
fn turn(painter: &Painter, at: Pos2, way: f32, pen: Stroke) {
    let at = at + vec2(0.0, 2.0);
    let arc = (0..=14).map(|step| {
        let angle = PI * (step as f32 / 14.0) * 1.15 - 0.15 * PI;
        pos2(at.x + way * 7.0 * angle.cos(), at.y - 7.0 * angle.sin())
    });
    painter.add(Shape::line(arc.skip(2).collect(), pen));
    let tip = at + vec2(way * 7.0, 5.0);
    let head = vec![tip, tip + vec2(-5.0, -6.0), tip + vec2(5.0, -6.0)];
    painter.add(Shape::convex_polygon(head, pen.color, Stroke::NONE));
}
