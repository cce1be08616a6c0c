//! Ground with an edge, with or without holes, and the side of a line.
//!
//! Distances are to edges, never to corners alone, and are signed: positive inside, negative outside.

use glam::DVec2;

use super::edges::{Edge, Edges, Nearest, Passing};

/// A ring with holes, or a single point.
#[derive(Debug, Clone)]
pub struct Region {
    rings: Vec<Vec<DVec2>>,
    edges: Edges,
}

impl Region {
    /// The ground inside `outer` and outside every one of `holes`. Rings may be closed or not, either way round.
    pub fn new(outer: &[DVec2], holes: &[Vec<DVec2>]) -> Self {
        let rings: Vec<Vec<DVec2>> = std::iter::once(outer).chain(holes.iter().map(Vec::as_slice)).map(open).collect();
        let edges = rings.iter().flat_map(|ring| {
            let next = ring.iter().cycle().skip(1);
            ring.iter().zip(next).map(|(&from, &to)| Edge { from, to })
        });
        let edges = Edges::new(edges.collect());
        Self { rings, edges }
    }

    /// A single point: nothing is inside it.
    pub fn point(at: DVec2) -> Self {
        Self { rings: vec![vec![at]], edges: Edges::new(vec![Edge { from: at, to: at }]) }
    }

    /// The corners, outer ring first, not closed.
    pub fn rings(&self) -> &[Vec<DVec2>] {
        &self.rings
    }

    /// Every edge, holes included.
    pub fn edges(&self) -> &[Edge] {
        self.edges.list()
    }

    /// Whether `point` is inside. On an edge either answer is right, and the distance is 0.
    pub fn contains(&self, point: DVec2) -> bool {
        self.edges.crossings_east(point) % 2 == 1
    }

    /// The nearest place on an edge.
    pub fn nearest(&self, point: DVec2) -> Nearest {
        self.edges.nearest(point).1
    }

    /// Signed distance to the nearest edge, metres, and that edge.
    pub(super) fn signed_nearest(&self, point: DVec2) -> (f64, Edge) {
        let (edge, nearest) = self.edges.nearest(point);
        (if self.contains(point) { nearest.distance } else { -nearest.distance }, edge)
    }

    /// How a straight piece passes the edges, looking no further off than `reach`.
    pub(super) fn passing(&self, a: DVec2, b: DVec2, reach: f64) -> Passing {
        self.edges.passing(a, b, reach)
    }

    /// Distance to the nearest edge, metres: positive inside, negative outside.
    pub fn signed_distance(&self, point: DVec2) -> f64 {
        self.signed_nearest(point).0
    }

    /// Smallest and largest corner.
    pub fn bounds(&self) -> (DVec2, DVec2) {
        let corners = self.rings.iter().flatten();
        corners.fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), &corner| (low.min(corner), high.max(corner)))
    }

    /// Area inside, holes taken off, m^2.
    pub fn area_m2(&self) -> f64 {
        let shoelace = |ring: &Vec<DVec2>| {
            let origin = ring.first().copied().unwrap_or_default();
            let next = ring.iter().cycle().skip(1);
            ring.iter().zip(next).map(|(&a, &b)| (a - origin).perp_dot(b - origin)).sum::<f64>().abs() / 2.0
        };
        let mut areas = self.rings.iter().map(shoelace);
        areas.next().unwrap_or_default() - areas.sum::<f64>()
    }
}

fn open(ring: &[DVec2]) -> Vec<DVec2> {
    match ring {
        [first, .., last] if first == last => ring[..ring.len() - 1].to_vec(),
        _ => ring.to_vec(),
    }
}

/// One side of an endless straight line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HalfPlane {
    /// A point of the line.
    pub through: DVec2,
    /// Unit vector square to the line, pointing to the side that is inside.
    pub inward: DVec2,
}

impl HalfPlane {
    /// The side of the line through `a` and `b` that `outside` is not on; none where the three are in line.
    pub fn away_from(a: DVec2, b: DVec2, outside: DVec2) -> Option<Self> {
        let normal = (b - a).perp().try_normalize()?;
        let side = (outside - a).dot(normal);
        if side == 0.0 {
            return None;
        }
        Some(Self { through: a, inward: -normal * side.signum() })
    }

    /// Distance to the line, metres: positive inside.
    pub fn signed_distance(&self, point: DVec2) -> f64 {
        (point - self.through).dot(self.inward)
    }
}
