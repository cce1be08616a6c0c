//! What single trials flew about the centre of the circle: how far in every direction, from when the jet acts on the loss.

use std::ops::Range;

use glam::DVec2;

use super::around::{Around, edges};
use crate::lane::{Lane, LaneWork, Words as _, widest};
use crate::recovery::stretch;
use crate::run::{Sample, Scenario, Setting, Trial, Watch, Watched, WindChoice, draw, setting, watch_wide};
use crate::study::work::{Row, Work, in_order};

/// Trials that are flown together; a study that is stopped keeps whole blocks.
const BLOCK: u64 = 16;

/// How far one trial went in every sector about the centre of the circle.
#[derive(Debug, Clone, PartialEq)]
pub struct Reach {
    /// Furthest of all that was flown from when the jet acts on the loss to the end, metres a sector; 0 where it never
    /// was.
    pub whole_m: Vec<f64>,
    /// Nearest and furthest of what was flown from when it was on the circle, metres a sector, none where it never was;
    /// none at all where it was never on the circle.
    pub circle_m: Option<Vec<Option<[f64; 2]>>>,
}

/// How far a path went in every sector about a centre, all of it: that of a log, to be held against the rings.
pub fn reach_of(places: &[DVec2], centre: DVec2, bearings: u32) -> Reach {
    let edges = edges(bearings.max(3));
    let mut around = Around::new(edges.len());
    for place in places {
        around.fly_to(*place - centre, &edges);
    }
    let far = |sector| around.reach_m(sector).map_or(0.0, |[_, far]| far);
    Reach { whole_m: (0..edges.len()).map(far).collect(), circle_m: None }
}

/// Flies trials of a scenario and notes how far each goes. The work counts recoveries.
///
/// A bearing stands for the sector about it, half way to its neighbours; the first is north, and there are 3 at least.
pub fn reaches(scenario: &Scenario, trials: Range<u64>, bearings: u32, work: &Work) -> Row<Reach> {
    let (setting, edges) = (setting(scenario), edges(bearings.max(3)));
    let count = trials.end.saturating_sub(trials.start);
    work.expect(count);
    let flown = in_order(work, 0..count.div_ceil(BLOCK), |block| {
        let first = trials.start + block * BLOCK;
        let numbers = first..(first + BLOCK).min(trials.end);
        let trials: Vec<Trial> = numbers.map(|trial| draw(scenario, trial, WindChoice::Mean)).collect();
        let found = widest(Flying { scenario, setting: &setting, trials: &trials, edges: &edges });
        work.add(trials.len() as u64);
        found
    });
    Row { results: flown.results.into_iter().flatten().collect(), of: count }
}

/// Trials to be flown at whatever width there is.
struct Flying<'a> {
    scenario: &'a Scenario,
    setting: &'a Setting,
    trials: &'a [Trial],
    edges: &'a [DVec2],
}

impl LaneWork for Flying<'_> {
    type Output = Vec<Reach>;

    #[inline(always)]
    fn run<L: Lane>(self) -> Self::Output {
        let flight = Watched::of(self.scenario, self.setting);
        let mut path = Path::<L>::new();
        let mut found = Vec::with_capacity(self.trials.len());
        for few in self.trials.chunks(L::WIDTH) {
            path.clear();
            watch_wide(&flight, few, &mut path);
            found.extend(few.iter().enumerate().map(|(lane, trial)| path.reach(lane, trial, self.edges)));
        }
        found
    }
}

/// Notes down where jets are, and from when on each acts and is on the circle.
struct Path<L: Lane> {
    places: Vec<[L; 2]>,
    /// First sample on which the jet acts, and on the circle, -1 before it; and number of samples.
    acts_at: L,
    circle_at: L,
    length: L,
}

impl<L: Lane> Path<L> {
    fn new() -> Self {
        let never = L::splat(-1.0);
        Self { places: Vec::new(), acts_at: never, circle_at: never, length: L::splat(0.0) }
    }

    fn clear(&mut self) {
        self.places.clear();
        (self.acts_at, self.circle_at, self.length) = (L::splat(-1.0), L::splat(-1.0), L::splat(0.0));
    }

    fn reach(&self, lane: usize, trial: &Trial, edges: &[DVec2]) -> Reach {
        let whole = self.around(self.acts_at.lane(lane), lane, trial, edges);
        let circle = self.around(self.circle_at.lane(lane), lane, trial, edges);
        let sectors = 0..edges.len();
        let far = |sector| whole.as_ref().and_then(|around| around.reach_m(sector)).map_or(0.0, |[_, far]| far);
        Reach {
            whole_m: sectors.clone().map(far).collect(),
            circle_m: circle.map(|around| sectors.map(|sector| around.reach_m(sector)).collect()),
        }
    }

    /// What one trial flew from a sample on; none where there is no such sample.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sample numbers")]
    fn around(&self, first: f64, lane: usize, trial: &Trial, edges: &[DVec2]) -> Option<Around> {
        let samples = (first >= 0.0).then(|| first as usize..self.length.lane(lane) as usize)?;
        let centre = DVec2::new(trial.plan.centre_x, trial.plan.centre_y);
        let mut around = Around::new(edges.len());
        for [x, y] in &self.places[samples] {
            around.fly_to(DVec2::new(x.lane(lane), y.lane(lane)) - centre, edges);
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
        let none = L::splat(0.0);
        let acts = sample.stretch.gt(L::splat(stretch::BEFORE_FAILSAFE + 0.5));
        let on_circle = (sample.stretch - L::splat(stretch::CIRCLING)).abs().lt(L::splat(0.5));
        self.acts_at = L::select(self.acts_at.lt(none).and(acts).and(flying), at, self.acts_at);
        self.circle_at = L::select(self.circle_at.lt(none).and(on_circle).and(flying), at, self.circle_at);
        self.length = L::select(flying, at + L::splat(1.0), self.length);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lane::Wide;

    #[test]
    fn any_number_of_lanes_gives_the_same_bits() {
        let scenario = Scenario::tight_strip();
        let (setting, edges) = (setting(&scenario), edges(72));
        let trials: Vec<Trial> = (1..=19).map(|trial| draw(&scenario, trial, WindChoice::Mean)).collect();
        let flying = || Flying { scenario: &scenario, setting: &setting, trials: &trials, edges: &edges };
        let alone = flying().run::<f64>();
        assert!(alone.len() == 19 && alone.iter().filter(|reach| reach.circle_m.is_some()).count() > 15);
        for company in [flying().run::<Wide<4>>(), flying().run::<Wide<8>>(), widest(flying())] {
            assert_eq!(company, alone);
        }
    }

    #[test]
    fn the_whole_way_reaches_at_least_as_far_as_the_circle() {
        for reach in reaches(&Scenario::tight_strip(), 1..40, 72, &Work::default()).results {
            let circle = reach.circle_m.unwrap_or_default();
            let circle = circle.iter().map(|sector| sector.map_or(0.0, |[_, far]| far));
            assert!(circle.zip(&reach.whole_m).all(|(circle, &whole)| circle <= whole));
        }
    }
}
