//! What a number is, how it is found, and what it leaves out, in plain words.

/// What can be explained.
#[allow(missing_docs, reason = "the names say it")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Topic {
    CircleRadius,
    CircleHeight,
    ReturnSpeed,
    WindSpeed,
    WindFrom,
    Gust,
    WindAtHeight,
    Band,
    UCurve,
    WindCeiling,
    SpeedWindow,
    Buffers,
    Ledger,
    Margin,
    Standoff,
    Outermost,
    JoinOvershoot,
    TurnBack,
    TimeHome,
    Lap,
    LapsInHand,
    BankLimit,
    StallMargin,
    Envelope,
    LossMap,
    NoReturn,
    Share,
    Cases,
    Openers,
    BestHub,
    Sensitivity,
    Guidance,
    Policy,
    Authority,
    Recognition,
    JetSheet,
    Origin,
    Outline,
    Patch,
    Obstacle,
    FlightLine,
    Datum,
    Stand,
    Home,
    Hub,
    GroundHeights,
    Metar,
    Beaufort,
    Windsock,
    Rules,
    Ceiling,
    Visibility,
    Reserve,
    FallsFromHere,
    SmallestRadius,
    Model,
}

/// An explanation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Help {
    /// The name of the thing.
    pub title: &'static str,
    /// What it is.
    pub what: &'static str,
    /// How it is found.
    pub how: &'static str,
    /// What it leaves out.
    pub not_modelled: &'static str,
}

impl Topic {
    /// Its explanation.
    pub fn help(self) -> &'static Help {
        &Help { title: "title", what: "What.", how: "How.", not_modelled: "Not modelled." }
    }
}
