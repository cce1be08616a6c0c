//! Which circle to recommend, and which fails by least where none meets the demand.

use super::answer::{Bands, Choice};
use super::trials::{Circle, Flight, Trials};
use crate::run::WindChoice;
use crate::study::Tally;

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
    fn spare(&self, trials: &Trials<'_>) -> f64 {
        let spare = |flight: &Flight| trials.least_spare(flight.circle, &flight.score);
        spare(self.mean).min(spare(self.gust))
    }

    /// The limits by their spare in either wind, closest first.
    fn closest(&self, trials: &Trials<'_>) -> Vec<usize> {
        let mut spares: Vec<(usize, f64)> = Vec::new();
        for (index, spare) in trials.spares(&self.mean.score).chain(trials.spares(&self.gust.score)) {
            match spares.iter_mut().find(|(other, _)| *other == index) {
                Some((_, least)) => *least = least.min(spare),
                None => spares.push((index, spare)),
            }
        }
        spares.sort_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        spares.into_iter().map(|(index, _)| index).collect()
    }

    /// The answer, with what its cases came to.
    pub(super) fn choice(&self, trials: &Trials<'_>, cases: Tally) -> Choice {
        let Circle { radius_m, turn } = self.circle();
        Choice {
            radius_m,
            turn,
            mean: self.mean.score.clone(),
            gust: self.gust.score.clone(),
            cases,
            closest: self.closest(trials),
        }
    }
}

/// The best circle and whether it meets the mean wind's margins; none where nothing was flown.
///
/// Those in the band of cases come first, then those that hold in the gusts too, then the one with the greatest least
/// spare in either wind; of equals the plan's way round, then the smaller.
pub(super) fn best<'a, 'b>(
    trials: &Trials<'_>,
    bands: &Bands,
    candidates: &'b [Candidate<'a>],
) -> Option<(&'b Candidate<'a>, bool)> {
    let planned = Circle::planned(trials.scenario).turn;
    let rank = |candidate: &Candidate<'_>| {
        let meets = candidate.mean.score.meets();
        let in_gust = candidate.gust.score.meets();
        (meets, meets && in_cases(bands, candidate.circle()), meets && in_gust, candidate.spare(trials))
    };
    let ranked = candidates.iter().map(|candidate| (candidate, rank(candidate)));
    let best = ranked.max_by(|(a, x), (b, y)| {
        let flags = (x.0, x.1, x.2).cmp(&(y.0, y.1, y.2)).then(x.3.total_cmp(&y.3));
        let ways = (a.circle().turn == planned).cmp(&(b.circle().turn == planned));
        flags.then(ways).then(b.circle().radius_m.total_cmp(&a.circle().radius_m))
    });
    best.map(|(candidate, rank)| (candidate, rank.0))
}

fn in_cases(bands: &Bands, circle: Circle) -> bool {
    let inside = |low: f64, high: f64| (low..=high).contains(&circle.radius_m);
    bands.cases.iter().any(|band| band.turn == circle.turn && inside(band.low.radius_m, band.high.radius_m))
}

/// A circle flown in both winds as the plan is written.
pub(super) fn both_winds(trials: &Trials<'_>, circle: Circle) -> [Option<Flight>; 2] {
    [WindChoice::Mean, WindChoice::Gust].map(|wind| trials.fly(&[circle], wind).pop())
}
