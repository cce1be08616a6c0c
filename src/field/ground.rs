//! How high the ground is: linear between spot heights, and level beyond the outermost.

use glam::DVec2;
use spade::{DelaunayTriangulation, FloatTriangulation as _, HasPosition, Point2, Triangulation as _};

/// How far out the corners lie that carry the outermost spot heights on, metres.
const BEYOND: f64 = 20_000.0;

#[derive(Debug, Clone, Copy)]
struct Spot {
    at: DVec2,
    height_m: f64,
}

impl HasPosition for Spot {
    type Scalar = f64;

    fn position(&self) -> Point2<f64> {
        Point2::new(self.at.x, self.at.y)
    }
}

/// The ground's height above the datum.
#[derive(Debug, Clone, Default)]
pub struct Ground {
    /// None for flat ground at the datum's height.
    mesh: Option<DelaunayTriangulation<Spot>>,
    slope: f64,
    highest_m: f64,
}

impl Ground {
    /// From spot heights: where, and metres above the datum's ground. None gives flat ground.
    pub fn new(spots: &[(DVec2, f64)]) -> Self {
        let Some(&first) = spots.first() else { return Self::default() };
        let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| {
            let at = DVec2::new(x, y) * BEYOND;
            let nearer =
                |a: &&(DVec2, f64), b: &&(DVec2, f64)| a.0.distance_squared(at).total_cmp(&b.0.distance_squared(at));
            (at, spots.iter().min_by(nearer).unwrap_or(&first).1)
        });
        let mut mesh = DelaunayTriangulation::new();
        for &(at, height_m) in spots.iter().chain(&corners) {
            // A spot that can't be inserted is not finite, which the field's checks have refused.
            let _ = mesh.insert(Spot { at, height_m });
        }
        let slope = mesh.inner_faces().map(|face| steepness(face.vertices().map(|v| *v.data()))).fold(0.0, f64::max);
        let highest_m = spots.iter().map(|spot| spot.1).fold(f64::NEG_INFINITY, f64::max);
        Self { mesh: Some(mesh), slope, highest_m }
    }

    /// Height of the ground, metres above the datum's.
    pub fn height_m(&self, at: DVec2) -> f64 {
        let limit = BEYOND * 0.999;
        let inside = at.clamp(DVec2::splat(-limit), DVec2::splat(limit));
        self.mesh
            .as_ref()
            .and_then(|mesh| mesh.barycentric().interpolate(|v| v.data().height_m, Point2::new(inside.x, inside.y)))
            .unwrap_or(0.0)
    }

    /// Steepest slope anywhere, metres of height a metre along.
    pub fn slope(&self) -> f64 {
        self.slope
    }

    /// Height of its highest place, metres above the datum's.
    pub fn highest_m(&self) -> f64 {
        self.highest_m
    }

    /// Whether there is nothing but flat ground.
    pub fn is_flat(&self) -> bool {
        self.mesh.is_none()
    }
}

/// Slope of the plane through three spots.
fn steepness([a, b, c]: [Spot; 3]) -> f64 {
    let (u, v) = (b.at - a.at, c.at - a.at);
    let (du, dv) = (b.height_m - a.height_m, c.height_m - a.height_m);
    let area = u.perp_dot(v);
    let gradient = DVec2::new(du * v.y - dv * u.y, dv * u.x - du * v.x) / area;
    if area == 0.0 { 0.0 } else { gradient.length() }
}
