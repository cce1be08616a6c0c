//! What many cases came to, counted: memory does not grow with their number.

use crate::ledger::{Outcome, Score};

/// Margins to one limit over many cases.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitTally {
    /// Cases that breached it.
    pub breached: u64,
    /// Cases nearer to it than asked for.
    pub thin: u64,
    /// Least margin of all, in the unit of the limit; infinite where it never applied.
    pub least: f64,
    /// The case it belongs to.
    pub least_case: u64,
}

/// What many cases came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// Number of cases.
    pub cases: u64,
    /// Cases that met every margin asked for.
    pub met: u64,
    /// Cases of each outcome, in the order of [`Outcome::ALL`].
    pub outcomes: [u64; Outcome::ALL.len()],
    /// One a limit, in the order of the scorer's limits.
    pub limits: Vec<LimitTally>,
}

impl Tally {
    /// Nothing yet, for a number of limits.
    pub fn new(limits: usize) -> Self {
        let none = LimitTally { breached: 0, thin: 0, least: f64::INFINITY, least_case: 0 };
        Self { cases: 0, met: 0, outcomes: [0; 8], limits: vec![none; limits] }
    }

    /// Counts one more.
    pub fn add(&mut self, case: u64, score: &Score) {
        use crate::ledger::Verdict;
        self.cases += 1;
        self.met += u64::from(score.met);
        self.outcomes[score.outcome as usize] += 1;
        for (tally, gap) in self.limits.iter_mut().zip(&score.gaps) {
            tally.breached += u64::from(gap.verdict == Verdict::Breached);
            tally.thin += u64::from(gap.verdict == Verdict::Thin);
            if gap.margin < tally.least {
                (tally.least, tally.least_case) = (gap.margin, case);
            }
        }
    }
}
