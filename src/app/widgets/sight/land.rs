//! How does the ground of a field lie in the picture: its boundary, areas, strip, flight line and grid?

use bevy_egui::egui::{Color32, Painter, Pos2, Shape, Stroke, pos2};
use glam::{DVec2, DVec3};

use super::pane::Pane;
use super::shades;
use crate::app::look::hatch::{Hatch, dots, rule};
use crate::app::look::surface;
use crate::app::look::theme::Palette;
use crate::app::map::ground::hatch_of;
use crate::field::{Field, FieldArea, Runway};
use crate::geometry::Region;
use crate::run::Floor;

/// Distance between lines of the grid, and from where it is no longer seen, metres.
const GRID_M: f64 = 50.0;
const GRID_ENDS_M: f64 = 700.0;
/// Where the ground is not flat, a line follows it in pieces so long, metres.
const PIECE_M: f64 = 20.0;
/// Least distance between lines of a hatch, metres, and most lines across an area.
const HATCH_M: f64 = 6.0;
const LINES: f64 = 60.0;

/// Ground in a picture.
#[derive(Clone, Copy)]
pub(super) struct Land<'a> {
    pub(super) painter: &'a Painter,
    pub(super) pane: &'a Pane,
    pub(super) floor: &'a Floor<'a>,
    pub(super) palette: &'static Palette,
}

impl Land<'_> {
    /// A place on the ground.
    pub(super) fn at(&self, place: DVec2) -> DVec3 {
        place.extend(self.floor.height_m(place))
    }

    /// How far a place of the ground is from the eyes, metres.
    pub(super) fn away_m(&self, place: DVec2) -> f64 {
        self.pane.camera.at.distance(self.at(place))
    }

    /// A line over the ground.
    pub(super) fn line(&self, from: DVec2, to: DVec2, stroke: Stroke) {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a small count")]
        let pieces =
            if self.floor.is_flat() { 1 } else { (from.distance(to) / PIECE_M).ceil().clamp(1.0, 500.0) as u32 };
        let place = |index: u32| self.at(from.lerp(to, f64::from(index) / f64::from(pieces)));
        let seen = (0..pieces).filter_map(|index| self.pane.line([place(index), place(index + 1)]));
        self.painter.extend(seen.map(|ends| Shape::line_segment(ends, stroke)));
    }

    /// The edges of a region.
    pub(super) fn edges(&self, region: &Region, stroke: Stroke) {
        region.edges().iter().for_each(|edge| self.line(edge.from, edge.to, stroke));
    }

    /// Lines every 50 m, fainter the further they are, by which speed and height are felt.
    pub(super) fn grid(&self) {
        let eyes = self.pane.camera.at;
        let middle = (eyes.truncate() / GRID_M).round() * GRID_M;
        if !middle.is_finite() {
            return;
        }
        let steps = 14_i8;
        let node = |x: i8, y: i8| middle + DVec2::new(f64::from(x), f64::from(y)) * GRID_M;
        for (x, y) in (-steps..=steps).flat_map(|x| (-steps..=steps).map(move |y| (x, y))) {
            for to in [node(x + 1, y), node(x, y + 1)] {
                let from = node(x, y);
                let away_m = self.away_m((from + to) / 2.0);
                #[allow(clippy::cast_possible_truncation, reason = "a shade")]
                let strength = (1.0 - away_m / GRID_ENDS_M).clamp(0.0, 1.0) as f32 * 0.4;
                if strength > 0.01 {
                    self.line(from, to, Stroke::new(1.0, self.palette.ink.gamma_multiply(strength)));
                }
            }
        }
    }

    /// Fills a region where the ground is flat; elsewhere its hatch and edges have to do.
    pub(super) fn fill(&self, region: &Region, colour: Color32) {
        if self.floor.is_flat() {
            let triangles: Vec<[DVec3; 3]> = triangles(region).map(|corners| corners.map(|at| self.at(at))).collect();
            self.painter.add(self.pane.filled(triangles.iter().map(|corners| (&corners[..], colour))));
        }
    }

    /// An area as on the map: by its rule tinted and ruled.
    pub(super) fn area(&self, area: &FieldArea) {
        if let Some((hatch, colours)) = hatch_of(area.rule) {
            self.fill(&area.region, self.palette.tint[colours]);
            let (low, high) = area.region.bounds();
            let spacing = HATCH_M.max((high - low).max_element() / LINES);
            let stroke = Stroke::new(1.0, shades::hatch(self.palette, colours));
            let slant = DVec2::new(1.0, 1.0).normalize();
            let ways: &[DVec2] = match hatch {
                Hatch::Crossed => &[slant, slant.perp()],
                Hatch::Slanted => &[slant],
                Hatch::Upright => &[DVec2::Y],
                Hatch::Dotted => {
                    dots(&area.region, spacing).into_iter().for_each(|dot| self.dot(dot, stroke.color));
                    &[]
                }
            };
            for [from, to] in ways.iter().flat_map(|way| rule(&area.region, *way, spacing)) {
                self.line(from, to, stroke);
            }
        }
        self.edges(&area.region, Stroke::new(1.5, self.palette.ink));
    }

    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    fn dot(&self, place: DVec2, colour: Color32) {
        if let Some(at) = self.pane.spot(self.at(place)) {
            let radius = (0.6 * self.pane.focal / self.away_m(place).max(1.0)).clamp(0.4, 3.0) as f32;
            self.painter.circle_filled(at, radius, colour);
        }
    }

    /// The strip.
    pub(super) fn runway(&self, runway: Runway) {
        let side = (runway.to - runway.from).normalize_or_zero().perp() * runway.width_m / 2.0;
        let corners = [runway.from - side, runway.to - side, runway.to + side, runway.from + side];
        let region = Region::new(&corners, &[]);
        self.fill(&region, self.palette.runway);
        self.edges(&region, Stroke::new(1.0, self.palette.ink));
    }

    /// The flight line, with ticks on the side that is out of bounds.
    pub(super) fn flight_line(&self, field: &Field) {
        let Some([from, to]) = field.flight_line_ends else { return };
        let ink = Stroke::new(2.0, self.palette.ink);
        self.line(from, to, ink);
        let inward = field.flight_line.map_or(DVec2::ZERO, |line| line.inward);
        let ticks = (from.distance(to) / 15.0).clamp(1.0, 200.0).floor();
        let mut tick = 0.0;
        while tick <= ticks {
            let root = from.lerp(to, tick / ticks);
            self.line(root, root - inward * 4.0, Stroke::new(1.0, ink.color));
            tick += 1.0;
        }
    }

    /// The point of a region's name: its middle, or where the middle is out of the picture the nearest corner in it.
    pub(super) fn name_at(&self, region: &Region) -> Option<(f64, Pos2)> {
        let middle = crate::app::map::places::deepest(region);
        let corners = region.rings().iter().flatten().copied();
        let seen = |place: DVec2| Some((self.away_m(place), self.pane.spot(self.at(place))?));
        seen(middle).or_else(|| corners.filter_map(seen).min_by(|a, b| a.0.total_cmp(&b.0)))
    }
}

/// Triangles over a region.
#[allow(clippy::cast_possible_truncation, reason = "a field is some kilometres across: f32 holds a millimetre")]
pub(super) fn triangles(region: &Region) -> impl Iterator<Item = [DVec2; 3]> {
    let mesh = surface::filled(region.rings(), Color32::WHITE, |at| pos2(at.x as f32, at.y as f32));
    let corner = |mesh: &bevy_egui::egui::Mesh, index: u32| {
        let at = mesh.vertices[index as usize].pos;
        DVec2::new(f64::from(at.x), f64::from(at.y))
    };
    let found: Vec<_> = mesh.indices.chunks_exact(3).map(|t| [t[0], t[1], t[2]].map(|i| corner(&mesh, i))).collect();
    found.into_iter()
}
