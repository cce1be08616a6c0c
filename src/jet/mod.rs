//! What the jet can do, and where it is one step later.

mod numbers;
mod performance;
mod sheet;
mod spreads;
mod step;
pub mod turn;

pub use numbers::JetNumbers;
pub use sheet::{Entry, JetSheet, Origin, PlainEntry};
pub(crate) use step::{Attitude, advance};
pub use step::{Command, Gust, State, step};
