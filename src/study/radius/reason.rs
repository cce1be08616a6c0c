//! Why a circle does not do, and why usable radii end: values, told by `words`.

use crate::margins::{Limit, LimitInfo, Outcome};
use crate::study::stats::Share;

/// A margin that is less than its buffer.
#[derive(Debug, Clone, PartialEq)]
pub struct Shortfall {
    /// What it is measured to, with its unit.
    pub limit: LimitInfo,
    /// What is left; less than nothing where the limit is crossed.
    pub margin: f64,
    /// What was asked for.
    pub buffer: f64,
}

/// Why usable radii end where they do.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Reason {
    /// The radii flown end.
    #[default]
    NoneFlown,
    /// The circle beyond is never settled on.
    NeverSettles,
    /// The maximum bank can't hold the circle beyond: so far outside it the jet is blown, metres.
    BlownWide(f64),
    /// A margin is missed on the circle beyond.
    Short(Shortfall),
    /// A margin is missed before the jet acts on the loss, on any circle.
    AlreadyShort(Shortfall),
    /// The battery is empty in the air.
    Empty,
    /// The jet never comes home.
    NeverHome,
    /// So many trials leave it undecided.
    Undecided(u64),
    /// The trials beyond say yes.
    Holds,
    /// A limit that is crossed in a share of the trials.
    Crossed(LimitInfo, Share),
    /// A limit that is crossed, or inside its buffer, in a share of the trials.
    CrossedOrInside(LimitInfo, Share),
    /// What a share of the trials came to.
    CameTo(Outcome, Share),
}

impl Reason {
    /// The limit that is not met, where it is one.
    pub fn limit(&self) -> Option<Limit> {
        match self {
            Self::NeverSettles | Self::BlownWide(_) => Some(Limit::Bank),
            Self::Short(short) | Self::AlreadyShort(short) => Some(short.limit.limit),
            Self::Crossed(info, _) | Self::CrossedOrInside(info, _) => Some(info.limit),
            _ => None,
        }
    }
}
