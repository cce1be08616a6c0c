//! Why can no wind be told from a part of a track?

/// The least turn that a wind is told from, degrees.
pub const LEAST_TURN_DEG: f64 = 200.0;

/// The turn from which on an arc is no longer called short, degrees.
pub const WHOLE_ARC_DEG: f64 = 300.0;

/// The least time that a wind is told from, seconds.
pub const LEAST_TIME_S: f64 = 8.0;

/// Why no wind can be told. Judgement, all limits in it.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum TooLittle {
    /// There is not that part in the track.
    #[error("the track has no such part")]
    Nothing,
    /// It is over too soon.
    #[error("only {seconds:.0} s: gusts and errors of position don't average out in under {LEAST_TIME_S:.0} s")]
    Short {
        /// How long it is, seconds.
        seconds: f64,
    },
    /// Positions come too seldom for a turn.
    #[error("one position in {every_s:.1} s is too few for a turn")]
    Seldom {
        /// Time from one position to the next, seconds.
        every_s: f64,
    },
    /// Much of it is not there.
    #[error("gaps: {missing_percent:.0} % of the time is missing")]
    Gaps {
        /// Share of the time that is in gaps, percent.
        missing_percent: f64,
    },
    /// It hardly turns.
    #[error("turned only {turned_deg:.0} deg: it takes {LEAST_TURN_DEG:.0} deg to tell wind and airspeed apart")]
    Turned {
        /// The turn flown, degrees.
        turned_deg: f64,
    },
    /// Parts of the turn are missing, or were never flown.
    #[error(
        "headings over only {covered_deg:.0} deg: it takes {LEAST_TURN_DEG:.0} deg to tell wind and airspeed apart"
    )]
    Covered {
        /// What is left of the whole turn outside the widest gap of headings, degrees.
        covered_deg: f64,
    },
    /// Airspeed or wind changed too much.
    #[error(
        "the ground speeds don't lie on a circle (off by {residual_mps:.1} m/s): airspeed or wind changed on the way"
    )]
    NoCircle {
        /// Root mean square distance from the nearest circle, m/s.
        residual_mps: f64,
    },
}
