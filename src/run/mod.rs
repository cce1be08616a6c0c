//! What happens from the loss to the hand-back.

mod against;
mod air;
mod batch;
mod brief;
mod case;
mod check;
mod date;
mod flight;
mod fly;
mod presets;
mod read;
mod rules;
mod scenario;
mod schema;
mod sign;
mod template;
mod trace;
mod whole;
mod write;

pub use batch::{Watched, fly_wide, watch_wide};
pub use brief::{Brief, Emergency, Hours, Landmark, REVIEW_BY, Review, Signature};
pub use case::{Case, Input, Setting, WindChoice, draw, nudged, setting};
pub use date::{day, is_day};
pub use flight::{Flight, LONGEST_S};
pub use fly::{Floor, Sample, Watch, fly, fly_case};
pub use presets::{Preset, presets};
pub use read::{Reading, read, read_text, sources};
pub use rules::RuleNote;
pub use scenario::{Ceiling, FORMAT, HeightAbove, Limits, Loss, LossKind, Scenario, ScenarioFile};
pub use schema::schema;
pub use sign::{Authority, Version, sign};
pub use template::{TO_FILL_IN, circuit_speeds, template, today};
pub use trace::{Ending, Recorder, Run, Stretch, Trace};
pub use whole::WholeFile;
