//! Every uncertain input drawn, many times: each case once, for every circle alike.

use rayon::prelude::*;

use super::answer::{Band, End, RadiusPoint};
use super::bands::{NO_FURTHER, runs};
use super::trials::{BATCH, Circle, Trials};
use crate::ledger::{LimitInfo, Outcome};
use crate::run::{Case, WindChoice, draw};
use crate::study::Tally;
use crate::study::stats::Spread;
use crate::study::verdict::{Answer, Demand, Verdict};

/// Cases that are drawn together; a study that is stopped keeps whole blocks.
const BLOCK: u64 = 4 * BATCH as u64;

/// What cases came to on each circle, from the first up to the look at which the demand is decided there, and whether
/// that is all of them.
///
/// The blocks of cases are outermost, so that a study that is stopped has fewer cases and not fewer circles.
pub(super) fn tallies(trials: &Trials<'_>, circles: &[Circle], demand: &Demand) -> (Vec<Tally>, bool) {
    let mut tallies = vec![Tally::new(trials.limits().len()); circles.len()];
    let mut open: Vec<usize> = (0..circles.len()).collect();
    let mut first = 1;
    for until in demand.looks().at() {
        while first <= until && !open.is_empty() {
            let last = until.min(first + BLOCK - 1);
            trials.work.expect(open.len() as u64 * (last + 1 - first));
            let block: Vec<(u64, Case)> = (first..=last)
                .map(|case| (case, draw(trials.scenario, case, WindChoice::Mean).about(trials.hub)))
                .collect();
            let tasks: Vec<(usize, &[(u64, Case)])> =
                open.iter().flat_map(|&circle| block.chunks(BATCH).map(move |part| (circle, part))).collect();
            let parts: Option<Vec<Tally>> =
                tasks.par_iter().map(|&(circle, part)| tally(trials, circles[circle], part)).collect();
            let Some(parts) = parts else { return (tallies, false) };
            for ((circle, _), part) in tasks.iter().zip(&parts) {
                tallies[*circle].merge(part);
            }
            first = last + 1;
        }
        open.retain(|&circle| demand.judge(&tallies[circle]).answer == Answer::Undecided);
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

/// The bands of neighbouring radii whose trials give an answer.
pub(super) fn bands(limits: &[LimitInfo], points: &[RadiusPoint], answer: Answer) -> Vec<Band> {
    let gives = |point: &RadiusPoint| point.verdict.is_some_and(|verdict| verdict.answer == answer);
    let mut bands = Vec::new();
    for points in points.chunk_by(|a, b| a.turn == b.turn) {
        let those: Vec<bool> = points.iter().map(gives).collect();
        for (from, to) in runs(&those) {
            let end = |at: usize, beyond: Option<&RadiusPoint>| {
                let radius_m = points[at].radius_m;
                match beyond.map(|point| (point, point.verdict)) {
                    Some((point, Some(verdict))) => beyond_it(limits, &point.cases, &verdict, radius_m),
                    _ => End { radius_m, limit: None, reason: NO_FURTHER.into() },
                }
            };
            let low = end(from, from.checked_sub(1).map(|before| &points[before]));
            let high = end(to, points.get(to + 1));
            bands.push(Band { turn: points[from].turn, low, high });
        }
    }
    bands
}

/// The end of a band beyond which the trials answer otherwise: by the limit crossed most where too many cross, else by
/// the buffer used most.
fn beyond_it(limits: &[LimitInfo], tally: &Tally, verdict: &Verdict, radius_m: f64) -> End {
    let cases = tally.cases;
    match verdict.answer {
        Answer::Undecided => return End { radius_m, limit: None, reason: format!("undecided in {cases} cases") },
        Answer::Yes => return End { radius_m, limit: None, reason: "there it holds".into() },
        Answer::No => {}
    }
    let crossing = verdict.not_crossing == Answer::No;
    let (what, short) = if crossing { ("crossed", 0) } else { ("crossed or its buffer used", 1) };
    let count = |index: &usize| tally.limits[*index].breached + short * tally.limits[*index].thin;
    let most = (0..limits.len()).rev().max_by_key(count).filter(|index| count(index) > 0);
    let (limit, reason) = match most {
        Some(index) => {
            let info = &limits[index];
            (Some(info.limit), format!("{}: {what} in {} of {cases} cases", info.name, count(&index)))
        }
        None => {
            let count = |outcome: Outcome| tally.outcomes[outcome as usize];
            let (unsettled, empty) = (count(Outcome::NeverSettled), count(Outcome::EnergyOut));
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
