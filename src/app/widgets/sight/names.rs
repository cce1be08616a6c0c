//! Which names are written into the picture: the nearest first, and none over another.

use bevy_egui::egui::{FontId, Painter, Pos2, Rect, vec2};

use crate::app::look::labels::{nearest, rimmed};
use crate::app::look::theme::{Palette, bold};

/// Size of the letters, points.
const LETTERS: f32 = 13.0;

/// Names that there might be room for.
#[derive(Debug, Default)]
pub(super) struct Names(Vec<(f64, Pos2, String)>);

impl Names {
    /// A name over a point, of something so far away.
    pub(super) fn add(&mut self, away_m: f64, at: Option<Pos2>, name: &str) {
        if let Some(at) = at {
            self.0.push((away_m, at, name.to_owned()));
        }
    }

    /// Writes those that have room. They stand where they stand: in a picture that moves, words that make way would jump.
    pub(super) fn write(mut self, painter: &Painter, palette: &Palette, room: Rect) {
        self.0.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut taken: Vec<Rect> = Vec::new();
        for (_, at, name) in self.0 {
            let galley = painter.layout_no_wrap(name, FontId::new(LETTERS, bold()), palette.ink);
            let size = galley.size();
            let inside = Rect::from_min_max(room.min + vec2(3.0, 3.0), room.max - size - vec2(3.0, 3.0));
            let corner = nearest(inside, at - vec2(size.x / 2.0, size.y + 4.0));
            let rect = Rect::from_min_size(corner, size);
            if taken.iter().all(|other| !other.expand(2.0).intersects(rect)) {
                rimmed(painter, palette, corner, &galley);
                taken.push(rect);
            }
        }
    }
}
