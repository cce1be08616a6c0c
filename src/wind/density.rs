//! How dense the air is at a height: the international standard atmosphere, first layer.

use crate::units::G0;

/// Density of the standard atmosphere, kg/m^3, at a geopotential height in metres above the sea, up to 11 km.
///
/// ICAO Doc 7488: 288.15 K and 101325 Pa at sea level, 6.5 K less a kilometre, R = 287.05287 J/(kg K).
pub fn isa_density(height_m: f64) -> f64 {
    const R: f64 = 287.052_87;
    const LAPSE: f64 = 0.0065;
    let temperature = 288.15 - LAPSE * height_m;
    let pressure = 101_325.0 * (temperature / 288.15).powf(G0 / (R * LAPSE));
    pressure / (R * temperature)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn density_is_that_of_the_standard_atmosphere() {
        // Sea level: ICAO Doc 7488 / US Standard Atmosphere 1976, as quoted. The others: closed form, the same layer.
        for (height, density) in
            [(0.0, 1.2250), (120.0, 1.210_950), (121.92, 1.210_726), (300.0, 1.190_106), (1000.0, 1.111_643)]
        {
            approx::assert_relative_eq!(isa_density(height), density, max_relative = 1e-6);
        }
    }
}
