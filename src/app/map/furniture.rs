//! North, the wind and the scale, in the corners of the map.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use super::labels::{Labels, plate, words};
use crate::app::Flown;
use crate::app::lens::{CORNER, Lens};
use crate::app::theme::{Palette, bold};
use crate::units::Bearing;
use crate::wind::WindSheet;

/// Longest scale bar, points.
const SCALE_BAR: f64 = 128.0;

/// Draws north, scale and the wind as it is written, without a flight.
pub(super) fn draw_still(painter: &Painter, lens: &Lens, sheet: &WindSheet, palette: &Palette, labels: &mut Labels) {
    let corner = lens.rect.right_top() + vec2(-CORNER.x - 6.0, 6.0);
    let rect = Rect::from_min_size(corner, vec2(CORNER.x, CORNER.y - 18.0));
    plate(painter, palette, rect);
    north(painter, rect.min + vec2(28.0, 8.0), palette);
    let from = format!("wind from {} {:.0}\u{b0}", sheet.from.point(), sheet.from.deg());
    words(painter, palette, rect.left_bottom() + vec2(8.0, -42.0), Align2::LEFT_BOTTOM, &from);
    pointer(painter, rect, sheet, palette);
    scale(painter, lens, rect, palette);
    labels.keep_off(rect.expand(2.0));
}

/// Draws all three and keeps labels off them.
pub(super) fn draw(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette, labels: &mut Labels) {
    let corner = lens.rect.right_top() + vec2(-CORNER.x - 6.0, 6.0);
    let rect = Rect::from_min_size(corner, vec2(CORNER.x, CORNER.y));
    plate(painter, palette, rect);
    north(painter, rect.min + vec2(28.0, 8.0), palette);
    wind(painter, rect, flown, palette);
    scale(painter, lens, rect, palette);
    labels.keep_off(rect.expand(2.0));
}

fn north(painter: &Painter, top: Pos2, palette: &Palette) {
    painter.text(top, Align2::CENTER_TOP, "N", FontId::new(16.0, bold()), palette.ink);
    let (tip, foot) = (top + vec2(0.0, 19.0), top + vec2(0.0, 56.0));
    let ink = Stroke::new(1.5, palette.ink);
    let notch = foot - vec2(0.0, 8.0);
    // One half filled, as on a surveyor's arrow.
    painter.add(Shape::convex_polygon(vec![tip, foot + vec2(-9.0, 0.0), notch], palette.ink, ink));
    painter.add(Shape::convex_polygon(vec![tip, foot + vec2(9.0, 0.0), notch], palette.paper, ink));
}

fn wind(painter: &Painter, rect: Rect, flown: &Flown, palette: &Palette) {
    let sheet = &flown.scenario.file.wind;
    let [mean, gust] = flown.ledger.figures.wind_at_circle_mps;
    let lines = [
        format!("wind from {} {:.0}\u{b0}", sheet.from.point(), sheet.from.deg()),
        format!("{:.1}, gusts {:.1} m/s", sheet.mean.mps(), sheet.gust.mps()),
        format!("circle {mean:.1}, {gust:.1} m/s"),
    ];
    let mut at = rect.left_bottom() + vec2(8.0, -42.0);
    for line in lines.iter().rev() {
        at.y = words(painter, palette, at, Align2::LEFT_BOTTOM, line).top();
    }
    pointer(painter, rect, sheet, palette);
}

fn pointer(painter: &Painter, rect: Rect, sheet: &WindSheet, palette: &Palette) {
    let middle = pos2(rect.right() - 62.0, rect.top() + 34.0);
    if sheet.mean.mps() > 0.0 {
        arrow(painter, middle, sheet.from, palette);
    } else {
        painter.circle_stroke(middle, 8.0, Stroke::new(3.0, palette.ink));
    }
}

/// An arrow that flies with the wind: three feathers where it comes from, a head where it goes.
fn arrow(painter: &Painter, middle: Pos2, from: Bearing, palette: &Palette) {
    let towards = from.reversed().unit();
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let way = vec2(towards.x as f32, -towards.y as f32);
    let side = way.rot90();
    let (tail, tip) = (middle - way * 26.0, middle + way * 28.0);
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

fn scale(painter: &Painter, lens: &Lens, corner: Rect, palette: &Palette) {
    let length = round_length(lens.metres_a_point);
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let width = (length / lens.metres_a_point) as f32;
    let left = corner.left_bottom() + vec2(14.0, -14.0);
    for part in 0..4_u8 {
        let from = left + vec2(width / 4.0 * f32::from(part), 0.0);
        let bar = Rect::from_min_size(from, vec2(width / 4.0, 7.0));
        let fill = if part % 2 == 0 { palette.ink } else { palette.paper };
        painter.rect(bar, 0.0, fill, Stroke::new(1.2, palette.ink), StrokeKind::Middle);
    }
    words(painter, palette, left + vec2(0.0, -2.0), Align2::CENTER_BOTTOM, "0");
    let end = if length < 1.0 { format!("{:.0} cm", length * 100.0) } else { format!("{length:.0} m") };
    words(painter, palette, left + vec2(width, -2.0), Align2::CENTER_BOTTOM, &end);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn scale_bars_are_round_and_fit() {
        for (metres_a_point, expected) in [(1.0, 100.0), (1.6, 200.0), (0.05, 5.0), (40.0, 5000.0)] {
            let found = round_length(metres_a_point);
            assert!((found - expected).abs() < 1e-9, "{found} m at {metres_a_point} m a point");
        }
    }
}
