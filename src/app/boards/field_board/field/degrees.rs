//! Latitude and longitude as people type them: decimal degrees, degrees and minutes, or degrees, minutes and seconds.

/// Which of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Axis {
    /// North is positive.
    Latitude,
    /// East is positive.
    Longitude,
}

impl Axis {
    const fn letters(self) -> [char; 2] {
        match self {
            Self::Latitude => ['N', 'S'],
            Self::Longitude => ['E', 'W'],
        }
    }

    const fn most(self) -> f64 {
        match self {
            Self::Latitude => 90.0,
            Self::Longitude => 180.0,
        }
    }

    const fn example(self) -> &'static str {
        match self {
            Self::Latitude => "44.0123 N, 44 00.738 N or 44 00 44.3 N",
            Self::Longitude => "30.0123 W, 30 00.738 W or 30 00 44.3 W",
        }
    }

    /// Reads what was typed, degrees.
    ///
    /// # Errors
    /// What is wrong, and how it may be written.
    pub(super) fn read(self, text: &str) -> Result<f64, String> {
        let wrong = |why: String| Err(format!("{why}; write it as {}", self.example()));
        let text = text.to_uppercase().replace('\u{2212}', "-").replace(',', ".");
        let [ahead, back] = self.letters();
        let letters: Vec<char> = text.chars().filter(char::is_ascii_alphabetic).collect();
        let sign = match letters.as_slice() {
            [] => 1.0,
            [letter] if *letter == ahead => 1.0,
            [letter] if *letter == back => -1.0,
            [letter] if "NSEW".contains(*letter) => return wrong(format!("{letter} belongs to the other of the two")),
            _ => return wrong(format!("\"{text}\" is no place on the globe")),
        };
        let parted: String =
            text.chars().map(|c| if c.is_ascii_digit() || ".-+".contains(c) { c } else { ' ' }).collect();
        let parts: Result<Vec<f64>, _> = parted.split_whitespace().map(str::parse::<f64>).collect();
        let Ok(parts) = parts else { return wrong("one of the numbers can't be read".into()) };
        if parts.is_empty() || parts.len() > 3 {
            return wrong(format!("{} numbers are found", parts.len()));
        }
        if !letters.is_empty() && parts[0].is_sign_negative() {
            return wrong(format!("a minus and a {} are one too many", letters[0]));
        }
        if parts[1..].iter().any(|part| !(0.0..60.0).contains(part)) {
            return wrong("minutes and seconds go from 0 to 59".into());
        }
        if parts[..parts.len() - 1].iter().any(|part| part.fract() != 0.0) {
            return wrong("only the last number may have decimals".into());
        }
        let size = parts.iter().zip([1.0, 60.0, 3600.0]).map(|(part, of)| part.abs() / of).sum::<f64>();
        if size > self.most() {
            return wrong(format!("{size} degrees is more than {}", self.most()));
        }
        Ok(if parts[0].is_sign_negative() { -size } else { sign * size })
    }

    fn letter(self, degrees: f64) -> char {
        let [ahead, back] = self.letters();
        if degrees < 0.0 { back } else { ahead }
    }

    /// Decimal degrees to a centimetre or so, such as "44.0123° N".
    pub(super) fn decimal(self, degrees: f64) -> String {
        let text = format!("{:.7}", degrees.abs());
        let text = text.trim_end_matches('0').trim_end_matches('.');
        format!("{text}\u{b0} {}", self.letter(degrees))
    }

    /// Decimal degrees to a metre, for tables.
    pub(super) fn short(self, degrees: f64) -> String {
        format!("{:.5} {}", degrees.abs(), self.letter(degrees))
    }

    /// Degrees and minutes, such as "44° 00.738′ N".
    pub(super) fn minutes(self, degrees: f64) -> String {
        // Whole thousandths of a minute, so that 59.9996 becomes the next degree and not 60.000.
        let thousandths = (degrees.abs() * 60_000.0).round();
        let (whole, rest) = ((thousandths / 60_000.0).floor(), thousandths.rem_euclid(60_000.0) / 1000.0);
        format!("{whole:.0}\u{b0} {rest:06.3}\u{2032} {}", self.letter(degrees))
    }

    /// Degrees, minutes and seconds, such as "44° 00′ 44.28″ N".
    pub(super) fn seconds(self, degrees: f64) -> String {
        let hundredths = (degrees.abs() * 360_000.0).round();
        let whole = (hundredths / 360_000.0).floor();
        let rest = hundredths.rem_euclid(360_000.0);
        let (minutes, seconds) = ((rest / 6000.0).floor(), rest.rem_euclid(6000.0) / 100.0);
        format!("{whole:.0}\u{b0} {minutes:02.0}\u{2032} {seconds:05.2}\u{2033} {}", self.letter(degrees))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn reads(axis: Axis, text: &str, expected: f64) {
        approx::assert_abs_diff_eq!(axis.read(text).unwrap(), expected, epsilon = 1e-9);
    }

    #[test]
    fn the_usual_forms_are_read() {
        use Axis::{Latitude, Longitude};
        reads(Latitude, "44.5", 44.5);
        reads(Latitude, "44,5 N", 44.5);
        reads(Latitude, "44 30 N", 44.5);
        reads(Latitude, "44\u{b0} 30.6\u{2032} s", -44.51);
        reads(Latitude, "S44 30 36", -44.51);
        reads(Longitude, "\u{2212}30.25", -30.25);
        reads(Longitude, "30\u{b0}15'00\" W", -30.25);
        reads(Longitude, "-0 30 0", -0.5);
        reads(Longitude, "180 E", 180.0);
        // ICSM GDA technical manual, Flinders Peak: -37 57 03.72030, 144 25 29.52440, in decimals by hand.
        reads(Latitude, "-37 57 03.72030", -(37.0 + 57.0 / 60.0 + 3.7203 / 3600.0));
        reads(Longitude, "144 25 29.52440 E", 144.0 + 25.0 / 60.0 + 29.5244 / 3600.0);
    }

    #[track_caller]
    fn refuses(axis: Axis, text: &str, says: &str) {
        let why = axis.read(text).unwrap_err();
        assert!(why.contains(says) && why.contains("write it as"), "{why}");
    }

    #[test]
    fn what_is_no_place_is_refused_with_the_reason() {
        refuses(Axis::Latitude, "91", "more than 90");
        refuses(Axis::Latitude, "44 E", "other of the two");
        refuses(Axis::Latitude, "-44 S", "one too many");
        refuses(Axis::Latitude, "44 61", "from 0 to 59");
        refuses(Axis::Latitude, "44.5 30", "only the last");
        refuses(Axis::Latitude, "", "0 numbers");
        refuses(Axis::Longitude, "1 2 3 4", "4 numbers");
        refuses(Axis::Longitude, "here", "no place");
        refuses(Axis::Longitude, "3-0", "can't be read");
    }

    #[test]
    fn every_form_shown_reads_back() {
        for (axis, degrees) in [(Axis::Latitude, 44.012_345_6), (Axis::Longitude, -30.999_999_9), (Axis::Latitude, 0.0)]
        {
            for (text, off) in
                [(axis.decimal(degrees), 1e-7), (axis.minutes(degrees), 1e-5), (axis.seconds(degrees), 2e-6)]
            {
                approx::assert_abs_diff_eq!(axis.read(&text).unwrap(), degrees, epsilon = off);
            }
        }
        assert_eq!(Axis::Longitude.minutes(-30.999_999_9), "31\u{b0} 00.000\u{2032} W");
        assert_eq!(Axis::Latitude.seconds(44.51), "44\u{b0} 30\u{2032} 36.00\u{2033} N");
    }
}
