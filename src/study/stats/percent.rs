//! How is a share put into words, without ever saying that something is certain?

use super::Interval;

/// A share that was worked out or asked for, such as "95 %" or "97.3 %"; "over 99.9 %" and "under 0.1 %" at the ends.
///
/// A share that was counted has an interval: [`percent_interval`].
pub fn percent(share: f64) -> String {
    match (share * 1000.0).round() {
        tenths if tenths >= 1000.0 => "over 99.9 %".into(),
        tenths if tenths < 1.0 => "under 0.1 %".into(),
        tenths if tenths % 10.0 == 0.0 => format!("{:.0} %", tenths / 10.0),
        tenths => format!("{:.1} %", tenths / 10.0),
    }
}

/// An interval of a share, such as "93.1 to 97.4 %", "over 99 %" or "under 0.9 %". Both ends are rounded outward, and an
/// end that would be nothing or everything is left out.
pub fn percent_interval(share: Interval) -> String {
    let low = (share.low * 1000.0).floor() / 10.0;
    let high = (share.high * 1000.0).ceil() / 10.0;
    match (low > 0.0, high < 100.0) {
        (true, true) => format!("{low:.1} to {high:.1} %"),
        (true, false) => format!("over {low:.1} %"),
        (false, true) => format!("under {high:.1} %"),
        (false, false) => "anything".into(),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn shares_read_well_and_never_as_certain() {
        for (share, expected) in [
            (0.95, "95 %"),
            (0.973, "97.3 %"),
            (0.5, "50 %"),
            (0.999, "99.9 %"),
            (0.9995, "over 99.9 %"),
            (1.0, "over 99.9 %"),
            (0.001, "0.1 %"),
            (0.0004, "under 0.1 %"),
            (0.0, "under 0.1 %"),
        ] {
            assert_eq!(percent(share), expected);
        }
    }

    #[test]
    fn intervals_are_rounded_outward() {
        for (low, high, expected) in [
            (0.9312, 0.9731, "93.1 to 97.4 %"),
            (0.9904, 1.0, "over 99.0 %"),
            (0.9904, 0.999_99, "over 99.0 %"),
            (0.999_99, 1.0, "over 99.9 %"),
            (0.0, 0.0081, "under 0.9 %"),
            (0.0, 0.000_01, "under 0.1 %"),
            (0.0, 1.0, "anything"),
            (f64::NAN, f64::NAN, "anything"),
        ] {
            assert_eq!(percent_interval(Interval { low, high }), expected);
        }
    }

    proptest! {
        #[test]
        fn nothing_is_ever_certain(low in 0.0..=1.0, high in 0.0..=1.0) {
            for text in [percent(low), percent(high), percent_interval(Interval { low, high })] {
                prop_assert!(!text.contains("100"), "{text}");
                let zero = text.split_whitespace().any(|word| word.parse() == Ok(0.0));
                prop_assert!(!zero, "{text}");
            }
        }
    }
}
