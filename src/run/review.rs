//! Until when a plan holds without being checked again.

use super::ScenarioFile;
use crate::error::Fault;

/// Where a scenario says until when it holds.
pub const REVIEW_BY: &str = "/brief/review_by";

/// Whether a plan still holds on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Review {
    /// It is not said until when it holds.
    Unsaid,
    /// It does.
    Current,
    /// It was to be checked again before that day.
    Expired,
}

impl ScenarioFile {
    /// The warning of a plan that was to be checked again before a day, written year-month-day.
    pub fn expiry(&self, on: &str) -> Option<Fault> {
        let by = self.brief.review_by.as_deref().filter(|_| self.review(on) == Review::Expired)?;
        let problem = format!("EXPIRED: this plan was to be checked again by {by}");
        Some(Fault::warning(REVIEW_BY, problem, "Check it again, then write until when it holds and who signed"))
    }

    /// Whether the plan still holds on a day, written year-month-day.
    pub fn review(&self, on: &str) -> Review {
        match self.brief.review_by.as_deref() {
            None => Review::Unsaid,
            // Days of four, two and two digits stand in the order of the calendar.
            Some(by) if by < on => Review::Expired,
            Some(_) => Review::Current,
        }
    }
}
