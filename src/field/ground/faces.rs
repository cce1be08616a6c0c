//! The ground as flat faces, and a walk over them along a path: the height is linear on each, so that nothing between
//! the crossings of their edges needs to be looked at.

use glam::DVec2;
use spade::{DelaunayTriangulation, Point2, PositionInTriangulation, Triangulation as _};

use super::Spot;

/// A flat triangle of ground.
#[derive(Debug, Clone, Copy, Default)]
struct Face {
    /// Corners, anticlockwise.
    corners: [DVec2; 3],
    /// Number of the face across the edge from a corner to the next; none beyond the outermost.
    across: [Option<usize>; 3],
    /// Height at the first corner, and slope.
    height_m: f64,
    slope: DVec2,
}

impl Face {
    fn height_m(&self, at: DVec2) -> f64 {
        self.height_m + self.slope.dot(at - self.corners[0])
    }

    /// How far to the left of an edge a place is, scaled by the edge's length: negative outside.
    fn side(&self, edge: usize, at: DVec2) -> f64 {
        let (from, to) = (self.corners[edge], self.corners[(edge + 1) % 3]);
        (to - from).perp_dot(at - from)
    }
}

/// All of them, by the number the mesh gives them.
#[derive(Debug, Clone, Default)]
pub(super) struct Faces(Vec<Face>);

impl Faces {
    pub(super) fn of(mesh: &DelaunayTriangulation<Spot>) -> Self {
        let mut faces = vec![Face::default(); mesh.num_all_faces()];
        for face in mesh.inner_faces() {
            let [a, b, c] = face.vertices().map(|vertex| *vertex.data());
            let (u, v) = (b.at - a.at, c.at - a.at);
            let (du, dv) = (b.height_m - a.height_m, c.height_m - a.height_m);
            let slope = DVec2::new(du * v.y - dv * u.y, dv * u.x - du * v.x) / u.perp_dot(v);
            let across = face.adjacent_edges().map(|edge| edge.rev().face().as_inner().map(|face| face.index()));
            faces[face.index()] = Face { corners: [a.at, b.at, c.at], across, height_m: a.height_m, slope };
        }
        Self(faces)
    }

    pub(super) fn walk(&self, mesh: &DelaunayTriangulation<Spot>, from: DVec2) -> Option<FaceWalk<'_>> {
        let face = match mesh.locate(Point2::new(from.x, from.y)) {
            PositionInTriangulation::OnFace(face) => face.index(),
            PositionInTriangulation::OnEdge(edge) => {
                let edge = mesh.directed_edge(edge);
                edge.face().as_inner().or(edge.rev().face().as_inner())?.index()
            }
            PositionInTriangulation::OnVertex(vertex) => {
                mesh.vertex(vertex).out_edges().find_map(|edge| edge.face().as_inner())?.index()
            }
            _ => return None,
        };
        Some(FaceWalk { faces: &self.0, face })
    }
}

/// A walk over the ground.
#[derive(Debug, Clone)]
pub struct FaceWalk<'a> {
    faces: &'a [Face],
    face: usize,
}

impl FaceWalk<'_> {
    /// Height of the ground at a place on the present face, metres above the datum's.
    pub fn height_m(&self, at: DVec2) -> f64 {
        self.faces[self.face].height_m(at)
    }

    /// Goes straight from one place on the present face to another, and tells at every edge on the way what share of it
    /// has been gone and how high the ground is there.
    pub fn go(&mut self, from: DVec2, to: DVec2, mut edge: impl FnMut(f64, f64)) {
        let mut gone = 0.0;
        // A straight line meets every face once at most.
        for _ in 0..self.faces.len() {
            let face = &self.faces[self.face];
            let Some((share, across)) = leaves(face, from, to, gone) else { return };
            edge(share, face.height_m(from.lerp(to, share)));
            let Some(next) = across else { return };
            (self.face, gone) = (next, share);
        }
    }
}

/// Where a straight line leaves a face, as its share, and what lies across; none where it ends there.
fn leaves(face: &Face, from: DVec2, to: DVec2, gone: f64) -> Option<(f64, Option<usize>)> {
    let out = (0..3).filter_map(|edge| {
        let (before, after) = (face.side(edge, from), face.side(edge, to));
        // Only an edge that the line goes out over; the one it came in by it goes in over.
        (after < 0.0 && before > after).then(|| ((before / (before - after)).max(gone), face.across[edge]))
    });
    out.min_by(|a, b| a.0.total_cmp(&b.0))
}
