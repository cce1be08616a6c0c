//! The margins that lie on the ground plan and over it: boundary, areas, flight line, height limit, ground, obstacles.
//!
//! Each is the least along the swept path, between samples too, to edges and not to corners.

use glam::DVec2;

use super::clock::position;
use super::flown::{Flown, verdict};
use super::{Gap, PILOT_SPOT_M, Verdict};
use crate::field::{FieldArea, Obstacle, Rule};
use crate::geometry::{Least, Pass, Region, least_beside_or_over, least_signed};
use crate::lane::Lane;
use crate::run::{HeightAbove, HeightLimit};

impl<L: Lane> Flown<'_, L> {
    fn aside(&self) -> f64 {
        self.scenario.file.limits.buffer.m()
    }

    fn off_people(&self) -> f64 {
        self.scenario.file.limits.people_buffer.m()
    }

    fn upward(&self) -> f64 {
        self.scenario.file.limits.height_buffer.m()
    }

    fn least(&self, least: Option<Least>, buffer: f64) -> Option<Gap> {
        least.map(|least| self.gap((least.value, least.at), buffer))
    }

    /// The least signed distance to the edges of the region of a limit, by its number.
    fn signed(&self, limit: usize, region: &Region, outside: bool, buffer: f64) -> Option<Gap> {
        let (seen, rough) = (&self.seen, self.seen.rough(limit));
        let (way, point) = (|index| seen.way(index), |index| seen.point(index));
        self.least(least_signed(seen.length, way, point, rough, region, outside), buffer)
    }

    /// Inside the boundary.
    pub(super) fn boundary(&self, limit: usize) -> Option<Gap> {
        self.signed(limit, &self.scenario.field.boundary, false, self.aside())
    }

    /// Off an area, or over it, or seconds counted there.
    pub(super) fn area(&self, limit: usize, area: &FieldArea) -> Option<Gap> {
        match area.rule {
            Rule::Idle => None,
            Rule::NoFly => self.signed(limit, &area.region, true, self.aside()),
            Rule::People => self.signed(limit, &area.region, true, self.off_people()),
            Rule::Above(height_m) => {
                self.either(limit, &area.region, true, |at, place| self.seen.height(at) - self.ground(place) - height_m)
            }
            Rule::Caution => {
                let (seconds, first) = self.seconds_over(&area.region);
                let verdict = if seconds > 0.0 { Verdict::Counted } else { Verdict::Clear };
                Some(Gap { verdict, ..self.gap((seconds, first), 0.0) })
            }
        }
    }

    /// Off the people at the pilot position, who need no drawing.
    pub(super) fn pilot_position(&self, limit: usize, pilot: &Region) -> Option<Gap> {
        let gap = self.signed(limit, pilot, true, self.off_people())?;
        let margin = gap.margin - PILOT_SPOT_M;
        Some(Gap { margin, verdict: verdict(margin, gap.buffer), ..gap })
    }

    /// In front of the flight line. The distance is linear between samples, so that its least lies at one.
    pub(super) fn flight_line(&self) -> Option<Gap> {
        let (behind, at) = self.seen.behind?;
        Some(self.gap((-behind, position(at)), self.aside()))
    }

    /// Under the height limit.
    pub(super) fn height_limit(&self, height_limit: HeightLimit) -> Option<Gap> {
        let height = height_limit.height.m();
        if self.floor.is_flat() || height_limit.above == HeightAbove::Home {
            let (highest, at) = self.seen.highest;
            return Some(self.gap((height - highest, position(at)), self.upward()));
        }
        self.vertical(|now, ground| height - (now - ground))
    }

    /// Over the ground.
    pub(super) fn over_ground(&self) -> Option<Gap> {
        if self.floor.is_flat() {
            let (below, at) = self.seen.lowest;
            return Some(self.gap((-below, position(at)), self.upward()));
        }
        self.vertical(|height, ground| height - ground)
    }

    /// Beside an obstacle or over it.
    pub(super) fn obstacle(&self, limit: usize, obstacle: &Obstacle) -> Option<Gap> {
        let top = obstacle.top_m - self.scenario.field.ground.height_m(self.scenario.field.home);
        self.either(limit, &obstacle.region, false, |at, _| self.seen.height(at) - top)
    }

    /// The least of a height over sloping ground. It is linear between samples and edges of the ground's faces, so that
    /// it lies at one of those.
    fn vertical(&self, margin: impl Fn(f64, f64) -> f64) -> Option<Gap> {
        let (seen, home) = (&self.seen, self.floor.home_m());
        let mut walk = self.scenario.field.ground.walk(seen.point(0))?;
        let mut least = Least { value: f64::INFINITY, at: 0.0 };
        for index in 0..seen.length {
            let (at, here) = (position(index), seen.point(index));
            least.offer(margin(seen.height(at), walk.height_m(here) - home), at);
            if index < seen.last() {
                walk.go(here, seen.point(index + 1), |share, ground| {
                    least.offer(margin(seen.height(at + share), ground - home), at + share);
                });
            }
        }
        self.least(Some(least), self.upward())
    }

    /// A limit that is kept by distance or by height, whichever is more; `rise` is the height over it.
    /// Where it is `over` the ground, that bends at the edges of its faces.
    fn either(&self, limit: usize, region: &Region, over: bool, rise: impl Fn(f64, DVec2) -> f64) -> Option<Gap> {
        let (aside, above, seen) = (self.aside(), self.upward(), &self.seen);
        let climbs = if over { self.climbs() } else { None };
        let pass = Pass {
            samples: seen.length,
            way: |index| seen.way(index),
            climb: |index| seen.rise(index) + climbs.as_ref().map_or(0.0, |climbs| climbs[index]),
            point: |index| seen.point(index),
            rise: &rise,
            bends: |index| if over { self.bends(index) } else { Vec::new() },
            rough: seen.rough(limit),
        };
        // Where nothing is crossed, the place that matters is the one with the least left of either buffer.
        let slack = least_beside_or_over(&pass, region, [aside, above])?;
        // With all of a buffer left everywhere, nothing can be crossed.
        let depth = if slack.value >= 0.0 { slack } else { least_beside_or_over(&pass, region, [0.0, 0.0])? };
        let crossed = depth.value < 0.0;
        let at = if crossed { depth.at } else { slack.at };
        let place = seen.point_between(at);
        let (distance, rise) = (-region.signed_distance(place), rise(at, place));
        // The better way is the one whose buffer is kept, and where neither is, the one with more left.
        let beside = if slack.value >= 0.0 { distance - aside > rise - above } else { distance > rise };
        let (margin, buffer) = if beside { (distance, aside) } else { (rise, above) };
        Some(self.gap((if crossed { depth.value } else { margin }, at), buffer))
    }

    /// How much the ground below has risen and fallen up to each sample, metres: a steep face counts where it is flown over,
    /// and nowhere else. None where it is flat.
    fn climbs(&self) -> Option<Vec<f64>> {
        let seen = &self.seen;
        let mut walk = self.scenario.field.ground.walk(seen.point(0))?;
        let on = |(climbed, before): (f64, f64), ground: f64| (climbed + (ground - before).abs(), ground);
        let mut so_far = (0.0, walk.height_m(seen.point(0)));
        let climbs = (0..seen.length).map(|index| {
            let here = seen.point(index);
            so_far = on(so_far, walk.height_m(here));
            let climbed = so_far.0;
            if index < seen.last() {
                walk.go(here, seen.point(index + 1), |_, ground| so_far = on(so_far, ground));
            }
            climbed
        });
        Some(climbs.collect())
    }

    /// Where the ground bends below the way from a sample to the next, as shares of it.
    fn bends(&self, index: usize) -> Vec<f64> {
        let (here, next) = (self.seen.point(index), self.seen.point(index + 1));
        let mut bends = Vec::new();
        if let Some(mut walk) = self.scenario.field.ground.walk(here) {
            walk.go(here, next, |share, _| bends.push(share));
        }
        bends
    }

    /// Seconds spent inside a region, and the sample number with a fraction where it first enters (0 where it never does).
    fn seconds_over(&self, region: &Region) -> (f64, f64) {
        let (seen, last) = (&self.seen, self.seen.last());
        let (mut seconds, mut first) = (0.0, None);
        let mut index = 0;
        let mut here = region.signed_distance(seen.point(0));
        while index < last {
            // As far as the way allows, it stays on this side of the edge.
            let edge = seen.way(index) + here.abs();
            let stays = first_beyond(index, last, |sample| seen.way(sample) >= edge).saturating_sub(1);
            let next = stays.clamp(index + 1, last);
            let (share, enters) = match stays > index {
                true if here > 0.0 => (1.0, 0.0),
                true => (0.0, 0.0),
                false => region.share_inside(seen.point(index), seen.point(next)),
            };
            seconds += share * self.clock.lasts_s(position(index), position(next));
            if share > 0.0 {
                first.get_or_insert(position(index) + enters);
            }
            (index, here) = (next, region.signed_distance(seen.point(next)));
        }
        (seconds, first.unwrap_or(0.0))
    }
}

/// The first sample after `from` for which something holds that holds for all later ones; one past the last where none.
fn first_beyond(from: usize, last: usize, holds: impl Fn(usize) -> bool) -> usize {
    let (mut low, mut high) = (from + 1, last + 1);
    while low < high {
        let middle = low.midpoint(high);
        if holds(middle) { high = middle } else { low = middle + 1 }
    }
    low
}
