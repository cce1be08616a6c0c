//! What charts are painted with: straight axes, hatches, and words that stand on a ground of their own.

use bevy_egui::egui::{
    Align, Align2, Color32, FontId, Layout, Painter, Pos2, Rect, Response, Shape, Stroke, StrokeKind, Ui, Vec2, pos2,
    vec2,
};

use crate::app::look::pens::pen_line;
use crate::app::look::theme::{Palette, Pen, bold};
use crate::draw::Scale;

/// Size of the letters in a chart, points.
pub const LETTERS: f32 = 14.0;
/// From line to line of a hatch, points.
const SPACING: f32 = 6.0;

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

    /// Draws the grid with the digits of both scales outside it.
    pub fn draw(&self, painter: &Painter, palette: &Palette) {
        let thin = Stroke::new(1.0, palette.grid);
        painter.rect_filled(self.rect, 0.0, palette.paper);
        for value in self.x.ticks() {
            let x = self.x(value);
            painter.vline(x, self.rect.y_range(), thin);
            let at = pos2(x, self.rect.bottom() + 2.0);
            letters(painter, palette, at, Align2::CENTER_TOP, &self.x.tick(value));
        }
        for value in self.y.ticks() {
            let y = self.y(value);
            painter.hline(self.rect.x_range(), y, thin);
            let at = pos2(self.rect.left() - 5.0, y);
            letters(painter, palette, at, Align2::RIGHT_CENTER, &self.y.tick(value));
        }
        painter.rect_stroke(self.rect, 0.0, Stroke::new(1.0, palette.rule), StrokeKind::Middle);
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

/// How an area is filled, so that it is known without its colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hatch {
    /// All of it.
    Full,
    /// Lines that rise to the right.
    Rising,
    /// Lines that fall to the right.
    Falling,
    /// Lines both ways.
    Crossed,
    /// Dots.
    Dotted,
    /// Nothing but its edge.
    Open,
}

/// Fills a rectangle with a hatch on a ground and draws its edge.
pub fn filled(painter: &Painter, palette: &Palette, rect: Rect, hatch: Hatch, colour: Color32) {
    let room = rect.intersect(painter.clip_rect());
    if !room.is_positive() {
        return;
    }
    let inside = painter.with_clip_rect(room);
    let ground = match hatch {
        Hatch::Full => colour,
        Hatch::Open => palette.paper,
        _ => mixed(colour, palette.paper, 0.25),
    };
    inside.rect_filled(rect, 0.0, ground);
    let ink = Stroke::new(1.6, colour);
    let high = rect.height();
    let slanted = |lean: f32| {
        let mut x = rect.left() - high;
        while x < rect.right() {
            let ends = if lean > 0.0 { [rect.bottom(), rect.top()] } else { [rect.top(), rect.bottom()] };
            inside.line_segment([pos2(x, ends[0]), pos2(x + high, ends[1])], ink);
            x += SPACING;
        }
    };
    match hatch {
        Hatch::Full | Hatch::Open => {}
        Hatch::Rising => slanted(1.0),
        Hatch::Falling => slanted(-1.0),
        Hatch::Crossed => {
            slanted(1.0);
            slanted(-1.0);
        }
        Hatch::Dotted => dots(&inside, rect, colour),
    }
    painter.rect_stroke(rect, 0.0, Stroke::new(1.2, palette.ink), StrokeKind::Middle);
}

fn dots(painter: &Painter, rect: Rect, colour: Color32) {
    let (mut y, mut shifted) = (rect.top() + 3.0, false);
    while y < rect.bottom() {
        let mut x = rect.left() + if shifted { 5.5 } else { 2.5 };
        while x < rect.right() {
            painter.circle_filled(pos2(x, y), 1.4, colour);
            x += SPACING;
        }
        (y, shifted) = (y + 4.0, !shifted);
    }
}

/// So much of one colour, the rest of another.
pub fn mixed(colour: Color32, other: Color32, share: f32) -> Color32 {
    other.lerp_to_gamma(colour, share)
}

/// A triangle that points down to a place, or up to it.
pub fn pointer(painter: &Painter, tip: Pos2, down: bool, colour: Color32, edge: Color32) {
    let up = if down { -1.0 } else { 1.0 };
    let corners = vec![tip, tip + vec2(-6.0, 10.0 * up), tip + vec2(6.0, 10.0 * up)];
    painter.add(Shape::convex_polygon(corners, colour, Stroke::new(1.5, edge)));
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

/// The shape of a marked point: round for the mean, three-cornered for the gust.
pub fn spot(painter: &Painter, at: Pos2, gust: bool, fill: Color32, edge: Color32) {
    let stroke = Stroke::new(1.5, edge);
    if gust {
        let corners = [(0.0, -5.0), (4.6, 3.6), (-4.6, 3.6)].map(|(x, y)| at + Vec2::new(x, y));
        painter.add(Shape::convex_polygon(corners.to_vec(), fill, stroke));
    } else {
        painter.circle(at, 3.6, fill, stroke);
    }
}

/// A cell of a row of words: so wide, and as high as its words need.
pub fn cell(ui: &mut Ui, wide: f32, contents: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(wide, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(wide);
        contents(ui);
    });
}
