//! What happens from the loss to the hand-back.

mod case;
mod fly;
mod read;
mod scenario;
mod trace;
mod write;

pub use case::{Case, Setting, WindChoice, draw, setting};
pub use fly::{LONGEST_S, fly, fly_case};
pub use read::{Reading, read, read_text};
pub use scenario::{Ceiling, FORMAT, HeightAbove, Limits, Loss, LossKind, Scenario, ScenarioFile};
pub use trace::{Ending, Run, Stretch, Trace};
pub use write::write_whole;
