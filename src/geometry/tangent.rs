//! Longitude and latitude to metres about the datum and back, by the plane that touches WGS84 there.

use glam::{DVec2, DVec3};

/// Semi-major axis of WGS84, metres (NGA; handbook table 14.3).
const A: f64 = 6_378_137.0;
/// Flattening of WGS84.
const F: f64 = 1.0 / 298.257_223_563;
/// Semi-minor axis, metres.
const B: f64 = A * (1.0 - F);
/// First eccentricity squared.
const E2: f64 = F * (2.0 - F);

/// East-north plane touching the ellipsoid at the datum.
///
/// A place's east and north are those of the point of the ellipsoid there, so that distances within a field are right
/// to well below a decimetre and the way back is exact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TangentPlane {
    origin: DVec3,
    east: DVec3,
    north: DVec3,
    up: DVec3,
}

impl TangentPlane {
    /// The plane at a datum, degrees.
    pub fn new(latitude_deg: f64, longitude_deg: f64) -> Self {
        let (sin_lat, cos_lat) = latitude_deg.to_radians().sin_cos();
        let (sin_lon, cos_lon) = longitude_deg.to_radians().sin_cos();
        Self {
            origin: earth_centred(latitude_deg, longitude_deg, 0.0),
            east: DVec3::new(-sin_lon, cos_lon, 0.0),
            north: DVec3::new(-sin_lat * cos_lon, -sin_lat * sin_lon, cos_lat),
            up: DVec3::new(cos_lat * cos_lon, cos_lat * sin_lon, sin_lat),
        }
    }

    /// East and north of the datum, metres, for a place on the ellipsoid.
    pub fn to_metres(self, latitude_deg: f64, longitude_deg: f64) -> DVec2 {
        let offset = earth_centred(latitude_deg, longitude_deg, 0.0) - self.origin;
        DVec2::new(offset.dot(self.east), offset.dot(self.north))
    }

    /// Latitude and longitude, degrees, of a place in metres about the datum.
    ///
    /// Beyond the edge of the Earth as seen from above the datum, the place on that edge.
    pub fn to_degrees(self, at: DVec2) -> (f64, f64) {
        let flat = self.origin + self.east * at.x + self.north * at.y;
        // Down to the ellipsoid: a root of a quadratic in the height, written so that nothing cancels.
        let axes = DVec3::new(A, A, B);
        let (from, along) = (flat / axes, self.up / axes);
        let (square, half, rest) = (along.dot(along), from.dot(along), from.dot(from) - 1.0);
        let root = (half.powi(2) - square * rest).max(0.0).sqrt();
        let ground = flat - self.up * (rest / (half + root));
        let latitude = ground.z.atan2((1.0 - E2) * ground.x.hypot(ground.y));
        (latitude.to_degrees(), ground.y.atan2(ground.x).to_degrees())
    }

    /// Straight distance from the datum, metres, also for places on the far side of the Earth.
    pub fn distance_m(self, latitude_deg: f64, longitude_deg: f64) -> f64 {
        earth_centred(latitude_deg, longitude_deg, 0.0).distance(self.origin)
    }
}

/// Position from the centre of the Earth, metres: x towards longitude 0, z towards the north pole.
fn earth_centred(latitude_deg: f64, longitude_deg: f64, height_m: f64) -> DVec3 {
    let (sin_lat, cos_lat) = latitude_deg.to_radians().sin_cos();
    let (sin_lon, cos_lon) = longitude_deg.to_radians().sin_cos();
    let normal = A / (1.0 - E2 * sin_lat * sin_lat).sqrt();
    let across = (normal + height_m) * cos_lat;
    DVec3::new(across * cos_lon, across * sin_lon, (normal * (1.0 - E2) + height_m) * sin_lat)
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;
    use geographiclib_rs::{DirectGeodesic as _, Geodesic, InverseGeodesic as _};

    use super::*;

    #[test]
    fn earth_centred_position() {
        // Handbook 14.11: latitude 42, longitude -82, height 200 m (a public tangent-plane library's own test).
        let at = earth_centred(42.0, -82.0, 200.0);
        assert_abs_diff_eq!(at.x, 660_675.251_8, epsilon = 1e-4);
        assert_abs_diff_eq!(at.y, -4_700_948.683_2, epsilon = 1e-4);
        assert_abs_diff_eq!(at.z, 4_245_737.662_2, epsilon = 1e-4);
    }

    #[test]
    fn east_north_up_of_a_sighting() {
        // Handbook 14.12: azimuth 33, elevation 70, range 1000 m is 186.277521 east, 286.842228 north, 939.692621 up.
        let plane = TangentPlane::new(42.0, -82.0);
        let (azimuth, elevation) = (33.0_f64.to_radians(), 70.0_f64.to_radians());
        let pole = DVec3::Z;
        // The sighting turned from the horizon by the axes themselves, without their components.
        let north = (pole - plane.up * pole.dot(plane.up)).normalize();
        let sight = north * (azimuth.cos() * elevation.cos())
            + north.cross(plane.up) * (azimuth.sin() * elevation.cos())
            + plane.up * elevation.sin();
        let offset = sight * 1000.0;
        assert_abs_diff_eq!(offset.dot(plane.east), 186.277_521, epsilon = 1e-6);
        assert_abs_diff_eq!(offset.dot(plane.north), 286.842_228, epsilon = 1e-6);
        assert_abs_diff_eq!(offset.dot(plane.up), 939.692_621, epsilon = 1e-6);
    }

    #[test]
    fn metres_in_a_degree() {
        // Handbook 14.14 (WGS84 series): metres in a degree of latitude and of longitude. A hundredth of a degree is
        // short enough for the plane and the arc to agree.
        for (latitude, along_lat, along_lon) in
            [(45.0, 111_131.78, 78_846.84), (52.0, 111_267.35, 68_678.02), (60.0, 111_412.29, 55_800.00)]
        {
            let plane = TangentPlane::new(latitude, 10.0);
            let north = plane.to_metres(latitude + 0.005, 10.0).y - plane.to_metres(latitude - 0.005, 10.0).y;
            let east = plane.to_metres(latitude, 10.005).x - plane.to_metres(latitude, 9.995).x;
            assert_abs_diff_eq!(north * 100.0, along_lat, epsilon = 0.05);
            assert_abs_diff_eq!(east * 100.0, along_lon, epsilon = 0.05);
        }
    }

    #[test]
    fn agrees_with_the_geodesic_to_a_decimetre_over_three_kilometres() {
        // V12. The geodesic library is another implementation, by Karney's method.
        let earth = Geodesic::wgs84();
        for latitude in [0.0, 44.0, 52.0, 66.0, 78.0, -41.0] {
            let plane = TangentPlane::new(latitude, -30.0);
            for azimuth in [0.0, 37.0, 90.0, 143.0, 180.0, 225.0, 270.0, 333.0] {
                for distance in [30.0, 400.0, 3000.0] {
                    let (lat, lon): (f64, f64) = earth.direct(latitude, -30.0, azimuth, distance);
                    let (sin, cos) = f64::to_radians(azimuth).sin_cos();
                    let wanted = DVec2::new(sin, cos) * distance;
                    assert!(plane.to_metres(lat, lon).distance(wanted) < 0.1, "{latitude} {azimuth} {distance}");
                    let (back_lat, back_lon) = plane.to_degrees(wanted);
                    let off: f64 = earth.inverse(lat, lon, back_lat, back_lon);
                    assert!(off < 0.1, "{latitude} {azimuth} {distance}: {off} m");
                }
            }
        }
    }

    #[test]
    fn a_vertex_far_off_is_where_the_geodesic_says() {
        // Handbook 14.4: Flinders Peak to Buninyong, 54972.271 m at 306 52 05.37 (ICSM GDA Technical Manual). The
        // straight chord of that arc is shorter by s^3 / 24 R^2, 0.17 m.
        let dms = |d: f64, m: f64, s: f64| d + m / 60.0 + s / 3600.0;
        let peak = TangentPlane::new(-dms(37.0, 57.0, 3.7203), dms(144.0, 25.0, 29.5244));
        let (lat, lon) = (-dms(37.0, 39.0, 10.1561), dms(143.0, 55.0, 35.3839));
        assert_abs_diff_eq!(peak.distance_m(lat, lon), 54_972.271 - 0.17, epsilon = 0.02);
        let at = peak.to_metres(lat, lon);
        let azimuth = at.x.atan2(at.y).to_degrees().rem_euclid(360.0);
        assert_abs_diff_eq!(azimuth, dms(306.0, 52.0, 5.37), epsilon = 0.001);
    }

    #[test]
    fn there_and_back_again() {
        // V21: 1e-7 degrees asked for; this is a hundred times closer.
        for (latitude, longitude) in [(44.0, -30.0), (0.0, 0.0), (-52.0, 179.999), (84.0, 12.0), (52.0, -180.0)] {
            let plane = TangentPlane::new(latitude, longitude);
            for x in [-19_000.0, -260.0, 0.0, 0.125, 3000.0] {
                for y in [-3000.0, -0.5, 0.0, 77.0, 19_000.0] {
                    let (lat, lon) = plane.to_degrees(DVec2::new(x, y));
                    assert!(plane.to_metres(lat, lon).distance(DVec2::new(x, y)) < 1e-8);
                    let (lat2, lon2) = plane.to_degrees(plane.to_metres(lat, lon));
                    assert_abs_diff_eq!(lat2, lat, epsilon = 1e-9);
                    assert_abs_diff_eq!((lon2 - lon + 540.0).rem_euclid(360.0), 180.0, epsilon = 1e-9);
                }
            }
        }
    }

    #[test]
    fn the_far_side_of_the_earth_is_far() {
        let plane = TangentPlane::new(44.0, -30.0);
        assert!(plane.distance_m(-44.0, 150.0) > 12_000_000.0);
        let (lat, lon) = plane.to_degrees(DVec2::new(1e9, 0.0));
        assert!(lat.is_finite() && lon.is_finite());
    }
}
