//! What happens from the loss to the hand-back.

mod case;
mod fly;
mod scenario;
mod trace;

pub use case::{Case, Setting, WindChoice, draw, setting};
pub use fly::{LONGEST_S, fly, fly_case};
pub use scenario::{Ceiling, FORMAT, HeightAbove, Limits, Loss, LossKind, Scenario, ScenarioFile};
pub use trace::{Ending, Run, Stretch, Trace};
