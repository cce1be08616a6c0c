//! Does this copy of the program, on this machine, work out what is known from elsewhere?
//!
//! The checks here need nothing but the program: closed forms, published figures, whole recoveries against themselves, and
//! fresh draws against what intervals promise. They say that the sums are right. Whether the sky agrees they can't say.

pub mod another;
pub mod by_hand;
mod checked;
mod closed;
mod coverage;
mod energy;
pub mod frames;
mod line;
mod published;
pub mod same_bits;
mod steps;

#[cfg(test)]
mod tests;

use std::time::Instant;

use crate::study::work::Work;

use checked::moment;
pub use checked::{Checked, Machine, fresh_seed};
pub use coverage::Depth;
pub use line::{Expected, Group, Line};

/// Checks that are made together. They tell the work what they have got done.
type Part = fn(&Depth, u64, &Work) -> Vec<Line>;

const PARTS: [Part; 7] = [
    |_, _, _| closed::lines(),
    |_, _, _| published::lines(),
    |_, _, work| energy::lines(work),
    |_, _, work| frames::lines(work),
    |_, _, work| steps::lines(work),
    |_, _, work| same_bits::lines(work),
    coverage::lines,
];

/// Makes every check; `seed` draws those that need fresh cases. Where the work is stopped, the checks of whole groups made
/// until then.
pub fn verify(seed: u64, depth: &Depth, work: &Work) -> Checked {
    #[allow(clippy::disallowed_methods, reason = "how long it took is told and decides nothing")]
    let begun = Instant::now();
    let at = moment();
    let mut lines = Vec::new();
    let mut partial = false;
    for part in PARTS {
        let found = if work.go_on() { part(depth, seed, work) } else { Vec::new() };
        // A group that was stopped on the way has looked at fewer cases than its lines say.
        partial |= !work.go_on();
        if !partial {
            lines.extend(found);
        }
    }
    Checked { at, took_s: begun.elapsed().as_secs_f64(), seed, machine: Machine::this(), partial, lines }
}
