//! The named places of a field: its four points, each with a shape of its own, the loss, areas and tall things.

use bevy_egui::egui::{Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, vec2};
use glam::DVec2;

use crate::app::look::labels::Labels;
use crate::app::look::lens::Lens;
use crate::app::look::theme::Palette;
use crate::app::look::words;
use crate::app::session::Flown;
use crate::field::{Field, FieldArea, FieldFile, Rule};
use crate::geometry::Region;
use crate::units::Bearing;

/// Steps across a region in search of the place deepest inside it.
const SEARCH: u32 = 14;

/// The points of a scenario that are drawn, each with its shape and its word.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MapPlace {
    /// Origin of the metres.
    Datum,
    /// Where the pilot stands.
    Pilot,
    /// What the jet took for home.
    Home,
    /// Centre of the circle.
    Centre,
    /// Where the loss is.
    Loss,
}

impl MapPlace {
    const ALL: [Self; 5] = [Self::Centre, Self::Home, Self::Pilot, Self::Datum, Self::Loss];

    fn at(self, flown: &Flown) -> DVec2 {
        let field = &flown.scenario.field;
        match self {
            Self::Datum => DVec2::ZERO,
            Self::Pilot => field.pilot,
            Self::Home => field.home,
            Self::Centre => field.centre,
            Self::Loss => DVec2::from_array(flown.scenario.file.loss.at_m),
        }
    }

    fn word(self, flown: &Flown) -> String {
        match self {
            Self::Datum => "datum".into(),
            Self::Pilot => "pilot".into(),
            Self::Home => "home".into(),
            Self::Centre => "centre".into(),
            Self::Loss => format!("{} lost", crate::words::loss(flown.scenario.file.loss.kind)),
        }
    }
}

/// Draws a place's shape: a cross, a square, a house, a ring with a dot, a star.
pub fn symbol(painter: &Painter, palette: &Palette, place: MapPlace, at: Pos2) {
    let ink = Stroke::new(2.2, palette.ink);
    let arms = |angles: &[f32], length: f32| {
        for (stroke, longer) in [(Stroke::new(5.0, palette.paper), 1.5), (ink, 0.0)] {
            for angle in angles {
                let arm = Vec2::angled(angle.to_radians()) * (length + longer);
                painter.line_segment([at - arm, at + arm], stroke);
            }
        }
    };
    match place {
        MapPlace::Datum => arms(&[0.0, 90.0], 8.0),
        MapPlace::Pilot => {
            let square = Rect::from_center_size(at, Vec2::splat(11.0));
            painter.rect(square, 0.0, palette.ink, Stroke::new(2.0, palette.paper), StrokeKind::Outside);
        }
        MapPlace::Home => {
            let house = [(-8.0, 8.0), (-8.0, -2.0), (0.0, -10.0), (8.0, -2.0), (8.0, 8.0)];
            let corners = house.map(|(x, y)| at + vec2(x, y)).to_vec();
            painter.add(Shape::convex_polygon(corners, palette.paper, ink));
        }
        MapPlace::Centre => {
            painter.circle(at, 9.0, palette.paper, ink);
            painter.circle_filled(at, 3.0, palette.ink);
        }
        MapPlace::Loss => arms(&[0.0, 60.0, 120.0], 9.0),
    }
}

/// The centre as it is written, faulty or not.
pub fn centre(field: &FieldFile) -> Option<DVec2> {
    let centre = DVec2::from(field.centre_m.unwrap_or(field.home_m));
    centre.is_finite().then_some(centre)
}

/// Keeps words off the centre, where a handle may be.
pub fn keep_centre_clear(lens: &Lens, field: Option<&FieldFile>, labels: &mut Labels) {
    if let Some(centre) = field.and_then(centre) {
        labels.keep_off(Rect::from_center_size(lens.screen(centre), Vec2::splat(46.0)));
    }
}

/// Keeps words off the strip and the flight line where there is room elsewhere.
pub fn keep_lines_clear(lens: &Lens, field: &Field, labels: &mut Labels) {
    let strip = field.runway.map(|runway| [runway.from, runway.to]);
    for [from, to] in strip.into_iter().chain(field.flight_line_ends) {
        let line: Vec<Pos2> = (0..=60).map(|step| lens.screen(from.lerp(to, f64::from(step) / 60.0))).collect();
        labels.rather_not(&line);
    }
}

/// Draws the shapes of the points, and keeps everything else off them.
pub fn draw_symbols(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette, labels: &mut Labels) {
    for (place, at) in seen(lens, flown) {
        labels.keep_off(Rect::from_center_size(at, Vec2::splat(20.0)));
        symbol(painter, palette, place, at);
        if place == MapPlace::Pilot {
            faced(painter, palette, at, flown.scenario.field.facing);
        }
    }
}

/// An arrow from the pilot position the way people look, which is the twelve of the clock.
pub fn faced(painter: &Painter, palette: &Palette, pilot: Pos2, facing: Bearing) {
    #[allow(clippy::cast_possible_truncation, reason = "a direction on the screen")]
    let ahead = Vec2::angled((facing.deg() as f32 - 90.0).to_radians());
    for stroke in [Stroke::new(5.0, palette.paper), Stroke::new(2.2, palette.ink)] {
        painter.arrow(pilot + ahead * 9.0, ahead * 18.0, stroke);
    }
}

/// Writes the words of the points.
pub fn draw_words(painter: &Painter, lens: &Lens, flown: &Flown, palette: &Palette, labels: &mut Labels) {
    for (place, at) in seen(lens, flown) {
        labels.write(painter, palette, at, 11.0, &place.word(flown));
    }
}

fn seen(lens: &Lens, flown: &Flown) -> impl Iterator<Item = (MapPlace, Pos2)> {
    let places = MapPlace::ALL.into_iter().map(|place| (place, lens.screen(place.at(flown))));
    places.filter(|(_, at)| lens.rect.contains(*at))
}

/// Writes the names of areas, tall things, the strip and the flight line.
pub fn draw_names(painter: &Painter, lens: &Lens, field: &Field, palette: &Palette, labels: &mut Labels) {
    for area in &field.areas {
        let at = lens.screen(deepest(&area.region));
        if lens.rect.contains(at) {
            labels.name(painter, palette, (at, on_screen(lens, &area.region)), &area_words(area));
        }
    }
    let mut write = |at: DVec2, gap: f32, text: &str| {
        let at = lens.screen(at);
        if lens.rect.contains(at) {
            labels.write(painter, palette, at, gap, text);
        }
    };
    for obstacle in &field.obstacles {
        write(deepest(&obstacle.region), 9.0, &format!("{}, top {:.0} m", obstacle.name, obstacle.top_m));
    }
    if let Some(runway) = field.runway {
        write(runway.to, 6.0, "runway");
    }
    if let Some([from, _]) = field.flight_line_ends {
        write(from, 6.0, "flight line");
    }
}

/// The rectangle of the screen round a region.
fn on_screen(lens: &Lens, region: &Region) -> Rect {
    let (low, high) = region.bounds();
    Rect::from_two_pos(lens.screen(low), lens.screen(high))
}

/// An area's name and rule.
pub fn area_words(area: &FieldArea) -> String {
    match area.rule {
        Rule::NoFly => format!("{}, no-fly", area.name),
        Rule::Above(height) => format!("{}, above {}", area.name, words::metres(height)),
        Rule::People => format!("{}, people", area.name),
        Rule::Caution => format!("{}, caution", area.name),
        Rule::Idle => format!("{}, no rule this month", area.name),
    }
}

/// A place well inside a region, for its name; the nearest corner where it has no inside.
pub fn deepest(region: &Region) -> DVec2 {
    let (low, high) = region.bounds();
    let step = (high - low) / f64::from(SEARCH);
    let places = (0..SEARCH).flat_map(|x| (0..SEARCH).map(move |y| (f64::from(x) + 0.5, f64::from(y) + 0.5)));
    let middle = (low + high) / 2.0;
    places
        .map(|(x, y)| low + step * DVec2::new(x, y))
        // Of places equally deep, the one nearest the middle.
        .map(|at| (region.signed_distance(at) - 0.02 * at.distance(middle), at))
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(low, |(_, at)| at)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_of_a_bent_region_stands_inside_it() {
        let corner = [(0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (20.0, 20.0), (20.0, 100.0), (0.0, 100.0)];
        let region = Region::new(&corner.map(|(x, y)| DVec2::new(x, y)), &[]);
        assert!(region.signed_distance(deepest(&region)) > 5.0);
    }

    #[test]
    fn the_name_of_a_point_stands_at_it() {
        assert_eq!(deepest(&Region::point(DVec2::new(3.0, 4.0))), DVec2::new(3.0, 4.0));
    }
}
