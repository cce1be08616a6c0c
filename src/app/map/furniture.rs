//! North, the wind and the scale, in the corners of the map.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2, vec2};

use super::labels::{Labels, plate, words};
use crate::app::Flown;
use crate::app::lens::Lens;
use crate::app::theme::{Palette, bold};
use crate::app::words::with_unit;
use crate::units::Bearing;

/// Longest scale bar, points.
const SCALE_BAR: f64 = 150.0;

/// Draws all three and keeps labels off them.
pub(super) fn draw(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette, labels: &mut Labels) {
    for rect in [
        north(painter, lens.rect, palette),
        wind(painter, lens.rect, flown, palette),
        scale(painter, lens, palette),
    ] {
        labels.keep_off(rect.expand(2.0));
    }
}

fn north(painter: &Painter, room: Rect, palette: &Palette) -> Rect {
    let rect = Rect::from_min_size(room.min + vec2(8.0, 8.0), vec2(34.0, 58.0));
    plate(painter, palette, rect);
    let x = rect.center().x;
    painter.text(pos2(x, rect.top() + 2.0), Align2::CENTER_TOP, "N", FontId::new(16.0, bold()), palette.ink);
    let (tip, foot) = (pos2(x, rect.top() + 21.0), pos2(x, rect.bottom() - 4.0));
    let ink = Stroke::new(1.5, palette.ink);
    let notch = foot - vec2(0.0, 8.0);
    // One half filled, as on a surveyor's arrow.
    painter.add(Shape::convex_polygon(vec![tip, foot + vec2(-9.0, 0.0), notch], palette.ink, ink));
    painter.add(Shape::convex_polygon(vec![tip, foot + vec2(9.0, 0.0), notch], palette.paper, ink));
    rect
}

fn wind(painter: &Painter, room: Rect, flown: &Flown, palette: &Palette) -> Rect {
    let sheet = &flown.scenario.file.wind;
    let [mean, gust] = flown.ledger.figures.wind_at_circle_mps;
    let lines = [
        format!("wind from {} {:.0}\u{b0}", sheet.from.point(), sheet.from.deg()),
        format!("{}, gusts {}", with_unit(sheet.mean.mps(), "m/s"), with_unit(sheet.gust.mps(), "m/s")),
        format!("measured at {:.0} m", sheet.measured_at.m()),
        format!("on the circle {mean:.1}, gusts {gust:.1}"),
    ];
    let rect = Rect::from_min_size(pos2(room.right() - 258.0, room.top() + 8.0), vec2(250.0, 78.0));
    plate(painter, palette, rect);
    for (index, line) in lines.iter().enumerate() {
        #[allow(clippy::cast_precision_loss, reason = "four lines")]
        let y = rect.top() + 3.0 + 18.0 * index as f32;
        words(painter, palette, pos2(rect.left() + 72.0, y), Align2::LEFT_TOP, line);
    }
    if sheet.mean.mps() > 0.0 {
        arrow(painter, rect.left_center() + vec2(36.0, 0.0), sheet.from, palette);
    } else {
        painter.circle_stroke(rect.left_center() + vec2(36.0, 0.0), 8.0, Stroke::new(3.0, palette.ink));
    }
    rect
}

/// An arrow that flies with the wind: three feathers where it comes from, a head where it goes.
fn arrow(painter: &Painter, middle: Pos2, from: Bearing, palette: &Palette) {
    let towards = from.reversed().unit();
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let way = vec2(towards.x as f32, -towards.y as f32);
    let side = way.rot90();
    let (tail, tip) = (middle - way * 30.0, middle + way * 30.0);
    let ink = Stroke::new(3.5, palette.ink);
    painter.line_segment([tail, tip - way * 8.0], ink);
    painter.add(Shape::convex_polygon(
        vec![tip, tip - way * 16.0 + side * 9.0, tip - way * 16.0 - side * 9.0],
        palette.ink,
        Stroke::NONE,
    ));
    for feather in [0.0, 7.0, 14.0] {
        let root = tail + way * feather;
        for side in [side, -side] {
            painter.line_segment([root, root - way * 6.0 + side * 8.0], Stroke::new(2.0, palette.ink));
        }
    }
}

/// The longest round length that fits the bar: one, two or five times a power of ten, metres.
fn round_length(metres_a_point: f64) -> f64 {
    let most = SCALE_BAR * metres_a_point;
    let power = 10_f64.powf(most.log10().floor());
    [5.0, 2.0, 1.0].into_iter().map(|times| times * power).find(|length| *length <= most).unwrap_or(power)
}

fn scale(painter: &Painter, lens: &Lens, palette: &Palette) -> Rect {
    let length = round_length(lens.metres_a_point);
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let width = (length / lens.metres_a_point) as f32;
    let rect = Rect::from_min_size(pos2(lens.rect.left() + 8.0, lens.rect.bottom() - 44.0), vec2(width + 66.0, 36.0));
    plate(painter, palette, rect);
    let left = rect.left_bottom() + vec2(14.0, -14.0);
    for part in 0..4_u8 {
        let from = left + vec2(width / 4.0 * f32::from(part), 0.0);
        let bar = Rect::from_min_size(from, vec2(width / 4.0, 8.0));
        let fill = if part % 2 == 0 { palette.ink } else { palette.paper };
        painter.rect(bar, 0.0, fill, Stroke::new(1.2, palette.ink), StrokeKind::Middle);
    }
    words(painter, palette, left + Vec2::new(0.0, -2.0), Align2::CENTER_BOTTOM, "0");
    let end = if length < 1.0 { format!("{:.0} cm", length * 100.0) } else { format!("{length:.0} m") };
    words(painter, palette, left + vec2(width, -2.0), Align2::CENTER_BOTTOM, &end);
    rect
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scale_bars_are_round_and_fit() {
        for (metres_a_point, expected) in [(1.0, 100.0), (1.4, 200.0), (0.05, 5.0), (40.0, 5000.0)] {
            let found = round_length(metres_a_point);
            assert!((found - expected).abs() < 1e-9, "{found} m at {metres_a_point} m a point");
        }
    }
}
