//! Many recoveries: which circle holds here today, up to what wind, and from where a loss is recovered; and one
//! recovery against the sun of a whole day.

pub mod envelope;
pub mod glare;
pub mod keep_inside;
pub mod losses;
pub mod radius;
pub mod remedy;
pub mod stats;
mod tally;
pub mod verdict;
pub mod wind_limit;
pub mod work;

use crate::margins::Scorer;
use crate::run::{Scenario, WindChoice, draw};

pub use tally::{LawTally, LimitTally, Tally};

/// How long the plan as entered takes to fly and to judge, in recoveries of 100 s over flat ground, 1 at least: what a
/// coarse answer is cut down by, so that it comes at once. The clock has no say in it, as answers must not depend on it.
fn costliness(scenario: &Scenario) -> f64 {
    let plan = draw(scenario, 0, WindChoice::Mean);
    let took = Scorer::new(scenario).score(&[plan]).first().map_or(0.0, |score| score.end_s);
    let ground = if scenario.field.ground.is_flat() { 1.0 } else { 1.5 };
    (took / 100.0 * ground).max(1.0)
}
