//! The numbers of one airframe, each a value, a spread and where it came from.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{Angle, AngularRate, Area, Charge, Length, Mass, Power, Quantity, Ratio, Speed, Time};

/// What the cold leaves of a pack on a cold day (judgement).
const COLD_SHARE: f64 = 0.85;

/// Where a number came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Origin {
    /// Measured on this airframe.
    Measured,
    /// Worked out or judged by someone who knows this airframe.
    Estimated,
    /// Nobody has checked it: the number that ships with the tool.
    #[default]
    Default,
}

/// A quantity with its spread (one standard deviation) and its origin.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(bound = "Q: JsonSchema + Quantity + Serialize", rename = "entry-of-{Q}")]
#[serde(bound(serialize = "Q: Serialize", deserialize = "Q: Deserialize<'de> + Quantity"))]
pub struct Entry<Q> {
    /// The value.
    pub value: Q,
    /// One standard deviation; 0 where left out.
    #[serde(default = "no_spread::<Q>")]
    pub spread: Q,
    /// Where the value came from.
    #[serde(default)]
    pub origin: Origin,
}

fn no_spread<Q: Quantity>() -> Q {
    Q::from_si(0.0)
}

impl<Q: Quantity> Default for Entry<Q> {
    fn default() -> Self {
        Self::si(0.0, 0.0, Origin::Default)
    }
}

impl<Q: Quantity> Entry<Q> {
    /// An entry from SI numbers.
    pub fn si(value: f64, spread: f64, origin: Origin) -> Self {
        Self { value: Q::from_si(value), spread: Q::from_si(spread), origin }
    }
}

/// A number without a dimension, with its spread and origin.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlainEntry {
    /// The value.
    pub value: f64,
    /// One standard deviation; 0 where left out.
    #[serde(default)]
    pub spread: f64,
    /// Where the value came from.
    #[serde(default)]
    pub origin: Origin,
}

/// Share of a full pack that `flight_time` uses.
const TIMED_SHARE: f64 = 0.8;

/// Chosen so that a jet of club size flies 5 to 9 minutes on 80 % of its pack (judgement, no source).
fn part_throttle_loss() -> PlainEntry {
    PlainEntry { value: 2.5, spread: 0.25, origin: Origin::Default }
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands out a reference")]
fn is_warm(cold: &bool) -> bool {
    !cold
}

/// One airframe as its owner knows it. Everything else about its flight follows from these, by [`crate::jet`]'s equations.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JetSheet {
    /// What its owner calls it.
    pub name: String,
    /// Flying mass, battery in.
    pub mass: Entry<Mass>,
    /// Level stall speed at this mass, power off, wings level, in standard air at sea level (1.225 kg/m3). Takes the place
    /// of `lift_max`, and where `wing_area` is left out, of that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stall_speed: Option<Entry<Speed>>,
    /// Fastest level flight, full throttle, full pack, in standard air at sea level. Takes the place of `drag_zero_lift`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub top_speed: Option<Entry<Speed>>,
    /// Rate of the steepest steady climb at the return speed, full throttle, full pack, in standard air at sea level, as a
    /// height and a watch say. Takes the place of `fan_efficiency`, and where `full_power` is left out, of that.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub climb: Option<Entry<Speed>>,
    /// Wing area; where left out, from the stall speed, and without one from the mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wing_area: Option<Entry<Area>>,
    /// Wing span; where left out, from the wing area.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub span: Option<Entry<Length>>,
    /// Largest lift coefficient before the stall; where left out, from stall speed and wing area, or 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lift_max: Option<PlainEntry>,
    /// Drag coefficient at no lift, fan running; where left out, from the top speed, or 0.045.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drag_zero_lift: Option<PlainEntry>,
    /// Drag coefficient that a stopped fan and its duct add.
    pub drag_fan_stopped: PlainEntry,
    /// Span efficiency (Oswald factor) of the lift-dependent drag.
    pub span_efficiency: PlainEntry,
    /// Area of the efflux at the nozzle; where left out, that of a fan matched to the top speed, and without one from the
    /// mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nozzle_area: Option<Entry<Area>>,
    /// Battery power at full throttle, standing still; where left out, from the climb, and without one from the mass.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub full_power: Option<Entry<Power>>,
    /// Share of battery power that ends up in the efflux at full throttle; where left out, from climb and full power, or
    /// 50 %.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fan_efficiency: Option<Entry<Ratio>>,
    /// Loss of the fan at part throttle: power grows by this times (full efflux speed / efflux speed - 1). Not asked for
    /// where `return_power` or `flight_time` is written.
    #[serde(default = "part_throttle_loss")]
    pub part_throttle_loss: PlainEntry,
    /// Battery power in level flight at the return speed, everything on board included, as a wattmeter says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub return_power: Option<Entry<Power>>,
    /// Instead: time in level flight at the return speed from a full pack until a fifth of it is left, as a watch says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flight_time: Option<Entry<Time>>,
    /// Time constant of the fan's spin-up.
    pub fan_lag: Entry<Time>,
    /// Power drawn by receiver, servos, camera and video sender.
    pub avionics_power: Entry<Power>,
    /// Cells in series, at 3.7 V each.
    pub cells: u32,
    /// Rated charge of the pack.
    pub capacity: Entry<Charge>,
    /// Whether the pack is flown cold: a cold day takes 15 % of its energy.
    #[serde(default, skip_serializing_if = "is_warm")]
    pub cold: bool,
    /// Steepest bank the stabiliser commands.
    pub maximum_bank: Entry<Angle>,
    /// Time constant of the bank; 0 follows at once. Drawn evenly, 1.73 spreads to either side.
    pub roll_lag: Entry<Time>,
    /// Fastest roll.
    pub roll_rate: Entry<AngularRate>,
    /// Steepest climb or descent the stabiliser commands.
    pub climb_limit: Entry<Angle>,
    /// Speed the stabiliser holds on the way home.
    pub return_speed: Entry<Speed>,
}

impl JetSheet {
    /// Battery power in level flight at the return speed, where somebody has measured it: as entered, or what the pack
    /// gives over the time flown.
    pub fn measured_power(&self) -> Option<Entry<Power>> {
        self.return_power.or_else(|| self.timed_power())
    }

    /// How long a pack lasts at a power in W until as much of it is left as `flight_time` asks for, s.
    pub(super) fn timed_s(&self, power: f64) -> f64 {
        TIMED_SHARE * pack_energy_j(self) / power
    }

    /// What `flight_time` says of that power, with the time's spread.
    pub fn timed_power(&self) -> Option<Entry<Power>> {
        let time = self.flight_time?;
        let seconds = time.value.s();
        let power = TIMED_SHARE * pack_energy_j(self) / seconds;
        Some(Entry::si(power, power * time.spread.s() / seconds, time.origin))
    }
}

/// Energy that may be drawn from a full pack, J: cells in series at 3.7 V (nominal voltage of a lithium-polymer cell), less
/// what a cold day takes.
pub(super) fn pack_energy_j(sheet: &JetSheet) -> f64 {
    let warmth = if sheet.cold { COLD_SHARE } else { 1.0 };
    f64::from(sheet.cells) * 3.7 * sheet.capacity.value.c() * warmth
}
