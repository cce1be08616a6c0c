//! The edges of a region in an R-tree: which is nearest, and which lie on a ray.

use glam::DVec2;
use rstar::{AABB, PointDistance, RTree, RTreeObject};

/// Up to this many edges a plain scan is quicker than the tree.
const SCAN: usize = 12;

/// A straight edge; a point where both ends are the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// One end, metres.
    pub from: DVec2,
    /// The other end, metres.
    pub to: DVec2,
}

impl Edge {
    /// The point of the edge nearest to `point`.
    #[inline]
    pub fn nearest_to(self, point: DVec2) -> DVec2 {
        let along = self.to - self.from;
        let length2 = along.length_squared();
        if length2 == 0.0 {
            return self.from;
        }
        self.from + along * ((point - self.from).dot(along) / length2).clamp(0.0, 1.0)
    }

    /// Squared distance from `point`, m^2.
    #[inline]
    pub fn distance2(self, point: DVec2) -> f64 {
        self.nearest_to(point).distance_squared(point)
    }
}

impl RTreeObject for Edge {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        AABB::from_corners(self.from.to_array(), self.to.to_array())
    }
}

impl PointDistance for Edge {
    fn distance_2(&self, point: &[f64; 2]) -> f64 {
        self.distance2(DVec2::from_array(*point))
    }
}

/// The nearest place on a set of edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    /// Distance, metres.
    pub distance: f64,
    /// The place.
    pub at: DVec2,
}

/// Edges with an index over them.
#[derive(Debug, Clone)]
pub(super) struct Edges {
    list: Vec<Edge>,
    tree: RTree<Edge>,
}

impl Edges {
    pub(super) fn new(list: Vec<Edge>) -> Self {
        let tree = if list.len() > SCAN { RTree::bulk_load(list.clone()) } else { RTree::new() };
        Self { list, tree }
    }

    pub(super) fn list(&self) -> &[Edge] {
        &self.list
    }

    pub(super) fn nearest(&self, point: DVec2) -> Nearest {
        let edge = if self.list.len() > SCAN {
            self.tree.nearest_neighbor(&point.to_array()).copied()
        } else {
            self.list.iter().copied().min_by(|a, b| a.distance2(point).total_cmp(&b.distance2(point)))
        };
        // A region has at least one edge by construction.
        let at = edge.map_or(DVec2::INFINITY, |edge| edge.nearest_to(point));
        Nearest { distance: at.distance(point), at }
    }

    /// How often a ray from `point` to the east crosses an edge; odd inside a ring.
    pub(super) fn crossings_east(&self, point: DVec2) -> usize {
        let crosses = |edge: &Edge| {
            // Half-open in y, so that a corner on the ray counts once.
            if (edge.from.y > point.y) == (edge.to.y > point.y) {
                return false;
            }
            let (low, high) = if edge.from.y < edge.to.y { (edge.from, edge.to) } else { (edge.to, edge.from) };
            let side = robust::orient2d(
                robust::Coord { x: low.x, y: low.y },
                robust::Coord { x: high.x, y: high.y },
                robust::Coord { x: point.x, y: point.y },
            );
            side > 0.0
        };
        if self.list.len() > SCAN {
            let ray = AABB::from_corners(point.to_array(), [f64::MAX, point.y]);
            self.tree.locate_in_envelope_intersecting(&ray).filter(|edge| crosses(edge)).count()
        } else {
            self.list.iter().filter(|edge| crosses(edge)).count()
        }
    }
}
