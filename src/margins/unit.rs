//! In what the margins of a limit are measured.

use std::fmt;

/// The unit of a margin.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MarginUnit {
    /// Distances.
    Metres,
    /// Times.
    Seconds,
    /// Speeds.
    MetresASecond,
    /// Angles.
    Degrees,
    /// Energy.
    WattHours,
}

impl MarginUnit {
    /// How it is written behind a number.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Metres => "m",
            Self::Seconds => "s",
            Self::MetresASecond => "m/s",
            Self::Degrees => "deg",
            Self::WattHours => "Wh",
        }
    }

    /// How a name ends that has it in it, such as `margin_mps`.
    pub const fn ending(self) -> &'static str {
        match self {
            Self::MetresASecond => "mps",
            Self::WattHours => "wh",
            other => other.symbol(),
        }
    }
}

impl fmt::Display for MarginUnit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}
