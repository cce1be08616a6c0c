//! How far a fall, a glide and the eye reach, by what regulators and opticians print.

use super::one;
use crate::jet::turn::radius;
use crate::margins::reach::{angle_rad, attitude_seen_m, detection_m, fall_m};
use crate::units::Length;
use crate::verify::line::Lines;

pub(super) fn lines(lines: &mut Lines) {
    let source = "question bank on the quantities of JARUS SORA 2.5, as quoted; it reckons with g = 9.81, hence 0.05 %";
    lines.close(
        "room for a turn at 30 m/s and 30 deg",
        radius(30.0, 30.0_f64.to_radians()),
        (158.9, 5e-4),
        "m",
        source,
    );
    let fall = fall_m(10.0, 113.1) + 1.5 / 2.0;
    lines.close("reach of a fall from 113.1 m at 10 m/s, with half of 1.5 m", fall, (48.77, 5e-4), "m", source);
    let source = "EASA Guidelines for UAS operations, Issue 03 (2025), Part A ch. I, as quoted";
    lines.near("how far the attitude of 2 m of span is seen", attitude_seen_m(2.0), (1010.0, 1e-9), "m", source);
    let sight = detection_m(3.0 * one::<Length>("mi"));
    lines.near("how far it is watched in 3 statute miles of sight", sight, (1448.0, 0.5), "m", source);
    let arcmin = |angle: f64| angle.to_degrees() * 60.0;
    let letter = arcmin(angle_rad(0.008_87, 20.0 * one::<Length>("ft")));
    lines.near("letter of 8.87 mm at 20 ft", letter, (5.0, 0.01), "minutes of arc", "definition of Snellen, as quoted");
    let source = "Li et al., Applied Ergonomics 81 (2019), abstract read: 0.065 deg at 245 m; size worked out from it";
    let seen = angle_rad(0.278, 245.0).to_degrees();
    lines.close("angle of 0.278 m at 245 m", seen, (0.065, 0.002), "deg", source);
}
