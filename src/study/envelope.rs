//! Where the circle is really flown: in every direction from the hub, how far out and how far in, in how many of the
//! drawn cases.

mod around;

use std::f64::consts::TAU;

use glam::DVec2;

use crate::lane::{Lane, Words as _, Work as Lanes, widest};
use crate::recovery::stretch;
use crate::run::{Case, Sample, Scenario, Setting, Watch, Watched, WindChoice, draw, setting, watch_wide};
use crate::study::work::{Work, in_order};
use around::{Around, edges};

/// Cases that are flown together; a study that is stopped keeps whole blocks.
const BLOCK: u64 = 16;

/// What is asked of an envelope.
#[derive(Debug, Clone, PartialEq)]
pub struct EnvelopeAsk {
    /// Drawn cases.
    pub cases: u64,
    /// Shares of the cases, ascending: each gets a ring.
    pub shares: Vec<f64>,
    /// Number of bearings from the hub, the first north; 3 at least.
    pub bearings: u32,
}

/// How far from the hub a share of the cases stays.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// The share of cases.
    pub share: f64,
    /// Whether at some bearing too few cases flew for the share: there the ring is the furthest of all of them, and
    /// fewer fresh cases than the share stay inside.
    pub short: bool,
    /// No nearer to the hub than this does the share of the cases come, metres a bearing; 0 where no case flew.
    pub inner_m: Vec<f64>,
    /// No further from the hub than this does the share of the cases go, metres a bearing; 0 where no case flew.
    pub outer_m: Vec<f64>,
    /// The outer distances as places, metres; one a bearing, clockwise from north.
    pub corners: Vec<DVec2>,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Envelope {
    /// Centre of the circle as planned, metres. What the jet takes for home may lie elsewhere.
    pub hub: DVec2,
    /// One a share asked for; none where no case reached the circle.
    pub rings: Vec<Ring>,
    /// Cases flown.
    pub cases: u64,
    /// Cases that reached the circle; the rings are theirs alone.
    pub circling: u64,
    /// Number of bearings, the first north, clockwise.
    pub bearings: u32,
    /// Cases that flew on the circle at each bearing: fewer than those circling where some are handed back before they
    /// are round.
    pub flown: Vec<u64>,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}

impl EnvelopeAsk {
    /// 400 cases; half, 90 % and 99 % of them; every 5 degrees.
    pub fn usual() -> Self {
        Self { cases: 400, shares: vec![0.5, 0.9, 0.99], bearings: 72 }
    }

    /// 128 cases, the same rings: at once, to be followed by the usual one.
    pub fn coarse() -> Self {
        Self { cases: 128, ..Self::usual() }
    }
}

impl Envelope {
    /// Cases that never reached the circle.
    pub fn never(&self) -> u64 {
        self.cases - self.circling
    }
}

/// Where the circle of a scenario is flown, whole and along the swept path, from when the jet reaches it to the hand-back.
///
/// A bearing stands for the sector about it, half way to its neighbours. A ring is the least distance of as many cases
/// as make a fresh case stay inside with the probability asked for, at any one bearing. The work counts recoveries.
pub fn envelope(scenario: &Scenario, ask: &EnvelopeAsk, work: &Work) -> Envelope {
    work.expect(ask.cases);
    let (setting, edges) = (setting(scenario), edges(ask.bearings.max(3)));
    let flown = in_order(work, 0..ask.cases.div_ceil(BLOCK), |block| {
        let first = 1 + block * BLOCK;
        let numbers = first..(first + BLOCK).min(ask.cases + 1);
        let cases: Vec<Case> = numbers.map(|case| draw(scenario, case, WindChoice::Mean)).collect();
        let found = widest(Circling { scenario, setting: &setting, cases: &cases, edges: &edges });
        work.add(cases.len() as u64);
        found
    });
    let partial = flown.is_partial();
    let cases: Vec<Option<Around>> = flown.results.into_iter().flatten().collect();
    let circling: Vec<&Around> = cases.iter().flatten().collect();
    let reached: Vec<Reaches> = (0..edges.len()).map(|sector| Reaches::of(&circling, sector)).collect();
    let hub = scenario.field.hub;
    let shares = if circling.is_empty() { &[][..] } else { &ask.shares };
    Envelope {
        hub,
        rings: shares.iter().map(|&share| Ring::of(share, hub, &reached)).collect(),
        cases: cases.len() as u64,
        circling: circling.len() as u64,
        bearings: ask.bearings.max(3),
        flown: reached.iter().map(|all| all.far_m.len() as u64).collect(),
        partial,
    }
}

/// What all cases came to in one sector, metres, ascending.
struct Reaches {
    near_m: Vec<f64>,
    far_m: Vec<f64>,
}

impl Reaches {
    fn of(cases: &[&Around], sector: usize) -> Self {
        let (mut near_m, mut far_m): (Vec<f64>, Vec<f64>) =
            cases.iter().filter_map(|case| case.reach_m(sector)).map(|[near, far]| (near, far)).unzip();
        near_m.sort_by(f64::total_cmp);
        far_m.sort_by(f64::total_cmp);
        Self { near_m, far_m }
    }

    /// Nearest and furthest of a share.
    fn share(&self, share: f64) -> [f64; 2] {
        let count = self.far_m.len();
        rank(count, share).map_or([0.0; 2], |rank| [self.near_m[count - rank], self.far_m[rank - 1]])
    }

    /// Whether there are too few for a share.
    fn short(&self, share: f64) -> bool {
        let count = self.far_m.len() as f64;
        (count + 1.0) * share > count + 1e-9
    }
}

impl Ring {
    fn of(share: f64, hub: DVec2, reached: &[Reaches]) -> Self {
        let (inner_m, outer_m): (Vec<f64>, Vec<f64>) =
            reached.iter().map(|all| all.share(share)).map(|[near, far]| (near, far)).unzip();
        let count = outer_m.len() as f64;
        let place = |(index, &distance): (usize, &f64)| hub + ray(index as f64 / count) * distance;
        Self {
            share,
            short: reached.iter().any(|all| all.short(share)),
            inner_m,
            corners: outer_m.iter().enumerate().map(place).collect(),
            outer_m,
        }
    }
}

/// Which of `count` values in order a fresh one stays below with a probability, the last at most; none without a value.
///
/// Of `count + 1` values drawn alike each is as likely to be the fresh one, so that `rank / (count + 1)` is how likely it
/// is to be no more than the value of that rank (H. A. David and H. N. Nagaraja, Order Statistics, 3rd ed., section 2.5).
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and the number of values")]
fn rank(count: usize, share: f64) -> Option<usize> {
    (count > 0).then(|| ((share * (count + 1) as f64 - 1e-9).ceil() as usize).clamp(1, count))
}

/// The direction of a bearing in whole turns clockwise from north.
fn ray(turns: f64) -> DVec2 {
    let (east, north) = (TAU * turns).sin_cos();
    DVec2::new(east, north)
}

/// Cases to be flown at whatever width there is.
struct Circling<'a> {
    scenario: &'a Scenario,
    setting: &'a Setting,
    cases: &'a [Case],
    edges: &'a [DVec2],
}

impl Lanes for Circling<'_> {
    type Output = Vec<Option<Around>>;

    #[inline(always)]
    fn run<L: Lane>(self) -> Self::Output {
        let flight = Watched::of(self.scenario, self.setting);
        let mut path = Path::<L>::new();
        let mut found = Vec::with_capacity(self.cases.len());
        for few in self.cases.chunks(L::WIDTH) {
            path.clear();
            watch_wide(&flight, few, &mut path);
            found.extend(few.iter().enumerate().map(|(lane, case)| path.around(lane, case, self.edges)));
        }
        found
    }
}

/// Notes down where jets are, and from when on each is on the circle.
struct Path<L: Lane> {
    places: Vec<[L; 2]>,
    /// First sample on the circle, -1 before it, and number of samples.
    circle_at: L,
    length: L,
}

impl<L: Lane> Path<L> {
    fn new() -> Self {
        Self { places: Vec::new(), circle_at: L::splat(-1.0), length: L::splat(0.0) }
    }

    fn clear(&mut self) {
        self.places.clear();
        (self.circle_at, self.length) = (L::splat(-1.0), L::splat(0.0));
    }

    /// What one case flew of the circle; none where it never reached it.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sample numbers")]
    fn around(&self, lane: usize, case: &Case, edges: &[DVec2]) -> Option<Around> {
        let first = self.circle_at.lane(lane);
        let samples = (first >= 0.0).then(|| first as usize..self.length.lane(lane) as usize)?;
        let hub = DVec2::new(case.plan.hub_x, case.plan.hub_y);
        let mut around = Around::new(edges.len());
        for [x, y] in &self.places[samples] {
            around.fly_to(DVec2::new(x.lane(lane), y.lane(lane)) - hub, edges);
        }
        Some(around)
    }
}

impl<L: Lane> Watch<L> for Path<L> {
    #[inline(always)]
    fn see(&mut self, sample: &Sample<'_, L>, flying: L::Words) {
        self.places.push([sample.state.x, sample.state.y]);
        #[allow(clippy::cast_precision_loss, reason = "a run has far fewer than 2^52 samples")]
        let at = L::splat(sample.index as f64);
        let on_circle = (sample.stretch - L::splat(stretch::CIRCLING)).abs().lt(L::splat(0.5));
        let first = self.circle_at.lt(L::splat(0.0)).and(on_circle).and(flying);
        self.circle_at = L::select(first, at, self.circle_at);
        self.length = L::select(flying, at + L::splat(1.0), self.length);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lane::Wide;

    #[test]
    fn any_number_of_lanes_gives_the_same_bits() {
        let scenario = Scenario::demo();
        let (setting, edges) = (setting(&scenario), edges(72));
        let cases: Vec<Case> = (1..=19).map(|case| draw(&scenario, case, WindChoice::Mean)).collect();
        let circling = || Circling { scenario: &scenario, setting: &setting, cases: &cases, edges: &edges };
        let alone = circling().run::<f64>();
        assert!(alone.len() == 19 && alone.iter().flatten().count() > 15);
        for company in [circling().run::<Wide<4>>(), circling().run::<Wide<8>>(), widest(circling())] {
            assert_eq!(company, alone);
        }
    }

    #[test]
    fn ranks_in_small_numbers_by_hand() {
        let check = |count, share, wanted| assert_eq!(rank(count, share), wanted, "{share} of {count}");
        check(0, 0.5, None);
        check(1, 0.9, Some(1));
        // One fresh value among nine: below the ninth with nine tenths.
        check(9, 0.9, Some(9));
        check(9, 0.5, Some(5));
        check(19, 0.9, Some(18));
        check(8, 0.9, Some(8));
        check(99, 0.99, Some(99));
    }
}
