//! Many recoveries: which circle holds here today, up to what wind, and from where a loss is recovered.

pub mod ceiling;
pub mod envelope;
pub mod losses;
pub mod radius;
pub mod stats;
mod tally;
pub mod work;

pub use tally::{LimitTally, Tally};
