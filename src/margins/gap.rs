//! What is left to one limit.

use super::Verdict;

/// A margin without its words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// What is left, in the unit of the limit; negative is crossed. Infinite where the limit did not apply.
    pub margin: f64,
    /// What was asked for.
    pub buffer: f64,
    /// What that amounts to.
    pub verdict: Verdict,
    /// When, seconds since the loss.
    pub at_s: f64,
}
