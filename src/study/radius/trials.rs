//! Every uncertain input drawn, many times: each trial once, for every circle alike.

use rayon::prelude::*;

use super::Reason;
use super::answer::{End, RadiusPoint, RadiusRange};
use super::flyer::{BATCH, Circle, CircleFlyer};
use super::usable::runs;
use crate::margins::{LimitInfo, Outcome};
use crate::run::{Trial, WindChoice, draw};
use crate::study::Tally;
use crate::study::stats::{Share, Spread};
use crate::study::verdict::{Answer, Demand, Verdict};

/// Trials that are drawn together; a study that is stopped keeps whole blocks.
const BLOCK: u64 = 4 * BATCH as u64;

/// What trials came to on each circle, from the first up to the look at which the demand is decided there, and whether
/// that is all of them.
///
/// The blocks of trials are outermost, so that a study that is stopped has fewer trials and not fewer circles.
pub(super) fn tallies(flyer: &CircleFlyer<'_>, circles: &[Circle], demand: &Demand) -> (Vec<Tally>, bool) {
    let mut tallies = vec![Tally::new(flyer.limits().len()); circles.len()];
    let mut open: Vec<usize> = (0..circles.len()).collect();
    let mut first = 1;
    for until in demand.looks().at() {
        while first <= until && !open.is_empty() {
            let last = until.min(first + BLOCK - 1);
            flyer.work.expect(open.len() as u64 * (last + 1 - first));
            let block: Vec<(u64, Trial)> = (first..=last)
                .map(|trial| (trial, draw(flyer.scenario, trial, WindChoice::Mean).about(flyer.centre)))
                .collect();
            let tasks: Vec<(usize, &[(u64, Trial)])> =
                open.iter().flat_map(|&circle| block.chunks(BATCH).map(move |part| (circle, part))).collect();
            let parts: Option<Vec<Tally>> =
                tasks.par_iter().map(|&(circle, part)| tally(flyer, circles[circle], part)).collect();
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

/// Some trials on one circle; none where the work is to stop.
fn tally(flyer: &CircleFlyer<'_>, circle: Circle, drawn: &[(u64, Trial)]) -> Option<Tally> {
    if !flyer.work.go_on() {
        return None;
    }
    let trials: Vec<Trial> = drawn.iter().map(|(_, trial)| trial.circling(circle.radius_m, circle.turn)).collect();
    let mut tally = Tally::new(flyer.limits().len());
    for ((trial, _), score) in drawn.iter().zip(flyer.score_here(&trials)) {
        tally.add(*trial, &score);
    }
    Some(tally)
}

/// The ranges of neighbouring radii whose trials give an answer.
pub(super) fn usable(limits: &[LimitInfo], points: &[RadiusPoint], answer: Answer) -> Vec<RadiusRange> {
    let gives = |point: &RadiusPoint| point.verdict.is_some_and(|verdict| verdict.answer == answer);
    let mut usable = Vec::new();
    for points in points.chunk_by(|a, b| a.turn == b.turn) {
        let those: Vec<bool> = points.iter().map(gives).collect();
        for (from, to) in runs(&those) {
            let end = |at: usize, beyond: Option<&RadiusPoint>| {
                let radius_m = points[at].radius_m;
                match beyond.map(|point| (point, point.verdict)) {
                    Some((point, Some(verdict))) => {
                        End { radius_m, reason: beyond_it(limits, &point.trials, &verdict) }
                    }
                    _ => End { radius_m, reason: Reason::NoneFlown },
                }
            };
            let low = end(from, from.checked_sub(1).map(|before| &points[before]));
            let high = end(to, points.get(to + 1));
            usable.push(RadiusRange { turn: points[from].turn, low, high });
        }
    }
    usable
}

/// Why the trials beyond an end answer otherwise: by the limit crossed most where too many cross, else by the buffer that
/// most trials are inside.
fn beyond_it(limits: &[LimitInfo], tally: &Tally, verdict: &Verdict) -> Reason {
    match verdict.answer {
        Answer::Undecided => return Reason::Undecided(tally.trials),
        Answer::Yes => return Reason::Holds,
        Answer::No => {}
    }
    let share = |count| Share { count, of: tally.trials };
    let crossing = verdict.not_crossing == Answer::No;
    let count = |index: &usize| {
        let limit = &tally.limits[*index];
        limit.crossed + if crossing { 0 } else { limit.inside_buffer }
    };
    let most = (0..limits.len()).rev().max_by_key(count).filter(|index| count(index) > 0);
    if let Some(index) = most {
        let why = if crossing { Reason::Crossed } else { Reason::CrossedOrInside };
        return why(limits[index].clone(), share(count(&index)));
    }
    let count = |outcome: Outcome| tally.outcomes[outcome as usize];
    let (unsettled, empty) = (count(Outcome::NeverSettled), count(Outcome::EnergyOut));
    let outcome = if unsettled >= empty { Outcome::NeverSettled } else { Outcome::EnergyOut };
    Reason::CameTo(outcome, share(unsettled.max(empty)))
}

/// How far beyond its radius the circle is flown with home and position known exactly, metres, over trials.
pub(super) fn tracking(flyer: &CircleFlyer<'_>, circle: Circle, trials: u64) -> Spread {
    let mut beyond = Spread::new(0.1);
    flyer.work.expect(trials);
    let mut first = 1;
    while first <= trials && flyer.work.go_on() {
        let numbers = first..=trials.min(first + BLOCK - 1);
        let known = |trial| {
            let mut drawn = draw(flyer.scenario, trial, WindChoice::Mean).about(flyer.centre);
            let plan = &mut drawn.plan;
            [plan.home_error_x, plan.home_error_y, plan.position_noise] = [0.0; 3];
            drawn.circling(circle.radius_m, circle.turn)
        };
        let block: Vec<Trial> = numbers.clone().map(known).collect();
        for (trial, score) in numbers.zip(flyer.score(&block)) {
            beyond.add(trial, circle.blown_wide(&score));
        }
        first += BLOCK;
    }
    beyond
}
