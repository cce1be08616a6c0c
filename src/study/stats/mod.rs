//! How sure is a number that many runs gave: a share, a spread, and the rule for stopping early?

mod binomial;
mod looks;
mod percent;
mod reach;
mod share;
mod spread;

pub use looks::{Decision, HOPES_FOR, Looks};
pub use percent::{percent, percent_interval};
pub use reach::reach;
pub use share::{Interval, Share, claim, trials_needed};
pub use spread::{Extreme, Spread};
