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

/// Words of a name that say that people are there.
const PEOPLE_WORDS: [&str; 19] = [
    "pit",
    "pits",
    "people",
    "public",
    "crowd",
    "spectator",
    "spectators",
    "cars",
    "parking",
    "road",
    "street",
    "lane",
    "path",
    "footpath",
    "towpath",
    "bridleway",
    "campsite",
    "picnic",
    "playground",
];
/// The same of more than one word.
const PEOPLE_SAID: [&str; 4] = ["car park", "carpark", "pilots' box", "pilot box"];

impl Role {
    /// All of them, in the order a field is drawn.
    pub const ALL: [Self; 13] = [
        Self::Boundary,
        Self::Area(RuleName::NoFly),
        Self::Area(RuleName::Above),
        Self::Area(RuleName::People),
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
            Self::Area(RuleName::People) => "area: people",
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
        let has = |parts: &[&str]| parts.iter().any(|part| name.contains(part));
        let people = Self::Area(RuleName::People);
        if has(&["circuit", "racetrack", "race track", "flying pattern"]) {
            return Self::Circuit.fits(form).then_some(Self::Circuit);
        }
        // "Broad acre" is no road, and a flight path is no path.
        let words = || name.split(|c: char| !c.is_alphanumeric());
        let said = has(&PEOPLE_SAID) || words().any(|word| PEOPLE_WORDS.contains(&word));
        (said && !has(&["flight", "approach"]) && people.fits(form)).then_some(people)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(name: &str, form: Form, guessed: Option<Role>) {
        assert_eq!(Role::guessed(name, form), guessed, "{name} {form:?}");
    }

    #[test]
    fn a_name_that_says_people_is_taken_for_people_where_it_is_ground() {
        let people = Some(Role::Area(RuleName::People));
        for name in ["Pits", "pits and cars", "Car Park", "pilots' box", "Road 2", "Public footpath", "River path"] {
            check(name, Form::Ring, people);
            check(name, Form::Line, None);
        }
        for name in ["Broad acre", "flight path", "approach lane", "goat paddock", "caution", "cockpit view"] {
            check(name, Form::Ring, None);
        }
        check("circuit over the road", Form::Ring, Some(Role::Circuit));
    }
}
