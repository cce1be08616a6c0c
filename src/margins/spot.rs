//! A sample of the path as it is noted down, several side by side.

use crate::lane::Lane;

/// One sample of the path.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot<L> {
    pub(super) x: L,
    pub(super) y: L,
    pub(super) height: L,
    /// Way over the ground up to here, m.
    pub(super) way: L,
    /// Way up and down, m.
    pub(super) rise: L,
    pub(super) bank: L,
    pub(super) energy: L,
}

impl<L: Lane> Spot<L> {
    /// The same with the ways up to here.
    #[inline(always)]
    pub(super) fn after(self, last: &Self) -> Self {
        let (east, north) = (self.x - last.x, self.y - last.y);
        let way = last.way + (east * east + north * north).sqrt();
        Self { way, rise: last.rise + (self.height - last.height).abs(), ..self }
    }
}
