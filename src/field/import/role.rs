//! What a shape can stand for.

use super::Form;
use crate::field::RuleName;

/// What a shape can stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Land whose overflight is allowed.
    Boundary,
    /// Ground with a rule.
    Area(RuleName),
    /// Something tall.
    Obstacle,
    /// Line the jet must stay in front of.
    FlightLine,
    /// The strip.
    Runway,
    /// Where pilot and spotter stand.
    Pilot,
    /// Where the jet captured its home.
    Home,
    /// Centre of the circle.
    Centre,
    /// The closed line flown.
    Circuit,
    /// The ground flown over.
    CircuitArea,
}

impl Role {
    /// All of them, in the order a field is drawn.
    pub const ALL: [Self; 12] = [
        Self::Boundary,
        Self::Area(RuleName::NoFly),
        Self::Area(RuleName::Above),
        Self::Area(RuleName::Caution),
        Self::Obstacle,
        Self::FlightLine,
        Self::Runway,
        Self::Pilot,
        Self::Home,
        Self::Centre,
        Self::Circuit,
        Self::CircuitArea,
    ];

    /// The words for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Boundary => "boundary",
            Self::Area(RuleName::NoFly) => "area: no-fly",
            Self::Area(RuleName::Above) => "area: above a height",
            Self::Area(RuleName::Caution) => "area: caution",
            Self::Obstacle => "obstacle",
            Self::FlightLine => "flight line",
            Self::Runway => "runway",
            Self::Pilot => "pilot",
            Self::Home => "home",
            Self::Centre => "centre",
            Self::Circuit => "circuit",
            Self::CircuitArea => "circuit: ground flown over",
        }
    }

    /// What people's own name for a shape says that it is; none where it says nothing certain.
    pub(super) fn guessed(name: &str, form: Form) -> Option<Self> {
        let name = name.to_lowercase();
        let flown = ["circuit", "racetrack", "race track", "flying pattern"].iter().any(|word| name.contains(word));
        (flown && Self::Circuit.fits(form)).then_some(Self::Circuit)
    }

    /// Whether a shape of this form can stand for it.
    pub const fn fits(self, form: Form) -> bool {
        match self {
            Self::Boundary | Self::Area(_) | Self::CircuitArea => matches!(form, Form::Ring),
            Self::Obstacle => matches!(form, Form::Point | Form::Ring),
            Self::FlightLine | Self::Runway => matches!(form, Form::Line),
            Self::Circuit => matches!(form, Form::Line | Form::Ring),
            Self::Pilot | Self::Home | Self::Centre => matches!(form, Form::Point),
        }
    }
}
