//! Fresh draws, trials and flights, new at every run: do intervals and rings hold the truth as often as they say?
//!
//! Chance alone moves such a share. Each line leaves it room for four standard errors or one in ten thousand at either end:
//! of a thousand runs of a right program a few miss a line, and hold it again with another seed.

mod rings;
mod shares;
mod winds;

use rand::SeedableRng as _;
use rand_xoshiro::Xoshiro256PlusPlus;

use super::line::{Expected, Group, Line, Lines};
use crate::study::work::Work;

/// How much is drawn and flown anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Depth {
    /// Draws of each interval.
    pub draws: u32,
    /// Logs for the wind.
    pub logs: u64,
    /// Fields that rings are tried on.
    pub fields: usize,
    /// Trials that a ring is made of.
    pub trials: u64,
    /// Fresh trials that are held against it.
    pub fresh: u64,
}

impl Depth {
    /// Some seconds of work.
    pub const fn usual() -> Self {
        Self { draws: 4000, logs: 1000, fields: 9, trials: 600, fresh: 1000 }
    }

    /// A tenth of it, for tests.
    pub const fn brief() -> Self {
        Self { draws: 500, logs: 150, fields: 2, trials: 100, fresh: 100 }
    }
}

pub(super) fn lines(depth: &Depth, seed: u64, work: &Work) -> Vec<Line> {
    let mut lines = Lines::of(Group::Coverage);
    shares::lines(&mut lines, depth, seed);
    rings::lines(&mut lines, depth, seed, work);
    winds::lines(&mut lines, depth, seed, work);
    lines.done()
}

/// A generator of one purpose; other purposes and jobs get others.
fn dice(seed: u64, purpose: u64, job: u64) -> Xoshiro256PlusPlus {
    // An odd number far from simple ones keeps neighbouring seeds apart.
    let mixed = seed ^ purpose.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ job.rotate_left(32);
    Xoshiro256PlusPlus::seed_from_u64(mixed)
}

/// Four standard errors of a share seen in so many repeats.
fn chance(share: f64, repeats: f64) -> f64 {
    4.0 * (share * (1.0 - share) / repeats).sqrt()
}

/// A share that should be so large, but for chance and for what may be off besides.
fn share(lines: &mut Lines, name: &str, (seen, repeats): (f64, f64), (share, besides): (f64, f64), source: &str) {
    let within = chance(share, repeats) + besides;
    lines.add(name, seen / repeats, Expected::Between(share - within, (share + within).min(1.0)), "", source);
}
