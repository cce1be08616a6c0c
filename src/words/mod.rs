//! What a limit, a verdict, a share or a quantity is called, and how it is printed: the one place that every report asks.

pub mod cautions;
pub mod checks;
mod counts;
pub mod debrief;
pub mod help;
mod losses;
mod margins;
mod names;
mod people;
mod quantity;
pub mod rehearsal;
mod remedy;
mod studies;
mod units;

pub use crate::units::{capital, figure, left_of, number};
pub use counts::{counted, outcomes};
pub use losses::{keep_inside, kept_inside, looked, looked_at, lost};
pub use margins::{gap, lacked, left, margin};
pub use names::{ending, ending_key, failsafe_action, gain, guidance, loss, outcome_key, turn, wind, wind_key};
pub use people::{falls, glides, passes, people};
pub use quantity::{bearing, both_norths, fists, gusts, hand_held, height, metered, pair, place, speed, true_minus};
pub use remedy::{change, remedy};
pub use studies::{
    asks, direction, end, limit, met, missed, shortfall, shortfalls, span, standing, stands, up_to, usable, way,
};
pub use units::{Measure, Pair, Units};

/// The name of a limit without its rule: of "goat paddock, no-fly" and of "obstacle: lone oak" what people call them.
pub fn bare(limit: &str) -> &str {
    let name = limit.strip_prefix("obstacle: ").unwrap_or(limit);
    let is_rule = |rule: &str| ["no-fly", "people", "caution"].contains(&rule) || rule.starts_with("above ");
    name.rsplit_once(", ").filter(|(_, rule)| is_rule(rule)).map_or(name, |(name, _)| name)
}

/// Said where a thread that worked on something ended without an answer.
pub const BROKE_OFF: &str = "the program broke off over it, which is a fault of this program";

/// Said on a print where a study is missing.
pub fn not_made(what: &str) -> String {
    format!("{what}: not worked out for this print.")
}

#[cfg(test)]
mod tests {
    use super::bare;

    #[test]
    fn a_limit_without_its_rule_is_what_people_call_it() {
        for (limit, name) in [
            ("goat paddock, no-fly", "goat paddock"),
            ("wood, above 30 m", "wood"),
            ("pits and cars, people", "pits and cars"),
            ("Mill, the old one, caution", "Mill, the old one"),
            ("Mill, the old one", "Mill, the old one"),
            ("obstacle: lone oak", "lone oak"),
            ("flight line", "flight line"),
        ] {
            assert_eq!(bare(limit), name);
        }
    }
}
