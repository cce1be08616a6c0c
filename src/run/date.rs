//! A day of the calendar, year-month-day.

use time::Date;
use time::format_description::well_known::Iso8601;

use crate::field::Month;

/// The month of a day written as `2026-04-18`, where there is such a day.
pub(super) fn month(text: &str) -> Option<Month> {
    day(text).map(|day| day.month().into())
}

/// A day written as `2026-04-18`, where there is such a day.
pub fn day(text: &str) -> Option<Date> {
    // The standard knows other ways to write one.
    let dash = |index: usize| index == 4 || index == 7;
    let fits = |(index, byte): (usize, u8)| if dash(index) { byte == b'-' } else { byte.is_ascii_digit() };
    let plain = text.len() == 10 && text.bytes().enumerate().all(fits);
    plain.then(|| Date::parse(text, &Iso8601::DATE).ok()).flatten()
}

/// Whether a text is a day of the calendar, written as `2026-04-18`.
pub fn is_day(text: &str) -> bool {
    day(text).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn knows_the_calendar() {
        assert_eq!(month("2026-04-18"), Some(Month::Apr));
        assert_eq!(day("2026-04-18"), Date::from_calendar_date(2026, time::Month::April, 18).ok());
        // Gregorian calendar: 2000 was a leap year, 1900 was not.
        assert_eq!(month("2000-02-29"), Some(Month::Feb));
        for no_day in [
            "1900-02-29",
            "2026-04-31",
            "2026-13-01",
            "2026-00-10",
            "2026-4-18",
            "18-04-2026",
            "2026-04-18-1",
            "2026-W16-6",
            "2026-108",
            "20260418",
            "",
        ] {
            assert_eq!(month(no_day), None, "{no_day}");
        }
    }
}
