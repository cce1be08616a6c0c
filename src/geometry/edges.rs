//! The edges of a region in an R-tree: which is nearest, and which lie on a ray.

use glam::DVec2;
use rstar::{AABB, PointDistance, RTree, RTreeObject};

use crate::lane::{Lane, Words as _};

/// Up to this many edges a plain scan is quicker than the tree.
const SCAN: usize = 12;
/// Up to this many edges a plain scan for several points side by side is quicker than the tree for each.
const SCAN_ABREAST: usize = 48;

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

    /// Where along the edge the place nearest to `point` lies, as a share of its length.
    fn share_of(self, point: DVec2) -> f64 {
        let along = self.to - self.from;
        ((point - self.from).dot(along) / along.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0)
    }

    /// Whether it has a point in common with another edge that is not an end of either.
    fn crosses(self, other: Self) -> bool {
        let side = |edge: Self, point: DVec2| orientation(edge.from, edge.to, point);
        side(self, other.from) * side(self, other.to) < 0.0 && side(other, self.from) * side(other, self.to) < 0.0
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

/// How a straight piece of a path passes a set of edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Passing {
    /// It crosses one.
    Crosses,
    /// It comes this near, at this share of its length.
    Clear {
        /// Distance, metres.
        distance: f64,
        /// Share of the piece's length.
        share: f64,
    },
    /// It stays further off than asked about.
    Far,
}

/// Positive where `point` lies to the left of the line from `a` to `b`, negative to the right; exact in its sign.
fn orientation(a: DVec2, b: DVec2, point: DVec2) -> f64 {
    let coord = |at: DVec2| robust::Coord { x: at.x, y: at.y };
    robust::orient2d(coord(a), coord(b), coord(point))
}

/// An edge with what a plain scan asks of it again and again.
#[derive(Debug, Clone, Copy)]
struct Side {
    from: DVec2,
    along: DVec2,
    per_length2: f64,
    to_y: f64,
}

impl Side {
    fn new(edge: Edge) -> Self {
        let along = edge.to - edge.from;
        let length2 = along.length_squared();
        let per_length2 = if length2 > 0.0 { 1.0 / length2 } else { 0.0 };
        Self { from: edge.from, along, per_length2, to_y: edge.to.y }
    }

    /// Squared distance from `point`, within rounding.
    #[inline]
    fn distance2(&self, point: DVec2) -> f64 {
        let off = point - self.from;
        let share = (off.dot(self.along) * self.per_length2).clamp(0.0, 1.0);
        (off - self.along * share).length_squared()
    }
}

/// Edges with an index over them.
#[derive(Debug, Clone)]
pub(super) struct Edges {
    list: Vec<Edge>,
    /// The same for a plain scan; empty where there are too many.
    sides: Vec<Side>,
    tree: RTree<Edge>,
}

impl Edges {
    pub(super) fn new(list: Vec<Edge>) -> Self {
        let tree = if list.len() > SCAN { RTree::bulk_load(list.clone()) } else { RTree::new() };
        let few = if list.len() > SCAN_ABREAST { &[] } else { list.as_slice() };
        let sides = few.iter().copied().map(Side::new).collect();
        Self { list, sides, tree }
    }

    pub(super) fn list(&self) -> &[Edge] {
        &self.list
    }

    /// The edge nearest to a point, and where on it.
    pub(super) fn nearest(&self, point: DVec2) -> (Edge, Nearest) {
        let mut best = (Edge { from: DVec2::INFINITY, to: DVec2::INFINITY }, f64::INFINITY);
        if self.list.len() > SCAN {
            if let Some(edge) = self.tree.nearest_neighbor(&point.to_array()) {
                best.0 = *edge;
            }
        } else {
            for (&edge, side) in self.list.iter().zip(&self.sides) {
                let distance2 = side.distance2(point);
                if distance2 < best.1 {
                    best = (edge, distance2);
                }
            }
        }
        let at = best.0.nearest_to(point);
        (best.0, Nearest { distance: at.distance(point), at })
    }

    /// Whether [`Edges::signed_abreast`] has all edges to ask.
    pub(super) fn are_few(&self) -> bool {
        !self.sides.is_empty()
    }

    /// Distances of points side by side to the nearest edge, within rounding: positive where a ray to the east crosses
    /// an odd number of edges, negative elsewhere.
    #[inline(always)]
    pub(super) fn signed_abreast<L: Lane>(&self, x: L, y: L) -> L {
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let mut nearest2 = L::splat(f64::INFINITY);
        let mut odd = L::Words::splat(0);
        for side in &self.sides {
            let (along_x, along_y) = (L::splat(side.along.x), L::splat(side.along.y));
            let (off_x, off_y) = (x - L::splat(side.from.x), y - L::splat(side.from.y));
            let share = ((off_x * along_x + off_y * along_y) * L::splat(side.per_length2)).max(zero).min(one);
            let (left_x, left_y) = (off_x - along_x * share, off_y - along_y * share);
            nearest2 = nearest2.min(left_x * left_x + left_y * left_y);
            // Half-open in y, so that a corner on the ray counts once.
            let straddles = y.lt(L::splat(side.from.y)).xor(y.lt(L::splat(side.to_y)));
            let turn = along_x * off_y - along_y * off_x;
            let west = if side.along.y > 0.0 { turn.gt(zero) } else { turn.lt(zero) };
            odd = odd.xor(straddles.and(west));
        }
        let distance = nearest2.sqrt();
        L::select(odd, distance, -distance)
    }

    /// How a straight piece from `a` to `b` passes the edges, looking no further off than `reach`.
    pub(super) fn passing(&self, a: DVec2, b: DVec2, reach: f64) -> Passing {
        let piece = Edge { from: a, to: b };
        let mut best = Passing::Far;
        let mut nearest = reach * reach;
        // An edge further from one end than the piece is long can't cross it.
        let long2 = a.distance_squared(b) * (1.0 + 1e-9);
        let mut pass = |edge: &Edge| {
            let off_a2 = edge.distance2(a);
            if off_a2 <= long2 && edge.crosses(piece) {
                best = Passing::Crosses;
                return false;
            }
            for (distance2, share) in [
                (off_a2, 0.0),
                (edge.distance2(b), 1.0),
                (piece.distance2(edge.from), piece.share_of(edge.from)),
                (piece.distance2(edge.to), piece.share_of(edge.to)),
            ] {
                if distance2 < nearest {
                    nearest = distance2;
                    best = Passing::Clear { distance: distance2.sqrt(), share };
                }
            }
            true
        };
        if self.list.len() > SCAN {
            let margin = DVec2::splat(reach.min(1e9));
            let about = AABB::from_corners((a.min(b) - margin).to_array(), (a.max(b) + margin).to_array());
            let _ = self.tree.locate_in_envelope_intersecting(&about).all(&mut pass);
        } else {
            // What is further from one end than the piece is long and the reach wide comes near nowhere along it.
            let near = a.distance(b) + reach;
            let near = self.list.iter().zip(&self.sides).filter(|(_, side)| side.distance2(a) <= near * near);
            let _ = near.map(|(edge, _)| edge).all(&mut pass);
        }
        best
    }

    /// Whether a straight piece from `a` to `b` stays further off all edges than a reach; of what is within rounding of it
    /// either is said. Only where they are few.
    pub(super) fn are_beyond(&self, a: DVec2, b: DVec2, reach: f64) -> bool {
        let (piece, near) = (Side::new(Edge { from: a, to: b }), a.distance(b) + reach);
        let reach2 = reach * reach;
        self.list.iter().zip(&self.sides).all(|(&edge, side)| {
            let off2 = side.distance2(a);
            // What is further from one end than the piece is long and the reach wide comes near nowhere along it.
            off2 > near * near
                || (off2 > reach2
                    && side.distance2(b) > reach2
                    && piece.distance2(edge.from) > reach2
                    && piece.distance2(edge.to) > reach2
                    && !edge.crosses(Edge { from: a, to: b }))
        })
    }

    /// Where a straight piece from `a` to `b` meets edges that do not run along it, as shares of its length.
    pub(super) fn cuts(&self, a: DVec2, b: DVec2) -> Vec<f64> {
        let along = b - a;
        let cut = |edge: &Edge| {
            let side = edge.to - edge.from;
            let cross = along.perp_dot(side);
            let off = edge.from - a;
            let (share, on_edge) = (off.perp_dot(side) / cross, off.perp_dot(along) / cross);
            // A cut too many does no harm; one lost to rounding at a corner would.
            ((0.0..=1.0).contains(&share) && (-1e-9..=1.0 + 1e-9).contains(&on_edge)).then_some(share)
        };
        if self.list.len() > SCAN {
            let about = AABB::from_corners(a.min(b).to_array(), a.max(b).to_array());
            self.tree.locate_in_envelope_intersecting(&about).filter_map(cut).collect()
        } else {
            self.list.iter().filter_map(cut).collect()
        }
    }

    /// How often a ray from `point` to the east crosses an edge; odd inside a ring.
    pub(super) fn crossings_east(&self, point: DVec2) -> usize {
        let crosses = |edge: &Edge| {
            // Half-open in y, so that a corner on the ray counts once.
            if (edge.from.y > point.y) == (edge.to.y > point.y) {
                return false;
            }
            let (low, high) = if edge.from.y < edge.to.y { (edge.from, edge.to) } else { (edge.to, edge.from) };
            orientation(low, high, point) > 0.0
        };
        if self.list.len() > SCAN {
            let ray = AABB::from_corners(point.to_array(), [f64::MAX, point.y]);
            self.tree.locate_in_envelope_intersecting(&ray).filter(|edge| crosses(edge)).count()
        } else {
            self.list.iter().filter(|edge| crosses(edge)).count()
        }
    }
}
