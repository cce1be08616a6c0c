//! What a person does in a rehearsal: everything that the flight and the score depend on, and nothing else.

use serde::{Deserialize, Serialize};

use super::{SeenAttitude, Stage};

/// Where the sticks are.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sticks {
    /// From -1, left, to 1, right.
    pub roll_share: f64,
    /// From -1, nose down, to 1, nose up.
    pub pitch_share: f64,
    /// From 0, closed, to 1, full.
    pub throttle_share: f64,
}

impl Sticks {
    /// Within what sticks can be; what is not a number is the middle, or closed.
    pub fn within_reach(self) -> Self {
        let number = |value: f64| if value.is_nan() { 0.0 } else { value };
        Self {
            roll_share: number(self.roll_share).clamp(-1.0, 1.0),
            pitch_share: number(self.pitch_share).clamp(-1.0, 1.0),
            throttle_share: number(self.throttle_share).clamp(0.0, 1.0),
        }
    }
}

/// One thing that a person does.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "did", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Deed {
    /// The sticks are somewhere else.
    Sticks(Sticks),
    /// The instructor takes something away.
    Lose,
    /// A stage of the drill is done that nothing else tells of: noticed, called, goggles off, cue given.
    Stage {
        /// Which.
        stage: Stage,
    },
    /// The return is commanded.
    Return,
    /// Points at where the jet is seen.
    Point {
        /// Bearing from the pilot position, degrees true.
        bearing_deg: f64,
        /// Over the horizon, degrees.
        elevation_deg: f64,
    },
    /// Says how the jet is seen to fly.
    Say {
        /// How.
        seen: SeenAttitude,
    },
    /// Takes over.
    TakeOver,
    /// Ends it.
    End,
}

/// Something done, and at which step of the flight.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Timed {
    /// Number of the step, at whose beginning it counts.
    pub at_step: u64,
    /// What.
    #[serde(flatten)]
    pub deed: Deed,
}
