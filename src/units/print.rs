//! With how many digits a number is printed: as few as a person would write, and never so few that it says something else.

/// Most decimals that anything is printed with.
const MOST: usize = 6;

/// From here on a number is printed with its power of ten, and so is one that is this much smaller than one: nobody counts
/// a row of zeros, and nothing about a field is as large or as small.
const LARGE: f64 = 1e9;

/// To twelve significant digits, so that 35 degrees come back from radians as 35 and not as 34.99999999999999.
pub(super) fn tidy(value: f64) -> f64 {
    format!("{value:.11e}").parse().unwrap_or(value)
}

/// A number with all the digits that it was typed with, twelve at most: 35 degrees come back from radians as 35.
pub fn typed(value: f64) -> String {
    // Adding nothing makes nothing of less than nothing.
    let value = tidy(value) + 0.0;
    let size = value.abs();
    if value == 0.0 || (LARGE.recip()..LARGE).contains(&size) { value.to_string() } else { format!("{value:e}") }
}

/// A number with some decimals; where that leaves nothing, it is nothing and not less than nothing. One that is too large
/// for that has its power of ten.
pub fn decimals(value: f64, digits: usize) -> String {
    if value.is_finite() && value.abs() >= LARGE {
        return format!("{value:.digits$e}");
    }
    let text = format!("{value:.digits$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|byte| matches!(byte, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}

/// A number with some decimals, or as many more as it takes to print less than each of `limits` that it is below: what is
/// missing to a limit is never rounded away.
fn below(value: f64, limits: &[f64], digits: usize) -> String {
    let hides = |digits: usize| {
        let text = decimals(value, digits);
        limits.iter().any(|&limit| value < limit && text == decimals(limit, digits))
    };
    match (digits..=MOST).find(|&digits| !hides(digits)) {
        Some(digits) => decimals(value, digits),
        None => {
            let tens = 10_f64.powi(6);
            decimals((value * tens).floor() / tens, MOST)
        }
    }
}

/// A number that was worked out, as a person would write it: whole from a hundred on, with one decimal from one on, and
/// two figures of what is less, to a thousandth.
pub fn figure(value: f64) -> String {
    plain_zero(decimals(value, digits(value)))
}

/// A number that somebody typed: the same, but never without its tenths, and no zero at its end that says nothing.
pub fn number(value: f64) -> String {
    let text = decimals(value, digits(value).max(1));
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// What is left, and what was asked to be left: with the digits that tell the one from the other, and less than nothing
/// from nothing.
pub fn left_of(left: f64, asked: f64) -> [String; 2] {
    let text = plain_zero(below(left, &[0.0, asked], digits(left)));
    let whole = number(asked);
    let shown = |text: &str| text.parse::<f64>().unwrap_or(f64::NAN);
    if left < asked && shown(&text) >= shown(&whole) {
        let digits = text.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        return [text, decimals(asked, digits)];
    }
    [text, whole]
}

/// How many decimals a number deserves by its size.
fn digits(value: f64) -> usize {
    [99.95, 0.995, 0.0995].iter().filter(|step| value.abs() < **step).count()
}

fn plain_zero(text: String) -> String {
    if text.bytes().all(|byte| matches!(byte, b'0' | b'.')) { "0".into() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_has_as_many_digits_as_a_person_would_write() {
        for (value, found, entered) in [
            (146.2, "146", "146.2"),
            (99.96, "100", "100"),
            (31.24, "31.2", "31.2"),
            (20.0, "20.0", "20"),
            (-12.34, "-12.3", "-12.3"),
            (0.5, "0.50", "0.5"),
            (0.651, "0.65", "0.65"),
            (0.0651, "0.065", "0.065"),
            (-0.01, "-0.010", "-0.01"),
            (0.0004, "0", "0"),
            (-0.0, "0", "0"),
            (1200.0, "1200", "1200"),
            (f64::INFINITY, "inf", "inf"),
        ] {
            assert_eq!((figure(value).as_str(), number(value).as_str()), (found, entered), "{value}");
        }
    }

    #[test]
    fn what_is_left_reads_as_less_where_it_is_less() {
        for (left, asked, words) in [
            (14.3, 20.0, ["14.3", "20"]),
            (19.97, 20.0, ["19.97", "20"]),
            (199.6, 200.0, ["199.6", "200"]),
            (20.0, 20.0, ["20.0", "20"]),
            (175.3, 20.0, ["175", "20"]),
            (5.52, 5.55, ["5.52", "5.55"]),
            (0.0, 20.0, ["0", "20"]),
            (0.0003, 20.0, ["0", "20"]),
            (-0.0, 0.0, ["0", "0"]),
            (-0.04, 20.0, ["-0.040", "20"]),
            (-1e-12, 0.0, ["-0.000001", "0"]),
            (0.0123, 0.05, ["0.012", "0.05"]),
        ] {
            assert_eq!(left_of(left, asked), words, "{left} of {asked}");
        }
    }

    #[test]
    fn no_number_is_a_row_of_zeros() {
        for (value, whole, short) in [
            (1e308, "1e308", "1e308"),
            (-1.5e12, "-1.5e12", "-2e12"),
            (1e-308, "1e-308", "0"),
            (999_999_999.0, "999999999", "999999999"),
            (0.1 + 0.2, "0.3", "0"),
            (-0.0, "0", "0"),
        ] {
            assert_eq!((typed(value), decimals(value, 0)), (whole.to_owned(), short.to_owned()), "{value}");
        }
    }

    #[test]
    fn nothing_is_not_less_than_nothing() {
        for (value, digits, expected) in
            [(-0.0, 1, "0.0"), (-0.04, 1, "0.0"), (-0.06, 1, "-0.1"), (-0.4, 0, "0"), (12.34, 1, "12.3"), (0.0, 0, "0")]
        {
            assert_eq!(decimals(value, digits), expected, "{value}");
        }
    }

    #[test]
    fn what_is_missing_is_never_rounded_away() {
        for (value, limit, expected) in [
            (14.3, 20.0, "14.3"),
            (19.94, 20.0, "19.9"),
            (19.97, 20.0, "19.97"),
            (19.9996, 20.0, "19.9996"),
            (20.0 - 1e-12, 20.0, "19.999999"),
            (20.0, 20.0, "20.0"),
            (20.001, 20.0, "20.0"),
            (-0.04, 0.0, "-0.04"),
            (-1e-12, 0.0, "-0.000001"),
            (0.0, 0.0, "0.0"),
            (-12.34, 0.0, "-12.3"),
        ] {
            assert_eq!(below(value, &[limit], 1), expected, "{value}");
        }
        assert_eq!(below(f64::INFINITY, &[0.0], 1), "inf");
    }
}
