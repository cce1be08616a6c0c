//! How a knob reads in the units that a person has chosen.

use super::Knob;
use crate::app::session::View;
use crate::units::Bearing;
use crate::words::{Measure, Units};

/// A knob with the units it is read in.
#[derive(Debug, Clone)]
pub struct Dial {
    knob: Knob,
    units: Units,
    /// Name of the unit.
    pub unit: String,
}

impl Dial {
    /// The dial of a knob for a view.
    pub fn of(view: &View<'_>, knob: Knob) -> Self {
        let units = view.units().clone();
        let unit = knob.measure().map_or_else(|| "\u{b0}".to_owned(), |measure| units.of(measure).first.clone());
        Self { knob, units, unit }
    }

    /// A value of the knob as it is shown.
    pub fn shown(&self, value: f64) -> f64 {
        self.knob.measure().map_or(value, |measure| self.units.first(measure, value))
    }

    /// A value shown as the knob takes it.
    pub fn meant(&self, shown: f64) -> f64 {
        self.knob.measure().map_or(shown, |measure| self.units.to_si(measure, shown))
    }

    /// The same value in the second unit; of a direction its name.
    pub fn also(&self, value: f64) -> String {
        let point = || Bearing::from_deg(value).point().to_owned();
        self.knob.measure().map_or_else(point, |measure| self.units.second(measure, value))
    }

    /// The digits of a value shown.
    pub fn digits(&self, shown: f64) -> String {
        let digits = usize::from(self.knob.step() < 1.0 || (shown.fract().abs() > 0.05 && shown < 1000.0));
        format!("{shown:.digits$}")
    }

    /// Reads what a person types: with any unit that fits, or a bare number in the unit beside the box.
    pub fn parse(&self, text: &str) -> Option<f64> {
        let Some(measure) = self.knob.measure() else { return self.knob.parse(text.trim_end_matches('\u{b0}')) };
        measure.parse(text, &self.unit).ok().map(|si| self.units.first(measure, si))
    }
}

impl Knob {
    /// What it measures; none for a direction.
    pub const fn measure(self) -> Option<Measure> {
        match self {
            Self::Radius => Some(Measure::Distance),
            Self::Height => Some(Measure::Height),
            Self::ReturnSpeed => Some(Measure::Speed),
            Self::WindSpeed => Some(Measure::Wind),
            Self::WindFrom => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::session::Session;
    use crate::run::Scenario;

    #[test]
    fn dials_read_and_write_in_the_units_chosen() {
        let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        session.settings.units.of_mut(Measure::Distance).first = "ft".into();
        session.settings.units.of_mut(Measure::Wind).first = "kt".into();
        let view = View::new(&session);
        // One foot is 0.3048 m and one knot 1852 m an hour, exactly (BIPM SI brochure, 9th edition, table 8 and the
        // international foot of 1959).
        #[track_caller]
        fn check(dial: &Dial, text: &str, meant: f64) {
            let shown = dial.parse(text).unwrap();
            assert!((dial.meant(shown) - meant).abs() < 1e-9, "{text}: {shown}");
        }
        let radius = Dial::of(&view, Knob::Radius);
        check(&radius, "200", 200.0 * 0.3048);
        check(&radius, "70 m", 70.0);
        let wind = Dial::of(&view, Knob::WindSpeed);
        check(&wind, "10", 10.0 * 1852.0 / 3600.0);
        check(&wind, "6 m/s", 6.0);
        let from = Dial::of(&view, Knob::WindFrom);
        check(&from, "250\u{b0}", 250.0);
        assert_eq!(from.also(180.0), "S");
        assert_eq!(radius.digits(200.0), "200");
        assert_eq!(wind.digits(11.66), "11.7");
    }
}
