//! How high the ground is: linear between spot heights, and level beyond the outermost.

mod faces;

pub(crate) use faces::FaceWalk;
use faces::Faces;

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
    faces: Faces,
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
        let highest_m = spots.iter().map(|spot| spot.1).fold(f64::NEG_INFINITY, f64::max);
        Self { faces: Faces::of(&mesh), mesh: Some(mesh), highest_m }
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

    /// A walk over the faces of the ground from a place; none over flat ground.
    pub fn walk(&self, from: DVec2) -> Option<FaceWalk<'_>> {
        self.mesh.as_ref().and_then(|mesh| self.faces.walk(mesh, from))
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

#[cfg(test)]
mod tests {
    use rand::{RngExt as _, SeedableRng as _};
    use rand_xoshiro::Xoshiro256PlusPlus;

    use super::*;

    #[test]
    fn a_walk_tells_the_heights_that_the_mesh_has() {
        let mut random = Xoshiro256PlusPlus::seed_from_u64(5);
        let place = |random: &mut Xoshiro256PlusPlus| {
            DVec2::new(random.random_range(-300.0..300.0), random.random_range(-300.0..300.0))
        };
        let spots: Vec<_> = (0..40).map(|_| (place(&mut random), random.random_range(0.0..50.0))).collect();
        let ground = Ground::new(&spots);
        let mut here = place(&mut random);
        let mut walk = ground.walk(here).unwrap();
        let mut edges = 0;
        for _ in 0..500 {
            let next = here + place(&mut random) * 0.2;
            // Straight between what was told: the middle of every part has the middle of its ends' heights.
            let mut told = vec![(0.0, walk.height_m(here))];
            walk.go(here, next, |share, height_m| told.push((share, height_m)));
            edges += told.len() - 1;
            told.push((1.0, walk.height_m(next)));
            for pair in told.windows(2) {
                let [(from, low), (to, high)] = [pair[0], pair[1]];
                assert!(from <= to, "{told:?}");
                for (share, height_m) in [(from, low), (to, high), (f64::midpoint(from, to), f64::midpoint(low, high))]
                {
                    let mesh = ground.height_m(here.lerp(next, share));
                    assert!((mesh - height_m).abs() < 1e-6, "{mesh} and {height_m} at {share} of {told:?}");
                }
            }
            here = next;
        }
        assert!(edges > 100, "{edges}");
    }

    #[test]
    fn a_walk_may_start_on_a_corner_or_an_edge() {
        let spots = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)].map(DVec2::from);
        let ground = Ground::new(&spots.map(|at| (at, at.x / 10.0)));
        for from in [DVec2::ZERO, DVec2::new(50.0, 0.0), DVec2::new(50.0, 50.0)] {
            let mut walk = ground.walk(from).unwrap();
            assert!((walk.height_m(from) - from.x / 10.0).abs() < 1e-9, "{from}");
            let to = DVec2::new(90.0, 60.0);
            walk.go(from, to, |_, _| {});
            assert!((walk.height_m(to) - 9.0).abs() < 1e-9, "{from}");
        }
    }
}
