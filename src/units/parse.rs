//! Reading a number and a unit as a person types them.

/// One unit of a quantity: the names people type, first the one that is printed, and its size in SI.
#[derive(Debug, Clone, Copy)]
pub struct Unit {
    /// Names, matched without regard to capitals where that is unambiguous.
    pub names: &'static [&'static str],
    /// How many SI units one of it is.
    pub si: f64,
}

/// Why a typed quantity can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}; {}", self.problem(), self.way_out())]
pub enum UnitError {
    /// Nothing that reads as a number stands in front.
    NoNumber {
        /// What was typed.
        text: String,
        /// The quantity wanted.
        kind: &'static str,
        /// How to write one.
        example: String,
    },
    /// A number without a unit.
    NoUnit {
        /// What was typed.
        text: String,
        /// The quantity wanted.
        kind: &'static str,
        /// Units that fit.
        units: String,
    },
    /// The unit belongs to something else, or to nothing.
    WrongUnit {
        /// The unit found.
        unit: String,
        /// The quantity wanted.
        kind: &'static str,
        /// Units that fit.
        units: String,
    },
    /// A comma before three digits: some read it as a decimal comma, others as thousands.
    Ambiguous {
        /// What was typed.
        text: String,
    },
    /// More than a whole turn.
    Turned {
        /// What was typed.
        text: String,
    },
    /// Infinite, not a number, or too large to hold.
    NotFinite {
        /// What was typed.
        text: String,
        /// The quantity wanted.
        kind: &'static str,
    },
}

impl UnitError {
    /// What is wrong, with the text found.
    pub fn problem(&self) -> String {
        match self {
            Self::NoNumber { text, .. } => format!("\"{text}\" does not start with a number"),
            Self::NoUnit { text, .. } => format!("\"{text}\" has no unit"),
            Self::WrongUnit { unit, kind, .. } => format!("\"{unit}\" is not a unit of {kind}"),
            Self::Ambiguous { text } => format!("the comma in \"{text}\" may mean thousands or decimals"),
            Self::Turned { text } => format!("\"{text}\" is more than a whole turn"),
            Self::NotFinite { text, .. } => format!("\"{text}\" is too large to be a number"),
        }
    }

    /// What to type instead.
    pub fn way_out(&self) -> String {
        match self {
            Self::NoNumber { kind, example, .. } => format!("write {kind} as in \"{example}\""),
            Self::NoUnit { text, kind, units } if text.contains(',') => {
                let unit = units.split(',').next().unwrap_or_default();
                let point = text.replace(',', ".");
                format!("write \"{point} {unit}\", with a point or a comma before the decimals; {kind} takes {units}")
            }
            Self::NoUnit { kind, units, .. } | Self::WrongUnit { kind, units, .. } => format!("{kind} takes {units}"),
            Self::Ambiguous { .. } => "write a point before decimals and nothing between thousands".into(),
            Self::Turned { .. } => "write a bearing from 0 to 360 deg".into(),
            Self::NotFinite { kind, .. } => format!("write {kind} as an ordinary number with its unit"),
        }
    }
}

/// What was typed, as a message says it: never long.
fn said_back(text: &str) -> String {
    if text.chars().count() <= 40 { text.into() } else { format!("{}...", text.chars().take(37).collect::<String>()) }
}

/// The longest front part of `text` that reads as a number: sign, digits, one point or comma, exponent.
fn split(text: &str) -> (&str, &str) {
    let bytes = text.as_bytes();
    let digits = |mut at: usize| {
        while bytes.get(at).is_some_and(u8::is_ascii_digit) {
            at += 1;
        }
        at
    };
    let mut end = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    end = digits(end);
    if matches!(bytes.get(end), Some(b'.' | b',')) {
        end = digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = end + 1 + usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = digits(sign);
        if exponent > sign {
            end = exponent;
        }
    }
    text.split_at(end)
}

/// Whether a comma stands where a thousands separator could: after one to three digits, before exactly three.
fn ambiguous(number: &str, rest: &str) -> bool {
    let Some((whole, decimals)) = number.trim_start_matches(['+', '-']).split_once(',') else { return false };
    let grouped = (1..=3).contains(&whole.len()) && !whole.starts_with('0') && decimals.len() == 3;
    grouped || rest.starts_with(',')
}

fn list(units: &[Unit]) -> String {
    units.iter().map(|unit| unit.names[0]).collect::<Vec<_>>().join(", ")
}

fn find<'a>(units: &'a [Unit], name: &str) -> Option<&'a Unit> {
    units
        .iter()
        .find(|unit| unit.names.contains(&name))
        .or_else(|| units.iter().find(|unit| unit.names.iter().any(|known| known.eq_ignore_ascii_case(name))))
}

/// So many of a unit in SI. 95 % is 0.95, and 95 times the nearest number to 0.01 is not: by a whole part of the SI unit
/// it is divided.
pub fn in_si(value: f64, unit_si: f64) -> f64 {
    let parts = unit_si.recip();
    if parts > 1.0 && parts.fract() == 0.0 { value / parts } else { value * unit_si }
}

/// Reads `text` in one of `units` and returns it in SI.
pub(super) fn number_and_unit(text: &str, kind: &'static str, units: &[Unit]) -> Result<f64, UnitError> {
    let trimmed = text.trim();
    let (number, rest) = split(trimmed);
    if ambiguous(number, rest) {
        return Err(UnitError::Ambiguous { text: said_back(trimmed) });
    }
    let Ok(value) = number.replace(',', ".").parse::<f64>() else {
        return Err(UnitError::NoNumber {
            text: said_back(trimmed),
            kind,
            example: format!("12 {}", units[0].names[0]),
        });
    };
    let name = rest.trim();
    if name.is_empty() {
        return Err(UnitError::NoUnit { text: said_back(trimmed), kind, units: list(units) });
    }
    let unit =
        find(units, name).ok_or_else(|| UnitError::WrongUnit { unit: said_back(name), kind, units: list(units) })?;
    let si = in_si(value, unit.si);
    if si.is_finite() { Ok(si) } else { Err(UnitError::NotFinite { text: said_back(trimmed), kind }) }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use crate::units::{Bearing, Charge, Length, Mass, Quantity, Ratio, Speed, conversions};

    /// Typed text against its value in SI. Factors: 1 kt is 1852/3600 m/s and 1 NM is 1852 m (ISO 80000-3), 1 ft is
    /// 0.3048 m and 1 lb is 0.45359237 kg (international yard and pound, 1959); 1 mph is 0.44704 m/s by those.
    #[track_caller]
    fn check<Q: Quantity>(text: &str, si: f64) {
        assert_relative_eq!(text.parse::<Q>().unwrap().si(), si, max_relative = 1e-12);
    }

    #[track_caller]
    fn refuse<Q: Quantity + std::fmt::Debug>(text: &str, problem: &str, way_out: &str) {
        let error = text.parse::<Q>().unwrap_err();
        assert!(error.problem().contains(problem), "{error}");
        assert!(error.way_out().contains(way_out), "{error}");
    }

    #[test]
    fn reads_what_people_type() {
        check::<Speed>("15kt", 15.0 * 1852.0 / 3600.0);
        check::<Speed>("8 m/s", 8.0);
        check::<Speed>("18mph", 18.0 * 0.44704);
        check::<Speed>("18 MPH", 18.0 * 0.44704);
        check::<Speed>("36 km/h", 10.0);
        check::<Length>("400ft", 121.92);
        check::<Length>("  400 ft ", 121.92);
        check::<Length>("5'", 1.524);
        check::<Length>("1.5e2 m", 150.0);
        check::<Length>("-3 m", -3.0);
        check::<Length>("+3 m", 3.0);
        check::<Length>(".5 m", 0.5);
        check::<Length>("2 NM", 3704.0);
        check::<Mass>("1.2 kg", 1.2);
        check::<Mass>("1,2 kg", 1.2);
        check::<Mass>("0,125 kg", 0.125);
        check::<Mass>("3 lb", 1.360_777_11);
        check::<Charge>("5000mAh", 18_000.0);
        check::<Charge>("5 Ah", 18_000.0);
        check::<Ratio>("70%", 0.7);
    }

    #[test]
    fn says_what_is_wrong_and_what_fits() {
        refuse::<Speed>("15", "has no unit", "m/s, kt, mph, km/h, ft/s");
        refuse::<Length>("60", "has no unit", "m, ft, km");
        refuse::<Length>("0,75", "\"0,75\" has no unit", "write \"0.75 m\", with a point or a comma");
        refuse::<Length>("60 kg", "\"kg\" is not a unit of length", "m, ft");
        refuse::<Length>("60 m tall", "\"m tall\"", "m, ft");
        refuse::<Length>("", "does not start with a number", "\"12 m\"");
        refuse::<Length>("high", "does not start with a number", "\"12 m\"");
        refuse::<Length>("NaN m", "does not start with a number", "\"12 m\"");
        refuse::<Length>("inf m", "does not start with a number", "\"12 m\"");
        refuse::<Length>("- m", "does not start with a number", "\"12 m\"");
        refuse::<Length>("1e999 m", "too large", "ordinary number");
        refuse::<Length>("1.2.3 m", "\".3 m\"", "m, ft");
        refuse::<Length>("1,200 ft", "thousands", "nothing between thousands");
        refuse::<Length>("1,200,000 ft", "thousands", "nothing between thousands");
        refuse::<Length>("12e m", "\"e m\"", "m, ft");
        assert!("north-ish".parse::<Bearing>().is_err());
        assert!("240".parse::<Bearing>().unwrap_err().to_string().contains("deg, rad"));
    }

    #[test]
    fn every_unit_comes_back_as_it_went() {
        for (kind, names, si) in conversions() {
            for name in names {
                for value in [1.0, 12.34, 0.001, 98_765.4] {
                    let text = format!("{value} {name}");
                    crate::units::check_format(kind, &text).unwrap().unwrap();
                    let read = super::number_and_unit(&text, kind, units_of(kind)).unwrap();
                    assert_relative_eq!(read / si, value, max_relative = 1e-12);
                }
            }
        }
    }

    fn units_of(kind: &str) -> &'static [super::Unit] {
        use crate::units::{Angle, AngularRate, Area, Energy, Frequency, Power, Pressure, Time};
        let all = [
            (Length::KIND, Length::UNITS),
            (Speed::KIND, Speed::UNITS),
            (Mass::KIND, Mass::UNITS),
            (Area::KIND, Area::UNITS),
            (Time::KIND, Time::UNITS),
            (Angle::KIND, Angle::UNITS),
            (AngularRate::KIND, AngularRate::UNITS),
            (Power::KIND, Power::UNITS),
            (Energy::KIND, Energy::UNITS),
            (Charge::KIND, Charge::UNITS),
            (Frequency::KIND, Frequency::UNITS),
            (Pressure::KIND, Pressure::UNITS),
            (Ratio::KIND, Ratio::UNITS),
        ];
        all.into_iter().find(|(known, _)| *known == kind).unwrap().1
    }

    #[test]
    fn parts_of_a_unit_are_read_to_the_last_bit() {
        for percent in 0..=100_i32 {
            let share = format!("{percent} %").parse::<Ratio>().unwrap().share();
            assert!(share == f64::from(percent) / 100.0, "{percent} % is {share}");
        }
        assert!("35 cm".parse::<Length>().unwrap().m() == 0.35);
    }
}
