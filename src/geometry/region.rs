//! Ground with an edge, with or without holes, and the side of a line.
//!
//! Distances are to edges, never to corners alone, and are signed: positive inside, negative outside.

use geo::{Area as _, LineString, Polygon};
use glam::DVec2;

use super::edges::{Edge, Edges, Nearest, Passing};
use crate::lane::Lane;

/// Far more than a way over the ground can be off by rounding, m.
const SLACK: f64 = 1e-3;

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

    /// Whether a straight piece stays further off the edges than a reach. Only for a region that is plain.
    pub(super) fn is_beyond(&self, a: DVec2, b: DVec2, reach: f64) -> bool {
        self.edges.are_beyond(a, b, reach)
    }

    /// How far a straight piece stays off the ground inside, metres; 0 where it touches it.
    pub fn off_piece(&self, a: DVec2, b: DVec2) -> f64 {
        match self.edges.passing(a, b, f64::INFINITY) {
            Passing::Clear { distance, .. } if !self.contains(a) => distance,
            _ => 0.0,
        }
    }

    /// Share of a straight piece that lies inside, and the share of its length before it first does.
    pub fn share_inside(&self, a: DVec2, b: DVec2) -> (f64, f64) {
        let mut cuts = self.edges.cuts(a, b);
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        let pieces = cuts.windows(2).map(|ends| (ends[0], ends[1]));
        let inside = pieces.filter(|&(from, to)| to > from && self.contains(a.lerp(b, f64::midpoint(from, to))));
        let none: (f64, Option<f64>) = (0.0, None);
        let (share, enters) =
            inside.fold(none, |(share, enters), (from, to)| (share + to - from, enters.or(Some(from))));
        (share.min(1.0), enters.unwrap_or(0.0))
    }

    /// Distance to the nearest edge, metres: positive inside, negative outside.
    pub fn signed_distance(&self, point: DVec2) -> f64 {
        self.signed_nearest(point).0
    }

    /// The same where the signed distance at another point is known, and how far off that is at most: a path changes
    /// sides only by way of an edge.
    pub(super) fn signed_from(&self, point: DVec2, near: Option<(f64, f64)>) -> f64 {
        let distance = self.edges.nearest(point).1.distance;
        let inside = match near {
            Some((known, way)) if known.abs() > way + SLACK => known > 0.0,
            _ => self.contains(point),
        };
        if inside { distance } else { -distance }
    }

    /// Whether its edges are few enough for [`Region::signed_abreast`].
    pub fn is_plain(&self) -> bool {
        self.edges.are_few()
    }

    /// The signed distance of points side by side, within rounding. Only for a region that is plain.
    #[inline(always)]
    pub fn signed_abreast<L: Lane>(&self, x: L, y: L) -> L {
        self.edges.signed_abreast(x, y)
    }

    /// Smallest and largest corner.
    pub fn bounds(&self) -> (DVec2, DVec2) {
        let corners = self.rings.iter().flatten();
        corners.fold((DVec2::INFINITY, DVec2::NEG_INFINITY), |(low, high), &corner| (low.min(corner), high.max(corner)))
    }

    /// Area inside, holes taken off, m^2.
    pub fn area_m2(&self) -> f64 {
        let mut areas = self.rings.iter().map(|ring| ring_area_m2(ring.iter().copied()).abs());
        areas.next().unwrap_or_default() - areas.sum::<f64>()
    }
}

/// Area inside a ring, closed or not, m^2; less than nothing where its corners go round clockwise.
pub fn ring_area_m2(ring: impl IntoIterator<Item = DVec2>) -> f64 {
    let corners: LineString = ring.into_iter().map(|corner| (corner.x, corner.y)).collect();
    Polygon::new(corners, Vec::new()).signed_area()
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

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;
    use geo::{Contains as _, Distance as _, Euclidean, LineString, Point, Polygon};
    use rand::{RngExt as _, SeedableRng as _};
    use rand_xoshiro::Xoshiro256PlusPlus;

    use super::*;

    const ELL: [DVec2; 6] = [
        DVec2::new(-300.0, -150.0),
        DVec2::new(300.0, -150.0),
        DVec2::new(300.0, 60.0),
        DVec2::new(40.0, 60.0),
        DVec2::new(40.0, 330.0),
        DVec2::new(-300.0, 330.0),
    ];

    fn reversed(ring: &[DVec2]) -> Vec<DVec2> {
        ring.iter().rev().copied().collect()
    }

    /// A ring around `centre` that crosses itself nowhere, with corners at random distances.
    fn star(random: &mut Xoshiro256PlusPlus, centre: DVec2, near: f64, far: f64, corners: u32) -> Vec<DVec2> {
        let corner = |index| {
            let angle = f64::from(index) * std::f64::consts::TAU / f64::from(corners);
            centre + DVec2::from_angle(angle) * random.random_range(near..far)
        };
        (0..corners).map(corner).collect()
    }

    fn as_geo(ring: &[DVec2]) -> LineString {
        ring.iter().chain(ring.first()).map(|at| (at.x, at.y)).collect()
    }

    /// V11: signed distance against another library's plain scan over every edge.
    #[track_caller]
    fn check(outer: &[DVec2], holes: &[Vec<DVec2>], point: DVec2) {
        let region = Region::new(outer, holes);
        let polygon = Polygon::new(as_geo(outer), holes.iter().map(|hole| as_geo(hole)).collect());
        let at = Point::new(point.x, point.y);
        let edges = std::iter::once(polygon.exterior()).chain(polygon.interiors());
        let distance = edges.map(|ring| Euclidean.distance(&at, ring)).fold(f64::INFINITY, f64::min);
        let wanted = if polygon.contains(&at) { distance } else { -distance };
        assert_abs_diff_eq!(region.signed_distance(point), wanted, epsilon = 1e-6);
        assert_abs_diff_eq!(region.nearest(point).at.distance(point), distance, epsilon = 1e-6);
    }

    #[test]
    fn distances_agree_with_a_plain_scan() {
        let mut random = Xoshiro256PlusPlus::seed_from_u64(11);
        for corners in [3, 4, 12, 13, 40, 400] {
            let outer = star(&mut random, DVec2::ZERO, 150.0, 400.0, corners);
            let holes = vec![
                star(&mut random, DVec2::new(30.0, 10.0), 5.0, 25.0, 5),
                star(&mut random, DVec2::new(-30.0, -10.0), 5.0, 25.0, 9),
            ];
            let flipped: Vec<_> = holes.iter().map(|hole| reversed(hole)).collect();
            for _ in 0..500 {
                let point = DVec2::new(random.random_range(-500.0..500.0), random.random_range(-500.0..500.0));
                check(&outer, &holes, point);
                check(&reversed(&outer), &holes, point);
                check(&outer, &flipped, point);
                check(&ELL, &[], point);
            }
        }
    }

    #[test]
    fn an_ell_by_hand() {
        for ring in [ELL.to_vec(), reversed(&ELL), [ELL.as_slice(), &ELL[..1]].concat()] {
            let region = Region::new(&ring, &[]);
            let distance = |x, y| region.signed_distance(DVec2::new(x, y));
            assert_abs_diff_eq!(distance(0.0, 0.0), 40.0_f64.hypot(60.0), epsilon = 1e-9);
            assert_abs_diff_eq!(distance(-130.0, 90.0), 170.0, epsilon = 1e-9);
            assert_abs_diff_eq!(distance(100.0, 100.0), -40.0, epsilon = 1e-9);
            assert_abs_diff_eq!(distance(303.0, 64.0), -5.0, epsilon = 1e-9);
            assert_abs_diff_eq!(distance(40.0, 200.0), 0.0, epsilon = 1e-9);
            assert_abs_diff_eq!(region.area_m2(), 600.0 * 480.0 - 260.0 * 270.0, epsilon = 1e-6);
            assert_eq!(region.bounds(), (DVec2::new(-300.0, -150.0), DVec2::new(300.0, 330.0)));
        }
    }

    #[test]
    fn rings_that_touch_at_a_corner() {
        // The hole's corner lies on the outer edge.
        let outer = [DVec2::ZERO, DVec2::new(100.0, 0.0), DVec2::new(100.0, 100.0), DVec2::new(0.0, 100.0)];
        let hole = vec![DVec2::new(100.0, 50.0), DVec2::new(80.0, 60.0), DVec2::new(80.0, 40.0)];
        for point in [(90.0, 50.0), (99.9, 50.0), (99.9, 40.0), (70.0, 50.0), (101.0, 50.0), (100.0, 20.0), (50.0, 0.0)]
        {
            check(&outer, std::slice::from_ref(&hole), DVec2::from(point));
        }
        // Two squares that share a corner, as one ring.
        let bow = [(0, 0), (10, 0), (10, 10), (20, 10), (20, 20), (10, 20), (10, 10), (0, 10)];
        let bow = bow.map(|(x, y)| DVec2::new(f64::from(x), f64::from(y)));
        let region = Region::new(&bow, &[]);
        assert_abs_diff_eq!(region.signed_distance(DVec2::new(4.0, 5.0)), 4.0, epsilon = 1e-9);
        assert_abs_diff_eq!(region.signed_distance(DVec2::new(15.0, 16.0)), 4.0, epsilon = 1e-9);
        assert_abs_diff_eq!(region.signed_distance(DVec2::new(13.0, 6.0)), -3.0, epsilon = 1e-9);
    }

    #[test]
    fn corners_level_with_the_point_count_once() {
        let diamond = [DVec2::X, DVec2::Y, -DVec2::X, -DVec2::Y].map(|corner| corner * 10.0);
        let region = Region::new(&diamond, &[]);
        for x in [-9.0, -0.5, 0.0, 9.0] {
            assert!(region.contains(DVec2::new(x, 0.0)), "{x}");
        }
        for x in [-11.0, 11.0] {
            assert!(!region.contains(DVec2::new(x, 0.0)), "{x}");
            assert!(!region.contains(DVec2::new(x, 10.0)), "{x}");
        }
    }

    #[test]
    fn a_point_has_no_inside() {
        let mast = Region::point(DVec2::new(3.0, 4.0));
        assert!(!mast.contains(DVec2::new(3.0, 4.0)));
        assert_eq!(mast.signed_distance(DVec2::ZERO), -5.0);
        assert_eq!(mast.area_m2(), 0.0);
    }

    #[test]
    fn the_side_of_a_line() {
        let side = HalfPlane::away_from(DVec2::new(-5.0, 2.0), DVec2::new(5.0, 2.0), DVec2::ZERO).unwrap();
        assert_eq!(side.signed_distance(DVec2::new(99.0, 12.0)), 10.0);
        assert_eq!(side.signed_distance(DVec2::new(99.0, -1.0)), -3.0);
        assert_eq!(HalfPlane::away_from(DVec2::ZERO, DVec2::X, DVec2::new(7.0, 0.0)), None);
        assert_eq!(HalfPlane::away_from(DVec2::X, DVec2::X, DVec2::ZERO), None);
    }
}
