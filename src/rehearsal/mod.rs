//! What happens when somebody flies it by hand, loses it, finds it by eye and takes over: the exercise, the flight step by
//! step, what was done when, how it is kept, and how it went.
//!
//! A rehearsal is a pure function of scenario, exercise and what was done: live, replayed or without a window it comes to
//! the same bits.

mod attitude;
mod deed;
mod exercise;
mod fly;
mod hands;
mod ladder;
mod link;
mod record;
mod score;
mod sight;
mod stage;
mod times;

pub use attitude::{Heading, Lean, SeenAttitude};
pub use deed::{Deed, Sticks, Timed};
pub use exercise::{Exercise, From, Lost, When};
pub use fly::{POINTED_WITHIN_DEG, Rehearsal};
pub use hands::Hands;
pub use ladder::{Rung, ladder};
pub use record::{Recording, RecordingHeader};
pub use score::{HardEvent, Part, PartKind, RehearsalScore, score};
pub use sight::{Camera, Sight};
pub use stage::{Stage, Stages};
pub use times::{LEAST_TRIES, TakeOverTimes};
