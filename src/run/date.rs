//! A day of the calendar, year-month-day.

use crate::field::Month;
use crate::sun::Day;

/// The month of a day written as `2026-04-18`, where there is such a day.
pub(super) fn month(text: &str) -> Option<Month> {
    parts(text).map(|(month, _)| month)
}

/// A day written as `2026-04-18`, where there is such a day.
pub fn day(text: &str) -> Option<Day> {
    parts(text).map(|(_, day)| day)
}

/// The month by its name, and the day in numbers.
fn parts(text: &str) -> Option<(Month, Day)> {
    let digits = |part: &str, count: usize| {
        let fits = part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit());
        fits.then(|| part.parse::<u32>().ok()).flatten()
    };
    let mut parts = text.split('-');
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    let date = Day { year: digits(year, 4)?.cast_signed(), month: digits(month, 2)?, day: digits(day, 2)? };
    let Day { year, month, day } = date;
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let (month, days) = match month {
        1 => (Month::Jan, 31),
        2 => (Month::Feb, if leap { 29 } else { 28 }),
        3 => (Month::Mar, 31),
        4 => (Month::Apr, 30),
        5 => (Month::May, 31),
        6 => (Month::Jun, 30),
        7 => (Month::Jul, 31),
        8 => (Month::Aug, 31),
        9 => (Month::Sep, 30),
        10 => (Month::Oct, 31),
        11 => (Month::Nov, 30),
        12 => (Month::Dec, 31),
        _ => return None,
    };
    (parts.next().is_none() && (1..=days).contains(&day)).then_some((month, date))
}

/// Whether a text is a day of the calendar, written as `2026-04-18`.
pub fn is_day(text: &str) -> bool {
    month(text).is_some()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn knows_the_calendar() {
        assert_eq!(month("2026-04-18"), Some(Month::Apr));
        assert_eq!(day("2026-04-18"), Some(Day { year: 2026, month: 4, day: 18 }));
        // Gregorian calendar: 2000 was a leap year, 1900 was not.
        assert_eq!(month("2000-02-29"), Some(Month::Feb));
        for no_day in
            ["1900-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-4-18", "18-04-2026", "2026-04-18-1", ""]
        {
            assert_eq!(month(no_day), None, "{no_day}");
        }
    }
}
