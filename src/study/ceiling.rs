//! Up to what wind does the chosen circle hold, from each direction: the go or no-go table a pilot carries.

use crate::ledger::LimitInfo;
use crate::recovery::Turn;
use crate::study::Tally;

/// What is asked of a wind ceiling.
#[derive(Debug, Clone, PartialEq)]
pub struct CeilingAsk {
    /// Radius, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// Number of directions, the first from north.
    pub directions: u32,
    /// Most drawn cases a wind.
    pub cases: u64,
    /// Share of cases that has to meet every margin.
    pub share: f64,
    /// Confidence of every interval.
    pub confidence: f64,
}

/// The ceiling from one direction.
#[derive(Debug, Clone, PartialEq)]
pub struct Direction {
    /// Direction the wind comes from, degrees.
    pub from_deg: f64,
    /// Highest mean wind at circle height that meets the demand, with everything below it meeting it too, m/s; none
    /// where not even a calm does.
    pub ceiling_mps: Option<f64>,
    /// What a hand-held meter at 2 m then reads, low and high over the range of wind profiles, m/s.
    pub at_2m_mps: Option<[f64; 2]>,
    /// The least wind flown that does not meet it, m/s; none where the search ended at the return speed.
    pub fails_mps: Option<f64>,
    /// The limit that fails most there, as a number into the limits.
    pub limit: Option<usize>,
    /// Cases at the ceiling.
    pub held: Option<Tally>,
    /// Cases at the wind that fails.
    pub failed: Option<Tally>,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct CeilingStudy {
    /// What was asked.
    pub ask: CeilingAsk,
    /// The limits, in the order of every tally's.
    pub limits: Vec<LimitInfo>,
    /// Every direction.
    pub directions: Vec<Direction>,
    /// The direction with the lowest ceiling, as a number into the directions.
    pub worst: Option<usize>,
    /// Closed form: most wind in which the bank limit holds the radius, m/s.
    pub bank_mps: f64,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}
