//! Where is there room: the ground from which a whole reach around one stays inside a region.

use geo::{BooleanOps as _, ConvexHull as _, Coord, LineString, MultiPoint, MultiPolygon, Polygon, unary_union};
use glam::DVec2;

use super::Region;

impl Region {
    /// The places from which everything in the convex hull of `reach` (and of the place itself) is inside, to the edge.
    ///
    /// Rings in metres, holes among them; a place is in it where it lies within an odd number of rings. The reach is
    /// swept along every edge and taken off, so that notches narrower than the reach count as well.
    pub fn shrunk(&self, reach: &[DVec2]) -> Vec<Vec<DVec2>> {
        let reach = || reach.iter().copied().chain([DVec2::ZERO]);
        let swept = self.edges().iter().map(|edge| {
            let corners = [edge.from, edge.to].into_iter().flat_map(|end| reach().map(move |step| end - step));
            MultiPoint::from_iter(corners.map(|corner| (corner.x, corner.y))).convex_hull()
        });
        let swept: Vec<Polygon> = swept.collect();
        let mut rings = self.rings().iter().map(|ring| ring.iter().map(|at| Coord { x: at.x, y: at.y }).collect());
        let outer: LineString = rings.next().unwrap_or_else(|| LineString::new(vec![]));
        let left: MultiPolygon = Polygon::new(outer, rings.collect()).difference(&unary_union(&swept));
        let rings = left.iter().flat_map(|part| std::iter::once(part.exterior()).chain(part.interiors()));
        rings.map(open).collect()
    }
}

/// The corners of a ring, the last not repeating the first.
fn open(ring: &LineString) -> Vec<DVec2> {
    let count = ring.0.len().saturating_sub(1);
    ring.coords().take(count).map(|at| DVec2::new(at.x, at.y)).collect()
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    const SQUARE: [DVec2; 4] =
        [DVec2::new(0.0, 0.0), DVec2::new(100.0, 0.0), DVec2::new(100.0, 100.0), DVec2::new(0.0, 100.0)];

    #[track_caller]
    fn check(region: &Region, reach: &[(f64, f64)], area_m2: f64) {
        let reach: Vec<DVec2> = reach.iter().copied().map(DVec2::from).collect();
        let rings = region.shrunk(&reach);
        let found: f64 = rings.iter().map(|ring| Region::new(ring, &[]).area_m2()).sum();
        assert_abs_diff_eq!(found, area_m2, epsilon = 1e-3);
    }

    #[test]
    fn areas_by_hand() {
        let square = Region::new(&SQUARE, &[]);
        check(&square, &[], 10_000.0);
        check(&square, &[(30.0, 0.0)], 7000.0);
        check(&square, &[(-30.0, 0.0), (30.0, 0.0)], 4000.0);
        check(&square, &[(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)], 6400.0);
        check(&square, &[(200.0, 0.0)], 0.0);
        // A slot 2 m wide from the south to the middle: a reach of 20 m to the east can't jump it.
        let slot = [(0, 0), (49, 0), (49, 50), (51, 50), (51, 0), (100, 0), (100, 100), (0, 100)];
        let slot = slot.map(|(x, y)| DVec2::new(f64::from(x), f64::from(y)));
        check(&Region::new(&slot, &[]), &[(20.0, 0.0)], 80.0 * 100.0 - 22.0 * 50.0);
    }

    #[test]
    fn what_is_left_has_room_and_what_is_taken_has_none() {
        let hole = vec![DVec2::new(60.0, 40.0), DVec2::new(70.0, 60.0), DVec2::new(55.0, 65.0)];
        let region = Region::new(&SQUARE, &[hole]);
        // An egg, which is convex, with an end every degree.
        let along = |deg: i32| DVec2::from_angle(f64::from(deg).to_radians());
        let reach: Vec<DVec2> = (0..360).map(|deg| along(deg) * (12.0 + 5.0 * along(deg).x)).collect();
        let rings = region.shrunk(&reach);
        let inside = |at: DVec2| rings.iter().filter(|ring| Region::new(ring, &[]).contains(at)).count() % 2 == 1;
        for (x, y) in (1..20).flat_map(|x| (1..20).map(move |y| (x, y))) {
            let at = DVec2::new(f64::from(x), f64::from(y)) * 5.0 + DVec2::new(0.3, 0.7);
            let steps = || reach.iter().flat_map(|end| (0..=40).map(|part| *end * f64::from(part) / 40.0));
            let roomy = region.contains(at) && steps().all(|step| region.contains(at + step));
            let nearly = reach.iter().any(|end| region.nearest(at + *end).distance < 0.2);
            assert!(nearly || inside(at) == roomy, "{at}: {}", inside(at));
        }
    }
}
