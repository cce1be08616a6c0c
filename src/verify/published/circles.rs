//! Wind and circles out of a log: the published example of three speeds over the ground, and published circle fits.

use glam::DVec2;

use crate::debrief::circle::{Circle, geometric, taubin};
use crate::units::Bearing;
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines) {
    three_speeds(lines);
    arcs(lines);
}

fn at(points: &[[f64; 2]], fit: fn(&[DVec2]) -> Option<Circle>) -> Circle {
    let points: Vec<DVec2> = points.iter().map(|&point| point.into()).collect();
    let none = Circle { centre: DVec2::NAN, radius: f64::NAN, rms: f64::NAN };
    fit(&points).unwrap_or(none)
}

/// The tips of ground velocities lie on a circle about the wind, with the airspeed for a radius.
fn three_speeds(lines: &mut Lines) {
    let tips = [(140.0, 192.0), (112.0, 283.0), (120.0, 20.0)]
        .map(|(speed, track)| (Bearing::from_deg(track).unit() * speed).to_array());
    let found = at(&tips, geometric);
    let source = "D. Gray, Using GPS to accurately establish TAS, 1998, as quoted; whole knots, wind as recomputed";
    lines.near("airspeed from three speeds over the ground", found.radius, (130.0, 0.05), "kt", source);
    lines.near("wind from the same", found.centre.length(), (20.6, 0.05), "kt", source);
    lines.near("where it blows from", Bearing::of(-found.centre).deg(), (314.8, 0.1), "deg", source);
}

fn arcs(lines: &mut Lines) {
    let arc = [[36.0, 14.0], [36.0, 10.0], [19.0, 28.0], [18.0, 31.0], [33.0, 18.0], [26.0, 26.0]];
    let source = "arc of the SciPy cookbook, from memory and recomputed";
    for (name, fit, radius) in
        [("geometric", geometric as fn(&[DVec2]) -> Option<Circle>, 27.350_44), ("Taubin's", taubin, 27.702_20)]
    {
        lines.near(
            &format!("radius of {name} circle through an arc"),
            at(&arc, fit).radius,
            (radius, 1e-5),
            "",
            source,
        );
    }
    let six = [[1.0, 7.0], [2.0, 6.0], [5.0, 8.0], [7.0, 7.0], [9.0, 5.0], [3.0, 7.0]];
    let source = "W. Gander, G. H. Golub, R. Strebel, BIT 34 (1994) 558-578, from memory and recomputed";
    lines.near(
        "radius of the geometric circle through six points",
        at(&six, geometric).radius,
        (4.7142, 1e-4),
        "",
        source,
    );
}
