//! The search in one direction: between the winds that hold and those that don't, by halving, with everything below what
//! holds looked at as well.

use std::collections::BTreeMap;

use crate::margins::Scorer;
use crate::run::{Scenario, Trial, WindChoice, draw};
use crate::study::Tally;
use crate::study::verdict::{Answer, Demand, Verdict};
use crate::study::wind_limit::short::fails_most;
use crate::study::wind_limit::{Direction, WindLimitAsk};
use crate::study::work::Work;
use crate::units::{Bearing, Length, Speed};
use crate::wind::WindSheet;

/// Times the last metre a second is halved: down to 0.5 m/s, less than lies undecided between a yes and a no.
pub(super) const HALVINGS: u32 = 1;
/// Steps of a metre a second.
const STEPS: u32 = 1 << HALVINGS;
/// Trials scored between looks at whether to go on.
const BATCH: usize = 32;
/// Trials in every whole wind below one that holds: enough to see a wind that fails in a third of them, which is what a
/// hole in the middle would look like.
const GLANCE: u64 = 64;
/// Trials in a wind on the way to an edge; only the winds beside it are flown to the end.
const ON_THE_WAY: u64 = 2048;
/// Height of a hand-held meter, metres.
const HAND_M: f64 = 2.0;

/// The search in one direction.
pub(super) struct Search<'a> {
    ask: &'a WindLimitAsk,
    demand: Demand,
    pub(super) scorer: &'a Scorer<'a>,
    work: &'a Work,
    /// The scenario in the wind of the moment.
    scenario: Scenario,
    /// Its wind as entered.
    sheet: WindSheet,
    pub(super) from_deg: f64,
    /// Winds flown, by steps from a calm.
    tried: BTreeMap<u32, TriedWind>,
}

/// One wind tried.
#[derive(Clone)]
struct TriedWind {
    answer: Answer,
    crossing: Answer,
    trials: Tally,
    /// Whether more trials are hopeless.
    hopeless: bool,
}

/// The steps of a direction nearby: the least that does not hold, the least that fails.
#[derive(Debug, Clone, Copy)]
pub(super) struct Nearby {
    held: u32,
    fails: u32,
}

impl Nearby {
    /// Where a direction's edges lie.
    pub(super) fn of(direction: &Direction) -> Self {
        let held = direction.wind_limit_mps.map_or(0, |mps| step_of(mps) + 1);
        Self { held, fails: direction.fails_mps.map_or(u32::MAX, step_of) }
    }
}

impl<'a> Search<'a> {
    pub(super) fn new(
        scenario: &Scenario,
        ask: &'a WindLimitAsk,
        scorer: &'a Scorer<'a>,
        work: &'a Work,
        from_deg: f64,
    ) -> Self {
        let demand = ask.demand(&scenario.file.limits);
        let (scenario, sheet, tried) = (scenario.clone(), scenario.file.wind, BTreeMap::new());
        Self { ask, demand, scorer, work, scenario, sheet, from_deg, tried }
    }

    /// What holds, what doesn't, and what lies between, beside what the plan as entered holds; none where the work was
    /// stopped before it was found.
    /// It is begun where a direction nearby has its edges.
    pub(super) fn run(mut self, plan_mps: Option<f64>, nearby: Option<Nearby>) -> Option<Direction> {
        let whole = whole_winds(&self.scenario).len() as u32;
        // The step after the last is against more wind than the jet makes headway in: it holds for certain not.
        let mut beyond = (whole - 1) * STEPS + 1;
        let (held, fails) = loop {
            let fails = self.edge(beyond, nearby.map(|near| near.fails), false, |answer| answer != Answer::No)?;
            let held = self.edge(fails, nearby.map(|near| near.held), true, |answer| answer == Answer::Yes)?;
            match self.hole_below(held)? {
                Some(hole) => beyond = hole + 1,
                None => break (held.checked_sub(1), (fails < (whole - 1) * STEPS + 1).then_some(fails)),
            }
        };
        self.work.add(parts(&self.scenario).saturating_sub(self.tried.len() as u64));
        let undecided = self.tried.iter().filter(|(step, tried)| {
            tried.answer == Answer::Undecided
                && (tried.hopeless || tried.trials.trials >= self.demand.most)
                && held.is_none_or(|at| **step > at)
        });
        let undecided: Vec<u32> =
            undecided.map(|(step, _)| *step).filter(|step| fails.is_none_or(|at| *step < at)).collect();
        let ends = undecided.first().zip(undecided.last());
        let failed = fails.and_then(|step| self.tried.get(&step));
        let limit = failed.and_then(|tried| fails_most(None, &tried.trials, tried.crossing == Answer::No));
        Some(Direction {
            from_deg: self.from_deg,
            wind_limit_mps: held.map(wind_mps),
            gust_mps: held.map(|step| self.gust(wind_mps(step))),
            plan_mps,
            at_2m_mps: held.map(|step| self.at_2m(wind_mps(step))),
            fails_mps: fails.map(wind_mps),
            undecided_mps: ends.map(|(low, high)| [*low, *high].map(wind_mps)),
            limit,
            held: held.and_then(|step| self.tried.get(&step)).map(|tried| tried.trials.clone()),
            failed: failed.map(|tried| tried.trials.clone()),
        })
    }

    /// The least step below `beyond` at which the answer is none of those asked for, taking it that all after it are
    /// neither; `beyond` where there is none.
    ///
    /// More trials only decide what was undecided, so that they move the edge one way: `up` to more wind, or down. It
    /// is found with few first and then moved, a step at a time, by as many as may be flown.
    fn edge(&mut self, beyond: u32, guess: Option<u32>, up: bool, asked: impl Fn(Answer) -> bool) -> Option<u32> {
        let (mut low, mut high) = (0, beyond);
        // From a guess in steps that double, until it lies between two of them.
        let (mut next, mut stride) = (guess, 1);
        while let Some(at) = next.map(|at| at.min(beyond.saturating_sub(1))).filter(|at| (low..high).contains(at)) {
            if asked(self.answer(at, ON_THE_WAY.min(self.demand.most))?) {
                (low, next) = (at + 1, at.checked_add(stride));
            } else {
                (high, next) = (at, at.checked_sub(stride));
            }
            stride *= 2;
        }
        while low < high {
            let middle = u32::midpoint(low, high);
            if asked(self.answer(middle, ON_THE_WAY.min(self.demand.most))?) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        while up && high < beyond && asked(self.answer(high, self.demand.most)?) {
            high += 1;
        }
        while !up && high > 0 && !asked(self.answer(high - 1, self.demand.most)?) {
            high -= 1;
        }
        Some(high)
    }

    /// The least whole wind below a step that a glance shows to fail.
    fn hole_below(&mut self, step: u32) -> Option<Option<u32>> {
        for below in (0..step).step_by(STEPS as usize) {
            if self.answer(below, GLANCE.min(self.demand.most))? == Answer::No {
                return Some(Some(below));
            }
        }
        Some(None)
    }

    /// What a wind says after so many trials at most; none where the work is stopped.
    fn answer(&mut self, step: u32, most: u64) -> Option<Answer> {
        let done =
            |tried: &TriedWind| tried.answer != Answer::Undecided || tried.hopeless || tried.trials.trials >= most;
        let known = self.tried.get(&step).filter(|tried| done(tried));
        if let Some(tried) = known {
            return Some(tried.answer);
        }
        let before = self.tried.remove(&step);
        self.work.add(u64::from(before.is_none()));
        let tried = self.try_wind(wind_mps(step), before, most)?;
        let answer = tried.answer;
        self.tried.insert(step, tried);
        Some(answer)
    }

    /// A wind flown until the demand is decided, or so many trials, those flown before among them.
    fn try_wind(&mut self, wind_mps: f64, before: Option<TriedWind>, most: u64) -> Option<TriedWind> {
        let demand = self.demand;
        let before = before.map_or_else(|| Tally::new(self.scorer.limits().len()), |tried| tried.trials);
        let hopeful = |verdict: &Verdict| !verdict.is_hopeless();
        let (trials, complete) = demand.go_on_while(before, hopeful, |numbers| {
            let numbers: Vec<u64> = numbers.collect();
            let mut scores = Vec::with_capacity(numbers.len());
            for some in numbers.chunks(BATCH) {
                if !self.work.go_on() || some.first().is_some_and(|first| *first > most) {
                    return None;
                }
                let trials = self.trials(wind_mps, some.iter().copied());
                scores.extend(self.scorer.score(&trials));
            }
            Some(scores)
        });
        if !complete && trials.trials < most {
            return None;
        }
        let verdict = demand.judge(&trials);
        let hopeless = verdict.is_hopeless();
        Some(TriedWind { answer: verdict.answer, crossing: verdict.not_crossing, trials, hopeless })
    }

    /// What a hand-held meter reads in a wind at circle height, over the range of profiles.
    pub(super) fn at_2m(&self, wind_mps: f64) -> [f64; 2] {
        let [low, _, high] = self.blowing(wind_mps).growth(HAND_M);
        [wind_mps * low, wind_mps * high]
    }

    /// What the gusts of a wind at circle height reach there, m/s.
    pub(super) fn gust(&self, wind_mps: f64) -> f64 {
        self.blowing(wind_mps).gust().mps()
    }

    /// The sheet with a wind at circle height.
    fn blowing(&self, wind_mps: f64) -> WindSheet {
        blowing(&self.sheet, self.scenario.file.recovery.height, self.from_deg, wind_mps)
    }

    /// Trials in a wind at circle height, about the circle asked for. The numbers drawn are the same in every wind.
    fn trials(&mut self, wind_mps: f64, trials: impl Iterator<Item = u64>) -> Vec<Trial> {
        self.scenario.file.wind = self.blowing(wind_mps);
        let drawn = trials.map(|trial| draw(&self.scenario, trial, WindChoice::Mean));
        drawn.map(|trial| trial.circling(self.ask.radius_m, self.ask.turn)).collect()
    }

    /// The plan as entered in each of some winds.
    pub(super) fn plain(&mut self, winds_mps: &[f64]) -> Vec<Trial> {
        winds_mps.iter().flat_map(|&wind| self.trials(wind, 0..1)).collect()
    }
}

/// The step of a wind that is one.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a handful of steps, none below a calm")]
fn step_of(mps: f64) -> u32 {
    (mps * f64::from(STEPS)).round().max(0.0) as u32
}

/// The wind of a step, m/s.
fn wind_mps(step: u32) -> f64 {
    f64::from(step) / f64::from(STEPS)
}

/// Whole metres a second from a calm up to the return speed: against more no jet comes home.
pub(super) fn whole_winds(scenario: &Scenario) -> Vec<f64> {
    let fastest = scenario.file.jet.return_speed.value.mps();
    (0_u32..).map(f64::from).take_while(|&wind| wind <= fastest).collect()
}

/// What a direction counts for in the work: about as many winds as there are to try.
pub(super) fn parts(scenario: &Scenario) -> u64 {
    whole_winds(scenario).len() as u64
}

/// The sheet with another wind at a height: its gust in the proportion to the mean that it has there, the spreads as
/// they are. In the plan's own wind that is the plan's own air.
fn blowing(sheet: &WindSheet, height: Length, from_deg: f64, wind_mps: f64) -> WindSheet {
    let [mean, gust] = sheet.aloft(height.m()).map(Speed::new);
    // A calm without a reported gust has no proportion but the one assumed.
    let gust = (mean.mps() > 0.0 || !sheet.gust_is_assumed()).then_some(gust);
    let there = WindSheet { mean, gust, from: Bearing::from_deg(from_deg), measured_at: height, ..*sheet };
    there.with_mean(Speed::new(wind_mps))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_wind(mean: f64, gust: Option<f64>, measured_at: f64, wind: f64, expected_gust: f64) {
        let sheet = WindSheet { measured_at: Length::new(measured_at), ..Scenario::tight_strip().file.wind };
        let sheet = WindSheet { mean: Speed::new(mean), gust: gust.map(Speed::new), ..sheet };
        let found = blowing(&sheet, Length::new(80.0), 123.0, wind);
        assert_eq!((found.mean.mps(), found.measured_at.m(), found.from.deg()), (wind, 80.0, 123.0));
        assert_eq!((found.from_spread, found.turbulence), (sheet.from_spread, sheet.turbulence));
        assert!((found.gust().mps() - expected_gust).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn gusts_keep_their_proportion() {
        check_wind(6.0, Some(9.0), 80.0, 4.0, 6.0);
        check_wind(6.0, Some(9.0), 80.0, 0.0, 0.0);
        check_wind(0.0, Some(2.0), 80.0, 3.0, 5.0);
        // Nobody reported one: half more than the mean.
        check_wind(6.0, None, 80.0, 4.0, 6.0);
        check_wind(0.0, None, 80.0, 4.0, 6.0);
        // Hand-held, at 2 m: aloft the mean is 40^0.17 times as much, and the gust still 2 m/s over it.
        let aloft = 4.0 * 40.0_f64.powf(0.17);
        check_wind(4.0, Some(6.0), 2.0, aloft, aloft + 2.0);
        check_wind(4.0, None, 2.0, aloft / 2.0, (aloft + 2.0) / 2.0);
    }

    #[test]
    fn whole_winds_end_at_the_return_speed() {
        let scenario = Scenario::tight_strip();
        assert_eq!(whole_winds(&scenario).last(), Some(&22.0));
    }
}
