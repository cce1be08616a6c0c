//! Several quantities in one word: a list such as "60 m, 80 m, 400 ft", or a row such as "40 m..260 m step 10 m".

use crate::units::Quantity;

/// Most values in one series: more is a slip of the keyboard.
const MOST: usize = 1000;

/// Values in SI units, rising, each once.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Series(pub(super) Vec<f64>);

/// Reads a series of one quantity. All of it must be above nothing.
pub(super) fn series<Q: Quantity>(text: &str) -> Result<Series, String> {
    let one = |part: &str| match part.trim().parse::<Q>() {
        Ok(value) if value.si() > 0.0 && value.si().is_finite() => Ok(value.si()),
        Ok(value) => Err(format!("{value} is not above nothing")),
        Err(why) => Err(format!("{}: {why}", part.trim())),
    };
    let mut values = match text.split_once("..") {
        Some((from, rest)) => {
            let (to, step) = rest.split_once("step").ok_or_else(|| way_out::<Q>("a row needs a step"))?;
            row(one(from)?, one(to)?, one(step)?).ok_or_else(|| way_out::<Q>("the row has no values or too many"))?
        }
        None => text.split([',', ';']).map(one).collect::<Result<Vec<_>, _>>()?,
    };
    values.sort_by(f64::total_cmp);
    values.dedup();
    if values.len() > MOST { Err(way_out::<Q>("too many values")) } else { Ok(Series(values)) }
}

fn row(from: f64, to: f64, step: f64) -> Option<Vec<f64>> {
    let steps = ((to - from) / step + 1e-9).floor();
    #[allow(clippy::cast_precision_loss, reason = "a thousand")]
    let fits = (0.0..MOST as f64).contains(&steps);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and a thousand")]
    let count = if fits { steps as u32 } else { return None };
    // Twelve digits, so that a row in feet has no dust at the end of its metres.
    Some((0..=count).map(|index| ((from + f64::from(index) * step) * 1e9).round() / 1e9).collect())
}

fn way_out<Q: Quantity>(why: &str) -> String {
    let unit = Q::UNITS.first().and_then(|unit| unit.names.first()).copied().unwrap_or_default();
    format!(
        "{why}: write a list such as \"20 {unit}, 30 {unit}\" or a row such as \"20 {unit}..60 {unit} step 5 {unit}\""
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Length, Speed};

    #[track_caller]
    fn check(text: &str, expected: &[f64]) {
        let found = series::<Length>(text).unwrap().0;
        assert_eq!(found.len(), expected.len(), "{found:?}");
        found
            .iter()
            .zip(expected)
            .for_each(|(found, expected)| approx::assert_abs_diff_eq!(found, expected, epsilon = 1e-9));
    }

    #[test]
    fn lists_and_rows_in_the_units_people_use() {
        check("60 m", &[60.0]);
        check("80 m, 60m; 80 m", &[60.0, 80.0]);
        check("40 m..70 m step 10 m", &[40.0, 50.0, 60.0, 70.0]);
        check("100 ft .. 300 ft step 100 ft", &[30.48, 60.96, 91.44]);
        check("0.1 m..0.3 m step 0.1 m", &[0.1, 0.2, 0.3]);
        check("40 m..75 m step 10 m", &[40.0, 50.0, 60.0, 70.0]);
    }

    #[test]
    fn what_makes_no_series_is_refused_with_the_way_out() {
        for (text, said) in [
            ("40 m..70 m", "needs a step"),
            ("70 m..40 m step 10 m", "no values"),
            ("1 m..9 m step 1 mm", "too many"),
            ("0 m", "not above nothing"),
            ("40 m..-70 m step 10 m", "not above nothing"),
            ("60", "no unit"),
            ("60 m, 70 kt", "not a unit of length"),
            ("", "does not start with a number"),
        ] {
            let found = series::<Length>(text).unwrap_err();
            assert!(found.contains(said), "{text}: {found}");
        }
        assert!(series::<Speed>("20 m/s..30 m/s").unwrap_err().contains("\"20 m/s, 30 m/s\""));
    }
}
