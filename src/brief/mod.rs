//! What is told of a recovery, a study or a plan, worked out once: whoever prints it computes nothing.

mod answer;
mod answers;
mod asked;
mod calls;
mod cases;
mod cues;
mod decision;
mod facts;
mod five;
#[cfg(test)]
pub(crate) mod fixture;
mod gates;
pub(crate) mod items;
pub(crate) mod origins;
mod pair;
mod plan;
mod recovery;
mod release;
mod results;
mod risks;
mod room;
mod said_back;
mod signatures;
mod steps;
mod study;
mod track;
mod uncertainty;
mod wind_told;

pub use crate::margins::{People, people};
pub(crate) use asked::Asked;
pub use calls::{LossBox, Phrase};
pub use facts::{Facts, WindLimits};
pub use five::{Entered, FiveLines, nearest_row};
pub use gates::{Gate, Said};
pub use plan::{Plan, Studies};
pub use recovery::Recovery;
pub use release::{DO_NOT_FLY, Release, Stop};
pub(crate) use results::{MarginLine, MissedLine, SpreadLine};
pub(crate) use risks::Risk;
pub(crate) use room::{Law, RoomPart, laws, room_budget};
pub use said_back::{LeftOut, SaidBack, SaidLine, left_out};
pub(crate) use signatures::SignLine;
pub use steps::{Live, Step};
pub use study::{Answer, StudyReport};
pub use track::{Sample, Span, samples, spans};
pub(crate) use uncertainty::Drawn;
