//! What came of a recovery, in a word.

use super::flown::Flown;
use super::{Figures, Gap, Limit, LimitInfo};
use crate::lane::Lane;
use crate::run::Ending;

/// What came of a recovery, the worst thing first; each recovery is one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Inside an area it may not enter, over people, or into an obstacle.
    EnteredArea,
    /// Outside the boundary, or behind the flight line.
    LeftBoundary,
    /// Over the height limit, or into the ground.
    HeightLimitOrGround,
    /// Slower than the stall at the load wanted at that moment.
    Stalled,
    /// Never on the circle, whatever stopped it.
    NeverSettled,
    /// Below the battery's reserve, or empty, before the take-over.
    EnergyOut,
    /// Settled, but too late or too far off to be seen.
    LateOrUnseen,
    /// None of these.
    Recovered,
}

impl Outcome {
    /// Every outcome, the worst first.
    pub const ALL: [Self; 8] = [
        Self::EnteredArea,
        Self::LeftBoundary,
        Self::HeightLimitOrGround,
        Self::Stalled,
        Self::NeverSettled,
        Self::EnergyOut,
        Self::LateOrUnseen,
        Self::Recovered,
    ];

    /// Its name in print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::EnteredArea => "area, people or obstacle",
            Self::LeftBoundary => "boundary or flight line",
            Self::HeightLimitOrGround => "height limit or ground",
            Self::Stalled => "stalled",
            Self::NeverSettled => "never settled",
            Self::EnergyOut => "energy out",
            Self::LateOrUnseen => "late or unseen",
            Self::Recovered => "recovered",
        }
    }
}

/// The worst of what the gaps to the limits and the ending say.
pub(super) fn outcome<L: Lane>(
    flown: &Flown<'_, L>,
    ending: Ending,
    figures: &Figures,
    gaps: &[Option<Gap>],
    limits: &[LimitInfo],
) -> Outcome {
    let crossed = |which: fn(Limit) -> bool| {
        let mut pairs = limits.iter().zip(gaps);
        pairs.any(|(info, gap)| gap.is_some_and(|gap| gap.margin < 0.0) && which(info.limit))
    };
    let unsettled = flown.comes_home() && figures.home_s.is_none();
    if crossed(|limit| matches!(limit, Limit::Area(_) | Limit::PilotPosition | Limit::Obstacle(_))) {
        Outcome::EnteredArea
    } else if crossed(|limit| matches!(limit, Limit::Boundary | Limit::FlightLine)) {
        Outcome::LeftBoundary
    } else if crossed(|limit| matches!(limit, Limit::HeightLimit | Limit::Ground)) {
        Outcome::HeightLimitOrGround
    } else if crossed(|limit| limit == Limit::Stall) {
        Outcome::Stalled
    } else if ending == Ending::OutOfTime || unsettled {
        Outcome::NeverSettled
    } else if ending == Ending::Empty || crossed(|limit| limit == Limit::Energy) {
        Outcome::EnergyOut
    } else if crossed(|_| true) {
        Outcome::LateOrUnseen
    } else {
        Outcome::Recovered
    }
}
