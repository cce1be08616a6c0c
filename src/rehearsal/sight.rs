//! How does the jet look from somewhere: in which direction, how large, and where on a flat picture?

use glam::DVec3;

use crate::jet::State;
use crate::units::Bearing;

/// How something is seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sight {
    /// In which direction.
    pub bearing: Bearing,
    /// Over the horizon, degrees.
    pub elevation_deg: f64,
    /// How far along the line of sight, metres.
    pub slant_m: f64,
}

impl Sight {
    /// Of a place, from eyes at another: east, north and up, metres.
    pub fn of(eyes: DVec3, at: DVec3) -> Self {
        let line = at - eyes;
        let level = line.truncate();
        Self {
            bearing: Bearing::of(level),
            elevation_deg: line.z.atan2(level.length()).to_degrees(),
            slant_m: line.length(),
        }
    }

    /// Angle that a length square to the line of sight takes there, degrees: `2 atan(l / 2 d)`.
    pub fn angle_deg(&self, length_m: f64) -> f64 {
        2.0 * (length_m / 2.0).atan2(self.slant_m).to_degrees()
    }

    /// Angle between this line of sight and a direction, degrees.
    pub fn off_deg(&self, bearing_deg: f64, elevation_deg: f64) -> f64 {
        let unit = |bearing: Bearing, elevation_deg: f64| {
            let (up, level) = elevation_deg.to_radians().sin_cos();
            (bearing.unit() * level).extend(up)
        };
        let here = unit(self.bearing, self.elevation_deg);
        let there = unit(Bearing::from_deg(bearing_deg), elevation_deg);
        // By sine and cosine, which keeps its digits for small angles too.
        here.cross(there).length().atan2(here.dot(there)).to_degrees()
    }
}

/// A picture plane: what lies straight ahead is its middle, straight lines stay straight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    /// Where it is: east, north, up, metres.
    pub at: DVec3,
    /// Unit vectors: to the right of the picture, up in it, and into it.
    pub right: DVec3,
    /// Up in the picture.
    pub up: DVec3,
    /// Into the picture.
    pub ahead: DVec3,
}

impl Camera {
    /// Level, looking in a direction.
    pub fn level(at: DVec3, bearing_deg: f64, elevation_deg: f64) -> Self {
        Self::tilted(at, bearing_deg, elevation_deg, 0.0)
    }

    /// In a jet, looking along its nose and leaning with it.
    pub fn aboard(state: &State<f64>) -> Self {
        let nose = Bearing::of(glam::DVec2::new(state.nose_x, state.nose_y));
        let at = DVec3::new(state.x, state.y, state.height);
        Self::tilted(at, nose.deg(), state.climb.to_degrees(), state.bank)
    }

    /// Leaning to the right by an angle, radians.
    fn tilted(at: DVec3, bearing_deg: f64, elevation_deg: f64, bank_rad: f64) -> Self {
        let level = Bearing::from_deg(bearing_deg).unit();
        let (sin, cos) = elevation_deg.to_radians().sin_cos();
        let ahead = (level * cos).extend(sin);
        let (side, over) = ((-level.perp()).extend(0.0), (-level * sin).extend(cos));
        let (lean_sin, lean_cos) = bank_rad.sin_cos();
        Self { at, right: side * lean_cos - over * lean_sin, up: over * lean_cos + side * lean_sin, ahead }
    }

    /// A place as seen from here: to the right, up and into the picture, metres.
    pub fn seen(&self, place: DVec3) -> DVec3 {
        let line = place - self.at;
        DVec3::new(line.dot(self.right), line.dot(self.up), line.dot(self.ahead))
    }

    /// Where a direction or place lies on the picture at a distance of one: right and up; none behind it.
    pub fn on_picture(seen: DVec3) -> Option<[f64; 2]> {
        (seen.z > 0.0).then(|| [seen.x / seen.z, seen.y / seen.z])
    }

    /// The direction of a point of that picture: bearing and elevation, degrees.
    pub fn direction_deg(&self, [right, up]: [f64; 2]) -> [f64; 2] {
        let line = self.ahead + self.right * right + self.up * up;
        let sight = Sight::of(DVec3::ZERO, line);
        [sight.bearing.deg(), sight.elevation_deg]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed forms, for ten places about eyes 1.7 m up: by the triangle of the place.
    #[test]
    fn ten_places_are_seen_where_and_as_large_as_the_triangle_says() {
        let eyes = DVec3::new(0.0, -15.0, 1.7);
        for (place, bearing, elevation, slant, span) in [
            // 3-4-5: 30 north, 40 up.
            ([0.0, 15.0, 41.7], 0.0, 53.130_102_354, 50.0, 1.260_456_3),
            ([100.0, -15.0, 1.7], 90.0, 0.0, 100.0, 0.630_247_2),
            ([0.0, -115.0, 1.7], 180.0, 0.0, 100.0, 0.630_247_2),
            ([-100.0, -15.0, 101.7], 270.0, 45.0, 141.421_356_2, 0.445_654_3),
            ([100.0, 85.0, 1.7], 45.0, 0.0, 141.421_356_2, 0.445_654_3),
            // 5-12-13 over the ground, and as high as it is far.
            ([50.0, 105.0, 131.7], 22.619_864_948, 45.0, 183.847_763_1, 0.342_811_7),
            ([0.0, 285.0, 1.7], 0.0, 0.0, 300.0, 0.210_084_3),
            ([-120.0, 35.0, 1.7], 292.619_864_948, 0.0, 130.0, 0.484_807_5),
            ([0.0, -15.0, 81.7], 0.0, 90.0, 80.0, 0.787_804_6),
            ([30.0, 25.0, 121.7], 36.869_897_645, 67.380_135_052, 130.0, 0.484_807_5),
        ] {
            let sight = Sight::of(eyes, DVec3::from_array(place));
            if elevation < 90.0 {
                assert!((sight.bearing.deg() - bearing).abs() < 1e-6, "{place:?}: {sight:?}");
            }
            assert!((sight.elevation_deg - elevation).abs() < 1e-6, "{place:?}: {sight:?}");
            assert!((sight.slant_m - slant).abs() < 1e-6, "{place:?}: {sight:?}");
            // A span of 1.1 m.
            assert!((sight.angle_deg(1.1) - span).abs() < 2e-6, "{place:?}: {}", sight.angle_deg(1.1));
            // Straight at it, it is the middle of the picture; and the picture leads back to it.
            let camera = Camera::level(eyes, sight.bearing.deg(), sight.elevation_deg);
            let [right, up] = Camera::on_picture(camera.seen(DVec3::from_array(place))).unwrap();
            assert!(right.abs() < 1e-9 && up.abs() < 1e-9, "{right} {up}");
            let aside = Camera::level(eyes, sight.bearing.deg() + 20.0, 0.0);
            if let Some(point) = Camera::on_picture(aside.seen(DVec3::from_array(place))) {
                let [bearing, elevation] = aside.direction_deg(point);
                assert!(sight.off_deg(bearing, elevation) < 1e-6, "{place:?}");
            }
        }
    }

    #[test]
    fn aboard_a_jet_that_banks_to_the_right_the_horizon_leans_to_the_left() {
        let mut state = crate::run::draw(&crate::run::Scenario::demo(), 0, crate::run::WindChoice::Mean).start;
        (state.nose_x, state.nose_y, state.climb, state.bank) = (0.0, 1.0, 0.0, 30_f64.to_radians());
        let camera = Camera::aboard(&state);
        // A point on the horizon, 45 degrees to the right of the nose: up by tan 30 deg of how far right it is, turned.
        let seen = camera.seen(camera.at + DVec3::new(1.0, 1.0, 0.0) * 1e6);
        let [right, up] = Camera::on_picture(seen).unwrap();
        assert!((up / right - 30_f64.to_radians().tan()).abs() < 1e-9 && right > 0.0, "{right} {up}");
        assert_eq!(Camera::on_picture(camera.seen(camera.at - camera.ahead)), None);
    }
}
