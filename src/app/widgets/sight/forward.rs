//! What comes in from the jet's nose: the field ahead and below, or what is left of that picture.

use bevy_egui::egui::{FontId, Painter, Rect, Stroke, StrokeKind, Vec2, vec2};

use super::dark;
use super::land::Land;
use super::names::Names;
use super::pane::Pane;
use super::scene::{Dark, Scene};
use super::{sky, tall};
use crate::app::look::labels::plate;
use crate::app::look::theme::TEXT;
use crate::rehearsal::Camera;
use crate::run::Floor;
use crate::words::Measure;

/// From the left edge of the picture to the right one, degrees (judgement).
const WIDTH_DEG: f64 = 100.0;

/// Paints the picture into a rectangle.
pub fn forward(painter: &Painter, rect: Rect, scene: &Scene<'_>, dark: Dark<'_>) {
    if !(rect.is_finite() && rect.is_positive()) {
        return;
    }
    let painter = &painter.with_clip_rect(rect.intersect(painter.clip_rect()));
    match dark {
        Dark::None => picture(painter, rect, scene),
        Dark::Snow { seed, still } => {
            dark::snow(painter, rect, scene.palette, seed, if still { 0.0 } else { scene.time_s });
        }
        Dark::Frozen { state, at_s } => picture(painter, rect, &Scene { state, time_s: at_s, ..*scene }),
        Dark::Black(words) => dark::black(painter, rect, words),
    }
}

fn picture(painter: &Painter, rect: Rect, scene: &Scene<'_>) {
    let (field, palette) = (&scene.scenario.field, scene.palette);
    let pane = &Pane::new(Camera::aboard(scene.state), rect, WIDTH_DEG);
    let land = &Land { painter, pane, floor: &Floor::of(scene.scenario), palette };
    sky::draw(painter, pane, scene);
    land.fill(&field.boundary, palette.inside);
    land.grid();
    if let Some(runway) = field.runway {
        land.runway(runway);
    }
    let mut names = Names::default();
    for area in &field.areas {
        land.area(area);
        if let Some((away_m, at)) = land.name_at(&area.region) {
            names.add(away_m, Some(at), &area.name);
        }
    }
    land.flight_line(field);
    land.edges(&field.boundary, Stroke::new(2.5, palette.ink));
    let mut obstacles: Vec<_> = field.obstacles.iter().map(|one| (tall::away_m(land, one), one)).collect();
    obstacles.sort_by(|a, b| b.0.total_cmp(&a.0));
    for (away_m, obstacle) in obstacles {
        tall::draw(land, obstacle);
        names.add(away_m, pane.spot(tall::head(land, obstacle)), &obstacle.name);
    }
    if let Some(at) = pane.spot(land.at(field.pilot)) {
        let square = Rect::from_center_size(at, Vec2::splat(8.0));
        painter.rect(square, 0.0, palette.ink, Stroke::new(1.5, palette.paper), StrokeKind::Outside);
        names.add(land.away_m(field.pilot), Some(at - vec2(0.0, 5.0)), "pilot");
    }
    sky::glare(painter, pane, scene);
    let strip = strip(painter, rect, scene);
    names.write(painter, palette, Rect::from_min_max(rect.min, rect.right_bottom() - vec2(0.0, strip)));
}

/// Writes the numbers under the picture, and tells how much of it they take, points.
fn strip(painter: &Painter, rect: Rect, scene: &Scene<'_>) -> f32 {
    let units = scene.units;
    let seconds = scene.time_s.max(0.0).floor();
    let text = [
        format!("airspeed {}", units.short(Measure::Speed, scene.state.airspeed)),
        format!("height {}", units.short(Measure::Height, scene.state.height)),
        format!("energy left {:.0} %", 100.0 * scene.left_share()),
        format!("{:.0}:{:02.0}", (seconds / 60.0).floor(), seconds % 60.0),
    ];
    let font = FontId::proportional(TEXT);
    let galley = painter.layout(text.join("    "), font, scene.palette.ink, (rect.width() - 16.0).max(10.0));
    let room = Rect::from_min_max(rect.left_bottom() - vec2(0.0, galley.size().y + 8.0), rect.right_bottom());
    plate(painter, scene.palette, room);
    painter.galley(room.min + vec2(8.0, 4.0), galley, scene.palette.ink);
    room.height()
}
