//! In which unit is a number of each kind shown and read, and how far does one press of an arrow key step it?

use crate::units::{
    Angle, AngularRate, Area, Bearing, Charge, Frequency, Length, Mass, Power, Pressure, Quantity, Ratio, Speed,
    Temperature, Time, in_si,
};
use crate::words::{Measure, Units};

/// What a number measures; its value is in SI throughout, bearings in degrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EntryKind {
    /// In the units that the person has chosen.
    Of(Measure),
    /// Square metres.
    Area,
    /// Seconds.
    Time,
    /// Radians inside, degrees on the screen.
    Angle,
    /// Degrees clockwise from true north; points of the compass are read too.
    Bearing,
    /// Radians a second inside, degrees a second on the screen.
    Rate,
    /// Watts.
    Power,
    /// Coulombs inside, milliampere-hours on the screen.
    Charge,
    /// 1 inside, per cent on the screen.
    Share,
    /// Hertz.
    Frequency,
    /// Kelvin inside, degrees Celsius on the screen.
    Temperature,
    /// Pascals inside, hectopascals on the screen.
    Pressure,
    /// A number without a unit.
    Plain,
}

impl From<Measure> for EntryKind {
    fn from(measure: Measure) -> Self {
        Self::Of(measure)
    }
}

/// A number with four figures at most, or all of those before the point; nothing that says nothing.
fn figures(value: f64) -> String {
    let size = value.abs();
    let digits = [999.95, 99.995, 9.9995, 0.99995, 0.099_995, 0.009_999_5].iter().filter(|step| size < **step).count();
    let text = format!("{value:.digits$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".into() } else { text.replace('-', "\u{2212}") }
}

/// Reads a number with any unit that fits; a bare number is in `bare`.
fn read<Q: Quantity>(text: &str, bare: &str) -> Result<f64, String> {
    let is_bare = text.replace(',', ".").parse::<f64>().is_ok();
    let whole = if is_bare { format!("{text} {bare}") } else { text.to_owned() };
    let found = whole.parse::<Q>().map_err(|error| error.to_string())?.si();
    if found.is_finite() { Ok(found) } else { Err(format!("\"{text}\" is no number")) }
}

/// Reads a number without a unit.
fn read_plain(text: &str) -> Result<f64, String> {
    // The comma between thousands is refused as it is in a quantity.
    read::<Time>(text, "s")
        .ok()
        .filter(|_| text.ends_with(|last: char| last.is_ascii_digit() || last == '.'))
        .ok_or_else(|| format!("\"{text}\" is no plain number; write it without a unit, such as 1.05"))
}

impl EntryKind {
    /// The unit of a bare number, as it is written; empty for none.
    pub fn unit(self, units: &Units) -> &str {
        match self {
            Self::Of(measure) => &units.of(measure).first,
            Self::Area => "m2",
            Self::Time => "s",
            Self::Angle | Self::Bearing => "deg",
            Self::Rate => "deg/s",
            Self::Power => "W",
            Self::Charge => "mAh",
            Self::Share => "%",
            Self::Frequency => "Hz",
            Self::Temperature => "C",
            Self::Pressure => "hPa",
            Self::Plain => "",
        }
    }

    /// Size of that unit in SI.
    fn size(self, units: &Units) -> f64 {
        match self {
            Self::Of(measure) => units.to_si(measure, 1.0),
            Self::Angle | Self::Rate => 1.0_f64.to_radians(),
            Self::Charge => 3.6,
            Self::Share => 0.01,
            Self::Pressure => 100.0,
            _ => 1.0,
        }
    }

    /// A value as it stands in the box, with its unit.
    pub fn show(self, units: &Units, si: f64) -> String {
        let (number, unit) = (figures(si / self.size(units)), self.unit(units));
        match self {
            // Its scale begins elsewhere.
            Self::Temperature => format!("{} \u{b0}C", figures(Temperature::new(si).celsius())),
            Self::Plain => number,
            Self::Angle | Self::Bearing => format!("{number}\u{b0}"),
            _ => format!("{number} {unit}"),
        }
    }

    /// The same value as other people write it; empty for none.
    pub fn second(self, units: &Units, si: f64) -> String {
        match self {
            Self::Of(measure) => units.second(measure, si),
            Self::Bearing => Bearing::from_deg(si).point().into(),
            Self::Area if si < 0.05 => format!("{} cm2", figures(si * 1e4)),
            Self::Area => format!("{} dm2", figures(si * 100.0)),
            Self::Charge => format!("{} Ah", figures(si / 3600.0)),
            Self::Temperature => format!("{} \u{b0}F", figures(Temperature::new(si).celsius() * 1.8 + 32.0)),
            _ => String::new(),
        }
    }

    /// Reads what was typed: any unit that fits, a decimal comma, or a bare number in the unit shown.
    ///
    /// # Errors
    /// What is wrong and what may be written, in a sentence.
    pub fn read(self, units: &Units, text: &str) -> Result<f64, String> {
        let text = text.trim().replace('\u{2212}', "-");
        let (text, bare) = (text.as_str(), self.unit(units));
        match self {
            Self::Of(Measure::Distance | Measure::Height) => read::<Length>(text, bare),
            Self::Of(Measure::Speed | Measure::Wind) => read::<Speed>(text, bare),
            Self::Of(Measure::Mass) => read::<Mass>(text, bare),
            Self::Area => read::<Area>(text, bare),
            Self::Time => read::<Time>(text, bare),
            Self::Angle => read::<Angle>(text, bare),
            Self::Bearing => match text.parse::<Bearing>() {
                Ok(bearing) => Ok(bearing.deg()),
                Err(_) => read::<Angle>(text, bare)
                    .map(|rad| Bearing::from_deg(Angle::new(rad).in_unit("deg").unwrap_or_default()).deg())
                    .map_err(|why| format!("{why}; or a point of the compass, such as SSW")),
            },
            Self::Rate => read::<AngularRate>(text, bare),
            Self::Power => read::<Power>(text, bare),
            Self::Charge => read::<Charge>(text, bare),
            Self::Share => read::<Ratio>(text, bare),
            Self::Frequency => read::<Frequency>(text, bare),
            Self::Temperature => read::<Temperature>(text, bare),
            Self::Pressure => read::<Pressure>(text, bare),
            Self::Plain => read_plain(text),
        }
    }

    /// The value some steps further: the second figure goes up, at most 1 of the unit at a time where it is a place or an
    /// angle, and never through nothing to the other side by accident.
    pub fn stepped(self, units: &Units, si: f64, steps: f64) -> f64 {
        let size = self.size(units);
        let value = si / size;
        let magnitude = value.abs();
        let step = match self {
            Self::Bearing => 1.0,
            Self::Temperature => 1.0,
            Self::Angle | Self::Share | Self::Rate if magnitude < 10.0 => 1.0,
            _ if magnitude < 1e-9 => 0.1,
            // A whole number of steps stays one: 0.2 below 9.95 and above.
            _ => 10.0_f64.powf((magnitude * 1.000_001).log10().floor() - 1.0),
        };
        let step = match self {
            Self::Power | Self::Charge => step,
            _ => step.min(1.0),
        };
        let moved = ((value / step).round() + steps) * step;
        let moved = if self == Self::Bearing { moved.rem_euclid(360.0) } else { moved };
        // Steps of 0.1 leave dust in the last digits.
        let tidy = format!("{moved:.9}").parse().unwrap_or(moved);
        in_si(tidy, size)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn shows(kind: EntryKind, si: f64, expected: &str) {
        assert_eq!(kind.show(&Units::default(), si), expected);
    }

    #[test]
    fn values_stand_in_the_box_as_short_as_they_are() {
        shows(EntryKind::Of(Measure::Mass), 2.1, "2.1 kg");
        shows(EntryKind::Area, 0.228, "0.228 m2");
        shows(EntryKind::Area, 0.0047, "0.0047 m2");
        shows(EntryKind::Charge, 18_000.0, "5000 mAh");
        shows(EntryKind::Angle, 35.0_f64.to_radians(), "35\u{b0}");
        shows(EntryKind::Share, 0.2, "20 %");
        shows(EntryKind::Of(Measure::Wind), 15.0 * 1852.0 / 3600.0, "7.717 m/s");
        shows(EntryKind::Of(Measure::Distance), -80.0, "\u{2212}80 m");
        // 0 C is 273.15 K by definition; the standard sea-level pressure is 1013.25 hPa.
        shows(EntryKind::Temperature, 291.65, "18.5 \u{b0}C");
        shows(EntryKind::Pressure, 101_325.0, "1013 hPa");
        shows(EntryKind::Plain, 0.0, "0");
        shows(EntryKind::Of(Measure::Distance), 12_345.6, "12346 m");
    }

    /// Factors as in `units`: 1 kt is 1852/3600 m/s, 1 ft 0.3048 m, 1 lb 0.45359237 kg, all exactly.
    #[track_caller]
    fn reads(kind: EntryKind, text: &str, expected: f64) {
        let found = kind.read(&Units::default(), text).unwrap();
        approx::assert_relative_eq!(found, expected, max_relative = 1e-12);
    }

    #[test]
    fn any_unit_that_fits_is_read_and_a_bare_number_is_in_the_unit_shown() {
        reads(EntryKind::Of(Measure::Wind), "15kt", 15.0 * 1852.0 / 3600.0);
        reads(EntryKind::Of(Measure::Wind), "8,5", 8.5);
        reads(EntryKind::Of(Measure::Height), "400 ft", 121.92);
        reads(EntryKind::Of(Measure::Distance), "\u{2212}80 m", -80.0);
        reads(EntryKind::Area, "22,8 dm2", 0.228);
        reads(EntryKind::Angle, "35\u{b0}", 35.0_f64.to_radians());
        reads(EntryKind::Bearing, "ssw", 202.5);
        reads(EntryKind::Bearing, "-90", 270.0);
        reads(EntryKind::Bearing, "240\u{b0}", 240.0);
        reads(EntryKind::Charge, "5 Ah", 18_000.0);
        reads(EntryKind::Power, "1.9 kW", 1900.0);
        reads(EntryKind::Share, "70", 0.7);
        // As a file has it that says 95 %, to the last bit.
        assert!(EntryKind::Share.stepped(&Units::default(), 0.94, 1.0) == 0.95);
        reads(EntryKind::Frequency, "10", 10.0);
        reads(EntryKind::Rate, "90", 90.0_f64.to_radians());
        reads(EntryKind::Time, "1 min", 60.0);
        reads(EntryKind::Temperature, "-5", 268.15);
        reads(EntryKind::Temperature, "18.5 \u{b0}C", 291.65);
        reads(EntryKind::Temperature, "50 F", 283.15);
        reads(EntryKind::Pressure, "1013.25", 101_325.0);
        reads(EntryKind::Plain, "1,05", 1.05);
    }

    #[track_caller]
    fn refuses(kind: EntryKind, text: &str, says: &str) {
        let why = kind.read(&Units::default(), text).unwrap_err();
        assert!(why.contains(says), "{why}");
    }

    #[test]
    fn what_does_not_fit_is_refused_with_what_would() {
        refuses(EntryKind::Of(Measure::Wind), "15 kg", "m/s, kt, mph");
        refuses(EntryKind::Of(Measure::Height), "", "12 m");
        refuses(EntryKind::Of(Measure::Height), "1,200 ft", "thousands");
        refuses(EntryKind::Of(Measure::Height), "1,200", "thousands");
        refuses(EntryKind::Of(Measure::Height), "inf", "does not start with a number");
        refuses(EntryKind::Bearing, "north-ish", "SSW");
        refuses(EntryKind::Plain, "1.05 m", "without a unit");
        refuses(EntryKind::Plain, "NaN", "no plain number");
    }

    #[test]
    fn what_is_shown_reads_back_as_the_same() {
        let kinds = Measure::ALL.map(EntryKind::Of).into_iter().chain([
            EntryKind::Area,
            EntryKind::Time,
            EntryKind::Angle,
            EntryKind::Bearing,
            EntryKind::Rate,
            EntryKind::Power,
            EntryKind::Charge,
            EntryKind::Share,
            EntryKind::Frequency,
            EntryKind::Pressure,
            EntryKind::Plain,
        ]);
        for kind in kinds {
            for value in [0.004, 0.25, 3.5, 42.0, 310.0] {
                let (units, si) = (Units::default(), value * kind.size(&Units::default()));
                let back = kind.read(&units, &kind.show(&units, si)).unwrap();
                approx::assert_relative_eq!(back, si, max_relative = 1e-9);
            }
        }
    }

    #[track_caller]
    fn steps(kind: EntryKind, from: f64, by: f64, expected: f64) {
        let found = kind.stepped(&Units::default(), from, by);
        approx::assert_relative_eq!(found, expected, max_relative = 1e-9, epsilon = 1e-12);
    }

    #[test]
    fn an_arrow_key_steps_the_second_figure() {
        steps(EntryKind::Of(Measure::Wind), 6.0, 1.0, 6.1);
        steps(EntryKind::Of(Measure::Height), 120.0, -1.0, 119.0);
        steps(EntryKind::Area, 0.228, 1.0, 0.24);
        steps(EntryKind::Power, 1900.0, 1.0, 2000.0);
        steps(EntryKind::Angle, 35.0_f64.to_radians(), 1.0, 36.0_f64.to_radians());
        steps(EntryKind::Bearing, 0.0, -1.0, 359.0);
        steps(EntryKind::Of(Measure::Wind), 0.0, 1.0, 0.1);
        steps(EntryKind::Of(Measure::Distance), -80.0, 1.0, -79.0);
        steps(EntryKind::Of(Measure::Mass), 2.1, 0.1, 2.11);
    }
}
