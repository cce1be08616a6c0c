//! What is told of a recovery, a study or a plan, worked out once: whoever prints it computes nothing.

mod answer;
mod calls;
mod cues;
mod facts;
#[cfg(test)]
pub(crate) mod fixture;
mod gates;
pub(crate) mod items;
pub(crate) mod origins;
mod pair;
mod plan;
mod recovery;
mod said_back;
mod steps;
mod study;
mod track;

pub use calls::{LossBox, Phrase};
pub use facts::{Facts, WindLimits};
pub use gates::{Gate, Said};
pub use plan::{Plan, Studies};
pub use recovery::Recovery;
pub use said_back::{LeftOut, SaidBack, SaidLine, left_out};
pub use steps::{Live, Step};
pub use study::{Answer, StudyReport};
pub use track::{Sample, Span, samples, spans};
