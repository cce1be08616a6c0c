//! Words on the map that neither cover one another nor leave it.

use bevy_egui::egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Stroke, Vec2, vec2};

use crate::app::theme::{Palette, TEXT, bold};

/// Where words may stand about their anchor, in order of preference; x to the right, y down.
const WAYS: [(f32, f32); 8] =
    [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0)];
/// How far from the anchor words may be pushed, points.
const STEPS: [f32; 6] = [0.0, 14.0, 30.0, 50.0, 75.0, 105.0];

/// The room already taken.
#[derive(Debug)]
pub(super) struct Labels {
    room: Rect,
    taken: Vec<Rect>,
}

impl Labels {
    /// Labels inside a rectangle of the screen.
    pub(super) fn new(room: Rect) -> Self {
        Self { room: room.shrink(4.0), taken: Vec::new() }
    }

    /// Keeps words off a rectangle.
    pub(super) fn keep_off(&mut self, rect: Rect) {
        self.taken.push(rect);
    }

    /// Finds room of a size as near as may be to `gap` points from an anchor, and takes it.
    pub(super) fn place(&mut self, anchor: Pos2, size: Vec2, gap: f32) -> Rect {
        let candidates = STEPS.iter().flat_map(|step| {
            WAYS.iter().map(move |&(x, y)| {
                let away = size / 2.0 + Vec2::splat(gap + step);
                Rect::from_center_size(anchor + vec2(x * away.x, y * away.y), size)
            })
        });
        let mut best = (f32::INFINITY, Rect::from_center_size(anchor, size));
        for rect in candidates {
            let outside = rect.area() - rect.intersect(self.room).area().max(0.0);
            let covered: f32 = self.taken.iter().map(|other| overlap(*other, rect)).sum();
            let cost = outside * 4.0 + covered;
            if cost < best.0 {
                best = (cost, rect);
            }
            if cost <= 0.0 {
                break;
            }
        }
        self.keep_off(best.1);
        best.1
    }

    /// Writes words near an anchor, with a thread to it where they had to stand off.
    pub(super) fn write(&mut self, painter: &Painter, palette: &Palette, anchor: Pos2, gap: f32, text: &str) -> Rect {
        let galley = painter.layout_no_wrap(text.to_owned(), FontId::new(14.0, bold()), palette.ink);
        let size = galley.size() + vec2(8.0, 2.0);
        let rect = self.place(anchor, size, gap);
        let nearest = rect.clamp(anchor);
        if nearest.distance(anchor) > gap + 6.0 {
            painter.line_segment([anchor, nearest], Stroke::new(1.0, palette.ink));
        }
        plate(painter, palette, rect);
        painter.galley(rect.min + vec2(4.0, 1.0), galley, palette.ink);
        rect
    }
}

fn overlap(a: Rect, b: Rect) -> f32 {
    let both = a.intersect(b);
    if both.is_positive() { both.area() } else { 0.0 }
}

/// The ground that words on the map stand on.
pub(super) fn plate(painter: &Painter, palette: &Palette, rect: Rect) {
    painter.rect_filled(rect, 3.0, translucent(palette.paper));
}

fn translucent(colour: Color32) -> Color32 {
    Color32::from_rgba_unmultiplied(colour.r(), colour.g(), colour.b(), 225)
}

/// Writes one line of words, with nothing behind them.
pub(super) fn words(painter: &Painter, palette: &Palette, at: Pos2, align: Align2, text: &str) -> Rect {
    painter.text(at, align, text, FontId::proportional(TEXT), palette.ink)
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy_egui::egui::pos2;

    #[test]
    fn labels_at_one_place_stand_clear_of_one_another_and_inside() {
        let room = Rect::from_min_max(pos2(0.0, 0.0), pos2(600.0, 400.0));
        let mut labels = Labels::new(room);
        let placed: Vec<Rect> =
            (0..12).map(|_| labels.place(pos2(590.0, 200.0), vec2(80.0, 18.0), 8.0)).collect();
        for (i, a) in placed.iter().enumerate() {
            assert!(room.contains_rect(*a), "{a:?} is outside");
            for b in &placed[i + 1..] {
                assert!(overlap(*a, *b) <= 0.0, "{a:?} covers {b:?}");
            }
        }
    }
}
