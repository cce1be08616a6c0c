//! The metric grid with its metres, at a scale that fits.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Stroke, pos2, vec2};
use glam::DVec2;

use crate::app::look::labels::plate;
use crate::app::look::lens::Lens;
use crate::app::look::theme::Palette;

/// Distances between lines to choose from, metres.
const STEPS: [f64; 8] = [1.0, 5.0, 10.0, 50.0, 100.0, 500.0, 1000.0, 5000.0];
/// Lines are at least so far apart, points.
const NEAREST: f64 = 52.0;
/// Width of the margin that the numbers stand in, points.
pub(super) const RULER: f32 = 22.0;

/// The distance between lines at a scale, metres.
fn step(metres_a_point: f64) -> f64 {
    STEPS.into_iter().find(|step| step / metres_a_point >= NEAREST).unwrap_or(STEPS[STEPS.len() - 1])
}

/// Draws the lines, and their metres along the left and the lower edge of the map.
pub(super) fn draw(painter: &Painter, lens: &Lens, palette: &Palette) {
    let step = step(lens.metres_a_point);
    let (low, high) = (lens.ground(lens.rect.left_bottom()), lens.ground(lens.rect.right_top()));
    let font = FontId::proportional(14.0);
    let lines = |low: f64, high: f64| {
        let first = (low / step).ceil();
        std::iter::successors(Some(first), |at| Some(at + 1.0))
            .map(move |at| at * step)
            .take_while(move |at| *at <= high)
    };
    let thin = |metres: f64| {
        let width = if metres == 0.0 { 2.0 } else { 1.0 };
        Stroke::new(width, palette.rule.gamma_multiply(if metres == 0.0 { 0.9 } else { 0.55 }))
    };
    for x in lines(low.x, high.x) {
        painter.vline(lens.screen(DVec2::new(x, 0.0)).x, lens.rect.y_range(), thin(x));
    }
    for y in lines(low.y, high.y) {
        painter.hline(lens.rect.x_range(), lens.screen(DVec2::new(0.0, y)).y, thin(y));
    }
    let rect = lens.rect;
    let foot = Rect::from_min_max(pos2(rect.left(), rect.bottom() - RULER), rect.max);
    let side = Rect::from_min_max(rect.min, pos2(rect.left() + 46.0, rect.bottom() - RULER));
    plate(painter, palette, foot);
    let caption = painter.layout_no_wrap("metres east of the datum".into(), font.clone(), palette.ink);
    let caption_at = foot.right_center() - vec2(caption.size().x + 6.0, caption.size().y / 2.0);
    let write = |at: Pos2, align: Align2, text: &str| painter.text(at, align, text, font.clone(), palette.ink);
    for x in lines(low.x, high.x) {
        let at = pos2(lens.screen(DVec2::new(x, 0.0)).x, foot.center().y);
        if at.x > side.right() + 14.0 && at.x < caption_at.x - 24.0 {
            write(at, Align2::CENTER_CENTER, &metres(x));
        }
    }
    for y in lines(low.y, high.y) {
        let at = pos2(side.left() + 42.0, lens.screen(DVec2::new(0.0, y)).y);
        if at.y > side.top() + 34.0 && at.y < side.bottom() - 8.0 {
            let room = Rect::from_center_size(at - vec2(21.0, 0.0), vec2(42.0, 18.0));
            plate(painter, palette, room);
            write(at, Align2::RIGHT_CENTER, &metres(y));
        }
    }
    painter.galley(caption_at, caption, palette.ink);
    let north = pos2(side.left() + 4.0, side.top() + 6.0);
    let galley = painter.layout_no_wrap("metres north".into(), font.clone(), palette.ink);
    plate(painter, palette, Rect::from_min_size(north, galley.size()).expand(2.0));
    painter.galley(north, galley, palette.ink);
}

fn metres(value: f64) -> String {
    format!("{value:.0}").replace('-', "\u{2212}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_round_and_never_crowded() {
        for (metres_a_point, expected) in
            [(0.02, 5.0), (0.019, 1.0), (0.1, 10.0), (0.8, 50.0), (1.5, 100.0), (50.0, 5000.0)]
        {
            assert_eq!(step(metres_a_point), expected, "at {metres_a_point} m a point");
        }
    }
}
