//! How warm: kelvin inside, degrees Celsius in print. Its scales differ in where they begin, so that it is no multiple
//! of a unit as the other quantities are.

use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::parse::{Unit, UnitError, number_and_unit};
use super::print::{decimals, typed};
use super::quantity::Quantity;

/// 0 degrees Celsius, K, by definition.
const ICE: f64 = 273.15;
/// What may be typed; the size of a degree comes first, where the scale begins after it.
const SCALES: [(Unit, f64); 3] = [
    (Unit { names: &["C", "degC", "\u{b0}C", "celsius"], si: 1.0 }, ICE),
    (Unit { names: &["F", "degF", "\u{b0}F", "fahrenheit"], si: 5.0 / 9.0 }, ICE - 32.0 * 5.0 / 9.0),
    (Unit { names: &["K", "kelvin"], si: 1.0 }, 0.0),
];

/// A temperature, kelvin.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Temperature(f64);

impl Temperature {
    /// From kelvin.
    pub const fn new(kelvin: f64) -> Self {
        Self(kelvin)
    }

    /// From degrees Celsius.
    pub const fn from_celsius(degrees: f64) -> Self {
        Self(degrees + ICE)
    }

    /// Kelvin.
    pub const fn k(self) -> f64 {
        self.0
    }

    /// Degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0 - ICE
    }
}

impl Quantity for Temperature {
    const KIND: &'static str = "temperature";
    // The one scale that is a multiple of SI; what may be typed is more.
    const UNITS: &'static [Unit] = &[Unit { names: &["K", "kelvin"], si: 1.0 }];

    fn from_si(kelvin: f64) -> Self {
        Self(kelvin)
    }

    fn si(self) -> f64 {
        self.0
    }
}

impl fmt::Display for Temperature {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Without the dust that taking off 273.15 leaves behind, and never "-0".
        let degrees = (self.celsius() * 1e9).round() / 1e9 + 0.0;
        match f.precision() {
            Some(digits) => write!(f, "{} C", decimals(degrees, digits)),
            None => write!(f, "{} C", typed(degrees)),
        }
    }
}

impl FromStr for Temperature {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        let units = SCALES.map(|(unit, _)| unit);
        // Which of the scales it is shows where the other two are not taken.
        let scale = SCALES.into_iter().find(|(unit, _)| number_and_unit(text, Self::KIND, &[*unit]).is_ok());
        let begins = scale.map_or(0.0, |(_, begins)| begins);
        number_and_unit(text, Self::KIND, &units).map(|size| Self(size + begins))
    }
}

impl Serialize for Temperature {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Temperature {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Temperature {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> std::borrow::Cow<'static, str> {
        Self::KIND.into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "format": "temperature-with-unit" })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_the_three_scales_and_prints_celsius() {
        // Definitions: 0 C is 273.15 K; 32 F is 0 C and 212 F is 100 C.
        for (text, kelvin, printed) in [
            ("25 C", 298.15, "25 C"),
            ("-5\u{b0}C", 268.15, "-5 C"),
            ("0 C", 273.15, "0 C"),
            ("32 F", 273.15, "0 C"),
            ("212F", 373.15, "100 C"),
            ("288.15 K", 288.15, "15 C"),
        ] {
            let read = text.parse::<Temperature>().unwrap();
            approx::assert_abs_diff_eq!(read.k(), kelvin, epsilon = 1e-9);
            assert_eq!(read.to_string(), printed);
        }
        let error = "25".parse::<Temperature>().unwrap_err();
        assert!(error.to_string().contains("C, F, K"), "{error}");
        assert!("25 m".parse::<Temperature>().is_err());
    }
}
