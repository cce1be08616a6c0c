//! Numbers and ends of a run as the window writes them: those of `words`, with a true minus sign.

use crate::run::Ending;
use crate::words::{figure, left_of, true_minus};

/// A number with no more figures than it deserves, and a minus sign that is not overlooked.
pub(crate) fn number(value: f64) -> String {
    true_minus(&figure(value))
}

/// A number with its unit.
pub(crate) fn with_unit(value: f64, unit: &str) -> String {
    format!("{} {unit}", number(value))
}

/// What is left, and what was asked to be left, each with its unit.
pub(crate) fn left_and_asked(margin: f64, buffer: f64, unit: &str) -> [String; 2] {
    left_of(margin, buffer).map(|number| format!("{} {unit}", true_minus(&number)))
}

/// Metres.
pub(crate) fn metres(value: f64) -> String {
    with_unit(value, "m")
}

/// Seconds.
pub(crate) fn seconds(value: f64) -> String {
    with_unit(value, "s")
}

/// A number that may not exist.
pub(crate) fn maybe(value: Option<f64>, unit: &str) -> String {
    value.map_or_else(|| "not reached".to_owned(), |value| with_unit(value, unit))
}

/// How a run ended, and when.
pub(crate) fn ending(ending: Ending, at_s: f64) -> String {
    format!("{} at {}", crate::words::ending(ending), seconds(at_s))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_below_nothing_has_a_true_minus_sign() {
        assert_eq!(number(-12.34), "\u{2212}12.3");
        assert_eq!(number(-0.0), "0");
        assert_eq!(left_and_asked(-0.04, 20.0, "m"), ["\u{2212}0.040 m", "20 m"]);
    }
}
