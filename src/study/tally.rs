//! What many trials came to, counted: memory does not grow with their number, and the order of counting does not
//! matter.

use crate::margins::{Outcome, Score, Verdict};
use crate::recovery::Guidance;
use crate::study::stats::Spread;

/// Margins to one limit over many trials.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitTally {
    /// Trials that crossed it.
    pub crossed: u64,
    /// Trials nearer to it than asked for.
    pub inside_buffer: u64,
    /// Least margin of all, in the unit of the limit; infinite where it never applied.
    pub least: f64,
    /// The trial it belongs to, the lowest where several share it.
    pub least_trial: u64,
}

/// What the trials under one guidance law came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LawTally {
    /// Trials that flew it.
    pub trials: u64,
    /// Of them, trials that kept every buffer.
    pub kept: u64,
    /// Of them, trials that crossed a limit.
    pub crossed: u64,
}

/// What many trials came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// Number of trials.
    pub trials: u64,
    /// Trials that crossed a limit.
    pub crossed: u64,
    /// Trials that kept every buffer.
    pub kept: u64,
    /// Trials that held the commanded circle, whatever their margins.
    pub held: u64,
    /// Trials of each outcome, in the order of [`Outcome::ALL`].
    pub outcomes: [u64; Outcome::ALL.len()],
    /// One a guidance law, in the order of [`Guidance::ALL`].
    pub by_law: [LawTally; Guidance::ALL.len()],
    /// One a limit, in the order of the scorer's limits.
    pub limits: Vec<LimitTally>,
    /// Furthest from the centre in the last lap, metres; missing where no circle was reached.
    pub furthest_m: Spread,
    /// How far outside the commanded ring joining carried it, metres.
    pub joining_overshoot_m: Spread,
    /// Time from the loss to the circle, seconds.
    pub home_s: Spread,
    /// Laps from reaching the circle to the reserve.
    pub laps_to_reserve: Spread,
}

impl LimitTally {
    const NONE: Self = Self { crossed: 0, inside_buffer: 0, least: f64::INFINITY, least_trial: 0 };

    fn take_least(&mut self, margin: f64, trial: u64) {
        if margin < self.least || (margin == self.least && margin.is_finite() && trial < self.least_trial) {
            (self.least, self.least_trial) = (margin, trial);
        }
    }
}

impl Tally {
    /// Nothing yet, for a number of limits.
    pub fn new(limits: usize) -> Self {
        Self {
            trials: 0,
            crossed: 0,
            kept: 0,
            held: 0,
            outcomes: [0; Outcome::ALL.len()],
            by_law: Default::default(),
            limits: vec![LimitTally::NONE; limits],
            furthest_m: Spread::new(0.5),
            joining_overshoot_m: Spread::new(0.5),
            home_s: Spread::new(0.5),
            laps_to_reserve: Spread::new(0.1),
        }
    }

    /// Counts one more.
    pub fn add(&mut self, trial: u64, score: &Score) {
        self.trials += 1;
        self.crossed += u64::from(score.crossed);
        self.kept += u64::from(score.kept);
        self.held += u64::from(score.held);
        self.outcomes[score.outcome as usize] += 1;
        let law = &mut self.by_law[score.guidance as usize];
        law.trials += 1;
        law.kept += u64::from(score.kept);
        law.crossed += u64::from(score.crossed);
        for (tally, gap) in self.limits.iter_mut().zip(&score.gaps) {
            tally.crossed += u64::from(gap.verdict == Verdict::Crossed);
            tally.inside_buffer += u64::from(gap.verdict == Verdict::InsideBuffer);
            tally.take_least(gap.margin, trial);
        }
        self.furthest_m.add(trial, score.furthest_m);
        self.joining_overshoot_m.add(trial, score.joining_overshoot_m);
        self.home_s.add(trial, score.home_s);
        self.laps_to_reserve.add(trial, score.laps_to_reserve);
    }

    /// Counts what another counted, of the same limits.
    pub fn merge(&mut self, other: &Self) {
        self.trials += other.trials;
        self.crossed += other.crossed;
        self.kept += other.kept;
        self.held += other.held;
        for (mine, theirs) in self.outcomes.iter_mut().zip(other.outcomes) {
            *mine += theirs;
        }
        for (mine, theirs) in self.by_law.iter_mut().zip(other.by_law) {
            mine.trials += theirs.trials;
            mine.kept += theirs.kept;
            mine.crossed += theirs.crossed;
        }
        for (mine, theirs) in self.limits.iter_mut().zip(&other.limits) {
            mine.crossed += theirs.crossed;
            mine.inside_buffer += theirs.inside_buffer;
            mine.take_least(theirs.least, theirs.least_trial);
        }
        self.furthest_m.merge(&other.furthest_m);
        self.joining_overshoot_m.merge(&other.joining_overshoot_m);
        self.home_s.merge(&other.home_s);
        self.laps_to_reserve.merge(&other.laps_to_reserve);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::margins::Scorer;
    use crate::run::{Scenario, WindChoice, draw};

    #[test]
    fn parts_in_any_order_come_to_the_same_as_the_whole() {
        let scenario = Scenario::tight_strip();
        let scorer = Scorer::new(&scenario);
        // Trial 3 twice, so that the least margins have ties.
        let numbers: Vec<u64> = (0..12).chain([3]).collect();
        let drawn: Vec<_> = numbers.iter().map(|&trial| draw(&scenario, trial, WindChoice::Mean)).collect();
        let scores = scorer.score(&drawn);
        let tally = |range: std::ops::Range<usize>| {
            let mut tally = Tally::new(scorer.limits().len());
            range.for_each(|index| tally.add(numbers[index] + 100 * u64::from(index == 12), &scores[index]));
            tally
        };
        let whole = tally(0..13);
        assert_eq!((whole.trials, whole.outcomes.iter().sum::<u64>()), (13, 13));
        assert_eq!(whole.by_law.iter().map(|law| law.trials).sum::<u64>(), 13);
        assert_eq!(whole.by_law.iter().map(|law| law.kept).sum::<u64>(), whole.kept);
        for cut in 0..=13 {
            let (mut ahead, mut behind) = (tally(0..cut), tally(cut..13));
            let (first, last) = (ahead.clone(), behind.clone());
            ahead.merge(&last);
            behind.merge(&first);
            assert_eq!((&ahead, &behind), (&whole, &whole));
        }
    }
}
