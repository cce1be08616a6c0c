//! What the jet is told to do about a loss, and what it knows while doing it.

use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize};

use crate::jet::Entry;
use crate::units::{Angle, Frequency, Length, Ratio, Speed, Time};

/// What the jet does when it hears nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FailsafeAction {
    /// Flies home under power and circles.
    #[default]
    Return,
    /// Flies on, wings level, for the waiting time, then stops the fan and glides.
    WaitThenCut,
    /// Stops the fan at once and glides.
    Cut,
}

/// Which way round the circle goes, seen from above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Turn {
    /// To the left.
    #[default]
    Anticlockwise,
    /// To the right.
    Clockwise,
}

impl Turn {
    /// Every word that people have for a way round, the one that is written first.
    pub const WORDS: [(&str, Self); 10] = [
        ("anticlockwise", Self::Anticlockwise),
        ("clockwise", Self::Clockwise),
        ("counterclockwise", Self::Anticlockwise),
        ("counter-clockwise", Self::Anticlockwise),
        ("anti-clockwise", Self::Anticlockwise),
        ("left", Self::Anticlockwise),
        ("right", Self::Clockwise),
        ("ccw", Self::Anticlockwise),
        ("acw", Self::Anticlockwise),
        ("cw", Self::Clockwise),
    ];
}

impl FromStr for Turn {
    type Err = String;

    /// Reads a way round; whoever wrote another word is told all of them, and is never led to the opposite.
    fn from_str(text: &str) -> Result<Self, String> {
        let known = Self::WORDS.iter().find(|(word, _)| word.eq_ignore_ascii_case(text.trim()));
        known.map(|(_, turn)| *turn).ok_or_else(|| {
            let words: Vec<_> = Self::WORDS.iter().map(|(word, _)| *word).collect();
            format!("write one of: {}", words.join(", "))
        })
    }
}

impl<'de> Deserialize<'de> for Turn {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Turn {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Turn".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let words = Self::WORDS.map(|(word, _)| word);
        json_schema!({ "description": "Which way round the circle goes, seen from above.", "type": "string", "enum": words })
    }
}

/// One of three representative guidance laws. None of them is a particular device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Guidance {
    /// Follows a field of directions that winds onto the ring, with the bank that field needs fed forward.
    #[default]
    FieldOfDirections,
    /// Turns towards a point on the ring some way ahead.
    LookAhead,
    /// Points the nose, not the path, and drifts.
    NoseOnTheCentre,
}

impl Guidance {
    /// Every law.
    pub const ALL: [Self; 3] = [Self::FieldOfDirections, Self::LookAhead, Self::NoseOnTheCentre];

    /// Its number in the plan of a trial.
    pub const fn number(self) -> f64 {
        self as u8 as f64
    }

    /// In print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::FieldOfDirections => "field of directions",
            Self::LookAhead => "look-ahead",
            Self::NoseOnTheCentre => "nose on the centre",
        }
    }
}

/// Gain: how hard the law corrects.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Gain {
    /// Two thirds of the nominal gain.
    Soft,
    /// The nominal gain, or reach.
    #[default]
    Nominal,
    /// One and a half times the nominal gain.
    Sharp,
}

impl Gain {
    /// Every one of them.
    pub const ALL: [Self; 3] = [Self::Soft, Self::Nominal, Self::Sharp];
}

/// What the throttle holds on the way home and on the circle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SpeedHold {
    /// The return speed through the air.
    #[default]
    Airspeed,
    /// Nothing: the thrust that keeps the return speed in level flight, whatever the speed becomes.
    Throttle,
    /// The return speed over the ground, so that downwind the airspeed falls by the wind. Without a position, the airspeed.
    GroundSpeed,
}

impl SpeedHold {
    /// Its number in the plan of a trial.
    pub const fn number(self) -> f64 {
        self as u8 as f64
    }
}

/// The plan for a loss.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RecoveryPlan {
    /// What the jet does.
    pub failsafe_action: FailsafeAction,
    /// Who authorised that failsafe action for this jet here; empty where nobody has.
    #[serde(default)]
    pub authorised_by: String,
    /// For which version of the plan, by its hash; any change of the plan lets the authority lapse.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub authorised_for: String,
    /// Commanded radius of the circle.
    pub radius: Length,
    /// Commanded height of the circle above home.
    pub height: Length,
    /// Which way round.
    #[serde(default)]
    pub turn: Turn,
    /// The guidance law of the plan as entered; trials fly any law that is not ruled out.
    #[serde(default)]
    pub guidance: Guidance,
    /// The gain of the plan as entered; trials fly soft, nominal or sharp.
    #[serde(default)]
    pub gain: Gain,
    /// Laws that a log of this jet has ruled out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub laws_ruled_out: Vec<Guidance>,
    /// What the throttle holds.
    #[serde(default)]
    pub speed_hold: SpeedHold,
    /// How long the elevator lags the bank: what a roll-in sinks, and a roll-out rises.
    #[serde(default = "load_lag")]
    pub load_lag: Time,
    /// Time from the loss of control until the jet acts on it.
    pub failsafe_delay: Entry<Time>,
    /// Time from the loss of the video until the pilot has commanded the return; the failsafe delay where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reaction_time: Option<Entry<Time>>,
    /// Height above home below which it climbs straight ahead before it turns; 0 turns at once.
    #[serde(default)]
    pub turn_above: Length,
    /// How long `wait-then-cut` waits.
    #[serde(default = "wait")]
    pub wait: Time,
    /// Bank held in the glide after a cut; positive turns the way of the circle.
    #[serde(default)]
    pub glide_bank: Angle,
    /// Bank held when the position is lost; positive turns the way of the circle.
    #[serde(default = "drift_bank")]
    pub drift_bank: Angle,
    /// Laps flown on the circle before the run ends with the take-over; no fewer than the limits ask for.
    #[serde(default = "laps")]
    pub laps: f64,
    /// What the autopilot knows.
    #[serde(default)]
    pub perception: PerceptionSheet,
}

fn wait() -> Time {
    Time::new(5.0)
}

fn drift_bank() -> Angle {
    Angle::new(15.0_f64.to_radians())
}

fn laps() -> f64 {
    2.0
}

/// Judgement: with it a sudden roll into 45 degrees of bank costs 0.8 m before the height hold has it back.
fn load_lag() -> Time {
    Time::new(1.0)
}

/// How well the autopilot knows where it is. The spreads are one standard deviation and apply to trials.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PerceptionSheet {
    /// How often the guidance gets a fix and acts on it.
    pub fix_rate: Frequency,
    /// Age of a fix when it is acted on; at most 0.7 s.
    pub delay: Time,
    /// Wander of the position, each axis.
    pub position_noise: Length,
    /// Noise of the ground velocity, each axis.
    pub velocity_noise: Speed,
    /// Error of the captured home, each axis.
    pub home_error: Length,
    /// Whether the jet took off before its receiver had settled: the captured home is then off by no less than 15 m.
    pub flew_early: bool,
    /// Error of the height reference.
    pub height_error: Length,
    /// Drift of the height reference from one hour's change of pressure: between none and this, up or down.
    pub height_drift: Length,
    /// Slow wander of the height that is held.
    pub height_wander: Length,
    /// Time over which it wanders.
    pub height_wander_over: Time,
    /// Error of the static pressure, of the dynamic pressure: the height read changes with the square of the airspeed.
    pub static_error: Ratio,
}

/// Spread of a home that was captured too early, each axis, m (judgement).
const EARLY_M: f64 = 15.0;

impl PerceptionSheet {
    /// Spread of the captured home, each axis.
    pub fn home_spread(&self) -> Length {
        Length::new(if self.flew_early { self.home_error.m().max(EARLY_M) } else { self.home_error.m() })
    }
}

impl Default for PerceptionSheet {
    fn default() -> Self {
        Self {
            fix_rate: Frequency::new(10.0),
            delay: Time::new(0.1),
            position_noise: Length::new(1.0),
            velocity_noise: Speed::new(0.2),
            home_error: Length::new(3.0),
            flew_early: false,
            height_error: Length::new(4.0),
            // 1 hPa of air at sea level, 100 Pa / (1.225 kg/m^3 g).
            height_drift: Length::new(8.3),
            // Judgement: a barometer of a few pascals in a body that breathes, and a hold that is not in a hurry.
            height_wander: Length::new(2.0),
            height_wander_over: Time::new(30.0),
            // Judgement: a vented body without a static port; 5 % are 1.5 m at 24 m/s.
            static_error: Ratio::new(0.05),
        }
    }
}
