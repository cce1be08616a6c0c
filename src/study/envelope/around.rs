//! The nearest and the furthest that a path comes to the centre, in every sector about it.

use glam::DVec2;

use super::ray;

/// What a path has been at so far, relative to the centre.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Around {
    /// Squared distances a sector, m^2.
    near2: Vec<f64>,
    far2: Vec<f64>,
    /// Where the path is, and in which sector.
    last: Option<(DVec2, usize)>,
}

/// The edges between sectors: each where the sector of its number begins, clockwise.
pub(super) fn edges(bearings: u32) -> Vec<DVec2> {
    (0..bearings).map(|index| ray((f64::from(index) - 0.5) / f64::from(bearings))).collect()
}

impl Around {
    /// Of no path yet.
    pub(super) fn new(sectors: usize) -> Self {
        Self { near2: vec![f64::INFINITY; sectors], far2: vec![f64::NEG_INFINITY; sectors], last: None }
    }

    /// Nearest and furthest from the centre in a sector, metres; none where it never was.
    pub(super) fn reach_m(&self, sector: usize) -> Option<[f64; 2]> {
        let far2 = self.far2[sector];
        (far2 >= 0.0).then(|| [self.near2[sector].sqrt(), far2.sqrt()])
    }

    /// Flies straight on to a place, through every sector on the way.
    pub(super) fn fly_to(&mut self, to: DVec2, edges: &[DVec2]) {
        let count = edges.len();
        let (from, mut sector) = self.last.unwrap_or_else(|| (to, sector_of(to, edges)));
        let clockwise = from.perp_dot(to) < 0.0;
        let mut here = from;
        // A straight line turns by less than half a circle about the centre, and a sector is less than that.
        for _ in 0..count {
            let (ahead, next) = if clockwise {
                let next = (sector + 1) % count;
                (-edges[next], next)
            } else {
                (edges[sector], (sector + count - 1) % count)
            };
            let (before, beyond) = (ahead.perp_dot(here), ahead.perp_dot(to));
            if beyond <= 0.0 {
                break;
            }
            let crossing = here + (to - here) * (before / (before - beyond)).clamp(0.0, 1.0);
            self.note(sector, here, crossing);
            (here, sector) = (crossing, next);
        }
        self.note(sector, here, to);
        self.last = Some((to, sector));
    }

    /// Distance is convex along a straight line: furthest at one of its ends, nearest there or at the foot between.
    fn note(&mut self, sector: usize, from: DVec2, to: DVec2) {
        let way = to - from;
        let far2 = from.length_squared().max(to.length_squared());
        let foot = (-from.dot(way) / way.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        let near2 = (from + way * foot).length_squared();
        self.far2[sector] = self.far2[sector].max(far2);
        self.near2[sector] = self.near2[sector].min(near2);
    }
}

/// The sector a place lies in; the first where it is the centre itself.
fn sector_of(at: DVec2, edges: &[DVec2]) -> usize {
    let after = |index: usize| edges[index].perp_dot(at) <= 0.0;
    let inside = |index: &usize| after(*index) && !after((index + 1) % edges.len());
    (0..edges.len()).find(inside).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// Nearest and furthest in each of a number of sectors; a hyphen's worth of nothing where it never was.
    #[track_caller]
    fn check(sectors: u32, path: &[(f64, f64)], wanted: &[Option<[f64; 2]>]) {
        let edges = edges(sectors);
        let mut around = Around::new(edges.len());
        path.iter().for_each(|&at| around.fly_to(at.into(), &edges));
        for (sector, wanted) in wanted.iter().enumerate() {
            match (around.reach_m(sector), wanted) {
                (Some(found), Some(wanted)) => {
                    for (found, wanted) in found.into_iter().zip(wanted) {
                        assert_abs_diff_eq!(found, *wanted, epsilon = 1e-9);
                    }
                }
                (found, wanted) => assert_eq!(found, *wanted, "sector {sector}"),
            }
        }
    }

    #[test]
    fn sectors_by_hand() {
        let root = 2.0_f64.sqrt();
        // Four sectors, north, east, south and west, with their edges on the diagonals.
        check(4, &[(0.0, 10.0)], &[Some([10.0, 10.0]), None, None, None]);
        // Straight from north to east, over the diagonal at (5, 5), where it is nearest.
        let half = Some([5.0 * root, 10.0]);
        check(4, &[(0.0, 10.0), (10.0, 0.0)], &[half, half, None, None]);
        check(4, &[(10.0, 0.0), (0.0, 10.0)], &[half, half, None, None]);
        // One step past the whole east: in at (4, 4), out at (4, -4), nearest between at 4.
        let corner = Some([4.0 * root, 41.0_f64.sqrt()]);
        check(4, &[(4.0, 5.0), (4.0, -5.0)], &[corner, Some([4.0, 4.0 * root]), corner, None]);
        check(4, &[(4.0, -5.0), (4.0, 5.0)], &[corner, Some([4.0, 4.0 * root]), corner, None]);
        // Straight out and back within one sector.
        check(4, &[(-3.0, 0.0), (-9.0, 0.0), (-5.0, 0.0)], &[None, None, None, Some([3.0, 9.0])]);
        // Over the centre: through the sectors of one side, at the centre itself.
        check(4, &[(0.0, -6.0), (0.0, 6.0)], &[Some([0.0, 6.0]), Some([0.0, 0.0]), Some([0.0, 6.0]), None]);
    }

    #[test]
    fn a_long_step_skips_no_sector_and_a_polygon_is_known_exactly() {
        // A square of half-side 10, either way round: at a bearing the far side of it is 10 over the cosine of the angle
        // to the nearest axis, and a sector's furthest lies at its edge nearer to a corner.
        let square = [(10.0, 10.0), (10.0, -10.0), (-10.0, -10.0), (-10.0, 10.0), (10.0, 10.0)];
        let back: Vec<_> = square.iter().rev().copied().collect();
        let wanted: Vec<_> = (0..360)
            .map(|deg| {
                let off = |deg: f64| (deg + 45.0).rem_euclid(90.0) - 45.0;
                let at = |deg: f64| 10.0 / off(deg).to_radians().cos();
                let ends = [f64::from(deg) - 0.5, f64::from(deg) + 0.5].map(at);
                let far = if deg % 90 == 45 { 10.0 * 2.0_f64.sqrt() } else { ends[0].max(ends[1]) };
                let near = if deg % 90 == 0 { 10.0 } else { ends[0].min(ends[1]) };
                Some([near, far])
            })
            .collect();
        check(360, &square, &wanted);
        check(360, &back, &wanted);
    }
}
