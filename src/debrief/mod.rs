//! What was flown against what was said: the recovery in a log, the wind and the airspeed that its ground track tells, what
//! steered it, and what of the sheet that corrects.

mod again;
pub mod circle;
mod compare;
mod correct;
mod estimate;
mod figures;
mod find;
mod hodograph;
mod laps;
mod learned;
mod levels;
mod marks;
mod motion;
mod roll;
mod steering;
mod tally;
mod velocity;
mod wind_by_height;

pub use compare::{Debriefed, HELD_SHARE, Predicted, as_flown, debrief, debrief_marked, part};
pub use correct::{Change, Correction, Evidence, corrected, corrections};
pub use estimate::{Estimate, Told};
pub use figures::CircleFigures;
pub use find::find;
pub use hodograph::{FLOOR, Gustiness, LEAST_TIME_S, LEAST_TURN_DEG, TooLittle, WHOLE_ARC_DEG, WindFit, laps, wind};
pub use learned::{Learned, learned};
pub use levels::levels;
pub use marks::Marks;
pub use steering::{Candidate, LawFound, Steering, steering};
pub use tally::{LEAST_RECOVERIES, Standing, Tally};
pub use velocity::velocity;
pub use wind_by_height::{ByHeight, LEAST_SPAN_M, PowerLaw, by_height};
