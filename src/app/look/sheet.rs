//! A sheet of the prints painted in the window: the same marks, millimetres as points and inks as the theme has them.

use bevy_egui::egui::epaint::TextShape;
use bevy_egui::egui::{Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, Vec2, vec2};
use glam::DVec2;

use crate::app::look::chart::LETTERS;
use crate::app::look::clip::seen;
use crate::app::look::inks::colour;
use crate::app::look::pens::dashes;
use crate::app::look::surface::{filled, inside, is_convex};
use crate::app::look::theme::{Palette, bold};
use crate::draw::{Fill, Frame, Hatch, Ink, Lettering, Mark, Path, Pen, Set, Sheet, hatch};

/// Points for one millimetre: the smallest letters of a chart on paper, 3.4 mm, are as large as those of the window.
pub const POINTS_A_MM: f32 = LETTERS / 3.4;
/// The thinnest line that is seen on every screen, points.
const THINNEST: f32 = 0.8;
/// Pieces of a round edge.
const ROUND: u32 = 72;

/// Where a sheet lies in the window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Laid {
    /// Its place; nothing is painted outside it.
    pub rect: Rect,
}

#[allow(clippy::cast_possible_truncation, reason = "points of the screen need no more than f32")]
impl Laid {
    /// How large the sheet is, mm.
    pub fn size_mm(&self) -> DVec2 {
        self.mm(self.rect.max)
    }

    /// All of it.
    pub fn frame(&self) -> Frame {
        Frame { low: DVec2::ZERO, high: self.size_mm() }
    }

    /// Where a place of the sheet is.
    pub fn at(&self, mm: DVec2) -> Pos2 {
        self.rect.min + vec2(mm.x as f32, mm.y as f32) * POINTS_A_MM
    }

    /// The place of the sheet under a point.
    pub fn mm(&self, at: Pos2) -> DVec2 {
        let away = (at - self.rect.min) / POINTS_A_MM;
        DVec2::new(f64::from(away.x), f64::from(away.y))
    }

    /// A part of it in the window.
    pub fn part(&self, frame: Frame) -> Rect {
        Rect::from_min_max(self.at(frame.low), self.at(frame.high))
    }

    /// An empty sheet of this size.
    pub fn sheet(&self) -> Sheet {
        Sheet::new(self.size_mm().x, self.size_mm().y, "", "")
    }

    /// Paints everything that is on a sheet.
    pub fn paint(&self, painter: &Painter, palette: &Palette, sheet: &Sheet) {
        let whole = painter.with_clip_rect(self.rect.intersect(painter.clip_rect()));
        let mut painters = vec![whole.clone()];
        for mark in sheet.sound() {
            let painter = painters.last().unwrap_or(&whole).clone();
            let easel = Easel { laid: self, painter: &painter, palette };
            match mark {
                Mark::Shape { path, pen, fill, .. } => easel.shape(&path, pen, fill, sheet.size_mm),
                Mark::Words { at, words, lettering } => easel.words(self.at(at), words, lettering),
                Mark::Clip(low, high) => {
                    let room = self.part(Frame { low, high });
                    painters.push(painter.with_clip_rect(room.intersect(painter.clip_rect())));
                }
                Mark::Unclip => drop(painters.pop()),
            }
        }
    }
}

/// Fills a rectangle of the window as a surface of a sheet, and draws its edge.
pub fn swatch(painter: &Painter, palette: &Palette, rect: Rect, fill: Fill) {
    let laid = Laid { rect: rect.expand(1.0) };
    let mut sheet = laid.sheet();
    sheet.rectangle(laid.mm(rect.min), laid.mm(rect.max), Some(Pen::plain(Ink::BLACK, 0.3)), fill);
    laid.paint(painter, palette, &sheet);
}

/// What one mark is painted with.
struct Easel<'a> {
    laid: &'a Laid,
    painter: &'a Painter,
    palette: &'a Palette,
}

#[allow(clippy::cast_possible_truncation, reason = "points of the screen need no more than f32")]
impl Easel<'_> {
    fn shape(&self, path: &Path, pen: Option<Pen>, fill: Fill, size: DVec2) {
        let (rings, closed) = match path {
            Path::Open(points) => (vec![points.clone()], false),
            Path::Rings(rings) => (rings.clone(), true),
            Path::Circle(middle, radius) => (vec![round(*middle, *radius)], true),
        };
        match fill {
            Fill::None => {}
            Fill::Plain(ink) => self.plain(&rings, ink),
            Fill::Hatch(hatch) => {
                hatch.ground.into_iter().for_each(|ground| self.plain(&rings, ground));
                self.hatched(path, &rings, hatch, size);
            }
        }
        if let Some(pen) = pen {
            rings.iter().for_each(|ring| self.line(ring, closed, pen));
        }
    }

    fn plain(&self, rings: &[Vec<DVec2>], ink: Ink) {
        let colour = colour(self.palette, ink);
        match rings {
            [ring] if is_convex(ring) => {
                let corners = ring.iter().map(|corner| self.laid.at(*corner)).collect();
                self.painter.add(Shape::convex_polygon(corners, colour, Stroke::NONE));
            }
            _ => drop(self.painter.add(filled(rings, colour, |at| self.laid.at(at)))),
        }
    }

    fn hatched(&self, path: &Path, rings: &[Vec<DVec2>], look: Hatch, size: DVec2) {
        let colour = colour(self.palette, look.ink);
        let wide = hatch::width_mm(look) as f32 * POINTS_A_MM;
        for line in hatch::lines(look, path, size) {
            for [from, to] in inside(rings, line) {
                let Some([_, step]) = hatch::dash_mm(look) else {
                    let ends = [self.laid.at(from), self.laid.at(to)];
                    self.painter.line_segment(ends, Stroke::new(wide.max(THINNEST), colour));
                    continue;
                };
                // Dots stand on whole steps from the beginning of the line, in step with those of other lines.
                let way = (line[1] - line[0]).normalize_or_zero();
                let mut along = (line[0].distance(from) / step).ceil() * step;
                while along <= line[0].distance(to) {
                    self.painter.circle_filled(self.laid.at(line[0] + way * along), wide / 2.0, colour);
                    along += step;
                }
            }
        }
    }

    fn line(&self, points: &[DVec2], closed: bool, pen: Pen) {
        let stroke = Stroke::new((pen.width_mm as f32 * POINTS_A_MM).max(THINNEST), colour(self.palette, pen.ink));
        let mut points: Vec<Pos2> = points.iter().map(|point| self.laid.at(*point)).collect();
        if pen.dash_mm.is_empty() {
            let shape = if closed { Shape::closed_line } else { Shape::line };
            self.painter.add(shape(points, stroke));
            return;
        }
        points.extend(points.first().copied().filter(|_| closed));
        let pattern: Vec<f32> = pen.dash_mm.iter().map(|length| *length as f32 * POINTS_A_MM).collect();
        let pieces = seen(&points, self.painter.clip_rect().expand(stroke.width));
        let pieces = pieces.iter().flat_map(|piece| dashes(piece, &pattern));
        self.painter.extend(pieces.map(|dash| Shape::line(dash, stroke)));
    }

    /// Words with their foot at a place, never smaller than the window's smallest.
    fn words(&self, at: Pos2, words: String, lettering: Lettering) {
        let size = (lettering.size_mm as f32 * POINTS_A_MM).max(LETTERS);
        let font = if lettering.bold { FontId::new(size, bold()) } else { FontId::proportional(size) };
        let ink = colour(self.palette, lettering.ink);
        let galley = self.painter.layout_no_wrap(words, font, ink);
        let foot = galley.rows.first().and_then(|row| row.glyphs.first()).map_or(0.0, |glyph| glyph.pos.y);
        let left = match lettering.set {
            Set::Start => 0.0,
            Set::Middle => galley.size().x / 2.0,
            Set::End => galley.size().x,
        };
        let angle = -lettering.turned_deg.to_radians() as f32;
        let corner = at - bevy_egui::egui::emath::Rot2::from_angle(angle) * vec2(left, foot);
        let letters = |away: Vec2, ink: Color32| {
            TextShape::new(corner + away, galley.clone(), ink).with_override_text_color(ink).with_angle(angle)
        };
        if lettering.rimmed {
            let (rim, paper) = (size * 0.11, self.palette.paper);
            let around = (0..8_u8).map(|eighth| Vec2::angled(f32::from(eighth) * std::f32::consts::FRAC_PI_4) * rim);
            self.painter.extend(around.map(|away| Shape::from(letters(away, paper))));
        }
        self.painter.add(letters(Vec2::ZERO, ink));
    }
}

fn round(middle: DVec2, radius: f64) -> Vec<DVec2> {
    let turn = std::f64::consts::TAU / f64::from(ROUND);
    (0..ROUND).map(|piece| middle + DVec2::from_angle(f64::from(piece) * turn) * radius).collect()
}

#[cfg(test)]
mod tests {
    use bevy_egui::egui::{self, Context, RawInput, pos2};

    use super::*;
    use crate::app::look::theme::{Theme, fonts_ready};
    use crate::draw::Pattern;

    fn laid() -> Laid {
        Laid { rect: Rect::from_min_size(pos2(100.0, 50.0), Vec2::splat(100.0 * POINTS_A_MM)) }
    }

    /// What is painted of a sheet, with the clip of each.
    fn painted(sheet: &Sheet) -> Vec<egui::epaint::ClippedShape> {
        let context = Context::default();
        let mut shapes = Vec::new();
        for _ in 0..2 {
            let screen = Some(Rect::from_min_size(Pos2::ZERO, Vec2::splat(800.0)));
            let input = RawInput { screen_rect: screen, ..RawInput::default() };
            let mut output = context.run_ui(input, |ui| {
                if fonts_ready(ui.ctx()) {
                    laid().paint(ui.painter(), Theme::Light.palette(), sheet);
                }
            });
            output.textures_delta.clear();
            shapes = output.shapes;
        }
        shapes
    }

    fn texts(sheet: &Sheet) -> Vec<TextShape> {
        let shapes = painted(sheet).into_iter();
        shapes.filter_map(|shape| if let Shape::Text(text) = shape.shape { Some(text) } else { None }).collect()
    }

    #[test]
    fn words_stand_where_they_stand_on_paper() {
        let mut sheet = laid().sheet();
        let plain = Lettering::new(5.0);
        for lettering in [plain, plain.middle(), plain.end(), plain.bold(), plain.turned(90.0)] {
            sheet.words(DVec2::new(50.0, 60.0), "boundary 123 m", lettering);
        }
        let shapes = texts(&sheet);
        for (text, (words, low, high)) in shapes.iter().zip(sheet.lettered()) {
            let room = Rect::from_min_max(laid().at(low), laid().at(high));
            let found = text.visual_bounding_rect();
            // Paper gives the height of letters and the window that of what is drawn.
            assert!(room.expand(3.0).contains_rect(found), "{words}: {found:?} and not {room:?}");
            assert!(found.size().max_elem() > 0.9 * room.size().max_elem(), "{words}: {found:?} and not {room:?}");
        }
        assert_eq!(shapes.len(), 5);
    }

    #[test]
    fn no_letters_are_smaller_than_the_windows_smallest() {
        let mut sheet = laid().sheet();
        sheet.words(DVec2::new(20.0, 20.0), "small", Lettering::new(1.0));
        sheet.words(DVec2::new(20.0, 40.0), "large", Lettering::new(6.8));
        let sizes: Vec<f32> =
            texts(&sheet).iter().map(|text| text.galley.job.sections[0].format.font_id.size).collect();
        assert!(
            sizes.len() == 2 && (sizes[0] - LETTERS).abs() < 0.01 && (sizes[1] - 2.0 * LETTERS).abs() < 0.01,
            "{sizes:?}"
        );
    }

    #[test]
    fn nothing_shows_outside_clips_and_sheet() {
        let mut sheet = laid().sheet();
        let pen = Pen::plain(Ink::BLACK, 1.0);
        sheet.clipped(DVec2::splat(10.0), DVec2::splat(30.0), |sheet| {
            sheet.line([DVec2::ZERO, DVec2::splat(90.0)], pen);
        });
        sheet.line([DVec2::ZERO, DVec2::splat(900.0)], pen);
        let clips: Vec<Rect> = painted(&sheet)
            .into_iter()
            .filter(|shape| matches!(shape.shape, Shape::LineSegment { .. } | Shape::Path(_)))
            .map(|shape| shape.clip_rect)
            .collect();
        let inner = Rect::from_min_max(laid().at(DVec2::splat(10.0)), laid().at(DVec2::splat(30.0)));
        assert_eq!(clips, [inner, laid().rect]);
    }

    #[test]
    fn dots_and_lines_of_a_hatch_keep_to_their_surface() {
        for pattern in [Pattern::Rising, Pattern::Crossed, Pattern::Dotted] {
            let mut sheet = laid().sheet();
            let look = Hatch { pattern, ink: Ink::BLUE, ground: None, step: 200 };
            sheet.rectangle(DVec2::splat(20.0), DVec2::splat(60.0), None, Fill::Hatch(look));
            let room = laid().part(Frame { low: DVec2::splat(20.0), high: DVec2::splat(60.0) }).expand(2.0);
            let shapes = painted(&sheet);
            assert!(shapes.len() > 20, "{pattern:?}: {}", shapes.len());
            for shape in shapes {
                assert!(room.contains_rect(shape.shape.visual_bounding_rect()), "{pattern:?}: {:?}", shape.shape);
            }
        }
    }

    #[test]
    fn a_place_is_found_again_under_its_point() {
        let at = DVec2::new(12.5, 70.0);
        assert!(laid().mm(laid().at(at)).distance(at) < 1e-4);
        assert!(laid().size_mm().distance(DVec2::splat(100.0)) < 1e-4);
    }
}
