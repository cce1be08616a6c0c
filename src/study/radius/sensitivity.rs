//! What moves the answer: every uncertain input by itself, and the law that guides the jet.

use super::answer::{Family, Sensitivity};
use super::closed::wind_aloft;
use super::trials::{Circle, Trials};
use crate::jet::turn;
use crate::ledger::Score;
use crate::recovery::{Firmness, Guidance};
use crate::run::{Case, Input, WindChoice, nudged};

/// Every input moved by one spread either way, all others at their middle; what moves the answer most comes first.
pub(super) fn sensitivity(trials: &Trials<'_>, circle: Circle) -> Vec<Sensitivity> {
    let moved: Vec<[(Case, String); 2]> = Input::ALL
        .into_iter()
        .map(|input| {
            [-1.0, 1.0].map(|spreads| {
                let (case, value) = nudged(trials.scenario, input, spreads);
                (case.about(trials.hub).circling(circle.radius_m, circle.turn), value)
            })
        })
        .collect();
    let cases: Vec<Case> = moved.iter().flatten().map(|(case, _)| *case).collect();
    trials.work.expect(cases.len() as u64);
    let scores = trials.score(&cases);
    let smallest = |case: &Case| {
        turn::smallest_radius(case.jet.return_speed, wind_aloft(trials.scenario, case), case.jet.bank_limit)
    };
    let mut all: Vec<Sensitivity> = Input::ALL
        .into_iter()
        .zip(moved)
        .zip(scores.chunks_exact(2))
        .map(|((input, [low, high]), scores)| {
            let both = |value: fn(&Score) -> Option<f64>| [value(&scores[0]), value(&scores[1])];
            Sensitivity {
                input: input.name(),
                smallest_m: [smallest(&low.0), smallest(&high.0)],
                outermost_m: both(|score| score.outermost_m),
                spare_m: [trials.least_spare_m(&scores[0]), trials.least_spare_m(&scores[1])],
                values: [low.1, high.1],
            }
        })
        .collect();
    all.sort_by(|a, b| swing(b).total_cmp(&swing(a)));
    all
}

/// The furthest that anything moves between the low and the high value, metres.
fn swing(input: &Sensitivity) -> f64 {
    let outermost = match input.outermost_m {
        [Some(low), Some(high)] => high - low,
        [None, None] => 0.0,
        _ => f64::INFINITY,
    };
    let apart = |[low, high]: [f64; 2]| (high - low).abs();
    outermost.abs().max(apart(input.smallest_m)).max(apart(input.spare_m))
}

/// The circle in the mean wind under each of the representative laws, whether ruled out or not.
pub(super) fn family(trials: &Trials<'_>, circle: Circle) -> Vec<Family> {
    let pairs = Guidance::ALL.into_iter().flat_map(|guidance| Firmness::ALL.map(|firmness| (guidance, firmness)));
    let pairs: Vec<_> = pairs.collect();
    let plain = trials.plain(WindChoice::Mean).circling(circle.radius_m, circle.turn);
    let cases: Vec<Case> = pairs.iter().map(|&(guidance, firmness)| plain.under(guidance, firmness)).collect();
    trials.work.expect(cases.len() as u64);
    let all = pairs.into_iter().zip(trials.score(&cases));
    all.map(|((guidance, firmness), mean)| Family { guidance, firmness, mean }).collect()
}
