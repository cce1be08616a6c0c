//! One scenario: a field, a jet, a wind, a loss and a plan for it.

use std::path::PathBuf;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Brief, RuleNote};
use crate::field::{Field, FieldFile, Metres, Where};
use crate::jet::{Entry, JetSheet};
use crate::recovery::{FailsafeAction, RecoveryPlan};
use crate::units::{Angle, Bearing, Length, Ratio, Speed, Time};
use crate::wind::{AirSheet, WindSheet};

/// Version of the file format this program writes and reads.
pub const FORMAT: u32 = 1;

/// What is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LossKind {
    /// The video: the pilot notices and gives the command.
    Video,
    /// The control link: the jet notices by itself.
    #[default]
    Control,
    /// Both.
    Both,
    /// The jet's knowledge of its position.
    Position,
}

/// The event that starts a recovery.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Loss {
    /// What is lost.
    pub kind: LossKind,
    /// Where the jet is.
    pub at_m: Metres,
    /// Its height above home.
    pub height: Length,
    /// Its airspeed.
    pub speed: Speed,
    /// Where its nose points.
    pub heading: Bearing,
    /// Its climb angle.
    #[serde(default)]
    pub climb: Angle,
    /// Its bank, positive to the right.
    #[serde(default)]
    pub bank: Angle,
    /// What the pack still holds, of its rated energy.
    pub charge: Ratio,
}

/// What a height limit is measured from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum HeightAbove {
    /// The ground under the jet.
    #[default]
    Ground,
    /// Home.
    Home,
}

/// Highest height allowed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HeightLimit {
    /// The height.
    pub height: Length,
    /// What it is measured from.
    #[serde(default)]
    pub above: HeightAbove,
}

/// What the recovery must stay inside, and how far inside it is asked to stay.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Limits {
    /// Buffer from the boundary, areas, flight line and obstacles.
    pub buffer: Length,
    /// Buffer from people, at any height: areas with the rule `people`, and the pilot position.
    #[serde(default = "people_buffer")]
    pub people_buffer: Length,
    /// Buffer in height from the height limit and the ground.
    pub height_buffer: Length,
    /// Highest height allowed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height_limit: Option<HeightLimit>,
    /// Speed held that is asked for, in multiples of the stall speed at the wanted load: on a mean over `stall_over`.
    #[serde(default = "stall_factor")]
    pub stall_factor: f64,
    /// Seconds that a speed has to last to count as held.
    #[serde(default = "stall_over")]
    pub stall_over: Time,
    /// Speed asked for at any moment, gusts included, in multiples of the stall speed at the load wanted then.
    #[serde(default = "stall_factor_moment")]
    pub stall_factor_moment: f64,
    /// Share of the pack's rated energy never planned for.
    #[serde(default = "reserve")]
    pub reserve: Ratio,
    /// Laps asked for before the reserve when the circle is reached.
    #[serde(default = "laps_to_reserve")]
    pub laps_to_reserve: f64,
    /// Longest time from the loss to the circle; no limit where left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub home_within: Option<Time>,
    /// Time from the circle to the take-over.
    #[serde(default = "take_over")]
    pub take_over: Entry<Time>,
    /// Ground visibility of the day.
    #[serde(default = "visibility")]
    pub visibility: Length,
    /// Smallest angle of the span, seen from the pilot position, at which the jet can be found again.
    #[serde(default = "smallest_angle")]
    pub smallest_angle: Angle,
    /// Largest share of trials that may cross a limit.
    #[serde(default = "crossed_at_most")]
    pub crossed_at_most: Ratio,
    /// Smallest share of trials that has to keep every buffer.
    #[serde(default = "kept_at_least")]
    pub kept_at_least: Ratio,
    /// Whether club, association or landowner do not permit an automatic return here; every answer about one says so.
    #[serde(default, skip_serializing_if = "is_false")]
    pub no_automatic_return: bool,
}

/// Judgement; law, association and club come first.
fn people_buffer() -> Length {
    Length::new(30.0)
}

/// Common practice for the slowest speed that is held near the ground: 1.3 stall speeds (value from memory: the
/// reference speed of landing in 14 CFR 23 and 25).
fn stall_factor() -> f64 {
    1.3
}

/// As long as a gust that people notice lasts (WMO-No. 8: gusts are means over 3 s).
fn stall_over() -> Time {
    Time::new(3.0)
}

/// A fifth more lift than is wanted of the wing before it stalls: 1.1 squared (judgement).
fn stall_factor_moment() -> f64 {
    1.1
}

/// One in a hundred (judgement).
fn crossed_at_most() -> Ratio {
    Ratio::new(0.01)
}

/// Nine in ten (judgement).
fn kept_at_least() -> Ratio {
    Ratio::new(0.9)
}

fn reserve() -> Ratio {
    Ratio::new(0.2)
}

fn laps_to_reserve() -> f64 {
    3.0
}

/// 17 to 32 s (judgement) as the middle 95 % of a log-normal: `ln` of it is 3.149 within 0.161.
fn take_over() -> Entry<Time> {
    Entry::si(23.6, 3.8, crate::jet::Origin::Default)
}

fn visibility() -> Length {
    Length::new(5000.0)
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands out a reference")]
fn is_false(flag: &bool) -> bool {
    !flag
}

fn smallest_angle() -> Angle {
    Angle::new(0.065_f64.to_radians())
}

/// A scenario as entered in its file.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ScenarioFile {
    /// Version of the format: 1.
    pub peewit: u32,
    /// What people call it.
    pub name: String,
    /// Notes for people, a paragraph each.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// Day of the flight, year-month-day; it decides which months' rules hold.
    pub date: String,
    /// The field, in metres about its datum.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field: Option<FieldFile>,
    /// Instead of `field`: a GeoJSON file beside this one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field_file: Option<PathBuf>,
    /// The jet.
    pub jet: JetSheet,
    /// The wind.
    pub wind: WindSheet,
    /// How dense the air is; the standard atmosphere at sea level where left out.
    #[serde(default, skip_serializing_if = "AirSheet::is_standard")]
    pub air: AirSheet,
    /// The loss.
    pub loss: Loss,
    /// The plan.
    pub recovery: RecoveryPlan,
    /// The limits.
    pub limits: Limits,
    /// Rules of law, association and club, each with who has compared it with the text in force.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rules: Vec<RuleNote>,
    /// What the prints tell beside the plan.
    #[serde(default, skip_serializing_if = "Brief::is_empty")]
    pub brief: Brief,
    /// Master seed of every draw.
    #[serde(default)]
    pub seed: u64,
}

impl ScenarioFile {
    /// The same with every number of the jet: as entered, worked out, or by default.
    pub fn whole(&self) -> Self {
        Self { jet: self.jet.whole(), ..self.clone() }
    }

    /// Time from the loss until something is done about it: by the pilot where the video alone is lost, else by the jet.
    pub fn delay(&self) -> Entry<Time> {
        let plan = &self.recovery;
        plan.reaction_time.filter(|_| self.loss.kind == LossKind::Video).unwrap_or(plan.failsafe_delay)
    }

    /// The same, to be changed.
    pub fn delay_mut(&mut self) -> &mut Entry<Time> {
        let plan = &mut self.recovery;
        match &mut plan.reaction_time {
            Some(reaction) if self.loss.kind == LossKind::Video => reaction,
            _ => &mut plan.failsafe_delay,
        }
    }

    /// Whether the plan returns by itself where that is not permitted.
    pub fn return_not_permitted(&self) -> bool {
        self.limits.no_automatic_return && self.recovery.failsafe_action == FailsafeAction::Return
    }
}

/// A scenario that has passed every check, ready to run.
#[derive(Debug, Clone)]
pub struct Scenario {
    /// As entered.
    pub file: ScenarioFile,
    /// The field, indexed for distances, with the rules of the day.
    pub field: Field,
}

impl Scenario {
    /// Mean and gust at the height of the circle, m/s, in the middle of what is known of the growth with height.
    pub fn wind_at_circle(&self) -> [f64; 2] {
        self.file.wind.aloft(self.file.recovery.height.m())
    }

    /// Whether the plan returns by itself where that is not permitted.
    pub fn return_not_permitted(&self) -> bool {
        self.file.return_not_permitted()
    }

    /// What every answer about this plan says first: which losses it is about.
    pub fn losses_told(&self) -> String {
        let Some(circuit) = &self.field.circuit else {
            return "About one loss at one place: the field has no circuit.".into();
        };
        let ([lowest, highest], [slowest, fastest]) = (circuit.heights_m, circuit.speeds_mps);
        let ground = match &circuit.place {
            Where::Line(line) => format!("{:.0} m, {}", line.length_m(), circuit.way.name()),
            Where::Area(area) => format!("{:.1} ha, any heading", area.area_m2() / 10_000.0),
        };
        format!(
            "Losses drawn from the circuit: {ground}, {lowest:.0} to {highest:.0} m high, {slowest:.0} to {fastest:.0} m/s."
        )
    }

    /// The same of one flight by itself.
    pub fn loss_told(&self, trial: u64) -> String {
        match (&self.field.circuit, trial) {
            (None, _) => self.losses_told(),
            (Some(_), 0) => "The run below is of the one loss that is written down, not of the circuit.".into(),
            (Some(_), _) => "The run below is of one loss drawn from the circuit.".into(),
        }
    }
}
