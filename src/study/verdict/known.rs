//! What do trials say where only some of them are known, whatever the others do?

use super::{Answer, Demand};
use crate::margins::Score;
use crate::study::Tally;

impl Demand {
    /// Whether the trials may say yes where those of some numbers are known: no others do better than to meet everything.
    pub(in crate::study) fn may_hold(&self, known: &[(u64, Score)]) -> bool {
        self.at_best(known).any(|answer| answer == Answer::Yes)
    }

    /// Whether they say no, whatever the others do.
    pub(in crate::study) fn must_fail(&self, known: &[(u64, Score)]) -> bool {
        self.at_best(known).find(|answer| *answer != Answer::Undecided) == Some(Answer::No)
    }

    /// What is said at each look where all trials but the known ones meet everything.
    fn at_best(&self, known: &[(u64, Score)]) -> impl Iterator<Item = Answer> {
        self.looks().at().map(move |of| {
            let among = |short: fn(&Score) -> bool| {
                known.iter().filter(|(trial, score)| *trial <= of && short(score)).count() as u64
            };
            let (crossed, kept) = (among(|score| score.crossed), of - among(|score| !score.kept));
            self.judge(&Tally { trials: of, crossed, kept, ..Tally::new(0) }).answer
        })
    }
}
