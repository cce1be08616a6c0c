//! What is done of the drill, and when?

use serde::{Deserialize, Serialize};

/// The stages of the drill, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// The loss is noticed.
    Noticed,
    /// It is called.
    Called,
    /// The goggles are off.
    GogglesOff,
    /// The spotter has said where to look.
    Cued,
    /// The jet is found by eye.
    Found,
    /// Its attitude is said.
    Said,
    /// It is taken over.
    TakenOver,
}

impl Stage {
    /// All of them, in order.
    pub const ALL: [Self; 7] =
        [Self::Noticed, Self::Called, Self::GogglesOff, Self::Cued, Self::Found, Self::Said, Self::TakenOver];

    /// Whether a person says that it is done; the others are seen from what they do.
    pub const fn is_said(self) -> bool {
        matches!(self, Self::Noticed | Self::Called | Self::GogglesOff | Self::Cued)
    }
}

/// When each stage was done: numbers of steps since the beginning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Stages {
    done_at: [Option<usize>; 7],
    /// How often somebody pointed beside it.
    pub missed: u32,
    /// How often somebody said another attitude than it had.
    pub misread: u32,
}

impl Stages {
    /// The step at which a stage was done.
    pub fn at(&self, stage: Stage) -> Option<usize> {
        self.done_at[stage as usize]
    }

    /// The first that is not done.
    pub fn next(&self) -> Option<Stage> {
        Stage::ALL.into_iter().find(|stage| self.at(*stage).is_none())
    }

    /// A stage is done, and stays so.
    pub(super) fn done(&mut self, stage: Stage, step: usize) {
        self.done_at[stage as usize].get_or_insert(step);
    }
}
