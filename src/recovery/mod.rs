//! What the autopilot commands now.
//!
//! It sees a [`Percept`], late and noisy, and its own instruments. It never sees the wind or the truth.

mod guide;
mod hold;
mod numbers;
mod perceive;
mod pilot;
mod plan;

pub use guide::{ring_field, turn_demand};
pub use numbers::PlanNumbers;
pub use perceive::{Percept, Perception};
pub(crate) use pilot::stretch;
pub use pilot::{ON_RING, ON_RING_M, Pilot, Standing};
pub use plan::{Firmness, Guidance, PerceptionSheet, Policy, RecoveryPlan, SpeedHold, Turn};
