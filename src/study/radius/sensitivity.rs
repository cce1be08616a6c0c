//! What moves the answer: every uncertain input by itself, and the law that guides the jet.

use super::answer::{Family, Sensitivity};
use super::closed::wind_aloft;
use super::flyer::{Circle, CircleFlyer};
use crate::jet::turn;
use crate::margins::Score;
use crate::recovery::{Gain, Guidance};
use crate::run::{Input, Trial, WindChoice, nudged};

/// Every input moved by one spread either way, all others at their middle; what moves the answer most comes first.
pub(super) fn sensitivity(flyer: &CircleFlyer<'_>, circle: Circle) -> Vec<Sensitivity> {
    let moved: Vec<[(Trial, String); 2]> = Input::ALL
        .into_iter()
        .map(|input| {
            [-1.0, 1.0].map(|spreads| {
                let (trial, value) = nudged(flyer.scenario, input, spreads);
                (trial.about(flyer.centre).circling(circle.radius_m, circle.turn), value)
            })
        })
        .collect();
    let trials: Vec<Trial> = moved.iter().flatten().map(|(trial, _)| *trial).collect();
    flyer.work.expect(trials.len() as u64);
    let scores = flyer.score(&trials);
    let smallest = |trial: &Trial| {
        turn::smallest_radius(trial.jet.return_speed, wind_aloft(flyer.scenario, trial), trial.jet.maximum_bank)
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
                furthest_m: both(|score| score.furthest_m),
                spare_m: [flyer.least_spare_m(&scores[0]), flyer.least_spare_m(&scores[1])],
                values: [low.1, high.1],
            }
        })
        .collect();
    all.sort_by(|a, b| swing(b).total_cmp(&swing(a)));
    all
}

/// The furthest that anything moves between the low and the high value, metres.
fn swing(input: &Sensitivity) -> f64 {
    let furthest = match input.furthest_m {
        [Some(low), Some(high)] => high - low,
        [None, None] => 0.0,
        _ => f64::INFINITY,
    };
    let apart = |[low, high]: [f64; 2]| (high - low).abs();
    furthest.abs().max(apart(input.smallest_m)).max(apart(input.spare_m))
}

/// The circle in the mean wind under each of the representative laws, whether ruled out or not.
pub(super) fn family(flyer: &CircleFlyer<'_>, circle: Circle) -> Vec<Family> {
    let pairs = Guidance::ALL.into_iter().flat_map(|guidance| Gain::ALL.map(|gain| (guidance, gain)));
    let pairs: Vec<_> = pairs.collect();
    let plain = flyer.plain(WindChoice::Mean).circling(circle.radius_m, circle.turn);
    let trials: Vec<Trial> = pairs.iter().map(|&(guidance, gain)| plain.under(guidance, gain)).collect();
    flyer.work.expect(trials.len() as u64);
    let all = pairs.into_iter().zip(flyer.score(&trials));
    all.map(|((guidance, gain), mean)| Family { guidance, gain, mean }).collect()
}
