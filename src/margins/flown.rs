//! A run or a track with what the judging needs, and the margins that do not lie on the ground plan.

use glam::DVec2;

use super::clock::{Clock, position};
use super::seen::{Seen, Slow};
use super::{Figures, Gap, Verdict, held_within_m, reach};
use crate::lane::Lane;
use crate::run::{Floor, LONGEST_S, Scenario, Setting, Trial};

/// What was flown, beside the scenario that it is judged by.
pub(super) struct Flown<'a, L> {
    pub(super) scenario: &'a Scenario,
    pub(super) setting: &'a Setting,
    pub(super) floor: Floor<'a>,
    pub(super) drawn: &'a Trial,
    pub(super) seen: Seen<'a, L>,
    pub(super) clock: Clock<'a>,
}

impl<L: Lane> Flown<'_, L> {
    /// Height of the ground above home's.
    pub(super) fn ground(&self, at: DVec2) -> f64 {
        self.floor.height_m(at)
    }

    /// Centre of the circle as planned.
    pub(super) fn centre(&self) -> DVec2 {
        DVec2::new(self.drawn.plan.centre_x, self.drawn.plan.centre_y)
    }

    /// Whether it is meant to reach the circle.
    pub(super) fn comes_home(&self) -> bool {
        !self.setting.cuts() && self.setting.standing.has_position
    }

    /// A gap at a sample number with a fraction.
    pub(super) fn gap(&self, (margin, at): (f64, f64), buffer: f64) -> Gap {
        Gap { margin, buffer, verdict: verdict(margin, buffer), at_s: self.clock.at_s(at) }
    }

    /// Speed over the stall at a moment.
    pub(super) fn stall(&self) -> Gap {
        self.over_stall(self.seen.slow, self.scenario.file.limits.stall_factor_moment)
    }

    /// Speed over the stall, both held for seconds.
    pub(super) fn speed_held(&self) -> Gap {
        self.over_stall(self.seen.held, self.scenario.file.limits.stall_factor)
    }

    fn over_stall(&self, slow: Slow, factor: f64) -> Gap {
        let stall = self.drawn.jet.stall_speed(slow.load);
        self.gap((slow.speed - stall, slow.at), (factor - 1.0) * stall)
    }

    /// Bank under its limit.
    pub(super) fn bank(&self) -> Option<Gap> {
        let (bank, at) = self.seen.bank?;
        Some(self.gap(((self.drawn.jet.maximum_bank - bank).to_degrees(), position(at)), 0.0))
    }

    /// Time left when it is home; a jet that never is has none.
    pub(super) fn time_home(&self, figures: &Figures) -> Option<Gap> {
        if !self.comes_home() {
            return None;
        }
        let limit = self.scenario.file.limits.home_within.map_or(LONGEST_S, |time| time.s());
        Some(match figures.home_s {
            Some(home) => self.gap((limit - home, self.clock.sample(home)), 0.0),
            None => self.gap((-limit, position(self.seen.last())), 0.0),
        })
    }

    /// Energy over the reserve at the end, which is the take-over; asked for is what is not flown by then of the laps
    /// that the pack has to give from the circle on.
    ///
    /// The demand on reaching the circle, moved to the end: with `u` drawn in between, `left - reserve < laps x lap`
    /// there is `left - u - reserve < laps x lap - u` here.
    pub(super) fn energy(&self, figures: &Figures) -> Gap {
        let limits = &self.scenario.file.limits;
        let reserve = limits.reserve.share() * self.drawn.jet.pack;
        let end = position(self.seen.last());
        let left = self.drawn.energy_j - self.seen.energy(end);
        let promised = figures.lap_energy_j.unwrap_or(0.0) * limits.laps_to_reserve;
        let buffer = (promised - (figures.energy_left_j - left)).max(0.0);
        self.gap(((left - reserve) / 3600.0, end), buffer / 3600.0)
    }

    /// The first sample from which on the jet stays on the ring for a quarter of a lap: as near to it as holding it asks
    /// for, and by where it is, not by what the autopilot believes. The ring is about the home that was captured; what
    /// that is off by is in the margins.
    pub(super) fn on_circle(&self) -> Option<usize> {
        let plan = &self.drawn.plan;
        let middle = self.centre() + DVec2::new(plan.home_error_x, plan.home_error_y);
        let within = held_within_m(plan.radius);
        let mut began: Option<(usize, DVec2)> = None;
        for index in self.seen.joining.or(self.seen.circle)?..self.seen.length {
            let out = self.seen.point(index) - middle;
            if (out.length() - plan.radius).abs() > within {
                began = None;
                continue;
            }
            let (from, first) = *began.get_or_insert((index, out));
            // Of a run a step is far less than a quarter; of a log with longer gaps it is on the circle all the sooner.
            if first.dot(out) <= 0.0 {
                return Some(from);
            }
        }
        None
    }

    /// How well it can be seen: distance for its attitude, and angle for finding it.
    pub(super) fn sight(&self) -> [Gap; 2] {
        let file = &self.scenario.file;
        let span = file.jet.span_m();
        let limit = reach::attitude_seen_m(span).min(reach::detection_m(file.limits.visibility.m()));
        let (slant2, at) = self.seen.slant2;
        let (slant, at) = (slant2.sqrt(), position(at));
        let angle = reach::angle_rad(span, slant) - file.limits.smallest_angle.rad();
        [self.gap((limit - slant, at), file.limits.buffer.m()), self.gap((angle.to_degrees(), at), 0.0)]
    }
}

/// What a margin amounts to against what was asked for.
pub(super) fn verdict(margin: f64, buffer: f64) -> Verdict {
    if margin < 0.0 {
        Verdict::Crossed
    } else if margin < buffer {
        Verdict::InsideBuffer
    } else {
        Verdict::Clear
    }
}
