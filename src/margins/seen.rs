//! What was noted down of one recovery, out of several flown side by side.

use glam::DVec2;

use super::spot::Spot;
use crate::geometry::STRIDE;
use crate::lane::Lane;

/// A speed in m/s, the load factor it goes with, and the sample number, with a fraction, where that was.
#[derive(Debug, Clone, Copy)]
pub(super) struct Slow {
    pub(super) speed: f64,
    pub(super) load: f64,
    pub(super) at: f64,
}

/// What was seen of one recovery.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen<'a, L> {
    pub(super) spots: &'a [Spot<L>],
    /// A list a limit, of signed distances to its region within rounding at every [`STRIDE`]th sample; empty where there
    /// are none.
    pub(super) rough: &'a [Vec<L>],
    pub(super) lane: usize,
    /// Number of samples.
    pub(super) length: usize,
    /// Largest squared distance from the eyes, m^2, and its sample.
    pub(super) slant2: (f64, usize),
    /// Largest height above home's ground, m, and its sample.
    pub(super) highest: (f64, usize),
    /// Least height, with its sign turned, and its sample.
    pub(super) lowest: (f64, usize),
    /// Steepest bank since it was commanded, rad, and its sample.
    pub(super) bank: Option<(f64, usize)>,
    /// Furthest behind the flight line, m, and its sample; none where there is no such line.
    pub(super) behind: Option<(f64, usize)>,
    /// The moment at which the speed is least in stall speeds.
    pub(super) slow: Slow,
    /// The same of means over the window: the middle of it.
    pub(super) held: Slow,
    /// First sample of joining.
    pub(super) joining: Option<usize>,
    /// First sample of the circle.
    pub(super) circle: Option<usize>,
}

impl<L: Lane> Seen<'_, L> {
    /// The last sample.
    pub(super) fn last(&self) -> usize {
        self.length - 1
    }

    /// The signed distances to the region of a limit, by its number, that are roughly known.
    pub(super) fn rough(&self, limit: usize) -> Option<impl Fn(usize) -> f64> {
        let rough = self.rough.get(limit).filter(|rough| !rough.is_empty())?;
        Some(|index: usize| rough[index / STRIDE].lane(self.lane))
    }

    #[inline]
    fn at(&self, index: usize, part: impl Fn(&Spot<L>) -> L) -> f64 {
        part(&self.spots[index]).lane(self.lane)
    }

    /// Where a sample is, m.
    #[inline]
    pub(super) fn point(&self, index: usize) -> DVec2 {
        DVec2::new(self.at(index, |spot| spot.x), self.at(index, |spot| spot.y))
    }

    /// Way over the ground up to a sample, m.
    #[inline]
    pub(super) fn way(&self, index: usize) -> f64 {
        self.at(index, |spot| spot.way)
    }

    /// Way up and down up to a sample, m.
    #[inline]
    pub(super) fn rise(&self, index: usize) -> f64 {
        self.at(index, |spot| spot.rise)
    }

    /// Bank at a sample, rad.
    #[inline]
    pub(super) fn bank_at(&self, index: usize) -> f64 {
        self.at(index, |spot| spot.bank)
    }

    /// Energy drawn up to a sample number with a fraction, J.
    pub(super) fn energy(&self, at: f64) -> f64 {
        self.between(at, |index| self.at(index, |spot| spot.energy))
    }

    /// Height at a sample number with a fraction, m.
    pub(super) fn height(&self, at: f64) -> f64 {
        self.between(at, |index| self.at(index, |spot| spot.height))
    }

    /// Place at a sample number with a fraction, m.
    pub(super) fn point_between(&self, at: f64) -> DVec2 {
        let part = |part: fn(DVec2) -> f64| self.between(at, |index| part(self.point(index)));
        DVec2::new(part(|point| point.x), part(|point| point.y))
    }

    /// Linear between samples.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the path's length")]
    fn between(&self, at: f64, value: impl Fn(usize) -> f64) -> f64 {
        let index = (at.max(0.0) as usize).min(self.last());
        let next = (index + 1).min(self.last());
        let (here, there) = (value(index), value(next));
        here + (there - here) * (at - at.floor())
    }
}
