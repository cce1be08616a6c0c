//! A windsock that hangs and fills as it would in a wind, and a compass with the wind blowing across it.

use bevy_egui::egui::{Align2, FontId, Pos2, Sense, Shape, Stroke, Ui, Vec2, WidgetInfo, WidgetType, vec2};

use crate::app::look::theme::bold;
use crate::app::session::View;
use crate::units::Bearing;

/// One knot, m/s.
const KNOT: f64 = 1852.0 / 3600.0;
/// Stripes of a sock, and knots a stripe.
const STRIPES: u8 = 5;
const STRIPE_KT: f64 = 3.0;
/// Degrees below level against knots: those of `wind::estimate`, which has their source.
const HANGS: [(f64, f64); 4] = [(0.0, 90.0), (6.0, 30.0), (10.0, 5.0), (15.0, 0.0)];
/// Room of the picture, points.
const ROOM: Vec2 = vec2(136.0, 112.0);

/// How far below level a sock hangs in a wind in m/s, degrees.
fn below_level(mps: f64) -> f64 {
    let knots = mps / KNOT;
    let pair = HANGS.windows(2).find(|pair| knots <= pair[1].0);
    pair.map_or(0.0, |pair| {
        let share = (knots - pair[0].0) / (pair[1].0 - pair[0].0);
        pair[0].1 + share * (pair[1].1 - pair[0].1)
    })
}

/// How many of its stripes stand out in a wind in m/s.
fn standing(mps: f64) -> u8 {
    (1..=STRIPES).filter(|&stripe| mps / KNOT >= f64::from(stripe) * STRIPE_KT - STRIPE_KT / 2.0).count() as u8
}

/// Paints a sock in a wind in m/s.
pub(super) fn sock(ui: &mut Ui, view: &View<'_>, mps: f64) {
    let (rect, response) = ui.allocate_exact_size(ROOM, Sense::hover());
    let (filled, angle) = (standing(mps), below_level(mps).to_radians() as f32);
    let words =
        format!("windsock: {filled} of {STRIPES} stripes stand out, {:.0} degrees below level", angle.to_degrees());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, &words));
    response.on_hover_text(&words);
    let (painter, palette) = (ui.painter(), view.palette);
    let (foot, top) = (rect.left_bottom() + vec2(14.0, -2.0), rect.left_top() + vec2(14.0, 14.0));
    painter.line_segment([foot, top - vec2(0.0, 8.0)], Stroke::new(4.0, palette.ink));
    painter.line_segment([foot - vec2(10.0, 0.0), foot + vec2(10.0, 0.0)], Stroke::new(3.0, palette.ink));
    let along = vec2(angle.cos(), angle.sin());
    let across = vec2(-along.y, along.x);
    // From the mouth to the tail it narrows by half.
    let edge = |share: f32, side: f32| -> Pos2 {
        top + vec2(6.0, 4.0) + along * (share * 104.0) + across * (side * (15.0 - 7.0 * share))
    };
    for stripe in 0..STRIPES {
        let (from, to) = (f32::from(stripe) / f32::from(STRIPES), f32::from(stripe + 1) / f32::from(STRIPES));
        let corners = vec![edge(from, -1.0), edge(to, -1.0), edge(to, 1.0), edge(from, 1.0)];
        let fill = if stripe < filled { palette.hatch[2] } else { palette.paper };
        painter.add(Shape::convex_polygon(corners, fill, Stroke::new(1.5, palette.ink)));
    }
}

/// Paints a compass with the wind blowing across it.
pub(super) fn compass(ui: &mut Ui, view: &View<'_>, from: Bearing) {
    let (rect, response) = ui.allocate_exact_size(vec2(104.0, ROOM.y), Sense::hover());
    let words = format!("wind from {:.0} degrees true, {}", from.deg(), from.point());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, &words));
    let (painter, palette) = (ui.painter(), view.palette);
    let (centre, radius) = (rect.center() + vec2(0.0, 8.0), 42.0);
    painter.circle_stroke(centre, radius, Stroke::new(1.5, palette.rule));
    for tick in 0..16u8 {
        let way = screen(Bearing::from_deg(22.5 * f64::from(tick)));
        let length = if tick % 4 == 0 { 8.0 } else { 4.0 };
        painter.line_segment([centre + way * (radius - length), centre + way * radius], Stroke::new(1.5, palette.soft));
    }
    let north = centre - vec2(0.0, radius + 9.0);
    painter.text(north, Align2::CENTER_CENTER, "N", FontId::new(15.0, bold()), palette.ink);
    let way = screen(from);
    let (tail, tip) = (centre + way * (radius - 2.0), centre - way * (radius - 12.0));
    painter.line_segment([tail, tip], Stroke::new(4.0, palette.focus));
    let side = vec2(-way.y, way.x);
    let head = vec![tip - way * 9.0, tip + way * 7.0 + side * 9.0, tip + way * 7.0 - side * 9.0];
    painter.add(Shape::convex_polygon(head, palette.focus, Stroke::NONE));
}

/// A bearing as a way on the screen, north up.
fn screen(bearing: Bearing) -> Vec2 {
    let way = bearing.unit();
    vec2(way.x as f32, -way.y as f32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wind::estimate::{SOCK_M, windsock_angle, windsock_stripes};

    #[test]
    fn the_sock_shows_the_wind_that_it_would_be_read_as() {
        for stripes in 1..=STRIPES {
            let mps = windsock_stripes(stripes, SOCK_M).unwrap().mean_mps;
            assert_eq!(standing(mps), stripes);
        }
        assert_eq!(standing(0.0), 0);
        for degrees in [5.0, 17.0, 30.0, 60.0, 90.0] {
            let mps = windsock_angle(degrees, SOCK_M).unwrap().mean_mps;
            approx::assert_abs_diff_eq!(below_level(mps), degrees, epsilon = 1e-9);
        }
        assert_eq!(below_level(20.0), 0.0);
    }
}
