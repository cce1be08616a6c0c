//! What a person chooses on the board that rehearses: a view, a sheet, how a picture goes, and what is kept of all that.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum RehearseView {
    /// The picture in the goggles, then what is seen by eye.
    #[default]
    Pilot,
    /// By eye from the pilot position, all the time.
    Eye,
    /// The field from above.
    Above,
}

impl RehearseView {
    /// All of them, from the left.
    pub const ALL: [Self; 3] = [Self::Pilot, Self::Eye, Self::Above];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pilot => "Goggles, then eye",
            Self::Eye => "By eye",
            Self::Above => "From above",
        }
    }

    /// What is seen there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Pilot => "the picture in the goggles until they are off, then what is seen from the pilot position",
            Self::Eye => "what is seen from the pilot position, all the time",
            Self::Above => "the field from above, for instructor and class",
        }
    }
}

/// What lies open beside the view while nothing is flown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum RehearseSheet {
    /// Which exercise.
    #[default]
    Exercise,
    /// What it is flown with.
    Sticks,
    /// The stopwatch.
    Stopwatch,
    /// The class.
    Class,
}

impl RehearseSheet {
    /// All of them, from the left.
    pub const ALL: [Self; 4] = [Self::Exercise, Self::Sticks, Self::Stopwatch, Self::Class];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Exercise => "Exercise",
            Self::Sticks => "Sticks",
            Self::Stopwatch => "Stopwatch",
            Self::Class => "Class",
        }
    }
}

/// How a picture goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Going {
    /// At once.
    #[default]
    Dark,
    /// With snow first.
    Snow,
    /// It stands still first.
    Frozen,
}

impl Going {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Dark, Self::Snow, Self::Frozen];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Dark => "dark at once",
            Self::Snow => "snow first",
            Self::Frozen => "frozen first",
        }
    }
}

/// What a person keeps of rehearsing from one start to the next.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Practice {
    /// Tries with the stopwatch, seconds.
    pub tries_s: Vec<f64>,
    /// How a picture goes.
    pub going: Going,
    /// Whether nothing moves that need not.
    pub still: bool,
    /// Whether the program speaks the spotter's lines.
    pub spoken: bool,
    /// Whether somebody else is the spotter.
    pub with_spotter: bool,
    /// Points of the last run, by exercise and plan; none where it failed.
    pub last: BTreeMap<String, Option<f64>>,
}
