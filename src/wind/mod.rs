//! How the air moves here and now.

mod density;
mod dryden;
mod profile;
mod sheet;

pub use density::isa_density;
pub use dryden::{Turbulence, TurbulenceScale};
pub use profile::{MeanWind, ProfileNumbers, factor};
pub use sheet::{Profile, WindSheet};
