//! How do trees, masts and barns stand in the picture, as high and as wide as they are?

use bevy_egui::egui::{Painter, Stroke};
use glam::{DVec2, DVec3};

use super::land::{Land, triangles};
use super::pane::painted;
use crate::field::Obstacle;
use crate::geometry::Edge;

/// Half the width of the foot of something of which only a place and a height are known, of its height; and its least and
/// most, metres (judgement).
const FOOT_SHARE: f64 = 0.06;
const FOOT_M: [f64; 2] = [0.2, 1.5];
/// Distance between the upright lines of a wall, metres, and the least on the screen, points.
const UPRIGHTS_M: f64 = 3.0;
const UPRIGHTS_LEAST: f64 = 4.0;

/// How far something tall is from the eyes over the ground, metres; nothing for whoever is above it.
pub(super) fn away_m(land: &Land<'_>, obstacle: &Obstacle) -> f64 {
    (-obstacle.region.signed_distance(land.pane.camera.at.truncate())).max(0.0)
}

/// The place over which its name stands.
pub(super) fn head(land: &Land<'_>, obstacle: &Obstacle) -> DVec3 {
    let (low, high) = obstacle.region.bounds();
    let middle = (low + high) / 2.0;
    middle.extend(top_m(land, obstacle, middle))
}

/// Height of its top over home's ground, and not below its foot.
fn top_m(land: &Land<'_>, obstacle: &Obstacle, foot: DVec2) -> f64 {
    (obstacle.top_m - land.floor.home_m()).max(land.floor.height_m(foot))
}

/// Draws it: a place as a peak, a ring as walls under a flat roof.
pub(super) fn draw(land: &Land<'_>, obstacle: &Obstacle) {
    if let [ring] = obstacle.region.rings()
        && let [at] = ring[..]
    {
        return peak(land, at, top_m(land, obstacle, at));
    }
    let eyes = land.pane.camera.at;
    let mut edges: Vec<&Edge> = obstacle.region.edges().iter().collect();
    let middle = |edge: &Edge| ((edge.from + edge.to) / 2.0).distance(eyes.truncate());
    edges.sort_by(|a, b| middle(b).total_cmp(&middle(a)));
    for edge in edges {
        wall(land, edge, top_m(land, obstacle, edge.from));
    }
    let top = obstacle.top_m - land.floor.home_m();
    if eyes.z > top {
        let roof: Vec<[DVec3; 3]> =
            triangles(&obstacle.region).map(|corners| corners.map(|at| at.extend(top))).collect();
        land.painter.add(land.pane.filled(roof.iter().map(|corners| (&corners[..], land.palette.obstacle))));
        for edge in obstacle.region.edges() {
            line(land.painter, land, [edge.from.extend(top), edge.to.extend(top)], 1.0);
        }
    }
}

fn line(painter: &Painter, land: &Land<'_>, ends: [DVec3; 2], width: f32) {
    if let Some(ends) = land.pane.line(ends) {
        painter.line_segment(ends, Stroke::new(width, land.palette.ink));
    }
}

fn peak(land: &Land<'_>, at: DVec2, top: f64) {
    let foot = land.at(at);
    let side = (at - land.pane.camera.at.truncate()).normalize_or(DVec2::Y).perp().extend(0.0);
    let half = side * ((top - foot.z) * FOOT_SHARE).clamp(FOOT_M[0], FOOT_M[1]);
    let face = land.pane.face(&[foot - half, foot + half, at.extend(top)]);
    if !face.is_empty() {
        land.painter.add(painted(face, land.palette.obstacle, Stroke::new(1.0, land.palette.ink)));
    }
    // However thin it is from there, its height shows.
    line(land.painter, land, [foot, at.extend(top)], 1.0);
}

fn wall(land: &Land<'_>, edge: &Edge, top: f64) {
    let [from, to] = [edge.from, edge.to].map(|at| land.at(at));
    let lifted = |at: DVec3| at.truncate().extend(top.max(at.z));
    let face = land.pane.face(&[from, to, lifted(to), lifted(from)]);
    if face.is_empty() {
        return;
    }
    let ink = Stroke::new(1.0, land.palette.ink);
    land.painter.add(painted(face, land.palette.obstacle, ink));
    let length = from.distance(to);
    let away = land.pane.camera.at.distance((from + to) / 2.0);
    if UPRIGHTS_M * land.pane.focal / away.max(1.0) < UPRIGHTS_LEAST {
        return;
    }
    let uprights = (length / UPRIGHTS_M).ceil().clamp(1.0, 60.0);
    let mut upright = 1.0;
    while upright < uprights {
        let foot = from.lerp(to, upright / uprights);
        line(land.painter, land, [foot, lifted(foot)], 0.6);
        upright += 1.0;
    }
}
