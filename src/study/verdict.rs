//! Does a plan hold? Two shares of its trials against what is asked of each, never one: the place that all others ask.

mod known;

use std::ops::Range;

use rayon::prelude::*;

use super::stats::{Decision, HOPES_FOR, Interval, Looks, Share, percent, percent_interval};
use super::work::Work;
use super::{LimitTally, Tally};
use crate::margins::{LimitInfo, Outcome, Score, Scorer};
use crate::run::{Limits, Scenario, WindChoice, draw};

/// Trials scored between looks at whether to go on.
const BATCH: usize = 32;
/// Trials that are drawn together.
const BLOCK: u64 = 8 * BATCH as u64;
/// Questions that a yes has to answer: is nothing crossed, are the buffers kept?
const PARTS: u32 = 2;
/// More trials than this are not counted one by one in words.
const MANY: u64 = 1 << 15;
/// Most trials that are promised to decide: more would take days.
const TOO_MANY: u64 = 1 << 22;

/// What trials say to a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Answer {
    /// What is asked for is met, at the confidence.
    Yes,
    /// It is not, at the confidence.
    No,
    /// The trials flown don't tell.
    Undecided,
}

/// What is asked of a plan's trials.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// Largest share of the trials that may cross a limit, 0 to 1.
    pub crossed_at_most: f64,
    /// Smallest share of the trials that have to keep every buffer, 0 to 1.
    pub kept_at_least: f64,
    /// How sure the answer is to be: it is wrong in no more than what this leaves out, whenever the flying ends.
    pub confidence: f64,
    /// Most trials flown before it stays undecided.
    pub most: u64,
}

/// What the trials of a plan came to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// What was asked.
    pub demand: Demand,
    /// Trials flown; the plan as entered is none of them.
    pub trials: u64,
    /// Those that crossed a limit.
    pub crossed: Share,
    /// Those that kept every buffer.
    pub kept: Share,
    /// Those that held the commanded circle: told, not asked for.
    pub held: Share,
    /// Whether few enough crossed.
    pub not_crossing: Answer,
    /// Whether enough kept the buffers.
    pub keeping: Answer,
    /// Yes where both are, no where one is not, else undecided.
    pub answer: Answer,
}

/// The verdict of a scenario's own circle, and what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct PlanVerdict {
    /// The verdict.
    pub verdict: Verdict,
    /// What the trials came to.
    pub tally: Tally,
    /// The limits, in the order of the tally's.
    pub limits: Vec<LimitInfo>,
    /// Whether it was stopped before it was decided.
    pub partial: bool,
}

impl Answer {
    /// In print.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Yes => "yes",
            Self::No => "no",
            Self::Undecided => "undecided",
        }
    }

    /// Yes where both are, no where one is not.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::No, _) | (_, Self::No) => Self::No,
            (Self::Yes, Self::Yes) => Self::Yes,
            _ => Self::Undecided,
        }
    }
}

impl From<Decision> for Answer {
    fn from(decision: Decision) -> Self {
        match decision {
            Decision::Meets => Self::Yes,
            Decision::Fails => Self::No,
            Decision::GoesOn => Self::Undecided,
        }
    }
}

impl Demand {
    /// What limits ask for, at 95 % confidence, in 8,192 trials at most: they tell a share of 0.7 % from the 1 % that is
    /// usually asked for, and one of 1.3 %.
    pub fn of(limits: &Limits) -> Self {
        let shares = [limits.crossed_at_most, limits.kept_at_least].map(|share| share.share());
        Self { crossed_at_most: shares[0], kept_at_least: shares[1], confidence: 0.95, most: 8192 }
    }

    /// The numbers of trials after which there may be an answer.
    pub fn looks(&self) -> Looks {
        Looks::new(self.most, self.confidence)
    }

    /// The interval of a share of the trials, by what all looks together leave out.
    pub fn interval(&self, share: Share) -> Interval {
        self.looks().interval(share)
    }

    /// What trials say; undecided after any number of them that is no planned look.
    pub fn judge(&self, tally: &Tally) -> Verdict {
        let share = |count| Share { count, of: tally.trials };
        let (crossed, kept) = (share(tally.crossed), share(tally.kept));
        let asks = |share, asked| Answer::from(self.looks().at_least(share, asked, PARTS));
        let not_crossing = asks(crossed.others(), 1.0 - self.crossed_at_most);
        let keeping = asks(kept, self.kept_at_least);
        Verdict {
            demand: *self,
            trials: tally.trials,
            crossed,
            kept,
            held: share(tally.held),
            not_crossing,
            keeping,
            answer: not_crossing.and(keeping),
        }
    }

    /// Counts trials until they decide, or the most of them, or until `fly` hands out none; and whether it did not.
    pub(super) fn until_decided(
        &self,
        limits: usize,
        fly: impl FnMut(Range<u64>) -> Option<Vec<Score>>,
    ) -> (Tally, bool) {
        self.go_on(Tally::new(limits), fly)
    }

    /// The same after trials that did not decide.
    pub(super) fn go_on(&self, tally: Tally, fly: impl FnMut(Range<u64>) -> Option<Vec<Score>>) -> (Tally, bool) {
        self.go_on_while(tally, |_| true, fly)
    }

    /// The same as long as it is worth while.
    pub(super) fn go_on_while(
        &self,
        mut tally: Tally,
        worth_while: impl Fn(&Verdict) -> bool,
        mut fly: impl FnMut(Range<u64>) -> Option<Vec<Score>>,
    ) -> (Tally, bool) {
        let before = tally.trials;
        for until in self.looks().at().skip_while(|&until| until <= before) {
            while tally.trials < until {
                let first = tally.trials + 1;
                let Some(scores) = fly(first..first + BLOCK.min(until + 1 - first)) else { return (tally, false) };
                scores.iter().for_each(|score| tally.add(tally.trials + 1, score));
            }
            let verdict = self.judge(&tally);
            if verdict.answer != Answer::Undecided || !worth_while(&verdict) {
                break;
            }
        }
        (tally, true)
    }
}

impl Verdict {
    /// The answer, the shares it rests on, and what is amiss or not known, such as "Yes: stays inside in 1022 of 1024,
    /// keeps the buffers in 1003, holds the circle in 1020"; without a full stop.
    pub fn in_words(&self) -> String {
        let shares = self.shares_told();
        let (few, enough) = (percent(1.0 - self.demand.crossed_at_most), percent(self.demand.kept_at_least));
        let parts = [
            (self.not_crossing, self.crossed.others(), format!("at least {few} stay inside")),
            (self.keeping, self.kept, format!("at least {enough} keep the buffers")),
        ];
        let which = |answer| parts.iter().filter(move |part| part.0 == answer);
        let list = |words: Vec<String>| words.join(" and ");
        match self.answer {
            _ if self.trials == 0 => format!("Undecided: {shares}"),
            Answer::Yes => format!("Yes: {shares}"),
            Answer::No => {
                let missed = list(which(Answer::No).map(|part| part.2.clone()).collect());
                format!("No: {shares}; asked for is that {missed}")
            }
            Answer::Undecided => {
                let unknown = which(Answer::Undecided)
                    .map(|part| format!("{} ({})", part.2, percent_interval(self.demand.interval(part.1))));
                let more = match self.trials_needed() {
                    Some(trials) if trials > MANY => format!("it would take more than {MANY} trials to tell"),
                    Some(trials) => format!("some {trials} trials would tell if it goes on like this"),
                    None => "too near to what is asked for to be told by trials".into(),
                };
                format!("Undecided: {shares}; not known is whether {}: {more}", list(unknown.collect()))
            }
        }
    }

    /// The three shares alone.
    pub fn shares_told(&self) -> String {
        if self.trials == 0 {
            return "no trial flown".into();
        }
        let (inside, all) = (self.crossed.others().count, self.trials);
        let (kept, held) = (self.kept.count, self.held.count);
        format!("stays inside in {inside} of {all}, keeps the buffers in {kept}, holds the circle in {held}")
    }

    /// Whether more trials will hardly decide it: not twice the most if the shares stay as they are. To stop then is never
    /// wrong: what is said is that it is undecided.
    pub(super) fn is_hopeless(&self) -> bool {
        self.trials >= HOPES_FOR && self.as_now(self.demand.most.saturating_mul(2)) == Answer::Undecided
    }

    /// What would be said of so many trials at most, all flown, if the shares stay as they are.
    fn as_now(&self, most: u64) -> Answer {
        let [crossed, kept] = [self.crossed, self.kept].map(|share| share.scaled(most).count);
        let tally = Tally { trials: most, crossed, kept, ..Tally::new(0) };
        Demand { most, ..self.demand }.judge(&tally).answer
    }

    /// Trials that would decide if the shares stay as they are; none where no number within reason does.
    pub fn trials_needed(&self) -> Option<u64> {
        let numbers = std::iter::successors(self.trials.checked_next_power_of_two(), |trials| trials.checked_mul(2));
        let mut numbers = numbers.skip_while(|&trials| trials <= self.trials).take_while(|&trials| trials <= TOO_MANY);
        numbers.find(|&most| self.as_now(most) != Answer::Undecided)
    }
}

impl PlanVerdict {
    /// The verdict's words, and where it is not a yes the limit that most trials fail by.
    pub fn in_words(&self) -> String {
        let told = self.verdict.in_words();
        match self.reason_told() {
            Some(reason) if self.verdict.answer != Answer::Yes => format!("{told}; {reason}"),
            _ => told,
        }
    }

    /// What most trials fail by in the part that is not a yes: the limit crossed most, such as "crossed most: flight line,
    /// in 12", or how they end in the air where that is more; else the limit whose buffer most of them are inside.
    pub fn reason_told(&self) -> Option<String> {
        let most = |count: fn(&LimitTally) -> u64| {
            let counted = self.limits.iter().zip(&self.tally.limits).map(|(limit, tally)| (count(tally), &limit.name));
            // Of equals the first, as the limits are listed.
            counted.rev().max_by_key(|(count, _)| *count).filter(|(count, _)| *count > 0)
        };
        if self.verdict.not_crossing == Answer::Yes {
            return most(|tally| tally.inside_buffer)
                .map(|(count, name)| format!("inside the buffer most: {name}, in {count}"));
        }
        let crossed = most(|tally| tally.crossed);
        let never_down =
            [Outcome::NeverSettled, Outcome::EnergyOut].map(|outcome| (self.tally.outcomes[outcome as usize], outcome));
        let ended = never_down.into_iter().max_by_key(|(count, _)| *count).filter(|(count, _)| *count > 0);
        match (crossed, ended) {
            (Some((count, _)), Some((more, outcome))) if more > count => {
                Some(format!("failed most by: {}, in {more}", outcome.name()))
            }
            (Some((count, name)), _) => Some(format!("crossed most: {name}, in {count}")),
            (None, ended) => ended.map(|(count, outcome)| format!("failed most by: {}, in {count}", outcome.name())),
        }
    }
}

/// Flies a scenario's own circle, everything uncertain drawn, until the demand is decided.
pub fn plan(scenario: &Scenario, demand: &Demand, work: &Work) -> PlanVerdict {
    let scorer = Scorer::new(scenario);
    work.expect(demand.most);
    let (tally, complete) = demand.until_decided(scorer.limits().len(), |numbers| {
        let numbers: Vec<u64> = numbers.collect();
        let parts: Option<Vec<Vec<Score>>> = numbers
            .par_chunks(BATCH)
            .map(|some| {
                let trials: Vec<_> = some.iter().map(|&trial| draw(scenario, trial, WindChoice::Mean)).collect();
                work.go_on().then(|| scorer.score(&trials))
            })
            .collect();
        work.add(numbers.len() as u64);
        parts.map(|parts| parts.into_iter().flatten().collect())
    });
    work.add(demand.most - tally.trials.min(demand.most));
    PlanVerdict { verdict: demand.judge(&tally), limits: scorer.limits().to_vec(), tally, partial: !complete }
}

#[cfg(test)]
mod tests;
