//! One line of the comparison: a number of both plans, the difference, and which of them is better where one can say.

use std::cmp::Ordering;

/// Whether the plan on the screen is better than the kept one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judged {
    /// It is.
    Better,
    /// It is worse.
    Worse,
    /// They are alike.
    Same,
    /// Neither is better for it, or nobody knows.
    Open,
}

impl Judged {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Better => "better",
            Self::Worse => "worse",
            Self::Same => "same",
            Self::Open => "",
        }
    }

    /// Where more is better.
    pub(super) const fn more(order: Ordering) -> Self {
        match order {
            Ordering::Greater => Self::Better,
            Ordering::Less => Self::Worse,
            Ordering::Equal => Self::Same,
        }
    }
}

/// One line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is about.
    pub name: String,
    /// The plan on the screen.
    pub now: String,
    /// The kept plan.
    pub kept: String,
    /// How much more the plan on the screen has; empty where that says nothing.
    pub difference: String,
    /// Which is better.
    pub judged: Judged,
}

/// What one would rather have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wanted {
    More,
    Less,
    Either,
}

impl Line {
    /// Of words that are alike or not, neither better.
    pub(super) fn words(name: &str, now: String, kept: String) -> Self {
        let judged = if now == kept { Judged::Same } else { Judged::Open };
        Self { name: name.to_owned(), now, kept, difference: String::new(), judged }
    }

    /// Of numbers that may not exist, `without` in words; `text` writes one with its unit.
    pub(super) fn numbers(
        name: &str,
        [now, kept]: [Option<f64>; 2],
        without: &str,
        wanted: Wanted,
        text: impl Fn(f64) -> String,
    ) -> Self {
        let written = |value: Option<f64>| value.map_or_else(|| without.to_owned(), &text);
        let difference = now.zip(kept).map(|(now, kept)| now - kept);
        let order = match (now, kept) {
            // What reads alike is alike.
            (Some(a), Some(b)) if text(a) == text(b) => Ordering::Equal,
            (Some(now), Some(kept)) => now.total_cmp(&kept),
            (now, kept) => now.is_some().cmp(&kept.is_some()),
        };
        let both = difference.is_some();
        let judged = match wanted {
            Wanted::Either if order == Ordering::Equal => Judged::Same,
            Wanted::Either => Judged::Open,
            Wanted::Less if both => Judged::more(order.reverse()),
            Wanted::More | Wanted::Less => Judged::more(order),
        };
        let difference = difference.map(|difference| signed(if order.is_eq() { 0.0 } else { difference }, &text));
        let difference = difference.unwrap_or_default();
        Self { name: name.to_owned(), now: written(now), kept: written(kept), difference, judged }
    }
}

/// A difference with its sign.
pub(super) fn signed(difference: f64, text: impl Fn(f64) -> String) -> String {
    let words = text(difference);
    if difference > 0.0 && !words.starts_with("0 ") { format!("+{words}") } else { words }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::words::number;

    #[track_caller]
    fn check(values: [Option<f64>; 2], wanted: Wanted, difference: &str, judged: Judged) {
        let line = Line::numbers("x", values, "not reached", wanted, |value| format!("{} m", number(value)));
        assert_eq!((line.difference.as_str(), line.judged), (difference, judged), "{line:?}");
    }

    #[test]
    fn numbers_are_judged_by_what_one_would_rather_have() {
        use Judged::{Better, Open, Same, Worse};
        check([Some(12.0), Some(10.0)], Wanted::More, "+2.0 m", Better);
        check([Some(12.0), Some(10.0)], Wanted::Less, "+2.0 m", Worse);
        check([Some(8.0), Some(10.0)], Wanted::Less, "\u{2212}2.0 m", Better);
        check([Some(8.0), Some(10.0)], Wanted::Either, "\u{2212}2.0 m", Open);
        check([Some(10.01), Some(10.0)], Wanted::More, "0 m", Same);
        check([None, Some(10.0)], Wanted::Less, "", Worse);
        check([Some(10.0), None], Wanted::More, "", Better);
        check([None, None], Wanted::More, "", Same);
    }
}
