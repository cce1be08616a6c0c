//! What do the parts that a flight is measured by come to: boundary, areas, heights, time, place?

use super::{Part, PartKind, share};
use crate::margins::MarginRow;
use crate::rehearsal::{Rehearsal, Stage};
use crate::run::HeightAbove;

/// The least margin of some limits, against its buffer.
pub(super) fn nearest(kind: PartKind, rows: &[MarginRow], of: impl Fn(&MarginRow) -> bool) -> Part {
    let points = |row: &MarginRow| share(row.margin, [0.0, row.buffer.max(1.0)]);
    let worst = rows.iter().filter(|row| of(row)).min_by(|a, b| points(a).total_cmp(&points(b)));
    Part {
        kind,
        points: kind.most() * worst.map_or(1.0, points),
        value: worst.map(|row| row.margin),
        at_s: worst.map(|row| row.at_s),
        row: worst.cloned(),
    }
}

/// Time-weighted: nothing where half of it is outside, all where none is.
pub(super) fn heights(flown: &Rehearsal, samples: usize, over_ground: &impl Fn(usize) -> f64) -> Part {
    let limits = &flown.scenario().file.limits;
    let buffer = limits.height_buffer.m();
    let trace = flown.trace();
    let most = |index: usize| {
        limits.height_limit.map_or(f64::INFINITY, |limit| {
            let measured = match limit.above {
                HeightAbove::Ground => over_ground(index),
                HeightAbove::Home => trace.height_m[index],
            };
            limit.height.m() - buffer - measured
        })
    };
    let keeps = |index: &usize| over_ground(*index) >= buffer && most(*index) >= 0.0;
    let kept = (0..samples).filter(keeps).count();
    #[allow(clippy::cast_precision_loss, reason = "a flight has few samples")]
    let value = if samples > 0 { kept as f64 / samples as f64 } else { 0.0 };
    let first = (0..samples).find(|index| !keeps(index));
    let kind = PartKind::Heights;
    Part {
        kind,
        points: kind.most() * share(value, [0.5, 1.0]),
        value: Some(value),
        at_s: first.map(|index| trace.time_s(index)),
        row: None,
    }
}

/// All within the time that the plan counts on, nothing at twice that.
pub(super) fn time(flown: &Rehearsal) -> Part {
    let kind = PartKind::Time;
    let counted_on = flown.scenario().file.limits.take_over.value.s();
    let said = flown.stages().at(Stage::Said);
    #[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
    let took = said.zip(flown.lost_at()).map(|(said, lost)| (said - lost) as f64 * flown.step_s());
    Part {
        kind,
        points: kind.most() * took.map_or(0.0, |took| share(took, [2.0 * counted_on, counted_on])),
        value: took,
        at_s: said.map(|said| flown.trace().time_s(said)),
        row: None,
    }
}

/// All where it flies against the wind or across it, nothing straight downwind: the fast half is no place to take over.
pub(super) fn place(flown: &Rehearsal, taken_over: Option<usize>) -> Part {
    let kind = PartKind::Place;
    let trace = flown.trace();
    let ground = taken_over.filter(|&at| at + 1 < trace.len()).map(|at| {
        let speed = trace.point(at).distance(trace.point(at + 1)) / trace.step_s;
        (at, speed, speed - trace.airspeed_mps[at])
    });
    let wind = flown.scenario().wind_at_circle()[0];
    Part {
        kind,
        points: kind.most()
            * ground.map_or(0.0, |(_, _, pushed)| if wind < 1.0 { 1.0 } else { share(pushed, [wind, 0.0]) }),
        value: ground.map(|(_, speed, _)| speed),
        at_s: ground.map(|(at, ..)| trace.time_s(at)),
        row: None,
    }
}
