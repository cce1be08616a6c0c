//! What the jet can do, and where it is one step later.

mod airframe;
mod home;
mod lag;
mod numbers;
mod performance;
mod sheet;
mod spreads;
mod step;
#[cfg(test)]
mod tests;
pub mod turn;

pub(crate) use airframe::{LEAST_DRAG, MASS_KG, MOST_OF_TOP};
pub(crate) use lag::Lags;
pub use numbers::{JetNumbers, MOST_LOSS};
pub use sheet::{Entry, JetSheet, Origin, PlainEntry};
pub(crate) use step::{Attitude, LOAD_LIMIT, Loads, PITCH_LAG, advance};
pub use step::{Command, Gust, State, step};
