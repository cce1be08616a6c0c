//! Figures that others have published, each with who says so and how it was read.

mod air;
mod circles;
mod earth;
mod eyes;
mod paths;
mod shares;
mod sky;
mod turns;

use super::line::{Group, Line, Lines};

pub(super) fn lines() -> Vec<Line> {
    let mut lines = Lines::of(Group::Published);
    turns::lines(&mut lines);
    paths::lines(&mut lines);
    air::lines(&mut lines);
    shares::lines(&mut lines);
    circles::lines(&mut lines);
    eyes::lines(&mut lines);
    earth::lines(&mut lines);
    sky::lines(&mut lines);
    lines.done()
}

/// One of a unit, in SI; not a number where there is no such unit.
fn one<Q: crate::units::Quantity>(unit: &str) -> f64 {
    format!("1 {unit}").parse::<Q>().map_or(f64::NAN, |one| one.si())
}
