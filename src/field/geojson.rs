//! A field as GeoJSON (RFC 7946): one feature for each thing, told apart by its `role`.

mod geometry;
mod places;
mod read;
mod write;

pub use places::Places;
pub use read::GeoField;
pub use write::{geojson, geojson_text};

use std::sync::LazyLock;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Month, RuleName, Way};
use crate::field::file::{charge_high, charge_low, circuit_width};
use crate::units::{Angle, Bearing, Length, Ratio, Shape, Speed};

/// What a feature stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Role {
    Datum,
    Boundary,
    Area,
    Obstacle,
    FlightLine,
    Runway,
    Pilot,
    Home,
    Centre,
    Circuit,
    Spot,
}

impl Role {
    const ALL: [Self; 11] = [
        Self::Datum,
        Self::Boundary,
        Self::Area,
        Self::Obstacle,
        Self::FlightLine,
        Self::Runway,
        Self::Pilot,
        Self::Home,
        Self::Centre,
        Self::Circuit,
        Self::Spot,
    ];

    const fn name(self) -> &'static str {
        match self {
            Self::Datum => "datum",
            Self::Boundary => "boundary",
            Self::Area => "area",
            Self::Obstacle => "obstacle",
            Self::FlightLine => "flight-line",
            Self::Runway => "runway",
            Self::Pilot => "pilot",
            Self::Home => "home",
            Self::Centre => "centre",
            Self::Circuit => "circuit",
            Self::Spot => "spot",
        }
    }

    fn shape(self) -> &'static Shape {
        static ROLE_ONLY: LazyLock<Shape> = LazyLock::new(Shape::of::<RoleOnly>);
        static DATUM: LazyLock<Shape> = LazyLock::new(Shape::of::<DatumProperties>);
        static AREA: LazyLock<Shape> = LazyLock::new(Shape::of::<AreaProperties>);
        static OBSTACLE: LazyLock<Shape> = LazyLock::new(Shape::of::<ObstacleProperties>);
        static RUNWAY: LazyLock<Shape> = LazyLock::new(Shape::of::<RunwayProperties>);
        static PILOT: LazyLock<Shape> = LazyLock::new(Shape::of::<PilotProperties>);
        static CIRCUIT: LazyLock<Shape> = LazyLock::new(Shape::of::<CircuitProperties>);
        static SPOT: LazyLock<Shape> = LazyLock::new(Shape::of::<SpotProperties>);
        match self {
            Self::Datum => &DATUM,
            Self::Area => &AREA,
            Self::Obstacle => &OBSTACLE,
            Self::Runway => &RUNWAY,
            Self::Pilot => &PILOT,
            Self::Circuit => &CIRCUIT,
            Self::Spot => &SPOT,
            Self::Boundary | Self::FlightLine | Self::Home | Self::Centre => &ROLE_ONLY,
        }
    }
}

/// Properties of a feature that has nothing but its place.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RoleOnly {
    /// What it stands for.
    role: String,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct DatumProperties {
    /// "datum".
    role: String,
    /// How far magnetic north lies east of true north here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    magnetic_declination: Option<Angle>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct AreaProperties {
    /// "area".
    role: String,
    /// What people call it.
    name: String,
    /// What it forbids.
    rule: RuleName,
    /// For `above`: the height above its ground that must be kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    height: Option<Length>,
    /// Months in which the rule holds; all year where left out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    months: Vec<Month>,
    /// The rule in the other months; none where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    otherwise: Option<RuleName>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ObstacleProperties {
    /// "obstacle".
    role: String,
    /// What people call it.
    name: String,
    /// Height of its top above the ground it stands on.
    height: Length,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct RunwayProperties {
    /// "runway".
    role: String,
    /// Width.
    width: Length,
}

/// Of a closed LineString, the line flown; of a Polygon, the ground flown over.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CircuitProperties {
    /// "circuit".
    role: String,
    /// Which way round the line is flown.
    #[serde(default)]
    way: Way,
    /// How far to the side of the line: one standard deviation.
    #[serde(default = "circuit_width")]
    width: Length,
    /// Lowest height flown at, above home.
    lowest: Length,
    /// Highest height flown at, above home.
    highest: Length,
    /// Slowest airspeed.
    slowest: Speed,
    /// Fastest airspeed.
    fastest: Speed,
    /// Least the pack still holds, of its rated energy.
    #[serde(default = "charge_low")]
    charge_low: Ratio,
    /// Most the pack still holds, of its rated energy.
    #[serde(default = "charge_high")]
    charge_high: Ratio,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PilotProperties {
    /// "stand".
    role: String,
    /// Which way people look from there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    facing: Option<Bearing>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SpotProperties {
    /// "spot".
    role: String,
    /// Height above the ground at the datum; negative below it.
    height: Length,
}
