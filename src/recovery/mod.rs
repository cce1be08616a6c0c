//! What the autopilot commands now.

mod plan;

pub use plan::{Firmness, Guidance, PerceptionSheet, Policy, RecoveryPlan, Turn};
