//! What the autopilot commands now.
//!
//! It sees a [`Percept`], late and noisy, and its own instruments. It never sees the wind or the truth.

mod autopilot;
mod guide;
mod hold;
mod numbers;
mod perceive;
mod plan;

pub use autopilot::{Autopilot, ON_RING, ON_RING_M, Orders};
pub(crate) use autopilot::{JOINING_RADII, stretch};
pub use guide::{field_of_directions, turn_demand};
pub use numbers::PlanNumbers;
pub use perceive::{Percept, Perception};
pub use plan::{FailsafeAction, Gain, Guidance, PerceptionSheet, RecoveryPlan, SpeedHold, Turn};
