//! One line: in every direction the furthest place inside and the nearest outside, by looking at as few places as will do.

use std::collections::BTreeMap;

use glam::DVec2;

use super::place::{Place, Prober};
use super::{Bounds, KeepLine, in_order, ray};
use crate::study::stats::Decision;
use crate::study::work::Work;

/// Steps between the places of the first scan.
const STRIDE: u32 = 2;
/// Trials of such a place, and how many of them may cross before it is looked at more closely: where 4 % cross, 3 in 100
/// scans pass the place by (binomial), and where 2 % do, 3 in 10.
const GLANCE: u64 = 128;
const STRAY: u64 = 1;

/// The line of a prober; none where the work is stopped before it is whole.
pub(super) fn line(prober: &Prober<'_>, work: &Work) -> Option<KeepLine> {
    let bearings = prober.ask.bearings.max(3);
    let mut centre = prober.place(prober.scenario.field.centre, 0, work)?;
    prober.look(&mut centre, prober.ask.most, work)?;
    let mut line = KeepLine {
        headings: prober.headings,
        pace: prober.pace,
        speed_mps: prober.speed_mps,
        bounds: Vec::new(),
        centre: centre.crossed,
        limit: most_crossed(&centre.by_limit),
        trials: centre.crossed.of,
    };
    if centre.decision != Decision::Meets {
        return Some(line);
    }
    let row = in_order(work, 0..u64::from(bearings), |index| {
        let out = ray(index as f64 / f64::from(bearings));
        Direction { prober, out, stream: 1 + index, seen: BTreeMap::new() }.search(work)
    });
    let mut crossed = vec![0; prober.limits().len()];
    for (bounds, direction) in row.results.into_iter().map_while(|found| found) {
        line.bounds.push(bounds);
        for found in direction.into_values() {
            line.trials += found.crossed.of;
            crossed.iter_mut().zip(found.by_limit).for_each(|(sum, more)| *sum += more);
        }
    }
    line.limit = most_crossed(&crossed);
    (line.bounds.len() == bearings as usize).then_some(line)
}

fn most_crossed(counts: &[u64]) -> Option<usize> {
    // Of two alike the earlier.
    let most = counts.iter().enumerate().rev().max_by_key(|(_, count)| **count);
    most.filter(|(_, count)| **count > 0).map(|(index, _)| index)
}

/// The places along one direction, by their number of steps from the centre, which is inside.
struct Direction<'a, 'b> {
    prober: &'a Prober<'b>,
    out: DVec2,
    stream: u64,
    seen: BTreeMap<u32, Place>,
}

impl Direction<'_, '_> {
    fn place(&self, steps: u32) -> DVec2 {
        self.prober.scenario.field.centre + self.out * (f64::from(steps) * self.prober.ask.step_m)
    }

    fn outside(&self, steps: u32) -> bool {
        !self.prober.scenario.field.boundary.contains(self.place(steps))
    }

    /// What a place comes to. Off the boundary it is crossed already.
    fn decide(&mut self, steps: u32, work: &Work) -> Option<Decision> {
        match steps {
            0 => Some(Decision::Meets),
            _ if self.outside(steps) => Some(Decision::Fails),
            _ => Some(self.look(steps, self.prober.ask.most, work)?.decision),
        }
    }

    /// A place, looked at until it is decided, or so many trials are flown.
    fn look(&mut self, steps: u32, most: u64, work: &Work) -> Option<&Place> {
        let place = match self.seen.remove(&steps) {
            Some(place) => place,
            None => self.prober.place(self.place(steps), self.stream, work)?,
        };
        let place = self.seen.entry(steps).or_insert(place);
        self.prober.look(place, most, work)?;
        Some(place)
    }

    /// Outward with a glance every few steps, to the first place that is not inside: what lies beyond may be inside again, and
    /// is no part of it.
    fn scan(&mut self, work: &Work) -> Option<u32> {
        let mut steps = STRIDE;
        while !self.outside(steps) {
            let strays = self.look(steps, GLANCE, work)?.crossed.count > STRAY;
            if strays && self.decide(steps, work)? != Decision::Meets {
                return Some(steps);
            }
            steps += STRIDE;
        }
        Some((steps - STRIDE + 1..steps).find(|&steps| self.outside(steps)).unwrap_or(steps))
    }

    fn search(mut self, work: &Work) -> Option<(Bounds, BTreeMap<u32, Place>)> {
        let start = self.scan(work)?;
        // Inward in growing strides to a place inside, then halving.
        let (mut high, mut stride) = (start, 1);
        let mut low = high.saturating_sub(1);
        while self.decide(low, work)? != Decision::Meets {
            (high, stride) = (low, 2 * stride);
            low = low.saturating_sub(stride);
        }
        let inside = self.halve(low, high, Decision::Meets, work)?;
        // Outward to a place outside, then halving.
        let (mut last, mut fails) = (inside, start.max(inside + 1));
        while self.decide(fails, work)? != Decision::Fails {
            (last, fails) = (fails, fails + 1);
        }
        // Only what is undecided lies between.
        let outside = if last == inside { self.first_failing(inside, fails, work)? } else { fails };
        let step = self.prober.ask.step_m;
        Some((Bounds { inside_m: f64::from(inside) * step, outside_m: f64::from(outside) * step }, self.seen))
    }

    /// The last place with an answer between one that has it and one that has not.
    fn halve(&mut self, low: u32, high: u32, answer: Decision, work: &Work) -> Option<u32> {
        let (mut low, mut high) = (low, high);
        while high - low > 1 {
            let middle = u32::midpoint(low, high);
            *(if self.decide(middle, work)? == answer { &mut low } else { &mut high }) = middle;
        }
        Some(low)
    }

    /// The first place that fails between one that doesn't and one that does.
    fn first_failing(&mut self, low: u32, high: u32, work: &Work) -> Option<u32> {
        let (mut low, mut high) = (low, high);
        while high - low > 1 {
            let middle = u32::midpoint(low, high);
            *(if self.decide(middle, work)? == Decision::Fails { &mut high } else { &mut low }) = middle;
        }
        Some(high)
    }
}
