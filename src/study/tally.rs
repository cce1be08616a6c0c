//! What many cases came to, counted: memory does not grow with their number, and the order of counting does not matter.

use crate::ledger::{Outcome, Score, Verdict};
use crate::recovery::Guidance;
use crate::study::stats::Spread;

/// Margins to one limit over many cases.
#[derive(Debug, Clone, PartialEq)]
pub struct LimitTally {
    /// Cases that breached it.
    pub breached: u64,
    /// Cases nearer to it than asked for.
    pub thin: u64,
    /// Least margin of all, in the unit of the limit; infinite where it never applied.
    pub least: f64,
    /// The case it belongs to, the lowest where several share it.
    pub least_case: u64,
}

/// What the cases under one guidance law came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LawTally {
    /// Cases that flew it.
    pub cases: u64,
    /// Of them, cases that kept every buffer.
    pub kept: u64,
    /// Of them, cases that crossed a limit.
    pub crossed: u64,
}

/// What many cases came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Tally {
    /// Number of cases.
    pub cases: u64,
    /// Cases that crossed a limit.
    pub crossed: u64,
    /// Cases that kept every buffer.
    pub kept: u64,
    /// Cases that held the commanded circle, whatever their margins.
    pub held: u64,
    /// Cases of each outcome, in the order of [`Outcome::ALL`].
    pub outcomes: [u64; Outcome::ALL.len()],
    /// One a guidance law, in the order of [`Guidance::ALL`].
    pub by_law: [LawTally; Guidance::ALL.len()],
    /// One a limit, in the order of the scorer's limits.
    pub limits: Vec<LimitTally>,
    /// Furthest from the hub in the last lap, metres; missing where no circle was reached.
    pub outermost_m: Spread,
    /// How far outside the commanded ring the join carried it, metres.
    pub join_overshoot_m: Spread,
    /// Time from the loss to the circle, seconds.
    pub home_s: Spread,
    /// Laps from reaching the circle to the reserve.
    pub laps_in_hand: Spread,
}

impl LimitTally {
    const NONE: Self = Self { breached: 0, thin: 0, least: f64::INFINITY, least_case: 0 };

    fn take_least(&mut self, margin: f64, case: u64) {
        if margin < self.least || (margin == self.least && margin.is_finite() && case < self.least_case) {
            (self.least, self.least_case) = (margin, case);
        }
    }
}

impl Tally {
    /// Nothing yet, for a number of limits.
    pub fn new(limits: usize) -> Self {
        Self {
            cases: 0,
            crossed: 0,
            kept: 0,
            held: 0,
            outcomes: [0; Outcome::ALL.len()],
            by_law: Default::default(),
            limits: vec![LimitTally::NONE; limits],
            outermost_m: Spread::new(0.5),
            join_overshoot_m: Spread::new(0.5),
            home_s: Spread::new(0.5),
            laps_in_hand: Spread::new(0.1),
        }
    }

    /// Counts one more.
    pub fn add(&mut self, case: u64, score: &Score) {
        self.cases += 1;
        self.crossed += u64::from(score.crossed);
        self.kept += u64::from(score.kept);
        self.held += u64::from(score.held);
        self.outcomes[score.outcome as usize] += 1;
        let law = &mut self.by_law[score.guidance as usize];
        law.cases += 1;
        law.kept += u64::from(score.kept);
        law.crossed += u64::from(score.crossed);
        for (tally, gap) in self.limits.iter_mut().zip(&score.gaps) {
            tally.breached += u64::from(gap.verdict == Verdict::Breached);
            tally.thin += u64::from(gap.verdict == Verdict::Thin);
            tally.take_least(gap.margin, case);
        }
        self.outermost_m.add(case, score.outermost_m);
        self.join_overshoot_m.add(case, score.join_overshoot_m);
        self.home_s.add(case, score.home_s);
        self.laps_in_hand.add(case, score.laps_in_hand);
    }

    /// Counts what another counted, of the same limits.
    pub fn merge(&mut self, other: &Self) {
        self.cases += other.cases;
        self.crossed += other.crossed;
        self.kept += other.kept;
        self.held += other.held;
        for (mine, theirs) in self.outcomes.iter_mut().zip(other.outcomes) {
            *mine += theirs;
        }
        for (mine, theirs) in self.by_law.iter_mut().zip(other.by_law) {
            mine.cases += theirs.cases;
            mine.kept += theirs.kept;
            mine.crossed += theirs.crossed;
        }
        for (mine, theirs) in self.limits.iter_mut().zip(&other.limits) {
            mine.breached += theirs.breached;
            mine.thin += theirs.thin;
            mine.take_least(theirs.least, theirs.least_case);
        }
        self.outermost_m.merge(&other.outermost_m);
        self.join_overshoot_m.merge(&other.join_overshoot_m);
        self.home_s.merge(&other.home_s);
        self.laps_in_hand.merge(&other.laps_in_hand);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::Scorer;
    use crate::run::{Scenario, WindChoice, draw};

    #[test]
    fn parts_in_any_order_come_to_the_same_as_the_whole() {
        let scenario = Scenario::tight_strip();
        let scorer = Scorer::new(&scenario);
        // Case 3 twice, so that the least margins have ties.
        let numbers: Vec<u64> = (0..12).chain([3]).collect();
        let drawn: Vec<_> = numbers.iter().map(|&case| draw(&scenario, case, WindChoice::Mean)).collect();
        let scores = scorer.score(&drawn);
        let tally = |range: std::ops::Range<usize>| {
            let mut tally = Tally::new(scorer.limits().len());
            range.for_each(|index| tally.add(numbers[index] + 100 * u64::from(index == 12), &scores[index]));
            tally
        };
        let whole = tally(0..13);
        assert_eq!((whole.cases, whole.outcomes.iter().sum::<u64>()), (13, 13));
        assert_eq!(whole.by_law.iter().map(|law| law.cases).sum::<u64>(), 13);
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
