//! Does what is predicted hold? Counted over all recoveries of a scenario that were debriefed, with an interval.

use super::Debriefed;
use crate::study::stats::{Interval, Share};

/// Fewest recoveries from which anything is said about the envelope.
pub const LEAST_RECOVERIES: u64 = 10;

/// The share that a ring laid at 90 % of 64 trials holds in truth, but for one ring in a hundred: the 59th of 64 in order,
/// whose share is distributed as Beta(59, 6) (closed form; H. A. David and H. N. Nagaraja, Order Statistics, from memory).
const RING_HOLDS: f64 = 0.80;

/// How often the envelope held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tally {
    /// Recoveries inside it, of those that could be compared.
    pub held: Share,
    /// The share in truth, at 95 %.
    pub within: Interval,
}

/// What may be said of the model here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Verified, not validated: nothing flown says anything yet.
    NotValidated,
    /// What was flown does not contradict it.
    NotContradicted,
    /// What was flown contradicts it: fewer lay inside than any ring of so few trials would let out.
    Contradicted,
}

impl Tally {
    /// Of debriefed recoveries.
    pub fn of<'a>(all: impl IntoIterator<Item = &'a Debriefed>) -> Self {
        let mut held = Share::default();
        for holds in all.into_iter().filter_map(|one| one.predicted.as_ref()?.holds) {
            held.of += 1;
            held.count += u64::from(holds);
        }
        Self { held, within: held.clopper_pearson(0.95) }
    }

    /// What may be said.
    pub fn standing(&self) -> Standing {
        if self.held.of > 0 && self.within.high < RING_HOLDS {
            Standing::Contradicted
        } else if self.held.of < LEAST_RECOVERIES {
            Standing::NotValidated
        } else {
            Standing::NotContradicted
        }
    }
}
