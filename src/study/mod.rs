//! Many recoveries: which circle holds here today, up to what wind, and from where a loss is recovered.

pub mod ceiling;
pub mod losses;
pub mod radius;
mod tally;

pub use tally::{LimitTally, Tally};
