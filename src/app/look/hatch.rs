//! Lines and dots that fill a region, holes left out: where a ruled line is inside, by counting crossings.

use glam::DVec2;

use crate::geometry::Region;

/// How ground with a rule is filled, so that the rule can be read without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hatch {
    /// Ruled both ways: never.
    Crossed,
    /// Ruled one way: only above a height.
    Slanted,
    /// Upright, close together: people.
    Upright,
    /// Dots: caution.
    Dotted,
}

/// The pieces of parallel lines that lie inside a region.
///
/// The lines run along `direction` (a unit vector) and are `spacing` apart, metres. They are the same lines for every
/// region, so that hatches of neighbours meet.
pub fn rule(region: &Region, direction: DVec2, spacing: f64) -> Vec<[DVec2; 2]> {
    let across = direction.perp();
    let (low, high) = extent(region, across);
    if !(spacing > 0.0 && (high - low).is_finite()) {
        return Vec::new();
    }
    let mut pieces = Vec::new();
    let mut line = (low / spacing).ceil();
    while line * spacing <= high {
        let offset = line * spacing;
        let mut crossings: Vec<f64> = region
            .edges()
            .iter()
            .filter_map(|edge| {
                let (from, to) = (edge.from.dot(across) - offset, edge.to.dot(across) - offset);
                // Half-open, so that a corner on the line counts once.
                if (from > 0.0) == (to > 0.0) {
                    return None;
                }
                let along = edge.from + (edge.to - edge.from) * (from / (from - to));
                Some(along.dot(direction))
            })
            .collect();
        crossings.sort_by(f64::total_cmp);
        pieces.extend(
            crossings.chunks_exact(2).map(|pair| [pair[0], pair[1]].map(|at| direction * at + across * offset)),
        );
        line += 1.0;
    }
    pieces
}

/// Dots inside a region, every second row shifted by half, metres.
pub fn dots(region: &Region, spacing: f64) -> Vec<DVec2> {
    let rows = rule(region, DVec2::X, spacing);
    let mut dots = Vec::new();
    for [from, to] in rows {
        let row = (from.y / spacing).round();
        let shift = if row.rem_euclid(2.0) < 1.0 { 0.0 } else { spacing / 2.0 };
        let mut at = ((from.x - shift) / spacing).ceil() * spacing + shift;
        while at <= to.x {
            dots.push(DVec2::new(at, from.y));
            at += spacing;
        }
    }
    dots
}

fn extent(region: &Region, across: DVec2) -> (f64, f64) {
    region
        .rings()
        .iter()
        .flatten()
        .map(|corner| corner.dot(across))
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(half: f64) -> Vec<DVec2> {
        [(-half, -half), (half, -half), (half, half), (-half, half)].map(|(x, y)| DVec2::new(x, y)).to_vec()
    }

    #[track_caller]
    fn check(region: &Region, direction: DVec2, spacing: f64, length: f64) {
        let pieces = rule(region, direction, spacing);
        let total: f64 = pieces.iter().map(|[from, to]| from.distance(*to)).sum();
        assert!((total - length).abs() < 1e-6 * length, "{total} m ruled, not {length} m");
        for [from, to] in pieces {
            assert!(region.contains((from + to) / 2.0));
        }
    }

    #[test]
    fn a_square_is_ruled_from_edge_to_edge() {
        // Lines at -8, -4, 0, 4, 8 in a square 20 m wide.
        check(&Region::new(&square(10.0), &[]), DVec2::X, 4.0, 5.0 * 20.0);
    }

    #[test]
    fn a_hole_is_left_out() {
        // Of those five lines the three at -4, 0 and 4 lose 10 m each to the hole.
        check(&Region::new(&square(10.0), &[square(5.0)]), DVec2::X, 4.0, 5.0 * 20.0 - 3.0 * 10.0);
    }

    #[test]
    fn slanted_lines_cover_the_area_that_their_spacing_says() {
        let slant = DVec2::new(1.0, 1.0).normalize();
        let region = Region::new(&square(100.0), &[square(30.0)]);
        let total: f64 = rule(&region, slant, 0.5).iter().map(|[from, to]| from.distance(*to)).sum();
        assert!((total * 0.5 - region.area_m2()).abs() < 0.01 * region.area_m2());
    }

    #[test]
    fn dots_stay_inside_and_out_of_holes() {
        let region = Region::new(&square(10.0), &[square(5.0)]);
        let dots = dots(&region, 2.0);
        assert!(dots.len() > 50);
        for dot in dots {
            assert!(region.signed_distance(dot) > -1e-9, "{dot} is outside");
        }
    }

    #[test]
    fn a_point_and_a_spacing_of_nothing_give_nothing() {
        assert!(rule(&Region::point(DVec2::ZERO), DVec2::X, 1.0).is_empty());
        assert!(rule(&Region::new(&square(1.0), &[]), DVec2::X, 0.0).is_empty());
    }
}
