//! With how many digits a number is printed: as few as a person would write, and never so few that it says something else.

/// Most decimals that anything is printed with.
const MOST: usize = 6;

/// A number with some decimals; where that leaves nothing, it is nothing and not less than nothing.
pub fn decimals(value: f64, digits: usize) -> String {
    let text = format!("{value:.digits$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|byte| matches!(byte, b'0' | b'.')) => rest.to_owned(),
        _ => text,
    }
}

/// A number with some decimals, or as many more as it takes to print less than each of `limits` that it is below: what is
/// missing to a limit is never rounded away.
pub fn below(value: f64, limits: &[f64], digits: usize) -> String {
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

#[cfg(test)]
mod tests {
    use super::*;

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
