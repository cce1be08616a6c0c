//! What charts are painted with: straight axes, and words that stand on a ground of their own.

use bevy_egui::egui::{
    Align, Align2, Color32, FontId, Layout, Painter, Pos2, Rect, Response, Stroke, StrokeKind, Ui, pos2, vec2,
};

use crate::app::look::pens::pen_line;
use crate::app::look::theme::{Palette, Pen, bold};
use crate::draw::Scale;

/// Size of the letters in a chart, points.
pub const LETTERS: f32 = 14.0;

/// Two scales at right angles on a rectangle of the screen.
#[derive(Debug, Clone, Copy)]
pub struct Axes {
    /// The rectangle.
    pub rect: Rect,
    /// The scale along its foot.
    pub x: Scale,
    /// The scale up its side.
    pub y: Scale,
}

/// A scale from one value to another, not moved out to ticks, with ticks that people use.
pub fn span(from: f64, to: f64, steps: u32) -> Scale {
    Scale { from, to, ..Scale::over([from, to], steps) }
}

#[allow(clippy::cast_possible_truncation, reason = "points of the screen need no more than f32")]
impl Axes {
    /// How far to the right a value is.
    pub fn x(&self, value: f64) -> f32 {
        self.rect.left() + self.rect.width() * self.x.share(value) as f32
    }

    /// How far down a value is.
    pub fn y(&self, value: f64) -> f32 {
        self.rect.bottom() - self.rect.height() * self.y.share(value) as f32
    }

    /// Where a pair of values is.
    pub fn at(&self, x: f64, y: f64) -> Pos2 {
        pos2(self.x(x), self.y(y))
    }

    /// The value along the foot under a point of the screen.
    pub fn value_at(&self, at: Pos2) -> f64 {
        let share = f64::from((at.x - self.rect.left()) / self.rect.width().max(1.0));
        self.x.from + share.clamp(0.0, 1.0) * (self.x.to - self.x.from)
    }
}

/// Letters without a ground.
pub fn letters(painter: &Painter, palette: &Palette, at: Pos2, align: Align2, text: &str) -> Rect {
    painter.text(at, align, text, FontId::proportional(LETTERS), palette.ink)
}

/// Heavy letters on a ground of their own, moved into a room where they would stand out of it; returns where they are.
pub fn plate(painter: &Painter, palette: &Palette, at: Pos2, align: Align2, room: Rect, text: &str) -> Rect {
    let galley = painter.layout_no_wrap(text.to_owned(), FontId::new(LETTERS, bold()), palette.ink);
    let mut rect = align.anchor_size(at, galley.size());
    let right = (rect.right() - room.right()).max(0.0);
    let left = (room.left() - rect.left()).max(0.0);
    rect = rect.translate(vec2(left - right, 0.0));
    let ground = palette.paper;
    let ground = Color32::from_rgba_unmultiplied(ground.r(), ground.g(), ground.b(), 215);
    painter.rect_filled(rect.expand2(vec2(3.0, 0.0)), 2.0, ground);
    painter.galley(rect.min, galley, palette.ink);
    rect
}

/// How wide letters of a chart are, points.
pub fn width(painter: &Painter, text: &str) -> f32 {
    painter.layout_no_wrap(text.to_owned(), FontId::new(LETTERS, bold()), Color32::BLACK).size().x
}

/// A line between two places with a pen.
pub fn line(painter: &Painter, from: Pos2, to: Pos2, pen: Pen) {
    pen_line(painter, &[from, to], pen);
}

/// The mark of a chart's focus: a thick edge, as on any other widget that has the keyboard.
pub fn focus_ring(ui: &Ui, palette: &Palette, response: &Response, rect: Rect) {
    if response.has_focus() {
        ui.painter().rect_stroke(rect, 3.0, Stroke::new(2.5, palette.focus), StrokeKind::Outside);
    }
}

/// A cell of a row of words: so wide, and as high as its words need.
pub fn cell(ui: &mut Ui, wide: f32, contents: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(wide, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(wide);
        contents(ui);
    });
}
