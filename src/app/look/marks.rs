//! The shapes that stand for a verdict and for what trials say, known without their colour.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, vec2};

use crate::app::look::theme::{Palette, bold};
use crate::margins::Verdict;
use crate::study::verdict::Answer;

/// The shape of a verdict: round clear, square counted, three-cornered inside the buffer, four-cornered and barred
/// crossed.
pub fn verdict_mark(painter: &Painter, at: Pos2, size: f32, verdict: Verdict, palette: &Palette) {
    let colour = palette.verdict(verdict);
    let stroke = Stroke::new(1.8, palette.ink);
    let corners = |corners: &[(f32, f32)]| {
        let points = corners.iter().map(|&(x, y)| at + vec2(x, y) * size).collect();
        painter.add(Shape::convex_polygon(points, colour, stroke));
    };
    match verdict {
        Verdict::Clear => {
            painter.circle(at, size * 0.85, colour, stroke);
        }
        Verdict::Counted => {
            let square = Rect::from_center_size(at, Vec2::splat(size * 1.6));
            painter.rect(square, 0.0, colour, stroke, StrokeKind::Middle);
        }
        Verdict::InsideBuffer => corners(&[(0.0, -1.1), (1.05, 0.8), (-1.05, 0.8)]),
        Verdict::Crossed => {
            corners(&[(0.0, -1.2), (1.2, 0.0), (0.0, 1.2), (-1.2, 0.0)]);
            for (x, y) in [(0.5, 0.5), (0.5, -0.5)] {
                painter.line_segment([at - vec2(x, y) * size, at + vec2(x, y) * size], stroke);
            }
        }
    }
}

/// The shape of what trials say: round where they say yes, four-cornered and crossed where no, round with a question mark
/// where undecided; an empty ring, grey, where they have not been asked.
pub fn answer_mark(painter: &Painter, at: Pos2, size: f32, answer: Option<Answer>, palette: &Palette) {
    match answer {
        Some(Answer::Yes) => verdict_mark(painter, at, size, Verdict::Clear, palette),
        Some(Answer::No) => verdict_mark(painter, at, size, Verdict::Crossed, palette),
        Some(Answer::Undecided) => {
            painter.circle(at, size, palette.paper, Stroke::new(1.8, palette.ink));
            let font = FontId::new(1.8 * size, bold());
            painter.text(at, Align2::CENTER_CENTER, "?", font, palette.ink);
        }
        None => {
            painter.circle_stroke(at, size * 0.85, Stroke::new(1.8, palette.soft));
        }
    }
}
