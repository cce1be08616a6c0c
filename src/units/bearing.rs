//! A direction over the ground, clockwise from true north.

use std::f64::consts::PI;
use std::fmt;
use std::str::FromStr;

use glam::DVec2;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::parse::UnitError;
use super::print::tidy;
use super::{Angle, Quantity};

/// Names of the sixteen points of the compass, from north, clockwise.
const POINTS: [&str; 16] =
    ["N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"];

/// A direction, degrees clockwise from true north, at least 0 and below 360. Typed as "240 deg" or "SW".
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bearing(f64);

impl Bearing {
    /// From degrees, any number of turns.
    pub fn from_deg(deg: f64) -> Self {
        let turned = deg.rem_euclid(360.0);
        // A tiny negative angle rounds up to a full turn.
        // Adding nothing makes nothing of less than nothing.
        Self(if turned >= 360.0 { 0.0 } else { turned + 0.0 })
    }

    /// The direction of a vector with x east and y north; north for the null vector.
    pub fn of(vector: DVec2) -> Self {
        Self::from_deg(vector.x.atan2(vector.y) * 180.0 / PI)
    }

    /// Degrees clockwise from true north.
    pub const fn deg(self) -> f64 {
        self.0
    }

    /// Unit vector pointing that way, x east, y north.
    pub fn unit(self) -> DVec2 {
        let (sin, cos) = (self.0 * PI / 180.0).sin_cos();
        DVec2::new(sin, cos)
    }

    /// The opposite direction.
    pub fn reversed(self) -> Self {
        Self::from_deg(self.0 + 180.0)
    }

    /// The nearest of the sixteen points of the compass.
    pub fn point(self) -> &'static str {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at least 0 and at most 16")]
        let index = (self.0 / 22.5).round() as usize % 16;
        POINTS[index]
    }
}

impl fmt::Display for Bearing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Without the dust that a way through radians leaves behind.
        write!(f, "{} deg", (self.0 * 1e9).round() / 1e9)
    }
}

impl FromStr for Bearing {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        let trimmed = text.trim();
        match POINTS.iter().zip(0_u32..).find(|(name, _)| name.eq_ignore_ascii_case(trimmed)) {
            Some((_, index)) => Ok(Self(f64::from(index) * 22.5)),
            None => {
                let deg = tidy(trimmed.parse::<Angle>()?.in_unit("deg").unwrap_or_default());
                if deg.abs() > 360.0 {
                    Err(UnitError::Turned { text: trimmed.into() })
                } else {
                    Ok(Self::from_deg(deg))
                }
            }
        }
    }
}

impl Serialize for Bearing {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Bearing {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Bearing {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> std::borrow::Cow<'static, str> {
        "bearing".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "format": "bearing" })
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    #[track_caller]
    fn check(text: &str, deg: f64) {
        assert_abs_diff_eq!(text.parse::<Bearing>().unwrap().deg(), deg, epsilon = 1e-12);
    }

    #[test]
    fn reads_degrees_and_points_of_the_compass() {
        check("240 deg", 240.0);
        check("SW", 225.0);
        check(" nnw ", 337.5);
        check("-90 deg", 270.0);
        check("360 deg", 0.0);
        // To twelve digits, as quantities are printed.
        assert_abs_diff_eq!("4 rad".parse::<Bearing>().unwrap().deg(), 4.0_f64.to_degrees(), epsilon = 1e-9);
        check("-1e-30 deg", 0.0);
    }

    #[test]
    fn no_dust_is_left_of_a_way_through_radians() {
        for deg in 0..=359 {
            assert_eq!(format!("{deg} deg").parse::<Bearing>().unwrap().deg(), f64::from(deg));
        }
    }

    #[test]
    fn more_than_a_turn_is_a_slip_of_the_keyboard() {
        for text in ["400 deg", "720 deg", "-361 deg", "7 rad"] {
            let error = text.parse::<Bearing>().unwrap_err();
            assert!(error.problem().contains("whole turn") && error.way_out().contains("0 to 360"), "{error}");
        }
    }

    #[test]
    fn names_the_nearest_point() {
        let name = |deg| Bearing::from_deg(deg).point();
        assert_eq!([name(0.0), name(11.3), name(200.0), name(359.0)], ["N", "NNE", "SSW", "N"]);
    }

    #[test]
    fn points_east_of_north_clockwise() {
        assert!(Bearing::of(DVec2::new(-0.0, 1.0)).deg().is_sign_positive());
        assert_abs_diff_eq!(Bearing::from_deg(90.0).unit().x, 1.0, epsilon = 1e-15);
        assert_abs_diff_eq!(Bearing::of(DVec2::new(-1.0, 0.0)).deg(), 270.0, epsilon = 1e-12);
        assert_abs_diff_eq!(Bearing::from_deg(30.0).reversed().deg(), 210.0, epsilon = 1e-12);
        for step in 0..720 {
            let deg = f64::from(step) / 2.0;
            assert_abs_diff_eq!(Bearing::of(Bearing::from_deg(deg).unit()).deg(), deg, epsilon = 1e-9);
        }
    }
}
