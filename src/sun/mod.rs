//! Where in the sky does the sun stand, seen from a place on a day at a moment?

#[cfg(test)]
mod tests;

use glam::DVec3;
use solar_positioning::time::JulianDate;
use solar_positioning::{Location, RefractionCorrection, SolarPositions, delta_t};
use time::Date;

/// A place on the globe, WGS84.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Degrees north.
    pub latitude_deg: f64,
    /// Degrees east.
    pub longitude_deg: f64,
}

/// Where the middle of the sun's disc stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sun {
    /// Degrees clockwise from true north.
    pub azimuth_deg: f64,
    /// Degrees above a flat horizon as eyes see it: lifted by the air, as everything low in the sky is.
    pub elevation_deg: f64,
}

impl Sun {
    /// Whether its middle is above a flat horizon.
    pub fn is_up(&self) -> bool {
        self.elevation_deg > 0.0
    }

    /// Unit vector towards it: x east, y north, z up.
    pub fn direction(&self) -> DVec3 {
        let (east, north) = self.azimuth_deg.to_radians().sin_cos();
        let (up, level) = self.elevation_deg.to_radians().sin_cos();
        DVec3::new(east * level, north * level, up)
    }
}

/// Where the sun stands, seen from sea level at a place, so many minutes after 0:00 UTC on a day; before it or after its
/// end as well. The air is the standard one of tables of refraction: 1010 hPa and 10 degrees Celsius.
///
/// None where there is no such place, or where nobody knows how the earth will have turned: before the year -500
/// or after 3000.
///
/// By the solar position algorithm of Reda and Andreas, NREL/TP-560-34302 (2004, revised 2008), good to 0.0003 degrees
/// without the air. Close to the horizon the air itself makes that a tenth of a degree and more.
pub fn sun_at(place: Place, day: Date, utc_minutes: f64) -> Option<Sun> {
    // The days of Julius begin at noon.
    let midnight = f64::from(day.to_julian_day()) - 0.5;
    let time = JulianDate::new(midnight + utc_minutes / 1440.0, lag_s(day)?).ok()?;
    let location = Location { latitude: place.latitude_deg, longitude: place.longitude_deg };
    let air = RefractionCorrection::new(1010.0, 10.0).ok();
    let position = SolarPositions::new().at_from_julian(time, location, 0.0, air).ok()?;
    Some(Sun { azimuth_deg: position.azimuth(), elevation_deg: position.elevation_angle() })
}

/// How far the turning of the earth lags behind an even clock that month (delta T, TT less UT), s.
///
/// Polynomials by Espenak and Meeus with Espenak's update of 2014, from 2015 on fitted by the library to the observations
/// of the IERS up to the middle of 2026 and prolonged. A second more moves the sun by less than 0.00002 degrees.
fn lag_s(day: Date) -> Option<f64> {
    delta_t::estimate(f64::from(day.year()) + (f64::from(u8::from(day.month())) - 0.5) / 12.0).ok()
}
