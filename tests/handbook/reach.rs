//! How far a turn, a fall, a glide and the eye reach.

use peewit::jet::turn::radius;
use peewit::margins::reach::{angle_rad, attitude_seen_m, detection_m, fall_m, glide_m};
use peewit::units::Length;

use crate::support::{close, near, si};

#[test]
fn room_for_a_turn_a_fall_and_a_glide() {
    // Licence-exam question bank on the JARUS SORA 2.5 quantities, as quoted; it reckons with g = 9.81, hence 0.05 %.
    close(radius(30.0, 30.0_f64.to_radians()), 158.9, 0.000_5);
    let buffer = fall_m(10.0, 113.1) + 1.5 / 2.0;
    close(buffer, 48.77, 0.000_5);
    // The same formula with glide ratio 8 and 120 m, closed form.
    near(glide_m(8.0, 120.0), 960.0, 1e-9);
    // Closed form, with the exam's fixed terms (3 m, 3 m, 1 m, one second of flight) taken off.
    for (speed, volume) in [(20.0, 97.62), (25.0, 142.35), (30.0, 195.90), (35.0, 258.29), (40.0, 329.50)] {
        close(radius(speed, 30.0_f64.to_radians()), volume - 7.0 - speed, 0.001);
    }
}

#[test]
fn how_far_attitude_is_seen() {
    // EASA "Guidelines for UAS operations in the open and specific category", Issue 03, 17 Jul 2025, Part A ch. I, as
    // quoted; for 1 m closed form.
    for (span, expected) in [(3.0, 1500.0), (2.0, 1010.0), (1.2, 618.0), (1.0, 520.0)] {
        near(attitude_seen_m(span), expected, 1e-9);
    }
    // The same, as quoted: three tenths of the ground visibility, of 5 km at most.
    near(detection_m(5000.0), 1500.0, 1e-9);
    near(detection_m(20_000.0), 1500.0, 1e-9);
    near(detection_m(si::<Length>("3 mi")), 1448.0, 0.5);
}

#[test]
fn how_small_it_looks() {
    let arcmin = |angle: f64| angle.to_degrees() * 60.0;
    // Closed form: 1 m fills one minute of arc at 3437.75 m.
    near(arcmin(angle_rad(1.0, 3437.75)), 1.0, 1e-5);
    // Snellen's definition, as quoted: a letter of 8.87 mm fills 5 minutes at 20 ft.
    near(arcmin(angle_rad(0.008_87, si::<Length>("20 ft"))), 5.0, 0.01);
    // Closed form from the field studies' 0.065 deg, which is 3.9 minutes, at 245 m and 307 m; and 1 m at 881.5 m.
    for (size, distance) in [(0.278, 245.0), (0.348, 307.0), (1.0, 881.5)] {
        close(angle_rad(size, distance).to_degrees(), 0.065, 0.002);
    }
    near(arcmin(0.065_f64.to_radians()), 3.9, 1e-9);
    // Johnson 1958 (AD220160), as quoted: 1, 1.4, 4 and 6.4 cycles; 2 minutes of arc a cycle, closed form.
    for (cycles, distance) in [(1.0, 1719.0), (1.4, 1228.0), (4.0, 430.0), (6.4, 269.0)] {
        close(arcmin(angle_rad(1.0, distance)), 2.0 * cycles, 0.002);
    }
}

#[test]
fn found_again_at_the_angle_of_the_field_studies() {
    // Li et al., Applied Ergonomics 81 (2019) and Applied Sciences 10(16):5501 (2020), abstracts read: 0.065 deg.
    let limits = crate::support::tight_strip().file.limits;
    near(limits.smallest_angle.rad().to_degrees(), 0.065, 1e-12);
}
