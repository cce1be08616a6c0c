//! Every uncertain input drawn, many times: each case once, for every circle alike.

use rayon::prelude::*;

use super::answer::{Band, End, RadiusAsk, RadiusPoint};
use super::bands::{NO_FURTHER, runs};
use super::trials::{BATCH, Circle, Trials};
use crate::ledger::{LimitInfo, Outcome};
use crate::run::{Case, WindChoice, draw};
use crate::study::Tally;
use crate::study::stats::{Share, Spread};

/// Cases that are drawn together; a study that is stopped keeps whole blocks.
const BLOCK: u64 = 4 * BATCH as u64;

/// What cases `1..=cases` came to on each circle, and whether that is all of them.
///
/// The blocks of cases are outermost, so that a study that is stopped has fewer cases and not fewer circles.
pub(super) fn tallies(trials: &Trials<'_>, circles: &[Circle], cases: u64) -> (Vec<Tally>, bool) {
    let mut tallies = vec![Tally::new(trials.limits().len()); circles.len()];
    let mut first = 1;
    while first <= cases {
        let block: Vec<(u64, Case)> = (first..=cases.min(first + BLOCK - 1))
            .map(|case| (case, draw(trials.scenario, case, WindChoice::Mean).about(trials.hub)))
            .collect();
        let tasks: Vec<(usize, &[(u64, Case)])> =
            (0..circles.len()).flat_map(|circle| block.chunks(BATCH).map(move |part| (circle, part))).collect();
        let parts: Option<Vec<Tally>> =
            tasks.par_iter().map(|&(circle, part)| tally(trials, circles[circle], part)).collect();
        let Some(parts) = parts else { return (tallies, false) };
        for ((circle, _), part) in tasks.iter().zip(&parts) {
            tallies[*circle].merge(part);
        }
        first += BLOCK;
    }
    (tallies, true)
}

/// Some cases on one circle; none where the work is to stop.
fn tally(trials: &Trials<'_>, circle: Circle, drawn: &[(u64, Case)]) -> Option<Tally> {
    if !trials.work.go_on() {
        return None;
    }
    let cases: Vec<Case> = drawn.iter().map(|(_, case)| case.circling(circle.radius_m, circle.turn)).collect();
    let mut tally = Tally::new(trials.limits().len());
    for ((case, _), score) in drawn.iter().zip(trials.score_here(&cases)) {
        tally.add(*case, &score);
    }
    Some(tally)
}

/// The bands of cases: neighbouring radii of which the asked share of cases meets every margin, at the confidence.
pub(super) fn bands(limits: &[LimitInfo], points: &[RadiusPoint], ask: &RadiusAsk) -> Vec<Band> {
    let mut bands = Vec::new();
    for points in points.chunk_by(|a, b| a.turn == b.turn) {
        let meets: Vec<bool> = points.iter().map(|point| meets(&point.cases, ask)).collect();
        for (from, to) in runs(&meets) {
            let end = |at: usize, beyond: Option<&RadiusPoint>| {
                let radius_m = points[at].radius_m;
                match beyond {
                    None => End { radius_m, limit: None, reason: NO_FURTHER.into() },
                    Some(point) => fails(limits, &point.cases, radius_m),
                }
            };
            let low = end(from, from.checked_sub(1).map(|before| &points[before]));
            let high = end(to, points.get(to + 1));
            bands.push(Band { turn: points[from].turn, low, high });
        }
    }
    bands
}

/// Whether enough cases met every margin.
fn meets(tally: &Tally, ask: &RadiusAsk) -> bool {
    let met = Share { count: tally.kept, of: tally.cases };
    tally.cases > 0 && met.wilson_lower_one_sided(ask.confidence) >= ask.share
}

/// The end of a band beyond which too few cases meet the demand.
fn fails(limits: &[LimitInfo], tally: &Tally, radius_m: f64) -> End {
    let nearer = |index: &usize| tally.limits[*index].breached + tally.limits[*index].thin;
    let most = (0..limits.len()).rev().max_by_key(nearer).filter(|index| nearer(index) > 0);
    let cases = tally.cases;
    let (limit, reason) = match most {
        Some(index) => {
            let info = &limits[index];
            (Some(info.limit), format!("{}: nearer than asked for in {} of {cases} cases", info.name, nearer(&index)))
        }
        None => {
            let [_, _, _, _, unsettled, empty, ..] = tally.outcomes;
            let outcome = if unsettled >= empty { Outcome::NeverSettled } else { Outcome::EnergyOut };
            (None, format!("{} in {} of {cases} cases", outcome.name(), unsettled.max(empty)))
        }
    };
    End { radius_m, limit, reason }
}

/// How far beyond its radius the circle is flown with home and position known exactly, metres, over drawn cases.
pub(super) fn tracking(trials: &Trials<'_>, circle: Circle, cases: u64) -> Spread {
    let mut beyond = Spread::new(0.1);
    trials.work.expect(cases);
    let mut first = 1;
    while first <= cases && trials.work.go_on() {
        let numbers = first..=cases.min(first + BLOCK - 1);
        let known = |case| {
            let mut drawn = draw(trials.scenario, case, WindChoice::Mean).about(trials.hub);
            let plan = &mut drawn.plan;
            [plan.home_error_x, plan.home_error_y, plan.position_noise] = [0.0; 3];
            drawn.circling(circle.radius_m, circle.turn)
        };
        let block: Vec<Case> = numbers.clone().map(known).collect();
        for (case, score) in numbers.zip(trials.score(&block)) {
            beyond.add(case, circle.thrown(&score));
        }
        first += BLOCK;
    }
    beyond
}
