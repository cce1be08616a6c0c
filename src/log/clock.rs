//! Which moment does a text name? Days and times of day as logs write them.

use time::{Date, Month};

/// Seconds of a day.
pub(super) const DAY_S: f64 = 86_400.0;
/// Longer than any day and time, bytes: what is peeled off it layer by layer has few of them.
const LONGEST: usize = 48;
/// The Julian day on which Unix time begins, 1970-01-01 (closed form: the calendar's own count).
const UNIX_DAY: i32 = 2_440_588;

/// A moment, as far as a text tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Moment {
    /// The day, where one is written.
    pub(super) day: Option<Date>,
    /// Seconds since midnight; outside of a day where the zone says so.
    pub(super) second: f64,
}

impl Moment {
    /// Seconds since 1970 began, where the day is known, else since midnight.
    pub(super) fn seconds(self) -> f64 {
        self.day.map_or(0.0, unix_s) + self.second
    }
}

/// Seconds since 1970 began at the start of a day.
pub(super) fn unix_s(day: Date) -> f64 {
    f64::from(day.to_julian_day() - UNIX_DAY) * DAY_S
}

/// The day on which so many seconds since 1970 are over.
pub(super) fn day_of(unix_s: f64) -> Option<Date> {
    let days = (unix_s / DAY_S).floor();
    #[allow(clippy::cast_possible_truncation, reason = "a whole number below 3e6")]
    let whole = (days.abs() < 3e6).then_some(days as i32)?;
    Date::from_julian_day(whole + UNIX_DAY).ok()
}

/// A day and time, or a time alone: `2026-05-24T12:00:01.25Z`, `24.05.2026 12:00`, `12:00:01,5 pm`.
pub(super) fn moment(text: &str) -> Option<Moment> {
    let text = text.trim();
    if text.len() > LONGEST {
        return None;
    }
    let Some((front, back)) = text.split_once(['T', 't', ' ']) else { return time_of_day(text).map(alone) };
    match day(front) {
        Some(day) => time_of_day(back).map(|second| Moment { day: Some(day), second }),
        None => time_of_day(text).map(alone),
    }
}

fn alone(second: f64) -> Moment {
    Moment { day: None, second }
}

/// A day, the year first or last; with slashes the month is in the middle unless only the other way makes a day.
pub(super) fn day(text: &str) -> Option<Date> {
    let text = text.trim();
    if text.len() == 8 && text.bytes().all(|byte| byte.is_ascii_digit()) {
        return date(&text[..4], &text[4..6], &text[6..]);
    }
    let mut parts = text.splitn(3, ['-', '/', '.']);
    let (first, second, third) = (parts.next()?, parts.next()?, parts.next()?);
    if first.len() == 4 {
        return date(first, second, third);
    }
    (third.len() == 4).then(|| date(third, second, first).or_else(|| date(third, first, second))).flatten()
}

/// A day from its parts, a year of two digits being one from 1980 to 2079.
pub(super) fn date(year: &str, month: &str, day: &str) -> Option<Date> {
    let number: i32 = digits(year)?.try_into().ok()?;
    let year = match (year.len(), number) {
        (2, 80..) => number + 1900,
        (2, _) => number + 2000,
        _ => number,
    };
    let month = Month::try_from(u8::try_from(digits(month)?).ok()?).ok()?;
    Date::from_calendar_date(year, month, u8::try_from(digits(day)?).ok()?).ok()
}

/// A whole number of digits alone.
pub(super) fn digits(text: &str) -> Option<u32> {
    let plain = !text.is_empty() && text.len() < 9 && text.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

/// Seconds since midnight, in UTC where a zone is written.
fn time_of_day(text: &str) -> Option<f64> {
    let text = text.trim();
    let lower = text.to_ascii_lowercase();
    for (ending, noon) in [("am", 0.0), ("pm", 12.0)] {
        if let Some(front) = lower.strip_suffix(ending) {
            let second = time_of_day(front)?;
            return (second < 13.0 * 3600.0).then_some(second % (DAY_S / 2.0) + noon * 3600.0);
        }
    }
    if let Some(front) = lower.strip_suffix('z').or_else(|| lower.strip_suffix("utc")) {
        return time_of_day(front);
    }
    if let Some(at) = text.rfind(['+', '-', '\u{2212}']).filter(|&at| at > 0) {
        let sign = if text[at..].starts_with('+') { 1.0 } else { -1.0 };
        let zone = text[at..].trim_start_matches(['+', '-', '\u{2212}']);
        let (hours, minutes) = zone.split_once(':').or_else(|| zone.split_at_checked(2)).unwrap_or((zone, ""));
        let minutes = if minutes.is_empty() { 0 } else { digits(minutes)? };
        return Some(time_of_day(&text[..at])? - sign * f64::from(digits(hours)? * 60 + minutes) * 60.0);
    }
    let mut parts = text.split(':');
    let (hours, minutes) = (digits(parts.next()?)?, digits(parts.next()?)?);
    let seconds = parts.next().unwrap_or("0");
    let plain = seconds.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.' || byte == b',');
    let seconds: f64 = if seconds.contains(',') { seconds.replace(',', ".").parse() } else { seconds.parse() }.ok()?;
    // A second of 60 is a leap second.
    let fits = plain && parts.next().is_none() && hours < 25 && minutes < 60 && seconds < 61.0;
    fits.then(|| f64::from(hours * 3600 + minutes * 60) + seconds)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_as_logs_write_them() {
        // Worked by hand: 2026-05-24 is 20597 days after 1970-01-01 (56 years, 14 leap days, 143 days of 2026).
        let day_s = 20_597.0 * DAY_S;
        for (text, dated, seconds) in [
            ("2026-05-24T12:00:01.25Z", true, 43_201.25),
            ("2026-05-24T14:00:01.25+02:00", true, 43_201.25),
            ("2026-05-24 10:30:00-0130", true, 43_200.0),
            ("2026-05-24T12:00", true, 43_200.0),
            ("24.05.2026 12:00:01,5", true, 43_201.5),
            ("05/24/2026 12:00:00", true, 43_200.0),
            ("24/05/2026 12:00:00 PM", true, 43_200.0),
            ("20260524 00:00:00", true, 0.0),
            ("2026-05-24T01:00:00+02", true, -3600.0),
            ("12:00:01.5", false, 43_201.5),
            ("1:02:03 pm", false, 46_923.0),
            ("12:30:00 AM", false, 1800.0),
        ] {
            let read = moment(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(read.day.is_some(), dated, "{text}");
            assert_eq!(read.seconds(), seconds + if dated { day_s } else { 0.0 }, "{text}");
        }
        for text in
            ["", "noon", "12", "12:61:00", "2026-13-01T12:00:00", "12:00:00:00", "-1:00", "12:00:1e1", "25:00:00"]
        {
            assert_eq!(moment(text), None, "{text}");
        }
        assert_eq!(day_of(day_s + 5.0).unwrap().to_string(), "2026-05-24");
    }
}
