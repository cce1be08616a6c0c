//! The shape of a field in a scenario file: metres about the datum, x east, y north.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{Angle, Bearing, Length, Ratio, Speed};

/// A position in metres about the datum, east then north.
pub type Metres = [f64; 2];

/// Where the datum is on the globe, WGS84.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Datum {
    /// Degrees north.
    pub latitude_deg: f64,
    /// Degrees east.
    pub longitude_deg: f64,
}

/// What an area forbids.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RuleName {
    /// Not at any height.
    NoFly,
    /// Only above the area's `height`.
    Above,
    /// Not at any height: people are there, with the limits' `people_buffer` about them.
    People,
    /// Better not: seconds are counted.
    Caution,
}

/// A month of the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs, reason = "the names say it")]
pub enum Month {
    Jan,
    Feb,
    Mar,
    Apr,
    May,
    Jun,
    Jul,
    Aug,
    Sep,
    Oct,
    Nov,
    Dec,
}

impl Month {
    /// All of them, in order.
    pub const ALL: [Self; 12] = [
        Self::Jan,
        Self::Feb,
        Self::Mar,
        Self::Apr,
        Self::May,
        Self::Jun,
        Self::Jul,
        Self::Aug,
        Self::Sep,
        Self::Oct,
        Self::Nov,
        Self::Dec,
    ];
}

impl From<time::Month> for Month {
    fn from(month: time::Month) -> Self {
        Self::ALL[usize::from(u8::from(month)) - 1]
    }
}

/// Land whose overflight is allowed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BoundaryFile {
    /// Corners in order; the last joins the first.
    pub ring_m: Vec<Metres>,
    /// Land inside that is not ours.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes_m: Vec<Vec<Metres>>,
}

/// Ground with a rule.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AreaFile {
    /// What people call it.
    pub name: String,
    /// What it forbids.
    pub rule: RuleName,
    /// For `above`: the height above its ground that must be kept.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Length>,
    /// Months in which the rule holds; all year where left out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub months: Vec<Month>,
    /// The rule in the other months; none where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub otherwise: Option<RuleName>,
    /// Corners in order; the last joins the first.
    pub ring_m: Vec<Metres>,
    /// Ground inside that the rule leaves out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes_m: Vec<Vec<Metres>>,
}

/// Something tall: a point or a ring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ObstacleFile {
    /// What people call it.
    pub name: String,
    /// Height of its top above the ground it stands on.
    pub height: Length,
    /// Where, for a single mast or tree.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_m: Option<Metres>,
    /// Its edge, for a wood or a building.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ring_m: Vec<Metres>,
}

/// The strip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RunwayFile {
    /// One end of its centre line.
    pub from_m: Metres,
    /// The other end.
    pub to_m: Metres,
    /// Width.
    pub width: Length,
}

/// The height of the ground at one place, above the ground at the datum.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpotFile {
    /// Where.
    pub at_m: Metres,
    /// Height above the ground at the datum; negative below it.
    pub height: Length,
}

/// Which way round a circuit is flown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Way {
    /// As its corners are listed.
    Drawn,
    /// Against it.
    Reversed,
    /// Either, half and half.
    #[default]
    Both,
}

impl Way {
    /// The words for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Drawn => "as drawn",
            Self::Reversed => "against the way drawn",
            Self::Both => "both ways",
        }
    }
}

/// Where the jet is flown, and so where it may be when something is lost: a closed line or an area, one of the two.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CircuitFile {
    /// The line flown, corners in order; the last joins the first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub line_m: Vec<Metres>,
    /// Instead of a line: corners of the ground flown over, at any heading.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub area_m: Vec<Metres>,
    /// Which way round the line is flown.
    #[serde(default)]
    pub way: Way,
    /// How far to the side of the line: one standard deviation.
    #[serde(default = "circuit_width")]
    pub width: Length,
    /// Lowest height flown at, above home.
    pub lowest: Length,
    /// Highest height flown at, above home.
    pub highest: Length,
    /// Slowest airspeed.
    pub slowest: Speed,
    /// Fastest airspeed.
    pub fastest: Speed,
    /// Least the pack still holds, of its rated energy.
    #[serde(default = "charge_low")]
    pub charge_low: Ratio,
    /// Most the pack still holds, of its rated energy.
    #[serde(default = "charge_high")]
    pub charge_high: Ratio,
}

/// Judgement: a pilot flying by video keeps a line to some wingspans, not to metres.
pub(super) fn circuit_width() -> Length {
    Length::new(15.0)
}

/// Judgement: half a flight's charge and a margin before the pilot means to land.
pub(super) fn charge_low() -> Ratio {
    Ratio::new(0.45)
}

/// Judgement: what take-off and climb leave of a full pack.
pub(super) fn charge_high() -> Ratio {
    Ratio::new(0.9)
}

/// A field as entered in a scenario.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FieldFile {
    /// Origin of the metres.
    pub datum: Datum,
    /// How far magnetic north lies east of true north here, less than nothing for west: bearings are then also told as a
    /// compass reads them. Nothing is worked out from it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub magnetic_declination: Option<Angle>,
    /// Land whose overflight is allowed.
    pub boundary: BoundaryFile,
    /// Ground with a rule.
    #[serde(default)]
    pub areas: Vec<AreaFile>,
    /// Tall things.
    #[serde(default)]
    pub obstacles: Vec<ObstacleFile>,
    /// Line the jet must stay in front of: on the other side of it than the pilot position.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flight_line_m: Option<[Metres; 2]>,
    /// The strip.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub runway: Option<RunwayFile>,
    /// Where pilot and spotter stand.
    pub pilot_m: Metres,
    /// Which way people look from there: the twelve of the clock. Where left out, square across the flight line away from
    /// the pilot position, else square across the runway, else towards the centre.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub facing: Option<Bearing>,
    /// Where the jet captured its home.
    pub home_m: Metres,
    /// Centre of the circle; home where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub centre_m: Option<Metres>,
    /// Where the jet is flown; losses are drawn from it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub circuit: Option<CircuitFile>,
    /// Spot heights of the ground; flat where there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ground: Vec<SpotFile>,
}
