//! The search in one direction: where do winds begin to fail, from where on down do they hold, and does one below fail as
//! well?

use std::collections::BTreeMap;

use crate::margins::{Score, Scorer};
use crate::run::{Scenario, Trial, WindChoice, draw};
use crate::study::Tally;
use crate::study::verdict::{Answer, Demand, Verdict};
use crate::study::wind_limit::short::fails_most;
use crate::study::wind_limit::winds::{STEPS, blowing, parts, step_of, whole_winds, wind_mps};
use crate::study::wind_limit::{Direction, WindLimitAsk};
use crate::study::work::Work;
use crate::wind::WindSheet;

/// Trials scored between looks at whether to go on.
const BATCH: usize = 128;
/// Trials in every whole wind below one that holds: enough to see a wind that fails in a third of them, which is what a
/// hole in the middle would look like.
const GLANCE: u64 = 32;
/// Trials in a wind on the way to about the least that fails.
const ON_THE_WAY: u64 = 128;
/// Trials that fall short most often, by which winds are told first that can't hold or must fail.
const WORST: usize = 64;
/// How many of them are flown at once.
const AT_ONCE: usize = 16;
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
    /// In how many winds each trial that fell short crossed a limit, and in how many it used a buffer.
    short: BTreeMap<u64, [u32; 2]>,
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
        let (scenario, sheet) = (scenario.clone(), scenario.file.wind);
        let (tried, short) = (BTreeMap::new(), BTreeMap::new());
        Self { ask, demand, scorer, work, scenario, sheet, from_deg, tried, short }
    }

    /// What holds, what doesn't, and what lies between, beside what the plan as entered holds; none where the work was
    /// stopped before it was found.
    /// It is begun where a direction nearby has its edges.
    pub(super) fn run(mut self, plan_mps: Option<f64>, nearby: Option<Nearby>) -> Option<Direction> {
        let whole = whole_winds(&self.scenario).len() as u32;
        // The step after the last is against more wind than the jet makes headway in: it holds for certain not.
        let mut beyond = (whole - 1) * STEPS + 1;
        let (held, fails) = loop {
            let fails = self.least_that_fails(beyond, nearby.map(|near| near.fails))?;
            let held = self.least_that_does_not_hold(fails, nearby.map(|near| near.held))?;
            match self.hole_below(held)? {
                Some(hole) => beyond = hole + 1,
                None => break (held, fails),
            }
        };
        self.work.add(parts(&self.scenario).saturating_sub(self.tried.len() as u64));
        let undecided = (held < fails).then(|| [held, fails - 1]);
        let held = held.checked_sub(1);
        let fails = Some(fails).filter(|fails| *fails < (whole - 1) * STEPS + 1);
        let failed = fails.and_then(|step| self.tried.get(&step));
        let limit = failed.and_then(|tried| fails_most(None, &tried.trials, tried.crossing == Answer::No));
        Some(Direction {
            from_deg: self.from_deg,
            wind_limit_mps: held.map(wind_mps),
            gust_mps: held.map(|step| self.gust(wind_mps(step))),
            plan_mps,
            at_2m_mps: held.map(|step| self.at_2m(wind_mps(step))),
            fails_mps: fails.map(wind_mps),
            undecided_mps: undecided.map(|ends| ends.map(wind_mps)),
            limit,
            held: held.and_then(|step| self.tried.get(&step)).map(|tried| tried.trials.clone()),
            failed: failed.map(|tried| tried.trials.clone()),
        })
    }

    /// The least step below `beyond` that fails, taking it that all after it do; `beyond` where there is none.
    fn least_that_fails(&mut self, beyond: u32, guess: Option<u32>) -> Option<u32> {
        let mut at = match guess {
            Some(guess) => guess.min(beyond),
            None => self.roughly(beyond)?,
        };
        while at < beyond && !self.fails(at)? {
            at += 1;
        }
        while at > 0 && self.fails(at - 1)? {
            at -= 1;
        }
        if at < beyond && self.answer(at, self.demand.most)? != Answer::No {
            // Certain by those that fall short most often, but not told yet by all of them, in order.
            self.go_on(at, self.demand.most, |_| true)?;
        }
        Some(at)
    }

    /// Where about that is, by few trials: more only decide what was undecided.
    fn roughly(&mut self, beyond: u32) -> Option<u32> {
        let (mut low, mut high) = (0, beyond);
        while low < high {
            let middle = u32::midpoint(low, high);
            match self.answer(middle, ON_THE_WAY.min(self.demand.most))? {
                Answer::No => high = middle,
                _ => low = middle + 1,
            }
        }
        Some(high)
    }

    /// The least step up to one that fails that does not hold, taking it that none after it does. A wind that does not is
    /// told by few trials, and one that does by many: so it is come to from above.
    fn least_that_does_not_hold(&mut self, fails: u32, guess: Option<u32>) -> Option<u32> {
        let mut at = guess.unwrap_or(fails).min(fails);
        while at < fails && self.holds(at)? {
            at += 1;
        }
        while at > 0 && !self.holds(at - 1)? {
            at -= 1;
        }
        Some(at)
    }

    /// Whether the trials of a wind say yes. None where the work is stopped.
    fn holds(&mut self, step: u32) -> Option<bool> {
        let ruled_out = self.told_by_worst(step, |demand, known| !demand.may_hold(known))?;
        Some(!ruled_out && self.answer(step, self.demand.most)? == Answer::Yes)
    }

    /// Whether they say no.
    fn fails(&mut self, step: u32) -> Option<bool> {
        let certain = self.told_by_worst(step, Demand::must_fail)?;
        Some(certain || self.answer(step, self.demand.most)? == Answer::No)
    }

    /// Whether something is so once those trials of a wind are known that fall short most often in others. Where the wind is
    /// answered already that is asked instead.
    fn told_by_worst(&mut self, step: u32, is_so: impl Fn(&Demand, &[(u64, Score)]) -> bool) -> Option<bool> {
        if self.tried.get(&step).is_some_and(|tried| self.is_done(tried, self.demand.most)) {
            return Some(false);
        }
        let mut worst: Vec<_> = self.short.iter().map(|(&trial, &[crossed, short])| (crossed, short, trial)).collect();
        worst.sort_by(|a, b| b.cmp(a));
        let worst: Vec<u64> = worst.into_iter().map(|(.., trial)| trial).take(WORST).collect();
        let mut known = Vec::new();
        let mut some = worst.chunks(AT_ONCE);
        while !is_so(&self.demand, &known) {
            let Some(some) = some.next() else { return Some(false) };
            if !self.work.go_on() {
                return None;
            }
            let trials = self.trials(wind_mps(step), some.iter().copied());
            known.extend(some.iter().copied().zip(self.scorer.score(&trials)));
        }
        Some(true)
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

    /// Whether no more of so many trials at most would be flown.
    fn is_done(&self, tried: &TriedWind, most: u64) -> bool {
        tried.answer != Answer::Undecided || tried.hopeless || tried.trials.trials >= most
    }

    /// What a wind says after so many trials at most; none where the work is stopped.
    fn answer(&mut self, step: u32, most: u64) -> Option<Answer> {
        if let Some(tried) = self.tried.get(&step).filter(|tried| self.is_done(tried, most)) {
            return Some(tried.answer);
        }
        self.go_on(step, most, |verdict| !verdict.is_hopeless())
    }

    /// The same, going on after what was flown before as long as it is worth while.
    fn go_on(&mut self, step: u32, most: u64, worth_while: impl Fn(&Verdict) -> bool) -> Option<Answer> {
        let before = self.tried.remove(&step);
        self.work.add(u64::from(before.is_none()));
        let tried = self.try_wind(wind_mps(step), before, most, worth_while)?;
        let answer = tried.answer;
        self.tried.insert(step, tried);
        Some(answer)
    }

    /// A wind flown until the demand is decided, or so many trials, those flown before among them.
    fn try_wind(
        &mut self,
        wind_mps: f64,
        before: Option<TriedWind>,
        most: u64,
        worth_while: impl Fn(&Verdict) -> bool,
    ) -> Option<TriedWind> {
        let demand = self.demand;
        let before = before.map_or_else(|| Tally::new(self.scorer.limits().len()), |tried| tried.trials);
        let (trials, complete) = demand.go_on_while(before, worth_while, |numbers| {
            let numbers: Vec<u64> = numbers.collect();
            let mut scores = Vec::with_capacity(numbers.len());
            for some in numbers.chunks(BATCH) {
                if !self.work.go_on() || some.first().is_some_and(|first| *first > most) {
                    return None;
                }
                let trials = self.trials(wind_mps, some.iter().copied());
                for (&trial, score) in some.iter().zip(self.scorer.score(&trials)) {
                    if !score.kept {
                        let [crossed, short] = self.short.entry(trial).or_default();
                        *crossed += u32::from(score.crossed);
                        *short += 1;
                    }
                    scores.push(score);
                }
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

#[cfg(test)]
mod tests;
