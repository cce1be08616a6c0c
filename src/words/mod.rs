//! What a limit, a verdict, a share or a quantity is called, and how it is printed: the one place that every report asks.

pub mod cautions;
mod counts;
pub mod help;
mod losses;
mod margins;
mod names;
mod quantity;
mod studies;

pub use counts::{counted, outcomes};
pub use losses::{keep_inside, kept_inside, looked, looked_at, lost};
pub use margins::{amount, gap, leaving, left, margin};
pub use names::{ending, ending_key, failsafe_action, loss, turn, wind, wind_key};
pub use quantity::{bearing, gusts, height, number, pair, place, speed};
pub use studies::{asks, direction, end, limit, met, up_to, usable, way};

/// With a capital letter.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The name of a limit without its rule.
pub fn bare(limit: &str) -> &str {
    limit.split_once(": ").map_or(limit, |(_, name)| name)
}
