//! How far things carry and how far eyes do, in closed form.

use glam::DVec2;

use crate::units::G0;

/// How far a fall throws what had a horizontal speed in m/s, from a height in m: `v sqrt(2 h / g)`.
///
/// An upper bound for a level start without lift; a glide goes further.
pub fn fall_m(ground_speed: f64, height: f64) -> f64 {
    ground_speed * (2.0 * height.max(0.0) / G0).sqrt()
}

/// How far a glide carries from a height in still air: glide ratio times height.
pub fn glide_m(glide_ratio: f64, height: f64) -> f64 {
    glide_ratio * height.max(0.0)
}

/// Where a fall from a place and height ends, thrown with the velocity over the ground that the jet has there, m/s. With drag
/// it ends short of that, anywhere from right below.
pub fn fall_to(at: DVec2, velocity: DVec2, height: f64) -> DVec2 {
    at + velocity * fall_m(1.0, height)
}

/// All ground on which a glide from a place and height may end, as a circle: the wind carries along its middle for as long
/// as the glide lasts, and the glide may go any way from there. The glide is a ratio and an airspeed in m/s.
pub fn glide_over(at: DVec2, wind: DVec2, [ratio, speed]: [f64; 2], height: f64) -> (DVec2, f64) {
    let radius = glide_m(ratio, height);
    (at + wind * (radius / speed), radius)
}

/// Furthest slant distance at which the attitude of a fixed wing of a span can be seen: `490 b + 30 m`.
///
/// EASA Guidelines for UAS operations in the open and specific category, Issue 03 (2025), as quoted; best practice, not
/// binding.
pub fn attitude_seen_m(span: f64) -> f64 {
    490.0 * span + 30.0
}

/// Furthest distance at which anything is watched in a ground visibility: three tenths of it, of 5 km at most.
///
/// Same source.
pub fn detection_m(visibility: f64) -> f64 {
    0.3 * visibility.min(5000.0)
}

/// Angle that a length across the line of sight fills at a distance, rad.
pub fn angle_rad(length: f64, distance: f64) -> f64 {
    2.0 * (length / (2.0 * distance)).atan()
}
