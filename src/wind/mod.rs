//! How the air moves here and now.

mod density;
mod dryden;
pub mod estimate;
pub mod metar;
mod profile;
mod sheet;

pub use density::isa_density;
pub use dryden::{Turbulence, TurbulenceScale};
pub use estimate::Estimate;
pub use metar::{Metar, MetarWind};
pub use profile::{MeanWind, ProfileNumbers, factor};
pub use sheet::{Profile, WindSheet};
