//! In which units does the person read each quantity? One of them first, a second one beside it where wanted.

use serde::{Deserialize, Serialize};

use super::true_minus;
use crate::units::{Length, Mass, Quantity, Speed, figure, left_of};

/// What is measured, as people tell it apart when they choose units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Along the ground.
    Distance,
    /// Above the ground.
    Height,
    /// Of the jet.
    Speed,
    /// Of the wind.
    Wind,
    /// Of the jet.
    Mass,
}

/// The units of one measure.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pair {
    /// Name of the unit printed first.
    pub first: String,
    /// Name of the unit printed beside it; empty for none.
    pub second: String,
}

/// The units a person has chosen.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Units {
    /// For distances.
    pub distance: Pair,
    /// For heights.
    pub height: Pair,
    /// For speeds of the jet.
    pub speed: Pair,
    /// For speeds of the wind.
    pub wind: Pair,
    /// For masses.
    pub mass: Pair,
}

impl Measure {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Distance, Self::Height, Self::Speed, Self::Wind, Self::Mass];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Distance => "distances",
            Self::Height => "heights",
            Self::Speed => "speeds of the jet",
            Self::Wind => "wind",
            Self::Mass => "mass",
        }
    }

    /// Names of the units that can be chosen.
    pub const fn choices(self) -> &'static [&'static str] {
        match self {
            Self::Distance | Self::Height => &["m", "ft", "yd"],
            Self::Speed | Self::Wind => &["m/s", "km/h", "mph", "kt"],
            Self::Mass => &["kg", "g", "lb", "oz"],
        }
    }

    /// A value in SI, in the unit of a name.
    pub fn to(self, unit: &str, si: f64) -> f64 {
        match self {
            Self::Distance | Self::Height => Length::from_si(si).in_unit(unit),
            Self::Speed | Self::Wind => Speed::from_si(si).in_unit(unit),
            Self::Mass => Mass::from_si(si).in_unit(unit),
        }
        .unwrap_or(si)
    }

    /// Reads a number with its unit; a bare number is in the unit of the name given. Says what is wrong otherwise.
    pub fn parse(self, text: &str, bare: &str) -> Result<f64, String> {
        let text = text.trim().replace('\u{2212}', "-");
        let bare_number = text.replace(',', ".").parse::<f64>().is_ok();
        let text = if bare_number { format!("{text} {bare}") } else { text };
        match self {
            Self::Distance | Self::Height => text.parse::<Length>().map(Quantity::si),
            Self::Speed | Self::Wind => text.parse::<Speed>().map(Quantity::si),
            Self::Mass => text.parse::<Mass>().map(Quantity::si),
        }
        .map_err(|error| error.to_string())
    }
}

/// A number as a screen or a page shows it.
fn shown(value: f64) -> String {
    true_minus(&figure(value))
}

impl Default for Pair {
    fn default() -> Self {
        Self { first: "m".into(), second: String::new() }
    }
}

impl Default for Units {
    fn default() -> Self {
        let pair = |first: &str, second: &str| Pair { first: first.into(), second: second.into() };
        Self {
            distance: pair("m", ""),
            height: pair("m", "ft"),
            speed: pair("m/s", "mph"),
            wind: pair("m/s", "kt"),
            mass: pair("kg", ""),
        }
    }
}

impl Units {
    /// The units of a measure.
    pub const fn of(&self, measure: Measure) -> &Pair {
        match measure {
            Measure::Distance => &self.distance,
            Measure::Height => &self.height,
            Measure::Speed => &self.speed,
            Measure::Wind => &self.wind,
            Measure::Mass => &self.mass,
        }
    }

    /// The units of a measure, to be changed.
    pub const fn of_mut(&mut self, measure: Measure) -> &mut Pair {
        match measure {
            Measure::Distance => &mut self.distance,
            Measure::Height => &mut self.height,
            Measure::Speed => &mut self.speed,
            Measure::Wind => &mut self.wind,
            Measure::Mass => &mut self.mass,
        }
    }

    /// A value in SI, in the first unit.
    pub fn first(&self, measure: Measure, si: f64) -> f64 {
        measure.to(&self.of(measure).first, si)
    }

    /// A value given in the first unit, in SI.
    pub fn to_si(&self, measure: Measure, value: f64) -> f64 {
        value / measure.to(&self.of(measure).first, 1.0)
    }

    /// A value in SI with the first unit only, such as "120 m".
    pub fn short(&self, measure: Measure, si: f64) -> String {
        format!("{} {}", shown(self.first(measure, si)), self.of(measure).first)
    }

    /// A value in SI in the second unit, such as "394 ft"; empty where none is chosen.
    pub fn second(&self, measure: Measure, si: f64) -> String {
        let Pair { first, second } = self.of(measure);
        if second.is_empty() || second == first {
            return String::new();
        }
        format!("{} {second}", shown(measure.to(second, si)))
    }

    /// A value in SI with both units, such as "120 m (394 ft)".
    pub fn text(&self, measure: Measure, si: f64) -> String {
        let (short, second) = (self.short(measure, si), self.second(measure, si));
        if second.is_empty() { short } else { format!("{short} ({second})") }
    }

    /// A margin of the table, whose unit is metres or metres a second; other units stay as they are.
    pub fn margin(&self, value: f64, unit: &str) -> String {
        let (value, unit) = self.of_margin(value, unit);
        format!("{} {unit}", shown(value))
    }

    /// The same beside what was asked to be left: never rounded to what it is below.
    pub fn left(&self, margin: f64, buffer: f64, unit: &str) -> String {
        let ((margin, first), (buffer, _)) = (self.of_margin(margin, unit), self.of_margin(buffer, unit));
        let [left, _] = left_of(margin, buffer);
        format!("{} {first}", true_minus(&left))
    }

    fn of_margin<'a>(&'a self, value: f64, unit: &'a str) -> (f64, &'a str) {
        let measure = match unit {
            "m" => Measure::Distance,
            "m/s" => Measure::Speed,
            other => return (value, other),
        };
        (self.first(measure, value), &self.of(measure).first)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_printed_in_the_units_chosen() {
        let units = Units::default();
        assert_eq!(units.text(Measure::Distance, 120.0), "120 m");
        // One foot is 0.3048 m and one knot 1852 m an hour, exactly (BIPM SI brochure, 9th edition, table 8 and the
        // international foot of 1959).
        assert_eq!(units.text(Measure::Height, 120.0), "120 m (394 ft)");
        assert_eq!(units.text(Measure::Wind, 10.0), "10.0 m/s (19.4 kt)");
        assert_eq!(units.margin(-3.5, "m"), "\u{2212}3.5 m");
        assert_eq!(units.left(-0.0001, 20.0, "m"), "\u{2212}0.0001 m");
        assert_eq!(units.margin(2.0, "laps"), "2.0 laps");
    }

    #[test]
    fn what_is_typed_may_have_any_unit_that_fits() {
        #[track_caller]
        fn check(measure: Measure, text: &str, bare: &str, expected: Option<f64>) {
            let found = measure.parse(text, bare).ok();
            let same = match (found, expected) {
                (Some(found), Some(expected)) => (found - expected).abs() < 1e-9,
                (found, expected) => found.is_none() && expected.is_none(),
            };
            assert!(same, "{text}: {found:?}");
        }
        check(Measure::Wind, "15kt", "m/s", Some(15.0 * 1852.0 / 3600.0));
        check(Measure::Height, "400", "ft", Some(400.0 * 0.3048));
        check(Measure::Distance, "\u{2212}12,5", "m", Some(-12.5));
        check(Measure::Mass, "2 lb", "kg", Some(2.0 * 0.453_592_37));
        check(Measure::Distance, "5 kg", "m", None);
    }

    #[test]
    fn every_unit_on_offer_is_known_and_comes_back() {
        for measure in Measure::ALL {
            let mut units = Units::default();
            for &name in measure.choices() {
                assert!(measure.parse(&format!("3 {name}"), name).is_ok(), "{name}");
                units.of_mut(measure).first = name.into();
                let there = units.first(measure, 7.5);
                assert!((units.to_si(measure, there) - 7.5).abs() < 1e-12, "{name}");
            }
        }
    }
}
