//! North, the wind and the scale, in the corners of the map.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, vec2};

use glam::DVec2;

use crate::app::look::labels::{Labels, plate, words};
use crate::app::look::lens::{CORNER, Lens};
use crate::app::look::theme::{Palette, bold};
use crate::app::look::words::number;
use crate::app::session::Flown;
use crate::field::{Field, Rule};
use crate::units::Bearing;
use crate::wind::WindSheet;
use crate::words::{Measure, Units};

/// Longest scale bar, points.
const SCALE_BAR: f64 = 128.0;

/// How finely it is looked at what lies below the box: so many places each way.
const SAMPLES: u8 = 7;

/// Size of the box without what only a flight knows, points.
pub const STILL: Vec2 = Vec2::new(CORNER.x, 164.0);

/// Draws north, scale and the wind as it is written, without a flight.
pub fn draw_still(
    painter: &Painter,
    lens: &Lens,
    (palette, units): (&Palette, &Units),
    sheet: &WindSheet,
    labels: &mut Labels,
) {
    let rect = Rect::from_min_size(places(lens)[0].min, STILL);
    plate(painter, palette, rect);
    north(painter, rect.min + vec2(28.0, 8.0), palette);
    let from = format!("wind from {} {:.0}\u{b0}", sheet.from.point(), sheet.from.deg());
    words(painter, palette, rect.left_bottom() + vec2(8.0, -42.0), Align2::LEFT_BOTTOM, &from);
    WindDial::inside(rect).draw(painter, palette, sheet);
    scale(painter, lens, rect, (palette, units));
    labels.keep_off(rect.expand(2.0));
}

/// Draws all three, where the least of the field lies below them, and keeps labels off them.
pub fn draw(painter: &Painter, lens: &Lens, (palette, units): (&Palette, &Units), flown: &Flown, labels: &mut Labels) {
    let rect = corner(lens, &flown.scenario.field);
    plate(painter, palette, rect);
    north(painter, rect.min + vec2(28.0, 8.0), palette);
    wind(painter, rect, (palette, units), flown);
    WindDial::inside(rect).draw(painter, palette, &flown.scenario.file.wind);
    scale(painter, lens, rect, (palette, units));
    labels.keep_off(rect.expand(2.0));
}

/// Where the box of all three may be: first the corner that a view of everything leaves free.
fn places(lens: &Lens) -> [Rect; 4] {
    let room = lens.rect.shrink(6.0);
    [Align2::RIGHT_TOP, Align2::LEFT_TOP, Align2::RIGHT_BOTTOM, Align2::LEFT_BOTTOM]
        .map(|corner| corner.align_size_within_rect(vec2(CORNER.x, CORNER.y), room))
}

/// The box of all three: in the corner where it hides the least of a field.
fn corner(lens: &Lens, field: &Field) -> Rect {
    let [first, others @ ..] = places(lens);
    let least = |a: (u32, Rect), b: Rect| {
        let hidden = hidden(lens, field, b);
        if hidden < a.0 { (hidden, b) } else { a }
    };
    others.into_iter().fold((hidden(lens, field, first), first), least).1
}

/// How much of a field lies below a box: ground with a rule and the places of people count for more than plain land.
fn hidden(lens: &Lens, field: &Field, rect: Rect) -> u32 {
    let step = rect.size() / f32::from(SAMPLES);
    let samples = (0..SAMPLES).flat_map(|x| (0..SAMPLES).map(move |y| (f32::from(x) + 0.5, f32::from(y) + 0.5)));
    let ground = samples.map(|(x, y)| lens.ground(rect.min + vec2(x * step.x, y * step.y)));
    let ruled = |at: DVec2| field.areas.iter().any(|area| area.rule != Rule::Idle && area.region.contains(at));
    let land = ground.map(|at| if ruled(at) { 4 } else { u32::from(field.boundary.contains(at)) }).sum::<u32>();
    let points = [field.home, field.pilot, field.centre];
    land + points.into_iter().filter(|at| rect.contains(lens.screen(*at))).map(|_| 20).sum::<u32>()
}

/// The arrow of the wind, by whose length its speed is told and set.
#[derive(Debug, Clone, Copy)]
pub struct WindDial {
    middle: Pos2,
}

impl WindDial {
    /// Half the length of the arrow of the strongest wind that can be set, points.
    const LONGEST: f32 = 44.0;
    /// That wind, m/s.
    const STRONGEST: f64 = 20.0;

    /// The dial of the map of a field.
    pub fn of(lens: &Lens, field: &Field) -> Self {
        Self::inside(corner(lens, field))
    }

    fn inside(rect: Rect) -> Self {
        Self { middle: rect.right_top() + vec2(-64.0, 50.0) }
    }

    /// Where the arrow of a wind begins. Half its length grows with the root of the speed, so that a light wind is seen.
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    pub fn at(self, from: Bearing, mps: f64) -> Pos2 {
        let reach = Self::LONGEST * (mps.clamp(0.0, Self::STRONGEST) / Self::STRONGEST).sqrt() as f32;
        let way = from.unit();
        self.middle + vec2(way.x as f32, -way.y as f32) * reach
    }

    /// A point of the screen about the middle, north up, points.
    pub fn place(self, at: Pos2) -> DVec2 {
        let away = at - self.middle;
        DVec2::new(f64::from(away.x), f64::from(-away.y))
    }

    /// The speed of an arrow half as long, m/s.
    pub fn speed(self, reach: f64) -> f64 {
        Self::STRONGEST * (reach / f64::from(Self::LONGEST)).powi(2).min(1.0)
    }

    fn draw(self, painter: &Painter, palette: &Palette, sheet: &WindSheet) {
        painter.circle_stroke(self.middle, Self::LONGEST, Stroke::new(1.0, palette.rule));
        if sheet.mean.mps() > 0.0 {
            arrow(painter, self.middle, self.at(sheet.from, sheet.mean.mps()), palette);
        } else {
            painter.circle_stroke(self.middle, 8.0, Stroke::new(3.0, palette.ink));
        }
    }
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

fn wind(painter: &Painter, rect: Rect, (palette, units): (&Palette, &Units), flown: &Flown) {
    let sheet = &flown.scenario.file.wind;
    let both = |mean: f64, words: &str, gust: f64| {
        format!("{}{words}{}", number(units.first(Measure::Wind, mean)), units.short(Measure::Wind, gust))
    };
    let [mean, gust] = flown.margins.figures.wind_at_circle_mps;
    let lines = [
        format!("wind from {} {:.0}\u{b0}", sheet.from.point(), sheet.from.deg()),
        both(sheet.mean.mps(), ", gusts ", sheet.gust().mps()),
        format!("circle {}", both(mean, ", ", gust)),
    ];
    let mut at = rect.left_bottom() + vec2(8.0, -42.0);
    for line in lines.iter().rev() {
        at.y = words(painter, palette, at, Align2::LEFT_BOTTOM, line).top();
    }
}

/// An arrow that flies with the wind: three feathers where it comes from, a head where it goes.
fn arrow(painter: &Painter, middle: Pos2, tail: Pos2, palette: &Palette) {
    let half = (middle - tail).length().max(9.0);
    let way = (middle - tail).normalized();
    let side = way.rot90();
    let (tail, tip) = (middle - way * half, middle + way * half);
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

/// The longest round length that fits the bar: one, two or five times a power of ten.
fn round_length(units_a_point: f64) -> f64 {
    let most = SCALE_BAR * units_a_point;
    let power = 10_f64.powf(most.log10().floor());
    [5.0, 2.0, 1.0].into_iter().map(|times| times * power).find(|length| *length <= most).unwrap_or(power)
}

fn scale(painter: &Painter, lens: &Lens, corner: Rect, (palette, units): (&Palette, &Units)) {
    let units_a_point = units.first(Measure::Distance, lens.metres_a_point);
    let length = round_length(units_a_point);
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let width = (length / units_a_point) as f32;
    let left = corner.left_bottom() + vec2(14.0, -14.0);
    for part in 0..4_u8 {
        let from = left + vec2(width / 4.0 * f32::from(part), 0.0);
        let bar = Rect::from_min_size(from, vec2(width / 4.0, 7.0));
        let fill = if part % 2 == 0 { palette.ink } else { palette.paper };
        painter.rect(bar, 0.0, fill, Stroke::new(1.2, palette.ink), StrokeKind::Middle);
    }
    words(painter, palette, left + vec2(0.0, -2.0), Align2::CENTER_BOTTOM, "0");
    let unit = &units.of(Measure::Distance).first;
    let end = format!("{} {unit}", number(length));
    words(painter, palette, left + vec2(width, -2.0), Align2::CENTER_BOTTOM, &end);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::lens::MapView;
    use bevy_egui::egui::pos2;

    #[test]
    fn an_arrow_tells_the_wind_that_it_was_drawn_for() {
        let lens = Lens::new(MapView::default(), Rect::from_min_size(pos2(0.0, 0.0), vec2(800.0, 600.0)));
        let dial = WindDial::inside(places(&lens)[0]);
        for (from, mps) in [(0.0, 3.0), (90.0, 6.0), (225.0, 12.5), (359.0, 20.0)] {
            let tail = dial.place(dial.at(Bearing::from_deg(from), mps));
            assert!((dial.speed(tail.length()) - mps).abs() < 1e-3, "{mps} m/s");
            let off = (Bearing::of(tail).deg() - from).rem_euclid(360.0);
            assert!(off.min(360.0 - off) < 1e-3, "from {from}");
        }
    }

    #[test]
    fn the_box_lies_where_it_hides_the_least() {
        let field = crate::run::Scenario::tight_strip().field;
        let rect = Rect::from_min_size(pos2(0.0, 0.0), vec2(800.0, 600.0));
        let whole = Lens::new(MapView::default(), rect);
        let near = |centre| Lens::new(MapView::At { centre, metres_a_point: 0.5 }, rect);
        // The goats in the top right corner, then in the top left one.
        let paddock = crate::app::map::places::deepest(&field.areas[0].region);
        let at = |place: Pos2| {
            let lens = near(DVec2::ZERO);
            near(paddock - (lens.ground(place) - DVec2::ZERO))
        };
        for (lens, off) in [(at(pos2(710.0, 100.0)), 0), (at(pos2(90.0, 100.0)), 1)] {
            assert!(places(&lens)[off].contains(lens.screen(paddock)));
            let found = corner(&lens, &field);
            assert!(!found.contains(lens.screen(paddock)), "{found:?}");
        }
        let least = places(&whole).map(|place| hidden(&whole, &field, place)).into_iter().min();
        assert_eq!(least, Some(hidden(&whole, &field, corner(&whole, &field))));
    }

    #[test]
    fn scale_bars_are_round_and_fit() {
        for (metres_a_point, expected) in [(1.0, 100.0), (1.6, 200.0), (0.05, 5.0), (40.0, 5000.0)] {
            let found = round_length(metres_a_point);
            assert!((found - expected).abs() < 1e-9, "{found} m at {metres_a_point} m a point");
        }
    }
}
