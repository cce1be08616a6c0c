//! What does a device that is plugged in say at this moment?

use std::collections::{BTreeMap, BTreeSet};

/// One device, as it reports itself.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RawSticks {
    /// What the system calls it.
    pub name: String,
    /// Where each axis is, mostly from -1 to 1. One that has not moved since the device was plugged in may be missing: some
    /// systems tell of an axis only once it moves.
    pub axes: BTreeMap<String, f32>,
    /// Buttons that are down.
    pub buttons: BTreeSet<String>,
}

impl RawSticks {
    /// Where an axis is, where it has been heard of.
    pub fn axis(&self, id: &str) -> Option<f32> {
        self.axes.get(id).copied().filter(|value| value.is_finite())
    }
}
