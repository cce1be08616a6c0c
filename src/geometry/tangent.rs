//! Longitude and latitude to metres about the datum and back, by the plane that touches WGS84 there.

use glam::DVec2;

/// Semi-major axis of WGS84, metres (NGA; handbook table 14.3).
const A: f64 = 6_378_137.0;
/// Flattening of WGS84.
const F: f64 = 1.0 / 298.257_223_563;

/// East-north plane touching the ellipsoid at the datum.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TangentPlane {
    latitude_deg: f64,
    longitude_deg: f64,
}

impl TangentPlane {
    /// The plane at a datum, degrees.
    pub fn new(latitude_deg: f64, longitude_deg: f64) -> Self {
        Self { latitude_deg, longitude_deg }
    }

    /// East and north of the datum, metres, for a place on the ellipsoid.
    pub fn to_metres(self, _latitude_deg: f64, _longitude_deg: f64) -> DVec2 {
        let _ = (A, F);
        DVec2::ZERO
    }

    /// Latitude and longitude, degrees, of a place in metres about the datum.
    pub fn to_degrees(self, _at: DVec2) -> (f64, f64) {
        (self.latitude_deg, self.longitude_deg)
    }
}
