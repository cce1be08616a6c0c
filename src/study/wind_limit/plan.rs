//! The walk up of the plan as entered by itself, in several directions side by side: nothing drawn, and so soon done.

use super::Direction;
use super::search::Search;
use super::short::fails_most;
use super::winds::HALVINGS;
use crate::margins::Score;
use crate::run::Trial;
use crate::study::Tally;
use crate::study::work::Work;

/// Directions that are walked together, so that the last few winds of each fill the lanes.
pub(super) const TOGETHER: u64 = 4;
/// Winds of a direction that are flown together: not all, since the most wind takes the longest to come home in.
const WINDS: usize = 4;
/// Parts of a metre a second that the wind limit is told in.
const PARTS: usize = 1 << HALVINGS;

/// What the plan as entered came to in one direction.
#[derive(Debug, Clone, Default)]
pub(super) struct WindPlan {
    /// The highest wind it meets every margin in, with all below, m/s.
    pub(super) held_mps: Option<f64>,
    /// The least wind flown in which it doesn't, m/s, and what it came to there.
    failed: Option<(f64, Score)>,
}

/// The plan in each of some directions over the same whole winds, in m/s; none where the work is stopped on the way.
pub(super) fn plans(work: &Work, searches: &mut [Search<'_>], whole_mps: &[f64]) -> Option<Vec<WindPlan>> {
    let mut plans = vec![WindPlan::default(); searches.len()];
    for winds in whole_mps.chunks(WINDS) {
        if !work.go_on() {
            return None;
        }
        let open = |plan: &WindPlan| if plan.failed.is_none() { winds.to_vec() } else { Vec::new() };
        let wanted: Vec<Vec<f64>> = plans.iter().map(open).collect();
        for ((plan, winds), scores) in plans.iter_mut().zip(&wanted).zip(fly(searches, &wanted)) {
            winds.iter().zip(scores).for_each(|(&wind, score)| plan.climb(wind, score));
        }
    }
    let wanted: Vec<Vec<f64>> = plans.iter().map(WindPlan::between).collect();
    for ((plan, winds), scores) in plans.iter_mut().zip(&wanted).zip(fly(searches, &wanted)) {
        plan.halve(winds, &scores);
    }
    Some(plans)
}

/// Flies the plan in each direction in the winds wanted there, all of them side by side.
fn fly(searches: &mut [Search<'_>], wanted: &[Vec<f64>]) -> Vec<Vec<Score>> {
    let each = searches.iter_mut().zip(wanted);
    let trials: Vec<Trial> = each.flat_map(|(search, winds)| search.plain(winds)).collect();
    let mut scores = searches.first().map(|search| search.scorer.score(&trials)).unwrap_or_default().into_iter();
    wanted.iter().map(|winds| scores.by_ref().take(winds.len()).collect()).collect()
}

impl WindPlan {
    /// One wind more, unless the walk has ended before it.
    fn climb(&mut self, wind_mps: f64, score: Score) {
        if self.failed.is_some() {
            return;
        }
        if score.kept {
            self.held_mps = Some(wind_mps);
        } else {
            self.failed = Some((wind_mps, score));
        }
    }

    /// The winds that halving may ask for.
    fn between(&self) -> Vec<f64> {
        let (Some(low), Some((high, _))) = (self.held_mps, &self.failed) else { return Vec::new() };
        (1..PARTS).map(|part| low + (high - low) * part as f64 / PARTS as f64).collect()
    }

    /// Halves with them.
    fn halve(&mut self, winds_mps: &[f64], scores: &[Score]) {
        let (mut low, mut high) = (0, winds_mps.len() + 1);
        while high - low > 1 {
            let middle = usize::midpoint(low, high);
            let (wind, score) = (winds_mps[middle - 1], &scores[middle - 1]);
            if score.kept {
                (low, self.held_mps) = (middle, Some(wind));
            } else {
                high = middle;
                self.failed = Some((wind, score.clone()));
            }
        }
    }

    /// The wind limit of the plan without errors.
    pub(super) fn direction(&self, search: &Search<'_>) -> Direction {
        let nothing = Tally::new(search.scorer.limits().len());
        Direction {
            from_deg: search.from_deg,
            wind_limit_mps: self.held_mps,
            gust_mps: self.held_mps.map(|wind| search.gust(wind)),
            plan_mps: self.held_mps,
            at_2m_mps: self.held_mps.map(|wind| search.at_2m(wind)),
            fails_mps: self.failed.as_ref().map(|(wind, _)| *wind),
            undecided_mps: None,
            limit: self.failed.as_ref().and_then(|(_, score)| fails_most(Some(score), &nothing, true)),
            held: None,
            failed: None,
        }
    }
}
