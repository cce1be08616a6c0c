//! A place typed in: "120 -35" east and north of the datum, or "50 m at 045" from the last corner.

use glam::DVec2;

use crate::units::Bearing;
use crate::words::{Measure, Units};

/// What can be typed, in words.
pub const HINT: &str = "east and north, such as 120 -35, or 50 m at 045 from the last corner";

/// Reads a place. Bare numbers are in the user's unit of distance; a way off is taken from `from`, or from the datum.
///
/// # Errors
/// What is wrong, in words.
pub fn place(text: &str, from: Option<DVec2>, units: &Units) -> Result<DVec2, String> {
    let bare = &*units.of(Measure::Distance).first;
    let length = |text: &str| {
        let metres = Measure::Distance.parse(text, bare)?;
        if metres.is_finite() { Ok(metres) } else { Err(format!("\"{text}\" is not a length")) }
    };
    let lower = text.trim().to_lowercase();
    let way = lower.split_once('@').or_else(|| lower.split_once(" at "));
    if let Some((away, towards)) = way {
        let towards = towards.trim().trim_end_matches('\u{b0}');
        let bearing = match towards.parse::<f64>() {
            Ok(degrees) if degrees.is_finite() => Bearing::from_deg(degrees),
            _ => towards.parse::<Bearing>().map_err(|error| error.to_string())?,
        };
        return Ok(from.unwrap_or_default() + bearing.unit() * length(away)?);
    }
    match parts(&lower).as_slice() {
        [east, north] => Ok(DVec2::new(length(east)?, length(north)?)),
        _ => Err(format!("Type {HINT}")),
    }
}

/// The numbers of a text, each with its unit. A comma between two numbers parts them; one inside a number is a point.
fn parts(text: &str) -> Vec<String> {
    let spaced = text.replace([';', '\t'], " ").replace(", ", " ");
    let whole = if spaced.trim().contains(' ') { spaced } else { spaced.replace(',', " ") };
    let mut parts: Vec<String> = Vec::new();
    for word in whole.split_whitespace() {
        match parts.last_mut() {
            Some(number) if word.starts_with(char::is_alphabetic) => *number = format!("{number} {word}"),
            _ => parts.push(word.to_owned()),
        }
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Pair;

    #[track_caller]
    fn check(text: &str, expected: Option<(f64, f64)>) {
        let found = place(text, Some(DVec2::new(10.0, 20.0)), &Units::default()).ok();
        let same = match (found, expected) {
            (Some(found), Some((x, y))) => found.distance(DVec2::new(x, y)) < 1e-9,
            (found, expected) => found.is_none() && expected.is_none(),
        };
        assert!(same, "{text}: {found:?}");
    }

    #[test]
    fn places_are_typed_in_several_ways() {
        check("120 -35", Some((120.0, -35.0)));
        check("120,-35", Some((120.0, -35.0)));
        check("120, \u{2212}35", Some((120.0, -35.0)));
        check("12,5 -3.5", Some((12.5, -3.5)));
        check("100 ft 35 m", Some((30.48, 35.0)));
        check("50 m at 090", Some((60.0, 20.0)));
        check("50@180", Some((10.0, -30.0)));
        check("50 at W", Some((-40.0, 20.0)));
        check("50 at 270\u{b0}", Some((-40.0, 20.0)));
    }

    #[test]
    fn what_is_no_place_is_refused() {
        for text in ["", "120", "1 2 3", "120 kg 5", "NaN NaN", "inf 0", "50 at nowhere", "at 45", "50 at NaN"] {
            check(text, None);
        }
    }

    #[test]
    fn bare_numbers_are_in_the_users_unit_and_ways_start_at_the_datum() {
        let feet = Units { distance: Pair { first: "ft".into(), second: String::new() }, ..Units::default() };
        let found = place("100 at 000", None, &feet).unwrap();
        assert!(found.distance(DVec2::new(0.0, 30.48)) < 1e-9);
    }
}
