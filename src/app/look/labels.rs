//! Words on the map that neither cover one another nor leave it.

use std::sync::Arc;

use bevy_egui::egui::{Align2, Color32, FontId, Galley, Painter, Pos2, Rect, Stroke, Vec2, vec2};

use crate::app::look::theme::{Palette, TEXT, bold};

/// Where words may stand about their anchor, in order of preference; x to the right, y down.
const WAYS: [(f32, f32); 8] =
    [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0)];
/// Room round words on their ground, points.
const MARGIN: Vec2 = Vec2::new(4.0, 1.0);
/// Width of the rim of letters, points, and in how many parts it is painted round them.
const RIM: f32 = 2.0;
const RIM_PARTS: u8 = 12;
/// How finely a line is followed that words had better not cover, points.
const COARSE: f32 = 8.0;
/// Longest line of words, points.
const WIDEST: f32 = 230.0;
/// How far from the anchor words may be pushed, points.
const STEPS: [f32; 6] = [0.0, 14.0, 30.0, 50.0, 75.0, 105.0];

/// The room already taken.
#[derive(Debug)]
pub struct Labels {
    room: Rect,
    taken: Vec<Rect>,
    disliked: Vec<Rect>,
}

impl Labels {
    /// Labels inside a rectangle of the screen.
    pub fn new(room: Rect) -> Self {
        Self { room: room.shrink(4.0), taken: Vec::new(), disliked: Vec::new() }
    }

    /// Keeps words off a rectangle.
    pub fn keep_off(&mut self, rect: Rect) {
        self.taken.push(rect);
    }

    /// Keeps words off a line where there is room elsewhere.
    pub fn rather_not(&mut self, line: &[Pos2]) {
        let mut last = None;
        for &at in line {
            if last.is_none_or(|before: Pos2| before.distance(at) >= COARSE) {
                self.disliked.push(Rect::from_center_size(at, Vec2::splat(COARSE)));
                last = Some(at);
            }
        }
    }

    /// The place itself where it is free, and otherwise room as near as may be; takes it.
    pub fn seat(&mut self, at: Pos2, size: Vec2) -> Rect {
        let rect = Rect::from_center_size(at, size);
        if self.is_taken(rect) {
            return self.place(Rect::from_pos(at), size, 4.0);
        }
        self.keep_off(rect);
        rect
    }

    fn is_taken(&self, rect: Rect) -> bool {
        self.taken.iter().any(|other| overlap(*other, rect) > 0.0)
    }

    /// Finds room of a size as near as may be to `gap` points from what it belongs to, and takes it.
    pub fn place(&mut self, anchor: Rect, size: Vec2, gap: f32) -> Rect {
        let candidates = STEPS.iter().flat_map(|step| {
            WAYS.iter().map(move |&(x, y)| {
                let away = (size + anchor.size()) / 2.0 + Vec2::splat(gap + step);
                // Pushed out, words are better a little off than far off.
                (step * 6.0, Rect::from_center_size(anchor.center() + vec2(x * away.x, y * away.y), size))
            })
        });
        let mut best = (f32::INFINITY, Rect::from_center_size(anchor.center(), size));
        for (far, rect) in candidates {
            let outside = rect.area() - rect.intersect(self.room).area().max(0.0);
            let covered = |taken: &[Rect]| taken.iter().map(|other| overlap(*other, rect)).sum::<f32>();
            let cost = far + outside * 4.0 + covered(&self.taken) * 4.0 + covered(&self.disliked) * 0.7;
            if cost < best.0 {
                best = (cost, rect);
            }
        }
        self.keep_off(best.1);
        best.1
    }

    /// Writes words near an anchor, with a thread to it where they had to stand off.
    pub fn write(&mut self, painter: &Painter, palette: &Palette, anchor: Pos2, gap: f32, text: &str) {
        let galley = lettering(painter, palette, text);
        let rect = self.place(Rect::from_pos(anchor), galley.size() + MARGIN * 2.0, gap);
        self.put(painter, palette, (anchor, gap), rect, galley);
    }

    fn put(&self, painter: &Painter, palette: &Palette, (anchor, gap): (Pos2, f32), rect: Rect, galley: Arc<Galley>) {
        let nearest = nearest(rect, anchor);
        if nearest.distance(anchor) > gap + 6.0 {
            painter.line_segment([anchor, nearest], Stroke::new(1.0, palette.ink));
        }
        rimmed(painter, palette, rect.min + MARGIN, &galley);
    }

    /// Writes the name of an area: in its middle where it has room, and otherwise beside it.
    pub fn name(&mut self, painter: &Painter, palette: &Palette, (middle, area): (Pos2, Rect), text: &str) {
        let galley = lettering(painter, palette, text);
        let size = galley.size() + MARGIN * 2.0;
        let inside = Rect::from_center_size(middle, size);
        if !self.is_taken(inside) && area.contains_rect(inside) && self.room.contains_rect(inside) {
            self.keep_off(inside);
            self.put(painter, palette, (middle, 0.0), inside, galley);
        } else {
            let area = area.intersect(self.room);
            self.keep_off(area);
            let rect = self.place(area, size, 2.0);
            self.put(painter, palette, (nearest(area, rect.center()), 2.0), rect, galley);
        }
    }
}

fn lettering(painter: &Painter, palette: &Palette, text: &str) -> Arc<Galley> {
    painter.layout(text.to_owned(), FontId::new(14.0, bold()), palette.ink, WIDEST)
}

/// The place in a rectangle nearest to another. What is left of a small map between wide margins may have its least above
/// its most: then it is the middle.
pub fn nearest(room: Rect, to: Pos2) -> Pos2 {
    let along = |low: f32, high: f32, to: f32| match low.midpoint(high) {
        _ if low <= high => to.max(low).min(high),
        middle if middle.is_finite() => middle,
        _ => to,
    };
    Pos2::new(along(room.min.x, room.max.x, to.x), along(room.min.y, room.max.y, to.y))
}

fn overlap(a: Rect, b: Rect) -> f32 {
    let both = a.intersect(b);
    if both.is_positive() { both.area() } else { 0.0 }
}

/// Letters with a rim of paper, which keeps them apart from whatever lies below and hides little of it.
pub fn rimmed(painter: &Painter, palette: &Palette, at: Pos2, galley: &Arc<Galley>) {
    for part in 0..RIM_PARTS {
        let away = Vec2::angled(f32::from(part) * std::f32::consts::TAU / f32::from(RIM_PARTS)) * RIM;
        painter.galley_with_override_text_color(at + away, Arc::clone(galley), palette.paper);
    }
    painter.galley(at, Arc::clone(galley), palette.ink);
}

/// The ground that an instrument on the map stands on.
pub fn plate(painter: &Painter, palette: &Palette, rect: Rect) {
    painter.rect_filled(rect, 3.0, translucent(palette.paper));
}

fn translucent(colour: Color32) -> Color32 {
    Color32::from_rgba_unmultiplied(colour.r(), colour.g(), colour.b(), 225)
}

/// Writes one line of words, with nothing behind them.
pub fn words(painter: &Painter, palette: &Palette, at: Pos2, align: Align2, text: &str) -> Rect {
    painter.text(at, align, text, FontId::proportional(TEXT), palette.ink)
}

#[cfg(test)]
mod tests {
    use super::*;
    use bevy_egui::egui::pos2;

    #[test]
    fn the_nearest_place_is_inside_or_the_middle_where_there_is_no_inside() {
        let room = Rect::from_min_max(pos2(0.0, 0.0), pos2(10.0, 20.0));
        for (to, expected) in [
            (pos2(5.0, 5.0), pos2(5.0, 5.0)),
            (pos2(-3.0, 30.0), pos2(0.0, 20.0)),
            (pos2(f32::INFINITY, 1.0), pos2(10.0, 1.0)),
        ] {
            assert_eq!(nearest(room, to), expected);
        }
        // Wider than the room on both sides: what shrinking leaves has its least above its most.
        assert_eq!(nearest(room.shrink2(vec2(8.0, 0.0)), pos2(1.0, 3.0)), pos2(5.0, 3.0));
        assert_eq!(nearest(Rect::NOTHING, pos2(1.0, 3.0)), pos2(1.0, 3.0));
    }

    #[test]
    fn labels_at_one_place_stand_clear_of_one_another_and_inside() {
        let room = Rect::from_min_max(pos2(0.0, 0.0), pos2(600.0, 400.0));
        let mut labels = Labels::new(room);
        let placed: Vec<Rect> =
            (0..7).map(|_| labels.place(Rect::from_pos(pos2(590.0, 200.0)), vec2(80.0, 18.0), 8.0)).collect();
        for (i, a) in placed.iter().enumerate() {
            assert!(room.contains_rect(*a), "{a:?} is outside");
            for b in &placed[i + 1..] {
                assert!(overlap(*a, *b) <= 0.0, "{a:?} covers {b:?}");
            }
        }
    }
}
