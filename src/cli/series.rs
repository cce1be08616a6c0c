//! Several quantities in one word: a list such as "60 m, 80 m, 400 ft", or a row such as "40 m..260 m step 10 m".

use crate::units::Quantity;

/// Most values in one series: more is a slip of the keyboard.
const MOST: usize = 200;

/// Values in SI units, rising, each once.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Series(pub(super) Vec<f64>);

/// Reads a series of one quantity, all of it within bounds in SI units: those that a scenario has.
pub(super) fn series<Q: Quantity>(text: &str, [low, high]: [f64; 2]) -> Result<Series, String> {
    let above_nothing = |part: &str| match part.trim().parse::<Q>() {
        Ok(value) if value.si() > 0.0 => Ok(value),
        Ok(value) => Err(format!("{value} is not above nothing")),
        Err(why) => Err(why.to_string()),
    };
    let one = |part: &str| match above_nothing(part)? {
        value if (low..=high).contains(&value.si()) => Ok(value.si()),
        value => Err(format!(
            "{value} makes no sense here: write {} between {} and {}",
            Q::KIND,
            Q::from_si(low),
            Q::from_si(high)
        )),
    };
    let mut values = match text.split_once("..") {
        Some((from, rest)) => {
            let (to, step) = rest.split_once("step").ok_or_else(|| way_out::<Q>("a row needs a step"))?;
            row(one(from)?, one(to)?, above_nothing(step)?.si())
                .ok_or_else(|| way_out::<Q>("the row has no values or too many"))?
        }
        None => text.split([',', ';']).map(one).collect::<Result<Vec<_>, _>>()?,
    };
    values.sort_by(f64::total_cmp);
    values.dedup();
    if values.len() > MOST { Err(way_out::<Q>("too many values")) } else { Ok(Series(values)) }
}

fn row(from: f64, to: f64, step: f64) -> Option<Vec<f64>> {
    let steps = ((to - from) / step + 1e-9).floor();
    #[allow(clippy::cast_precision_loss, reason = "some hundred")]
    let fits = (0.0..MOST as f64).contains(&steps);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and some hundred")]
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

    const RADIUS: [f64; 2] = [5.0, 5000.0];

    #[track_caller]
    fn check(text: &str, expected: &[f64]) {
        let found = series::<Length>(text, RADIUS).unwrap().0;
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
        check("10.1 m..10.3 m step 0.1 m", &[10.1, 10.2, 10.3]);
        check("40 m..75 m step 10 m", &[40.0, 50.0, 60.0, 70.0]);
    }

    #[test]
    fn what_makes_no_series_is_refused_with_the_way_out() {
        for (text, said) in [
            ("40 m..70 m", "needs a step"),
            ("70 m..40 m step 10 m", "no values"),
            ("11 m..19 m step 1 mm", "too many"),
            ("5 m..5 km step 5 m", "too many"),
            ("1e308 m", "1e308 m makes no sense here: write length between 5 m and 5000 m"),
            ("40 m..1e308 m step 10 m", "makes no sense"),
            ("1e-308 m", "makes no sense"),
            ("0 m", "not above nothing"),
            ("40 m..-70 m step 10 m", "not above nothing"),
            ("60", "no unit"),
            ("60 m, 70 kt", "not a unit of length"),
            ("", "does not start with a number"),
        ] {
            let found = series::<Length>(text, RADIUS).unwrap_err();
            assert!(found.contains(said), "{text}: {found}");
        }
        assert!(series::<Speed>("20 m/s..30 m/s", [1.0, 200.0]).unwrap_err().contains("\"20 m/s, 30 m/s\""));
    }
}
