//! What everything in a rehearsal is called: the exercise, the stages of the drill, what failed it, its points, and what a
//! spotter says at the moment.

mod names;
mod score;
mod spotter;

pub use names::{done, exercise, from, hands, lost, seen, stage_key, to_do, when, wind};
pub use score::{FOR_DISCUSSION, event, event_key, headline, part, part_key, part_name, points, result, short_part};
pub use spotter::spotter_line;
