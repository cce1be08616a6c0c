//! Where the jet may be, and how near the edge is.

mod build;
mod check;
mod circuit;
mod corners;
mod facing;
mod file;
mod geojson;
mod ground;
pub mod import;
mod rings;
mod size;

pub use build::built_area;
pub use circuit::{Circuit, Loop, Where};
pub use facing::facing;
pub use file::{
    AreaFile, BoundaryFile, CircuitFile, Datum, FieldFile, Metres, Month, ObstacleFile, RuleName, RunwayFile, SpotFile,
    Way,
};
pub use geojson::{GeoField, Places, geojson, geojson_text};
pub use ground::Ground;

use glam::DVec2;

use crate::geometry::{HalfPlane, Region, TangentPlane};
use crate::units::Bearing;

/// What an area forbids on the day of the flight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rule {
    /// Not at any height.
    NoFly,
    /// Only above this height over its ground, metres.
    Above(f64),
    /// Not at any height, and further off than the rest: people are there.
    People,
    /// Seconds are counted.
    Caution,
    /// No rule in this month.
    Idle,
}

/// Ground with a rule.
#[derive(Debug, Clone)]
pub struct FieldArea {
    /// What people call it.
    pub name: String,
    /// The rule of the day.
    pub rule: Rule,
    /// Where.
    pub region: Region,
}

/// Something tall.
#[derive(Debug, Clone)]
pub struct Obstacle {
    /// What people call it.
    pub name: String,
    /// Height of its top above the datum's ground, metres.
    pub top_m: f64,
    /// Where.
    pub region: Region,
}

/// A strip with a centre line and a width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Runway {
    /// One end, metres.
    pub from: DVec2,
    /// The other end, metres.
    pub to: DVec2,
    /// Width, metres.
    pub width_m: f64,
}

/// A field ready for questions.
#[derive(Debug, Clone)]
pub struct Field {
    /// Plane of its metres.
    pub plane: TangentPlane,
    /// Land whose overflight is allowed.
    pub boundary: Region,
    /// Ground with a rule.
    pub areas: Vec<FieldArea>,
    /// Tall things.
    pub obstacles: Vec<Obstacle>,
    /// The side of the flight line the jet must stay on.
    pub flight_line: Option<HalfPlane>,
    /// The flight line as drawn.
    pub flight_line_ends: Option<[DVec2; 2]>,
    /// The strip.
    pub runway: Option<Runway>,
    /// Where pilot and spotter stand.
    pub pilot: DVec2,
    /// Which way people look from there: the twelve of the clock.
    pub facing: Bearing,
    /// What that follows from, such as "square across the runway".
    pub facing_from: &'static str,
    /// Where the jet captured its home.
    pub home: DVec2,
    /// Centre of the circle.
    pub centre: DVec2,
    /// Where the jet is flown.
    pub circuit: Option<Circuit>,
    /// Height of the ground.
    pub ground: Ground,
}

/// The field of the tight strip, for the checks of this room.
#[cfg(test)]
fn tight_strip() -> FieldFile {
    let file = include_str!("../../tests/fixtures/tight-strip.json");
    let mut file: serde_json::Value = serde_json::from_str(file).unwrap();
    serde_json::from_value(file["field"].take()).unwrap()
}
