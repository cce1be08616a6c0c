//! How the air moves here and now.

mod aloft;
mod density;
mod dryden;
pub mod estimate;
pub mod metar;
mod profile;
mod sheet;
mod stirred;
mod terrain;

pub use density::{AirSheet, isa_density};
pub use dryden::{Turbulence, TurbulenceScale};
pub use estimate::Estimate;
pub use metar::{Metar, MetarWind};
pub use profile::{MeanWind, ProfileNumbers};
pub use sheet::{ASSUMED_GUST, Profile, WindSheet};
pub use stirred::{AirNumbers, INTENSITY, PEAK};
pub use terrain::Terrain;
