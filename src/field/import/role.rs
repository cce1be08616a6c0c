//! What a shape can stand for.

use super::Form;
use crate::field::RuleName;

/// What a shape can stand for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Land whose overflight is allowed.
    Outline,
    /// Ground with a rule.
    Patch(RuleName),
    /// Something tall.
    Obstacle,
    /// Line the jet must stay in front of.
    FlightLine,
    /// The strip.
    Runway,
    /// Where pilot and spotter stand.
    Stand,
    /// Where the jet captured its home.
    Home,
    /// Centre of the circle.
    Hub,
    /// The closed line flown.
    Circuit,
    /// The ground flown over.
    CircuitArea,
}

impl Role {
    /// All of them, in the order a field is drawn.
    pub const ALL: [Self; 12] = [
        Self::Outline,
        Self::Patch(RuleName::Never),
        Self::Patch(RuleName::Above),
        Self::Patch(RuleName::Avoid),
        Self::Obstacle,
        Self::FlightLine,
        Self::Runway,
        Self::Stand,
        Self::Home,
        Self::Hub,
        Self::Circuit,
        Self::CircuitArea,
    ];

    /// The words for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Outline => "outline",
            Self::Patch(RuleName::Never) => "patch: never",
            Self::Patch(RuleName::Above) => "patch: above a height",
            Self::Patch(RuleName::Avoid) => "patch: avoid",
            Self::Obstacle => "obstacle",
            Self::FlightLine => "flight line",
            Self::Runway => "runway",
            Self::Stand => "stand",
            Self::Home => "home",
            Self::Hub => "hub",
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
            Self::Outline | Self::Patch(_) | Self::CircuitArea => matches!(form, Form::Ring),
            Self::Obstacle => matches!(form, Form::Point | Form::Ring),
            Self::FlightLine | Self::Runway => matches!(form, Form::Line),
            Self::Circuit => matches!(form, Form::Line | Form::Ring),
            Self::Stand | Self::Home | Self::Hub => matches!(form, Form::Point),
        }
    }
}
