//! Reading a number and a unit as a person types them.

use super::quantity::Unit;

/// Why a typed quantity can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum UnitError {
    /// Nothing that reads as a number stands in front.
    #[error("\"{text}\" does not start with a number; write a {kind} as in \"{example}\"")]
    NoNumber {
        /// What was typed.
        text: String,
        /// The quantity wanted.
        kind: &'static str,
        /// How to write one.
        example: String,
    },
    /// A number without a unit.
    #[error("\"{text}\" has no unit; a {kind} takes {units}")]
    NoUnit {
        /// What was typed.
        text: String,
        /// The quantity wanted.
        kind: &'static str,
        /// Units that fit.
        units: String,
    },
    /// The unit belongs to something else, or to nothing.
    #[error("\"{unit}\" is not a unit of {kind}; use {units}")]
    WrongUnit {
        /// The unit found.
        unit: String,
        /// The quantity wanted.
        kind: &'static str,
        /// Units that fit.
        units: String,
    },
    /// Infinite, not a number, or too large to hold.
    #[error("\"{text}\" is not a finite {kind}; write an ordinary number with its unit")]
    NotFinite {
        /// What was typed.
        text: String,
        /// The quantity wanted.
        kind: &'static str,
    },
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

fn list(units: &[Unit]) -> String {
    units.iter().map(|unit| unit.names[0]).collect::<Vec<_>>().join(", ")
}

fn find<'a>(units: &'a [Unit], name: &str) -> Option<&'a Unit> {
    units
        .iter()
        .find(|unit| unit.names.contains(&name))
        .or_else(|| units.iter().find(|unit| unit.names.iter().any(|known| known.eq_ignore_ascii_case(name))))
}

/// Reads `text` in one of `units` and returns it in SI.
pub(super) fn number_and_unit(text: &str, kind: &'static str, units: &[Unit]) -> Result<f64, UnitError> {
    let trimmed = text.trim();
    let (number, rest) = split(trimmed);
    let Ok(value) = number.replace(',', ".").parse::<f64>() else {
        return Err(UnitError::NoNumber { text: trimmed.into(), kind, example: format!("12 {}", units[0].names[0]) });
    };
    let name = rest.trim();
    if name.is_empty() {
        return Err(UnitError::NoUnit { text: trimmed.into(), kind, units: list(units) });
    }
    let unit = find(units, name).ok_or_else(|| UnitError::WrongUnit { unit: name.into(), kind, units: list(units) })?;
    let si = value * unit.si;
    if si.is_finite() { Ok(si) } else { Err(UnitError::NotFinite { text: trimmed.into(), kind }) }
}
