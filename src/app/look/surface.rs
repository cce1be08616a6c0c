//! What lies inside rings that may have dents and holes: pieces of a line, and triangles to fill it.

use bevy_egui::egui::epaint::{Mesh, Vertex, WHITE_UV};
use bevy_egui::egui::{Color32, Pos2};
use glam::DVec2;

fn edges(rings: &[Vec<DVec2>]) -> impl Iterator<Item = [DVec2; 2]> + '_ {
    rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)).map(|(from, to)| [*from, *to]))
}

/// The pieces of a straight line inside an odd number of rings.
pub fn inside(rings: &[Vec<DVec2>], [from, to]: [DVec2; 2]) -> Vec<[DVec2; 2]> {
    let way = to - from;
    let crossing = |[a, b]: [DVec2; 2]| {
        let (p, q) = (way.perp_dot(a - from), way.perp_dot(b - from));
        // Half-open, so that a corner on the line counts once.
        ((p > 0.0) != (q > 0.0)).then(|| (a.lerp(b, p / (p - q)) - from).dot(way) / way.length_squared())
    };
    let mut shares: Vec<f64> = edges(rings).filter_map(crossing).collect();
    shares.sort_by(f64::total_cmp);
    let pieces = shares.chunks_exact(2).map(|pair| [pair[0].max(0.0), pair[1].min(1.0)]);
    pieces.filter(|[from, to]| from < to).map(|ends| ends.map(|share| from + way * share)).collect()
}

/// Whether a ring has neither dents nor crossings.
pub fn is_convex(ring: &[DVec2]) -> bool {
    let turns = ring.iter().zip(ring.iter().cycle().skip(1)).zip(ring.iter().cycle().skip(2));
    let (mut left, mut right) = (false, false);
    for ((a, b), c) in turns {
        let turn = (*b - *a).perp_dot(*c - *b);
        (left, right) = (left || turn > 1e-9, right || turn < -1e-9);
    }
    !(left && right)
}

/// Triangles over what lies inside an odd number of rings: level strips from corner to corner.
pub fn filled(rings: &[Vec<DVec2>], colour: Color32, place: impl Fn(DVec2) -> Pos2) -> Mesh {
    let mut levels: Vec<f64> = rings.iter().flatten().map(|corner| corner.y).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup();
    let mut mesh = Mesh::default();
    for band in levels.windows(2) {
        let middle = (band[0] + band[1]) / 2.0;
        let crossing = |[a, b]: [DVec2; 2]| {
            let x = |y: f64| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
            ((a.y > middle) != (b.y > middle))
                .then(|| [DVec2::new(x(band[0]), band[0]), DVec2::new(x(band[1]), band[1])])
        };
        let mut across: Vec<[DVec2; 2]> = edges(rings).filter_map(crossing).collect();
        across.sort_by(|[a, b], [c, d]| (a.x + b.x).total_cmp(&(c.x + d.x)));
        for pair in across.chunks_exact(2) {
            let first = u32::try_from(mesh.vertices.len()).unwrap_or(u32::MAX);
            let corners = pair.iter().flatten();
            mesh.vertices.extend(corners.map(|at| Vertex { pos: place(*at), uv: WHITE_UV, color: colour }));
            mesh.indices.extend([0, 1, 2, 1, 2, 3].map(|corner| first + corner));
        }
    }
    mesh
}

#[cfg(test)]
mod tests {
    use bevy_egui::egui::pos2;

    use super::*;

    fn square(half: f64) -> Vec<DVec2> {
        [(-half, -half), (half, -half), (half, half), (-half, half)].map(|(x, y)| DVec2::new(x, y)).to_vec()
    }

    /// A square with a notch cut out of its right side.
    fn notched() -> Vec<DVec2> {
        [(0.0, 0.0), (10.0, 0.0), (4.0, 5.0), (10.0, 10.0), (0.0, 10.0)].map(|(x, y)| DVec2::new(x, y)).to_vec()
    }

    #[track_caller]
    fn check(rings: &[Vec<DVec2>], area: f64) {
        #[allow(clippy::cast_possible_truncation, reason = "small numbers")]
        let mesh = filled(rings, Color32::RED, |at| pos2(at.x as f32, at.y as f32));
        let corner = |index: &u32| mesh.vertices[*index as usize].pos;
        let triangles = mesh.indices.chunks_exact(3).map(|t| {
            let [a, b, c] = [corner(&t[0]), corner(&t[1]), corner(&t[2])];
            let (one, other) = (b - a, c - a);
            f64::from((one.x * other.y - one.y * other.x).abs()) / 2.0
        });
        let total: f64 = triangles.sum();
        assert!((total - area).abs() < 1e-3, "{total} filled, not {area}");
    }

    #[test]
    fn dents_and_holes_are_left_out() {
        check(&[square(10.0)], 400.0);
        check(&[square(10.0), square(5.0)], 300.0);
        check(&[notched()], 70.0);
        check(&[], 0.0);
        assert!(is_convex(&square(1.0)) && !is_convex(&notched()));
    }

    #[test]
    fn a_line_is_cut_where_it_leaves() {
        let lengths = |rings: &[Vec<DVec2>], y: f64| -> Vec<f64> {
            inside(rings, [DVec2::new(-20.0, y), DVec2::new(20.0, y)]).iter().map(|[a, b]| a.distance(*b)).collect()
        };
        assert_eq!(lengths(&[square(10.0), square(5.0)], 2.0), [5.0, 5.0]);
        assert_eq!(lengths(&[square(10.0), square(5.0)], 7.0), [20.0]);
        assert!(lengths(&[square(10.0)], 11.0).is_empty());
        // What begins inside begins there.
        assert_eq!(
            inside(&[square(10.0)], [DVec2::ZERO, DVec2::new(40.0, 0.0)]),
            [[DVec2::ZERO, DVec2::new(10.0, 0.0)]]
        );
    }
}
