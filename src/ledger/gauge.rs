//! What is noted down while a recovery is flown: the path, and the leasts and mosts that lie at samples.
//!
//! One recovery or several side by side, by the same source, so that a margin has the same bits in a ledger of one run
//! and in a study of many.

use glam::DVec2;

use crate::lane::{Lane, Words as _};
use crate::recovery::stretch;
use crate::run::{Sample, Watch};

/// Load factor below which a stall speed says nothing.
pub(super) const LEAST_LOAD: f64 = 0.05;

/// One sample of the path.
#[derive(Debug, Clone, Copy)]
struct Spot<L> {
    x: L,
    y: L,
    height: L,
    /// Way over the ground up to here, m.
    way: L,
    /// Way up and down, m.
    rise: L,
    bank: L,
    energy: L,
}

impl<L: Lane> Spot<L> {
    /// The same with the ways up to here.
    #[inline(always)]
    fn after(self, last: &Self) -> Self {
        let (east, north) = (self.x - last.x, self.y - last.y);
        let way = last.way + (east * east + north * north).sqrt();
        Self { way, rise: last.rise + (self.height - last.height).abs(), ..self }
    }
}

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

/// Watches recoveries. May be used again for the next ones, which spares memory its coming and going.
#[derive(Debug)]
pub(super) struct Gauge<L> {
    spots: Vec<Spot<L>>,
    /// Where the eyes are: east, north, height above home's ground.
    eye: [f64; 3],
    /// Number of samples flown.
    length: L,
    /// Squared distance from the eyes.
    slant2: Most<L>,
    highest: Most<L>,
    /// Height below home's.
    lowest: Most<L>,
    bank: Most<L>,
    /// Speed and load where their ratio to the stall is least.
    slow_speed2: L,
    slow_load: L,
    slow_at: L,
    /// First samples of the join and of the circle; -1 before them.
    join_at: L,
    circle_at: L,
}

impl<L: Lane> Gauge<L> {
    /// For a pair of eyes at a place and a height above home's ground.
    pub(super) fn new(stand: DVec2, eye_m: f64) -> Self {
        let none = L::splat(-1.0);
        Self {
            spots: Vec::new(),
            eye: [stand.x, stand.y, eye_m],
            length: L::splat(0.0),
            slant2: Most::none(),
            highest: Most::none(),
            lowest: Most::none(),
            bank: Most::none(),
            slow_speed2: L::splat(f64::INFINITY),
            slow_load: L::splat(1.0),
            slow_at: L::splat(0.0),
            join_at: none,
            circle_at: none,
        }
    }

    /// Forgets what was flown.
    pub(super) fn clear(&mut self) {
        let [x, y, eye_m] = self.eye;
        let mut spots = std::mem::take(&mut self.spots);
        spots.clear();
        *self = Self { spots, ..Self::new(DVec2::new(x, y), eye_m) };
    }

    /// What one lane saw.
    pub(super) fn lane(&self, lane: usize) -> Seen<'_, L> {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sample numbers")]
        let sample = |value: L| value.lane(lane) as usize;
        let first = |value: L| (value.lane(lane) >= 0.0).then(|| sample(value));
        let most = |most: &Most<L>| (most.value.lane(lane), sample(most.at));
        Seen {
            spots: &self.spots,
            lane,
            length: sample(self.length),
            slant2: most(&self.slant2),
            highest: most(&self.highest),
            lowest: most(&self.lowest),
            bank: Some(most(&self.bank)).filter(|bank| bank.0 >= 0.0),
            slow: (self.slow_speed2.lane(lane).sqrt(), self.slow_load.lane(lane), sample(self.slow_at)),
            join: first(self.join_at),
            circle: first(self.circle_at),
        }
    }
}

impl<L: Lane> Watch<L> for Gauge<L> {
    #[inline(always)]
    fn see(&mut self, sample: &Sample<'_, L>, flying: L::Words) {
        let state = sample.state;
        let Sample { load, stretch, .. } = *sample;
        #[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
        let at = L::splat(sample.index as f64);
        let (zero, one) = (L::splat(0.0), L::splat(1.0));
        let spot = Spot {
            x: state.x,
            y: state.y,
            height: state.height,
            way: zero,
            rise: zero,
            bank: state.bank,
            energy: state.energy,
        };
        let spot = match self.spots.last() {
            Some(last) => spot.after(last),
            None => spot,
        };
        self.spots.push(spot);
        self.length = L::select(flying, at + one, self.length);

        let [eye_x, eye_y, eye_up] = self.eye;
        let (eye_x, eye_y, eye_up) = (L::splat(eye_x), L::splat(eye_y), L::splat(eye_up));
        let (east, north, up) = (state.x - eye_x, state.y - eye_y, state.height - eye_up);
        self.slant2.offer(east * east + north * north + up * up, at, flying);
        self.highest.offer(state.height, at, flying);
        self.lowest.offer(-state.height, at, flying);
        self.bank.offer(state.bank.abs(), at, flying.and(stretch.gt(L::splat(stretch::LEVELLING))));

        // Speed over stall speed is least where its square over the load is, and no division is needed to tell.
        let speed2 = state.airspeed * state.airspeed;
        let load = load.max(L::splat(LEAST_LOAD));
        let slower = (speed2 * self.slow_load).lt(self.slow_speed2 * load).and(flying);
        self.slow_speed2 = L::select(slower, speed2, self.slow_speed2);
        self.slow_load = L::select(slower, load, self.slow_load);
        self.slow_at = L::select(slower, at, self.slow_at);

        self.join_at = first(self.join_at, at, stretch, stretch::JOIN, flying);
        self.circle_at = first(self.circle_at, at, stretch, stretch::CIRCLING, flying);
    }
}

/// What was seen of one recovery.
#[derive(Debug, Clone, Copy)]
pub(super) struct Seen<'a, L> {
    spots: &'a [Spot<L>],
    lane: usize,
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
    /// Speed in m/s, load factor and sample where the speed is least in stall speeds.
    pub(super) slow: (f64, f64, usize),
    /// First sample of the join.
    pub(super) join: Option<usize>,
    /// First sample of the circle.
    pub(super) circle: Option<usize>,
}

impl<L: Lane> Seen<'_, L> {
    /// The last sample.
    pub(super) fn last(&self) -> usize {
        self.length - 1
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
