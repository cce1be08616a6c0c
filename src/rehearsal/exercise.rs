//! What is rehearsed: what is lost, when, from where, in how much of the wind, with which way of flying.

use glam::DVec2;
use serde::{Deserialize, Serialize};

use super::Hands;
use crate::error::Fault;
use crate::field::Rule;
use crate::recovery::Turn;
use crate::run::{LossKind, Scenario};
use crate::units::{Bearing, Speed, typed};

/// Furthest from the centre that anything is flown from, metres.
const FURTHEST_M: u32 = 4000;

/// What is taken away.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lost {
    /// The video; the sticks still work.
    #[default]
    Video,
    /// The control link; the video goes on.
    Control,
    /// Both.
    Both,
    /// The jet's knowledge of its position; sticks and video go on.
    Position,
    /// The control link, which comes back and goes again, and so does the video.
    Flicker,
}

impl Lost {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Video, Self::Control, Self::Both, Self::Position, Self::Flicker];

    /// What the jet takes for lost.
    pub const fn kind(self) -> LossKind {
        match self {
            Self::Video => LossKind::Video,
            Self::Control => LossKind::Control,
            Self::Both | Self::Flicker => LossKind::Both,
            Self::Position => LossKind::Position,
        }
    }

    /// Whether the picture goes.
    pub const fn takes_video(self) -> bool {
        matches!(self, Self::Video | Self::Both | Self::Flicker)
    }

    /// Whether the sticks go.
    pub const fn takes_control(self) -> bool {
        matches!(self, Self::Control | Self::Both | Self::Flicker)
    }
}

/// When it is taken away.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum When {
    /// So many seconds after the beginning.
    AfterS(f64),
    /// At a moment between two, seconds, drawn by the number of the trial.
    BetweenS([f64; 2]),
    /// As the jet passes a place of the circuit, so many metres along it.
    OnCircuitM(f64),
    /// When the instructor says so.
    Pressed,
}

/// From where it is flown.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum From {
    /// From the loss that the scenario writes down, or one drawn from the circuit for a trial above 0.
    #[default]
    Plan,
    /// From a place this share of the way from the centre to the boundary, less the buffer, in a direction so many
    /// degrees clockwise from where the wind comes from, flying the way round that the plan circles.
    Upwind {
        /// Clockwise from where the wind comes from.
        aside_deg: f64,
        /// Share of the way to the boundary.
        share: f64,
    },
}

/// One exercise.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Exercise {
    /// What it is called.
    pub name: String,
    /// What is lost.
    pub lost: Lost,
    /// When.
    pub when: When,
    /// How long what is lost stays lost at least, seconds; a video stays lost.
    pub back_after_s: f64,
    /// How the sticks reach the jet.
    pub hands: Hands,
    /// Number of the trial: 0 draws nothing, any other draws everything uncertain. The same for everybody in a class.
    pub trial: u64,
    /// Share of the scenario's wind, mean and gust, that blows.
    pub wind_share: f64,
    /// From where.
    #[serde(default)]
    pub from: From,
}

impl Default for Exercise {
    fn default() -> Self {
        Self {
            name: "Free flight".into(),
            lost: Lost::Video,
            when: When::BetweenS([15.0, 40.0]),
            back_after_s: 45.0,
            hands: Hands::Levelling,
            trial: 0,
            wind_share: 1.0,
            from: From::Plan,
        }
    }
}

impl Exercise {
    /// Largest number of seconds that an exercise may wait for anything.
    pub const LONGEST_S: f64 = 600.0;

    /// What is wrong with it, in words, each with a way out.
    pub fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        let mut seconds = |what: &str, value: f64| {
            if !(0.0..=Self::LONGEST_S).contains(&value) {
                faults.push(format!("{what} is {} s: choose 0 to {:.0} s", typed(value), Self::LONGEST_S));
            }
        };
        seconds("back_after_s", self.back_after_s);
        match self.when {
            When::AfterS(at) => seconds("after_s", at),
            When::BetweenS([from, to]) => {
                seconds("the first of between_s", from);
                seconds("the second of between_s", to);
                if from > to {
                    faults.push("the two moments of between_s are the wrong way round: the earlier one first".into());
                }
            }
            When::OnCircuitM(at) if !(0.0..=1e5).contains(&at) => {
                faults.push(format!("on_circuit_m is {} m: choose 0 to 100000 m", typed(at)));
            }
            When::OnCircuitM(_) | When::Pressed => {}
        }
        if !(0.0..=3.0).contains(&self.wind_share) {
            faults.push(format!("wind_share is {}: choose 0 to 3", typed(self.wind_share)));
        }
        if let From::Upwind { aside_deg, share } = self.from
            && !((-360.0..=360.0).contains(&aside_deg) && (0.0..=1.0).contains(&share))
        {
            faults.push(format!(
                "from {} deg at {} of the way: choose an angle up to 360 deg, and 0 to 1 of the way",
                typed(aside_deg),
                typed(share)
            ));
        }
        faults
    }

    /// The scenario as it is flown: with this loss, in this wind, from this place.
    ///
    /// # Errors
    ///
    /// Where it can't be flown so.
    pub fn on(&self, base: &Scenario) -> Result<Scenario, Vec<Fault>> {
        let mut file = base.file.clone();
        file.loss.kind = self.lost.kind();
        let wind = &mut file.wind;
        for speed in std::iter::once(&mut wind.mean).chain(&mut wind.gust) {
            *speed = Speed::new(speed.mps() * self.wind_share);
        }
        if let From::Upwind { aside_deg, share } = self.from {
            let from = Bearing::from_deg(file.wind.from.deg() + aside_deg);
            file.loss.at_m = away(base, from.unit(), share).to_array();
            let round = if file.recovery.turn == Turn::Clockwise { 90.0 } else { -90.0 };
            file.loss.heading = Bearing::from_deg(from.deg() + round);
            file.loss.bank = crate::units::Angle::default();
            file.loss.climb = crate::units::Angle::default();
        }
        Scenario::from_file(file)
    }
}

/// The place so far from the centre towards the boundary, metres: as far as the buffers of boundary and areas are kept.
fn away(scenario: &Scenario, towards: DVec2, share: f64) -> DVec2 {
    let (field, limits) = (&scenario.field, &scenario.file.limits);
    let centre = field.centre;
    let keeps = |out: f64| {
        let at = centre + towards * out;
        field.boundary.signed_distance(at) >= limits.buffer.m()
            && field.areas.iter().all(|area| {
                let buffer = match area.rule {
                    Rule::NoFly => limits.buffer.m(),
                    Rule::People => limits.people_buffer.m(),
                    Rule::Above(_) | Rule::Caution | Rule::Idle => return true,
                };
                -area.region.signed_distance(at) >= buffer
            })
    };
    let kept = (1..=FURTHEST_M).take_while(|&metres| keeps(f64::from(metres))).last().unwrap_or(0);
    centre + towards * f64::from(kept) * share
}
