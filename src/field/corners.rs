//! Places and ground of a file as geometry has them.

use glam::DVec2;

use super::Metres;
use crate::geometry::Region;

pub(super) fn point(at: Metres) -> DVec2 {
    DVec2::from_array(at)
}

pub(super) fn region(ring: &[Metres], holes: &[Vec<Metres>]) -> Region {
    let corners = |ring: &[Metres]| ring.iter().copied().map(point).collect::<Vec<_>>();
    Region::new(&corners(ring), &holes.iter().map(|hole| corners(hole)).collect::<Vec<_>>())
}
