//! What is known of the wind, as people say it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{Angle, Bearing, Length, Ratio, Speed};

/// How the mean wind grows with height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Profile {
    /// `(h / h_ref)^exponent`.
    #[default]
    Power,
    /// `ln(h / z0) / ln(h_ref / z0)`.
    Log,
    /// The same at every height.
    Uniform,
}

/// The wind today.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WindSheet {
    /// Mean speed at the height it was measured at.
    pub mean: Speed,
    /// Speed in the gusts at the same height.
    pub gust: Speed,
    /// Direction it blows from, true.
    pub from: Bearing,
    /// Height above the ground it was measured at.
    pub measured_at: Length,
    /// How it grows with height.
    #[serde(default)]
    pub profile: Profile,
    /// Lowest exponent of the power law.
    #[serde(default = "exponent_low")]
    pub exponent_low: f64,
    /// Highest exponent of the power law; a run without draws uses the middle.
    #[serde(default = "exponent_high")]
    pub exponent_high: f64,
    /// Roughness length of the log law.
    #[serde(default = "roughness")]
    pub roughness: Length,
    /// One standard deviation of the mean speed, as a share of it.
    #[serde(default = "mean_spread")]
    pub mean_spread: Ratio,
    /// One standard deviation of the mean speed that stays in light wind.
    #[serde(default = "mean_floor")]
    pub mean_floor: Speed,
    /// One standard deviation of the direction.
    #[serde(default = "from_spread")]
    pub from_spread: Angle,
    /// Whether cases fly through turbulence. The run without draws never does.
    #[serde(default = "turbulence")]
    pub turbulence: bool,
}

fn exponent_low() -> f64 {
    0.14
}

fn exponent_high() -> f64 {
    0.20
}

fn roughness() -> Length {
    Length::new(0.03)
}

pub(super) fn mean_spread() -> Ratio {
    Ratio::new(0.15)
}

pub(super) fn mean_floor() -> Speed {
    Speed::new(0.5)
}

pub(super) fn from_spread() -> Angle {
    Angle::new(15.0_f64.to_radians())
}

fn turbulence() -> bool {
    true
}
