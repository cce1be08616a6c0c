//! Degrees to metres: what a degree measures on WGS84, and whether the way back is exact.

use glam::DVec2;

use crate::geometry::TangentPlane;
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines) {
    let source = "series of the WGS84 ellipsoid (NGA), closed form";
    for (latitude, north, east) in
        [(45.0, 111_131.78, 78_846.84), (52.0, 111_267.35, 68_678.02), (60.0, 111_412.29, 55_800.00)]
    {
        let plane = TangentPlane::new(latitude, 10.0);
        // A hundredth of a degree is short enough for the plane and the arc to agree.
        let span = |from: [f64; 2], to: [f64; 2]| {
            100.0 * plane.to_metres(from[0], from[1]).distance(plane.to_metres(to[0], to[1]))
        };
        let along = span([latitude - 0.005, 10.0], [latitude + 0.005, 10.0]);
        lines.near(&format!("a degree of latitude at {latitude} deg"), along, (north, 0.05), "m", source);
        let across = span([latitude, 9.995], [latitude, 10.005]);
        lines.near(&format!("a degree of longitude at {latitude} deg"), across, (east, 0.05), "m", source);
    }
    let plane = TangentPlane::new(44.0, -30.0);
    let off = [[900.0, -400.0], [-2500.0, 1800.0]].map(|at: [f64; 2]| {
        let (latitude, longitude) = plane.to_degrees(DVec2::from(at));
        plane.to_metres(latitude, longitude).distance(at.into())
    });
    let source = "closed form: there and back is nothing";
    lines.at_most("metres to degrees and back", off.into_iter().fold(0.0, f64::max), 1e-6, "m", source);
}
