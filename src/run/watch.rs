//! Who looks on while trials are flown, and what is seen.

use crate::jet::State;
use crate::lane::Lane;

/// Looks on while trials are flown side by side.
pub trait Watch<L: Lane> {
    /// Sees a sample of every trial; `flying` is set in the lanes whose trial is not over yet.
    fn see(&mut self, sample: &Sample<'_, L>, flying: L::Words);
}

/// One moment of several trials.
#[derive(Debug, Clone, Copy)]
pub struct Sample<'a, L: Lane> {
    /// Number of the sample.
    pub index: usize,
    /// Where the jets are.
    pub state: &'a State<L>,
    /// Load factors flown.
    pub load: L,
    /// Load factors wanted: more than were flown where the wing stalled.
    pub wanted_load: L,
    /// Stretches, by their number.
    pub stretch: L,
}
