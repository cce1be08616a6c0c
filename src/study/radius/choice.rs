//! Which circle to recommend, and which is nearest to it where none meets the demand.

use std::cmp::Ordering;

use super::answer::Choice;
use super::flyer::{Circle, CircleFlyer, Flight};
use crate::run::WindChoice;
use crate::study::Tally;
use crate::study::stats::Share;
use crate::study::verdict::{Answer, Verdict};

/// A circle flown in both winds.
pub(super) struct Candidate<'a> {
    pub(super) mean: &'a Flight,
    pub(super) gust: &'a Flight,
}

impl Candidate<'_> {
    pub(super) fn circle(&self) -> Circle {
        self.mean.circle
    }

    /// Least spare of both winds, in scales.
    fn spare(&self, flyer: &CircleFlyer<'_>) -> f64 {
        let spare = |flight: &Flight| flyer.least_spare(flight.circle, &flight.score);
        spare(self.mean).min(spare(self.gust))
    }

    /// The limits by their spare in either wind, closest first.
    fn closest(&self, flyer: &CircleFlyer<'_>) -> Vec<usize> {
        let mut spares: Vec<(usize, f64)> = Vec::new();
        for (index, spare) in flyer.spares(&self.mean.score).chain(flyer.spares(&self.gust.score)) {
            match spares.iter_mut().find(|(other, _)| *other == index) {
                Some((_, least)) => *least = least.min(spare),
                None => spares.push((index, spare)),
            }
        }
        spares.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        spares.into_iter().map(|(index, _)| index).collect()
    }

    /// The answer, with what its trials came to.
    pub(super) fn choice(&self, flyer: &CircleFlyer<'_>, trials: Tally, verdict: Option<Verdict>) -> Choice {
        let Circle { radius_m, turn } = self.circle();
        Choice {
            radius_m,
            turn,
            mean: self.mean.score.clone(),
            gust: self.gust.score.clone(),
            trials,
            verdict,
            closest: self.closest(flyer),
        }
    }
}

/// The circle that the plan as entered, without its errors, holds best, and whether it keeps its buffers in the mean
/// wind; none where nothing was flown.
///
/// Those that hold in the gusts too come first, then those that cross nothing, then the one with the greatest least spare
/// in either wind; of equals the plan's way round, then the smaller.
pub(super) fn roomiest<'a, 'b>(
    flyer: &CircleFlyer<'_>,
    candidates: &'b [Candidate<'a>],
) -> Option<(&'b Candidate<'a>, bool)> {
    let rank = |candidate: &Candidate<'_>| {
        let meets = candidate.mean.score.meets();
        let crossing = [candidate.mean, candidate.gust].map(|flight| flight.score.crossed);
        (meets, meets && candidate.gust.score.meets(), crossing.map(|crossed| !crossed), candidate.spare(flyer))
    };
    let ranked = candidates.iter().map(|candidate| (candidate, rank(candidate)));
    let best = ranked.max_by(|(a, x), (b, y)| {
        (x.0, x.1, x.2).cmp(&(y.0, y.1, y.2)).then(x.3.total_cmp(&y.3)).then(of_equals(flyer, a.circle(), b.circle()))
    });
    best.map(|(candidate, rank)| (candidate, rank.0))
}

/// What a circle's trials came to, beside the same circle as entered.
pub(super) struct JudgedCircle<'a, 'b> {
    pub(super) candidate: &'b Candidate<'a>,
    pub(super) verdict: Verdict,
    /// Whether its neighbours on both sides say yes too.
    pub(super) inside: bool,
}

/// The circle whose trials say most for it: a yes first, and of those one whose neighbours say yes too, as the edge of
/// what is usable is known no better than the spacing; then the smaller share that crosses, then the larger that keeps
/// the buffers, then the spare of the plan as entered.
pub(super) fn best<'a, 'b, 'c>(
    flyer: &CircleFlyer<'_>,
    all: &'c [JudgedCircle<'a, 'b>],
) -> Option<&'c JudgedCircle<'a, 'b>> {
    let rank = |answer: Answer| match answer {
        Answer::Yes => 2,
        Answer::Undecided => 1,
        Answer::No => 0,
    };
    let flags = |one: &JudgedCircle<'_, '_>| (rank(one.verdict.answer), one.inside, rank(one.verdict.not_crossing));
    let share = |share: Share| share.share().unwrap_or(0.0);
    all.iter().max_by(|a, b| {
        let (x, y) = (&a.verdict, &b.verdict);
        let (left, right) = (a.candidate, b.candidate);
        flags(a)
            .cmp(&flags(b))
            .then(share(y.crossed).total_cmp(&share(x.crossed)))
            .then(share(x.kept).total_cmp(&share(y.kept)))
            .then(left.spare(flyer).total_cmp(&right.spare(flyer)))
            .then(of_equals(flyer, left.circle(), right.circle()))
    })
}

/// Of two equals the plan's way round is the greater, then the smaller.
fn of_equals(flyer: &CircleFlyer<'_>, a: Circle, b: Circle) -> Ordering {
    let planned = Circle::planned(flyer.scenario).turn;
    (a.turn == planned).cmp(&(b.turn == planned)).then(b.radius_m.total_cmp(&a.radius_m))
}

/// A circle flown in both winds as the plan is written.
pub(super) fn both_winds(flyer: &CircleFlyer<'_>, circle: Circle) -> [Option<Flight>; 2] {
    [WindChoice::Mean, WindChoice::Gust].map(|wind| flyer.fly(&[circle], wind).pop())
}
