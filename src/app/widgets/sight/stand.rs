//! What does the pilot see, standing at the pilot position? Only what there is: no mark leads to the jet.

use bevy_egui::egui::{Painter, Pos2, Rect, Stroke, vec2};
use glam::{DVec2, DVec3};

use super::land::Land;
use super::names::Names;
use super::pane::{Pane, painted};
use super::scene::{Looking, Scene};
use super::{jet, sky, tall};
use crate::margins::eyes;
use crate::rehearsal::Camera;
use crate::run::Floor;
use crate::units::Bearing;

/// Where things came to be in the picture; none for what is not in it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct StandPicture {
    /// The rectangle that the jet takes.
    pub jet: Option<Rect>,
    /// The middle of the sun.
    pub sun: Option<Pos2>,
}

fn pane(rect: Rect, at: DVec3, looking: Looking) -> Pane {
    Pane::new(Camera::level(at, looking.bearing_deg, looking.elevation_deg), rect, looking.width_deg)
}

/// The direction of a point of the picture: bearing and elevation, degrees.
pub fn direction(rect: Rect, looking: Looking, at: Pos2) -> [f64; 2] {
    let pane = pane(rect, DVec3::ZERO, looking);
    pane.camera.direction_deg(pane.on_picture(at))
}

/// Where a direction is in the picture; none where it is not in it.
pub fn pos(rect: Rect, looking: Looking, bearing_deg: f64, elevation_deg: f64) -> Option<Pos2> {
    let (up, level) = elevation_deg.to_radians().sin_cos();
    pane(rect, DVec3::ZERO, looking).toward((Bearing::from_deg(bearing_deg).unit() * level).extend(up))
}

/// Paints the picture into a rectangle.
pub fn stand(painter: &Painter, rect: Rect, scene: &Scene<'_>, looking: Looking) -> StandPicture {
    if !(rect.is_finite() && rect.is_positive()) {
        return StandPicture::default();
    }
    let (field, palette) = (&scene.scenario.field, scene.palette);
    let painter = &painter.with_clip_rect(rect.intersect(painter.clip_rect()));
    let pane = &pane(rect, eyes(scene.scenario), looking);
    let land = &Land { painter, pane, floor: &Floor::of(scene.scenario), palette };
    let sun = sky::draw(painter, pane, scene);
    let thin = Stroke::new(1.0, palette.ink);
    let mut names = Names::default();
    if let Some(runway) = field.runway {
        let ends = [runway.from, runway.to];
        let side = (ends[1] - ends[0]).normalize_or_zero().perp() * runway.width_m / 2.0;
        for side in [side, -side] {
            land.line(ends[0] + side, ends[1] + side, thin);
        }
    }
    for area in &field.areas {
        land.edges(&area.region, thin);
        if let Some((away_m, at)) = land.name_at(&area.region) {
            names.add(away_m, Some(at), &area.name);
        }
    }
    land.flight_line(field);
    land.edges(&field.boundary, Stroke::new(1.5, palette.ink));
    let eyes = pane.camera.at;
    for landmark in &scene.scenario.file.brief.landmarks {
        let away = DVec2::from(landmark.at_m) - eyes.truncate();
        if let Some(at) = away.try_normalize().and_then(|away| pane.toward(away.extend(0.0))) {
            let spire = [vec2(-4.0, 0.0), vec2(4.0, 0.0), vec2(0.0, -14.0)].map(|by| at + by).to_vec();
            painter.add(painted(spire, palette.soft, thin));
            names.add(away.length(), Some(at - vec2(0.0, 14.0)), &landmark.name);
        }
    }
    let mut obstacles: Vec<_> = field.obstacles.iter().map(|one| (tall::away_m(land, one), one)).collect();
    obstacles.sort_by(|a, b| b.0.total_cmp(&a.0));
    for (away_m, obstacle) in &obstacles {
        names.add(*away_m, pane.spot(tall::head(land, obstacle)), &obstacle.name);
    }
    // Before the jet: no word hides it.
    names.write(painter, palette, rect);
    let jet_m = DVec2::new(scene.state.x, scene.state.y).distance(eyes.truncate());
    let (behind, before): (Vec<_>, Vec<_>) = obstacles.into_iter().partition(|(away_m, _)| *away_m > jet_m);
    behind.iter().for_each(|(_, obstacle)| tall::draw(land, obstacle));
    let jet = jet::draw(painter, pane, scene);
    sky::glare(painter, pane, scene);
    before.iter().for_each(|(_, obstacle)| tall::draw(land, obstacle));
    StandPicture { jet, sun }
}
