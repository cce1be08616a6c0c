//! How dense the air is: the international standard atmosphere, first layer, or what was measured.
//!
//! ICAO Doc 7488: 288.15 K and 101325 Pa at sea level, 6.5 K less a kilometre, R = 287.05287 J/(kg K).

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{G0, Length, Pressure, Temperature};

/// Gas constant of air, J/(kg K).
const R: f64 = 287.052_87;
/// Kelvin less a metre of height.
const LAPSE: f64 = 0.0065;
/// Temperature at sea level, K.
const SEA_K: f64 = 288.15;
/// Pressure at sea level, Pa.
const SEA_PA: f64 = 101_325.0;

/// Density of the standard atmosphere, kg/m^3, at a geopotential height in metres above the sea, up to 11 km.
pub fn isa_density(height_m: f64) -> f64 {
    isa_pressure(height_m) / (R * isa_temperature(height_m))
}

fn isa_temperature(height_m: f64) -> f64 {
    SEA_K - LAPSE * height_m
}

fn isa_pressure(height_m: f64) -> f64 {
    SEA_PA * (isa_temperature(height_m) / SEA_K).powf(G0 / (R * LAPSE))
}

/// What is known of the air of the day; what is left out is the standard atmosphere's.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AirSheet {
    /// Height of the field above the sea; nothing where left out.
    #[serde(default, skip_serializing_if = "is_sea_level")]
    pub elevation: Length,
    /// Temperature at the field.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Temperature>,
    /// Pressure reduced to sea level, as an aerodrome reports it (QNH): not what a barometer on the field shows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure: Option<Pressure>,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands out a reference")]
fn is_sea_level(elevation: &Length) -> bool {
    *elevation == Length::default()
}

impl AirSheet {
    /// Whether nothing is known: then it is the standard atmosphere at sea level.
    pub fn is_standard(&self) -> bool {
        *self == Self::default()
    }

    /// Density at the field, kg/m^3: that of an ideal gas. Moisture, which takes off up to 1 % on a hot wet day, is left
    /// out.
    pub fn density(&self) -> f64 {
        let temperature = self.temperature.map_or_else(|| isa_temperature(self.elevation.m()), Temperature::k);
        self.pressure_here_pa() / (R * temperature)
    }

    /// Pressure at the field, Pa: where an altimeter set to the pressure at sea level shows the field's elevation.
    fn pressure_here_pa(&self) -> f64 {
        let sea_pa = self.pressure.map_or(SEA_PA, Pressure::pa);
        // The height at which the standard atmosphere has the pressure at sea level.
        let offset = SEA_K / LAPSE * (1.0 - (sea_pa / SEA_PA).powf(R * LAPSE / G0));
        isa_pressure(self.elevation.m() + offset)
    }
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
            let sheet = AirSheet { elevation: Length::new(height), ..AirSheet::default() };
            approx::assert_relative_eq!(sheet.density(), density, max_relative = 1e-6);
        }
        assert!(AirSheet::default().is_standard());
    }

    #[test]
    fn hot_and_high_is_the_ideal_gas() {
        // By hand: at 1000 m the standard has 281.65 K and 1.111643 kg/m3; at 35 C, 308.15 K, the same pressure gives
        // 1.111643 * 281.65 / 308.15 = 1.016044.
        let hot = AirSheet {
            elevation: Length::new(1000.0),
            temperature: Some(Temperature::from_celsius(35.0)),
            pressure: None,
        };
        approx::assert_relative_eq!(hot.density(), 1.016_044, max_relative = 1e-6);
        // At the sea the pressure there is the one reported: 98000 / (287.05287 * 303.15) = 1.126175.
        let low = AirSheet {
            elevation: Length::new(0.0),
            temperature: Some(Temperature::from_celsius(30.0)),
            pressure: Some(Pressure::new(98_000.0)),
        };
        approx::assert_relative_eq!(low.density(), 98_000.0 / (287.052_87 * 303.15), max_relative = 1e-9);
    }

    #[test]
    fn a_pressure_at_the_sea_is_brought_up_to_the_field() {
        // Near the sea 1 hPa is some 27 ft, 8.3 m: 10 hPa less there is nearly 10 hPa less at 200 m (value from memory).
        let here = |hpa: f64| {
            let pressure = Some(Pressure::new(100.0 * hpa));
            AirSheet { elevation: Length::new(200.0), temperature: None, pressure }.pressure_here_pa() / 100.0
        };
        approx::assert_abs_diff_eq!(here(1013.25), isa_pressure(200.0) / 100.0, epsilon = 1e-9);
        approx::assert_abs_diff_eq!(here(1013.25) - here(1003.25), 10.0, epsilon = 0.3);
        approx::assert_abs_diff_eq!(here(1013.25), 1013.25 - 200.0 / 8.43, epsilon = 0.5);
    }
}
