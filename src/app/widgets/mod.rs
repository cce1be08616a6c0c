//! What several boards show: numbers with their units, marks of help, the replay, the margins, the strip of heights,
//! how an answer stands.

pub mod entry;
pub mod height;
pub mod help;
pub mod legend;
pub mod margins;
pub mod progress;
pub mod radius;
pub mod replay;
pub mod room;
pub mod sight;
pub mod standing;
pub mod verdict;
