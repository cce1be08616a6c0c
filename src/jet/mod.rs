//! What the jet can do, and where it is one step later.

mod lag;
mod numbers;
mod performance;
mod sheet;
mod step;
pub mod turn;

pub(crate) use lag::Lags;
pub use numbers::JetNumbers;
pub use sheet::{Entry, JetSheet, Origin, PlainEntry};
pub(crate) use step::{Attitude, Loads, advance};
pub use step::{Command, Gust, State, step};
