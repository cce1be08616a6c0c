//! What is noted down while a recovery is flown: the path, and the leasts and mosts that lie at samples.
//!
//! One recovery or several side by side, by the same source, so that a margin has the same bits in the margins of one run
//! and in a study of many.

use glam::DVec3;

use super::seen::{Seen, Slow};
use super::spot::Spot;
use crate::geometry::{HalfPlane, Region, STRIDE};
use crate::lane::{Lane, Words as _};
use crate::recovery::stretch;
use crate::run::{Sample, Watch};

/// Load factor below which a stall speed says nothing.
pub(super) const LEAST_LOAD: f64 = 0.05;

/// The first sample of a stretch: the one known before, or this one.
#[inline(always)]
fn first<L: Lane>(before: L, at: L, stretch: L, number: f64, flying: L::Words) -> L {
    let there = (stretch - L::splat(number)).abs().lt(L::splat(0.5));
    L::select(there.and(before.lt(L::splat(0.0))).and(flying), at, before)
}

/// The largest value so far, and the sample it belongs to.
#[derive(Debug, Clone, Copy)]
struct Most<L> {
    value: L,
    at: L,
}

impl<L: Lane> Most<L> {
    fn none() -> Self {
        Self { value: L::splat(f64::NEG_INFINITY), at: L::splat(0.0) }
    }

    #[inline(always)]
    fn offer(&mut self, value: L, at: L, among: L::Words) {
        let more = value.gt(self.value).and(among);
        self.value = L::select(more, value, self.value);
        self.at = L::select(more, at, self.at);
    }
}

/// Where a speed is least in stall speeds: where its square over the load is, and no division is needed to tell.
#[derive(Debug, Clone, Copy)]
struct Slowest<L> {
    speed2: L,
    load: L,
    at: L,
}

impl<L: Lane> Slowest<L> {
    fn none() -> Self {
        Self { speed2: L::splat(f64::INFINITY), load: L::splat(1.0), at: L::splat(0.0) }
    }

    #[inline(always)]
    fn offer(&mut self, speed2: L, load: L, at: L, among: L::Words) {
        let slower = (speed2 * self.load).lt(self.speed2 * load).and(among);
        self.speed2 = L::select(slower, speed2, self.speed2);
        self.load = L::select(slower, load, self.load);
        self.at = L::select(slower, at, self.at);
    }

    fn lane(&self, lane: usize) -> Slow {
        Slow { speed: self.speed2.lane(lane).sqrt(), load: self.load.lane(lane), at: self.at.lane(lane) }
    }
}

/// Watches recoveries. May be used again for the next ones, which spares memory its coming and going.
#[derive(Debug)]
pub(super) struct Gauge<'a, L> {
    spots: Vec<Spot<L>>,
    /// Of each limit the region that the jet keeps inside of or off, where that has few edges.
    regions: Vec<Option<&'a Region>>,
    /// The signed distances to those within rounding, at every [`STRIDE`]th sample.
    rough: Vec<Vec<L>>,
    line: Option<HalfPlane>,
    /// Where the eyes are: east, north, height above home's ground.
    eye: DVec3,
    /// Samples that a speed has to last to count as held.
    window: usize,
    /// Squares of airspeed and loads, summed up to each of the last so many samples and with it, in a ring.
    sums: Vec<[L; 2]>,
    /// Place of the oldest of them.
    oldest: usize,
    /// The same up to now, and up to the last sample flown.
    sum: [L; 2],
    flown: [L; 2],
    /// Number of samples flown.
    length: L,
    /// Squared distance from the eyes.
    slant2: Most<L>,
    highest: Most<L>,
    /// Height below home's.
    lowest: Most<L>,
    bank: Most<L>,
    /// Distance behind the flight line.
    behind: Most<L>,
    /// The slowest moment.
    slow: Slowest<L>,
    /// The slowest window, by its means.
    held: Slowest<L>,
    /// First samples of joining and of the circle; -1 before them.
    joining_at: L,
    circle_at: L,
}

impl<'a, L: Lane> Gauge<'a, L> {
    /// For a pair of eyes at a place and a height above home's ground, a number of samples that a speed has to last, a
    /// region a limit, and a flight line.
    pub(super) fn new(eye: DVec3, window: usize, regions: Vec<Option<&'a Region>>, line: Option<HalfPlane>) -> Self {
        let (none, zero) = (L::splat(-1.0), L::splat(0.0));
        Self {
            sums: Vec::with_capacity(window),
            oldest: 0,
            sum: [zero; 2],
            flown: [zero; 2],
            spots: Vec::new(),
            rough: vec![Vec::new(); regions.len()],
            regions,
            line,
            eye,
            window,
            length: zero,
            slant2: Most::none(),
            highest: Most::none(),
            lowest: Most::none(),
            bank: Most::none(),
            behind: Most::none(),
            slow: Slowest::none(),
            held: Slowest::none(),
            joining_at: none,
            circle_at: none,
        }
    }

    /// Forgets what was flown.
    pub(super) fn clear(&mut self) {
        let (mut spots, mut rough) = (std::mem::take(&mut self.spots), std::mem::take(&mut self.rough));
        spots.clear();
        rough.iter_mut().for_each(Vec::clear);
        let regions = std::mem::take(&mut self.regions);
        *self = Self { spots, rough, ..Self::new(self.eye, self.window, regions, self.line) };
    }

    /// What one lane saw.
    pub(super) fn lane(&self, lane: usize) -> Seen<'_, L> {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sample numbers")]
        let sample = |value: L| value.lane(lane) as usize;
        let first = |value: L| (value.lane(lane) >= 0.0).then(|| sample(value));
        let most = |most: &Most<L>| (most.value.lane(lane), sample(most.at));
        Seen {
            spots: &self.spots,
            rough: &self.rough,
            lane,
            length: sample(self.length),
            slant2: most(&self.slant2),
            highest: most(&self.highest),
            lowest: most(&self.lowest),
            bank: Some(most(&self.bank)).filter(|bank| bank.0 >= 0.0),
            behind: self.line.map(|_| most(&self.behind)),
            slow: self.slow.lane(lane),
            held: self.held(lane, sample(self.length)),
            joining: first(self.joining_at),
            circle: first(self.circle_at),
        }
    }

    /// The slowest window of one lane; of a run that is shorter, all of it.
    fn held(&self, lane: usize, length: usize) -> Slow {
        if length > self.window || length == 0 {
            return self.held.lane(lane);
        }
        #[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
        let ([speed2, load], samples) = (self.flown.map(|sum| sum.lane(lane)), length as f64);
        Slow { speed: (speed2 / samples).sqrt(), load: load / samples, at: (samples - 1.0) / 2.0 }
    }

    /// The distances to the regions.
    #[inline(always)]
    fn see_regions(&mut self, x: L, y: L) {
        for (region, rough) in self.regions.iter().zip(&mut self.rough) {
            if let Some(region) = region {
                rough.push(region.signed_abreast(x, y));
            }
        }
    }

    /// The means of the window that ends with this sample, once that is a whole one after the first sample.
    #[inline(always)]
    fn see_window(&mut self, index: usize, [speed2, load]: [L; 2], flying: L::Words) {
        let now = [self.sum[0] + speed2, self.sum[1] + load];
        self.sum = now;
        self.flown = [L::select(flying, now[0], self.flown[0]), L::select(flying, now[1], self.flown[1])];
        if index < self.window {
            self.sums.push(now);
            return;
        }
        let before = std::mem::replace(&mut self.sums[self.oldest], now);
        self.oldest = if self.oldest + 1 == self.window { 0 } else { self.oldest + 1 };
        #[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
        let (share, middle) =
            (L::splat(1.0 / self.window as f64), L::splat(index as f64 - (self.window - 1) as f64 / 2.0));
        self.held.offer((now[0] - before[0]) * share, (now[1] - before[1]) * share, middle, flying);
    }
}

impl<L: Lane> Watch<L> for Gauge<'_, L> {
    #[inline(always)]
    fn see(&mut self, sample: &Sample<'_, L>, flying: L::Words) {
        let state = sample.state;
        let stretch = sample.stretch;
        let (speed2, load) = (state.airspeed * state.airspeed, sample.wanted_load.max(L::splat(LEAST_LOAD)));
        #[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
        let at = L::splat(sample.index as f64);
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let (x, y, height) = (state.x, state.y, state.height);
        let spot = Spot { x, y, height, way: zero, rise: zero, bank: state.bank, energy: state.energy };
        let spot = match self.spots.last() {
            Some(last) => spot.after(last),
            None => spot,
        };
        self.spots.push(spot);
        self.length = L::select(flying, at + one, self.length);

        let (eye_x, eye_y, eye_up) = (L::splat(self.eye.x), L::splat(self.eye.y), L::splat(self.eye.z));
        let (east, north, up) = (state.x - eye_x, state.y - eye_y, state.height - eye_up);
        self.slant2.offer(east * east + north * north + up * up, at, flying);
        self.highest.offer(state.height, at, flying);
        self.lowest.offer(-state.height, at, flying);
        self.bank.offer(state.bank.abs(), at, flying.and(stretch.gt(L::splat(stretch::LEVELLING))));

        if let Some(line) = self.line {
            let (off_x, off_y) = (state.x - L::splat(line.through.x), state.y - L::splat(line.through.y));
            let before = off_x * L::splat(line.inward.x) + off_y * L::splat(line.inward.y);
            self.behind.offer(-before, at, flying);
        }
        if sample.index.is_multiple_of(STRIDE) {
            self.see_regions(state.x, state.y);
        }

        self.slow.offer(speed2, load, at, flying);
        self.see_window(sample.index, [speed2, load], flying);

        self.joining_at = first(self.joining_at, at, stretch, stretch::JOINING, flying);
        self.circle_at = first(self.circle_at, at, stretch, stretch::CIRCLING, flying);
    }
}
