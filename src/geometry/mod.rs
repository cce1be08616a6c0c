//! Where things are, how far apart, and whether they cross.
//!
//! One plane for everything: metres about the datum, x east, y north, f64.

mod edges;
mod placement;
mod region;
mod shrink;
mod sweep;
mod tangent;

pub use edges::{Edge, Nearest};
pub use glam::DVec2;
pub use placement::Placement;
pub use region::{HalfPlane, Region, ring_area_m2};
pub use sweep::{Least, Pass, STRIDE, least_beside_or_over, least_signed};
pub use tangent::TangentPlane;
