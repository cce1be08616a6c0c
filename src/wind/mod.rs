//! How the air moves here and now.

mod sheet;

pub use sheet::{Profile, WindSheet};
