//! What the board of the circle adds to the map: where the cases circle, and handles for hub, radius and wind.

mod envelope;
mod grip;
mod handles;

pub(super) use envelope::{under, words};
pub(super) use handles::over;
