//! Counts as they are printed: so many of so many, with the interval a share then lies in, and never all of it.

use crate::margins::Outcome;
use crate::study::Tally;
use crate::study::stats::{Share, percent_interval};

/// So many of so many with Wilson's interval of the share, such as "962 of 1000 (94.8 to 97.3 %)".
pub fn counted(count: u64, of: u64, confidence: f64) -> String {
    if of == 0 {
        return "none flown".into();
    }
    format!("{count} of {of} ({})", percent_interval(Share { count, of }.wilson(confidence)))
}

/// The outcomes that occurred, the worst first: "area, people or obstacle 3, recovered 97".
pub fn outcomes(tally: &Tally) -> String {
    let seen = Outcome::ALL.iter().zip(tally.outcomes).filter(|(_, count)| *count > 0);
    seen.map(|(outcome, count)| format!("{} {count}", outcome.name())).collect::<Vec<_>>().join(", ")
}
