//! Which sheet of the field board lies open: what a person enters beside the map.

/// A sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum FieldSheet {
    /// Name, day, datum, the parts of the field and its points.
    #[default]
    Field,
    /// The numbers of the airframe.
    Jet,
    /// The wind of the day.
    Wind,
    /// The loss, and what the jet does about it.
    Loss,
    /// Margins asked for, and the rules they come from.
    Limits,
    /// What the prints tell beside the plan: hours, review day, landmarks, whom to call, who signed.
    Brief,
}

impl FieldSheet {
    /// All of them, from the left.
    pub const ALL: [Self; 6] = [Self::Field, Self::Jet, Self::Wind, Self::Loss, Self::Limits, Self::Brief];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Field => "Field",
            Self::Jet => "Jet",
            Self::Wind => "Wind",
            Self::Loss => "Loss",
            Self::Limits => "Limits",
            Self::Brief => "Brief",
        }
    }

    /// What is entered there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Field => "name, day, datum, parts and points",
            Self::Jet => "the numbers of the airframe, and whose they are",
            Self::Wind => "the wind today: typed, by eye, or from a report; and the air",
            Self::Loss => "what is lost, where, and what the jet does about it",
            Self::Limits => "margins asked for, and the rules behind them",
            Self::Brief => "hours, review day, landmarks, whom to call, who signed",
        }
    }

    /// Where in a scenario's file its entries are, as the beginnings of JSON pointers.
    pub const fn places(self) -> &'static [&'static str] {
        match self {
            Self::Field => &["/name", "/date", "/field"],
            Self::Jet => &["/jet"],
            Self::Wind => &["/wind", "/air"],
            Self::Loss => &["/loss", "/recovery"],
            Self::Limits => &["/limits", "/rules"],
            Self::Brief => &["/brief"],
        }
    }
}
