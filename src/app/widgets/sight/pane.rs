//! Which point of the screen shows a place, with whatever lies behind the eyes or beside the picture cut off?

use bevy_egui::egui::{Color32, Mesh, Pos2, Rect, Shape, Stroke, pos2};
use glam::DVec3;

use crate::rehearsal::Camera;

/// Corners of a face nearer to one another are one, points of the screen.
const ONE: f32 = 0.05;
/// Cosine of the sharpest turn at a corner whose rim is softened.
const SHARPEST: f32 = -0.9;
/// What is nearer to the plane of the eyes is cut off, metres.
const NEAREST_M: f64 = 0.1;
/// How far beyond the picture things are cut, of its half width: their cut edges are not seen.
const BESIDE: f64 = 1.02;
/// Narrowest and widest picture, degrees: beyond it a flat one is more edge than middle.
const WIDTHS_DEG: [f64; 2] = [1.0, 110.0];

/// A picture on the screen.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pane {
    /// What looks through it.
    pub(super) camera: Camera,
    /// Where it is on the screen.
    pub(super) rect: Rect,
    /// Points of the screen to a picture at a distance of one.
    pub(super) focal: f64,
    /// Half its width and height at a distance of one.
    half: [f64; 2],
}

impl Pane {
    /// So wide a picture, in a rectangle.
    pub(super) fn new(camera: Camera, rect: Rect, width_deg: f64) -> Self {
        let within = |value: f64, low: f64, high: f64| if value.is_finite() { value.clamp(low, high) } else { low };
        let [width, height] = [rect.width(), rect.height()].map(|side| within(f64::from(side), 1.0, 1e5));
        let half_width = (within(width_deg, WIDTHS_DEG[0], WIDTHS_DEG[1]) / 2.0).to_radians().tan();
        let focal = width / 2.0 / half_width;
        Self { camera, rect, focal, half: [half_width, height / 2.0 / focal] }
    }

    /// How far inside of each side of what can be seen something is: before the eyes, and by the four edges.
    fn inside(&self, seen: DVec3) -> [f64; 5] {
        let [x, y] = self.half.map(|half| half * BESIDE * seen.z);
        [seen.z - NEAREST_M, x - seen.x, x + seen.x, y - seen.y, y + seen.y]
    }

    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    fn screen(&self, seen: DVec3) -> Pos2 {
        let middle = self.rect.center();
        let away = [seen.x, seen.y].map(|length| (length / seen.z * self.focal) as f32);
        pos2(middle.x + away[0], middle.y - away[1])
    }

    /// Where a place is in the picture; none where it is not in it.
    pub(super) fn spot(&self, place: DVec3) -> Option<Pos2> {
        let seen = self.camera.seen(place);
        let at = (seen.z >= NEAREST_M).then(|| self.screen(seen))?;
        self.rect.contains(at).then_some(at)
    }

    /// Where a direction is in the picture; none where it is not in it.
    pub(super) fn toward(&self, direction: DVec3) -> Option<Pos2> {
        Self { camera: Camera { at: DVec3::ZERO, ..self.camera }, ..*self }.spot(direction)
    }

    /// A point of the screen as it lies on a picture at a distance of one: to the right and up.
    pub(super) fn on_picture(&self, at: Pos2) -> [f64; 2] {
        let away = at - self.rect.center();
        [f64::from(away.x) / self.focal, -f64::from(away.y) / self.focal]
    }

    /// The part of a straight line that is in the picture.
    pub(super) fn line(&self, ends: [DVec3; 2]) -> Option<[Pos2; 2]> {
        let [a, b] = ends.map(|end| self.camera.seen(end));
        if !(a.is_finite() && b.is_finite()) {
            return None;
        }
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (p, q) in self.inside(a).into_iter().zip(self.inside(b)) {
            if p < 0.0 && q < 0.0 {
                return None;
            } else if p < 0.0 {
                from = from.max(p / (p - q));
            } else if q < 0.0 {
                to = to.min(p / (p - q));
            }
        }
        (from < to).then(|| [from, to].map(|share| self.screen(a.lerp(b, share))))
    }

    /// The part of a flat face without dents that is in the picture; empty where none is.
    pub(super) fn face(&self, corners: &[DVec3]) -> Vec<Pos2> {
        self.seen_face(corners.iter().map(|corner| self.camera.seen(*corner)).collect())
    }

    fn seen_face(&self, mut ring: Vec<DVec3>) -> Vec<Pos2> {
        if !ring.iter().all(|corner| corner.is_finite()) {
            return Vec::new();
        }
        for side in 0..5 {
            ring = cut(&ring, |seen| self.inside(seen)[side]);
        }
        let mut points: Vec<Pos2> = ring.into_iter().map(|seen| self.screen(seen)).collect();
        points.dedup();
        if points.len() < 3 { Vec::new() } else { points }
    }

    /// What is seen of a round patch of the sky about a direction, less than a right angle to its rim.
    pub(super) fn round(&self, direction: DVec3, radius_deg: f64) -> Vec<Pos2> {
        let (sin, cos) = radius_deg.to_radians().sin_cos();
        let (side, over) = direction.any_orthonormal_pair();
        let rim = (0..48_u8).map(|part| {
            let (s, c) = (f64::from(part) / 48.0 * std::f64::consts::TAU).sin_cos();
            self.camera.at + (direction * cos + (side * c + over * s) * sin) * 1e4
        });
        self.face(&rim.collect::<Vec<_>>())
    }

    /// The part of the picture below the horizon, and the horizon.
    pub(super) fn ground(&self) -> (Vec<Pos2>, Option<[Pos2; 2]>) {
        let up = DVec3::new(self.camera.right.z, self.camera.up.z, self.camera.ahead.z);
        let [x, y] = self.half.map(|half| half * BESIDE);
        let corners = [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| DVec3::new(x, y, 1.0));
        let below = cut(&corners, |seen| -seen.dot(up));
        let level: Vec<Pos2> =
            below.iter().filter(|seen| seen.dot(up).abs() < 1e-9).map(|seen| self.screen(*seen)).collect();
        (below.into_iter().map(|seen| self.screen(seen)).collect(), <[Pos2; 2]>::try_from(level).ok())
    }

    /// Faces filled without a seam between them.
    pub(super) fn filled<'a>(&self, faces: impl IntoIterator<Item = (&'a [DVec3], Color32)>) -> Mesh {
        let mut mesh = Mesh::default();
        for (face, colour) in faces {
            let points = self.face(face);
            let first = u32::try_from(mesh.vertices.len()).unwrap_or(u32::MAX);
            let last = u32::try_from(points.len()).unwrap_or(0);
            points.into_iter().for_each(|point| mesh.colored_vertex(point, colour));
            (2..last).for_each(|corner| mesh.add_triangle(first, first + corner - 1, first + corner));
        }
        mesh
    }
}

/// A face without dents, painted. The painter softens the rim of a face; at a sharp corner that becomes a spike, and on a
/// face that is seen on its edge no number at all: such a one is filled without.
pub(super) fn painted(mut points: Vec<Pos2>, fill: Color32, stroke: Stroke) -> Shape {
    points.dedup_by(|a, b| a.distance(*b) < ONE);
    while points.len() > 1 && points[0].distance(points[points.len() - 1]) < ONE {
        points.pop();
    }
    let count = points.len();
    let way = |index: usize| (points[(index + 1) % count] - points[index % count]).normalized();
    let is_blunt = (0..count).all(|index| way(index).dot(way(index + 1)) > SHARPEST);
    let edges = (0..count).map(|index| Shape::line_segment([points[index], points[(index + 1) % count]], stroke));
    let mut shapes: Vec<Shape> = if stroke.is_empty() { Vec::new() } else { edges.collect() };
    if count > 2 && is_blunt {
        shapes.insert(0, Shape::convex_polygon(points, fill, Stroke::NONE));
    } else if count > 2 {
        let mut mesh = Mesh::default();
        let last = u32::try_from(count).unwrap_or_default();
        points.into_iter().for_each(|point| mesh.colored_vertex(point, fill));
        (2..last).for_each(|corner| mesh.add_triangle(0, corner - 1, corner));
        shapes.insert(0, Shape::mesh(mesh));
    }
    Shape::Vec(shapes)
}

/// What is left of a ring without dents where something is not negative (Sutherland and Hodgman, 1974).
fn cut(ring: &[DVec3], inside: impl Fn(DVec3) -> f64) -> Vec<DVec3> {
    let mut left = Vec::with_capacity(ring.len() + 1);
    for (&from, &to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let (p, q) = (inside(from), inside(to));
        if p >= 0.0 {
            left.push(from);
        }
        if (p > 0.0 && q < 0.0) || (p < 0.0 && q > 0.0) {
            left.push(from.lerp(to, p / (p - q)));
        }
    }
    left
}
