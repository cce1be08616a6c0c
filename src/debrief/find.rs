//! Where is a recovery in a track? By rules that can be said in words:
//!
//! * on the circle: within 30 % of the commanded radius (and at least 20 m) of its ring, along it the plan's way round, for
//!   three quarters of a lap or more; two such parts less than 25 s apart are one: that is how long a
//!   circle is blown wide of its ring; less than a quarter of a lap only crosses it;
//! * joining: from where it came within one and a half radii of the centre for good;
//! * heading home: from where it has flown towards the centre, within 30 degrees, without a break, until it joins;
//! * the loss: before the turn that ends there, of little more than half a circle at most, a second to level and the plan's
//!   failsafe delay;
//! * taken over: the end of the circle, or of the log;
//! * in the air: from where it is faster than 8 m/s over the ground for 3 s; on the ground again: slower than 3 m/s for 2 s.
//!
//! Where the log says itself what the jet was at, that goes before all of it.

use std::f64::consts::TAU;
use std::ops::Range;

use glam::DVec2;

use super::{Marks, velocity};
use crate::recovery::{JOINING_RADII, Turn};
use crate::run::{Scenario, Stretch, Track};

/// How far from the ring it may be, of the radius, and at least, metres.
const NEAR: f64 = 0.3;
const NEAR_M: f64 = 20.0;
/// Least cosine of its course with the ring.
const ALONG: f64 = 0.7;
/// Least part of a lap that counts.
const LEAST_LAP: f64 = 0.75;
/// Parts of the circle that are nearer in time than this are one, seconds.
const ONE_S: f64 = 25.0;
/// Part of a lap from which a part is more than a crossing of the ring on the way in.
const CROSSES: f64 = 0.25;
/// Least cosine of its course with the way to the centre while it heads home.
const HOMEWARD: f64 = 0.866;
/// Time to level before the turn home, seconds.
const LEVELS_S: f64 = 1.0;
/// Turning faster than this is a turn, radians a second; and one home is no more than this, radians: half a circle, and what
/// the wind makes of it. Before that somebody else has turned.
const TURNS: f64 = 0.07;
const LARGEST_TURN: f64 = 3.6;
/// Speeds over the ground in the air and on it, m/s, and how long they last, seconds.
const IN_THE_AIR: [f64; 2] = [8.0, 3.0];
const ON_THE_GROUND: [f64; 2] = [3.0, 2.0];

/// Every recovery in a track, in order; empty where there is none.
pub fn find(scenario: &Scenario, track: &Track) -> Vec<Marks> {
    let path = Path::of(track);
    if let Some(stretches) = &track.channels().stretch
        && let Some(told) = told(stretches, &path)
    {
        return vec![told];
    }
    let circles = path.circles(scenario);
    circles.into_iter().map(|circle| path.marks(scenario, circle)).collect()
}

/// A track with its velocities.
struct Path<'a> {
    track: &'a Track,
    velocity: Vec<DVec2>,
}

impl<'a> Path<'a> {
    fn of(track: &'a Track) -> Self {
        let velocity = (0..track.time_s().len()).map(|index| velocity(track, index).unwrap_or_default());
        Self { track, velocity: velocity.collect() }
    }

    fn time(&self, index: usize) -> f64 {
        self.track.time_s()[index]
    }

    fn len(&self) -> usize {
        self.velocity.len()
    }

    /// Every part that is on the circle.
    fn circles(&self, scenario: &Scenario) -> Vec<Range<usize>> {
        let (centre, radius) = (scenario.field.centre, scenario.file.recovery.radius.m());
        let round = if scenario.file.recovery.turn == Turn::Clockwise { -1.0 } else { 1.0 };
        let on = |index: usize| {
            let out = self.track.place()[index] - centre;
            let speed = self.velocity[index].length();
            let along = round * out.perp_dot(self.velocity[index]);
            (out.length() - radius).abs() <= (NEAR * radius).max(NEAR_M)
                && along >= ALONG * out.length() * speed
                && speed > 1.0
        };
        let swept = |part: &Range<usize>| {
            let ray = |index: usize| self.track.place()[index] - centre;
            (part.start + 1..part.end).map(|index| round * ray(index - 1).angle_to(ray(index))).sum::<f64>()
        };
        let mut parts: Vec<Range<usize>> = Vec::new();
        for index in (0..self.len()).filter(|&index| on(index)) {
            match parts.last_mut() {
                Some(last)
                    if self.time(index) - self.time(last.end - 1) <= ONE_S
                        && (index == last.end || swept(last) >= CROSSES * TAU) =>
                {
                    last.end = index + 1;
                }
                _ => parts.push(index..index + 1),
            }
        }
        parts.retain(|part| swept(part) >= LEAST_LAP * TAU);
        parts
    }

    fn marks(&self, scenario: &Scenario, circle: Range<usize>) -> Marks {
        let (centre, radius) = (scenario.field.centre, scenario.file.recovery.radius.m());
        let place = |index: usize| self.track.place()[index];
        let back = |from: usize, holds: &dyn Fn(usize) -> bool| {
            (0..=from).rev().take_while(|&index| holds(index)).last().unwrap_or(from)
        };
        let joined = back(circle.start, &|index| place(index).distance(centre) <= JOINING_RADII * radius);
        let homeward = |index: usize| {
            let way = (centre - place(index)).normalize_or_zero();
            self.velocity[index].dot(way) >= HOMEWARD * self.velocity[index].length()
        };
        let before = joined.saturating_sub(1);
        let turned_home = if homeward(before) { back(before, &homeward) } else { joined };
        // The turn that ends there, and before it the levelling and the delay.
        let mut turned = 0.0;
        let turns = (1..=turned_home).rev().take_while(|&index| {
            turned += self.velocity[index - 1].angle_to(self.velocity[index]);
            self.turn_rate(index - 1).abs() >= TURNS && f64::abs(turned) <= LARGEST_TURN
        });
        let turn = turns.last().map_or(turned_home, |index| index - 1);
        let delay_s = scenario.file.delay().value.s() + LEVELS_S;
        let lost_s = self.time(turn) - delay_s;
        let lost = self.track.time_s().partition_point(|&time| time < lost_s).min(turn);
        let after = circle.end - 1;
        Marks {
            take_off: self.lasts(0..lost, |speed| speed > IN_THE_AIR[0], IN_THE_AIR[1]).filter(|&first| first > 0),
            lost,
            turned_home: Some(turned_home),
            joined: Some(joined),
            landed: self.lasts(after..self.len(), |speed| speed < ON_THE_GROUND[0], ON_THE_GROUND[1]),
            circling: Some(circle),
            taken_over: after,
        }
    }

    fn turn_rate(&self, index: usize) -> f64 {
        let (from, to) = (index.saturating_sub(1), (index + 1).min(self.len() - 1));
        let passed = self.time(to) - self.time(from);
        if passed > 0.0 { self.velocity[from].angle_to(self.velocity[to]) / passed } else { 0.0 }
    }

    /// The first sample of a range from which the speed over the ground is so for some seconds.
    fn lasts(&self, within: Range<usize>, is: impl Fn(f64) -> bool, seconds: f64) -> Option<usize> {
        let mut since: Option<usize> = None;
        for index in within {
            if !is(self.velocity[index].length()) {
                since = None;
                continue;
            }
            let first = *since.get_or_insert(index);
            if self.time(index) - self.time(first) >= seconds {
                return Some(first);
            }
        }
        None
    }
}

/// The marks of a log that says what the jet was at.
fn told(stretches: &[Stretch], path: &Path<'_>) -> Option<Marks> {
    let first =
        |wanted: &dyn Fn(Stretch) -> bool, from: usize| (from..stretches.len()).find(|&index| wanted(stretches[index]));
    let lost = first(&|stretch| stretch != Stretch::ByHand, 0)?;
    let ends = |stretch: Stretch| matches!(stretch, Stretch::ByHand | Stretch::TakenOver);
    let taken_over = first(&ends, lost).unwrap_or(stretches.len()).saturating_sub(1).max(lost);
    let circle = first(&|stretch| stretch == Stretch::Circling, lost).filter(|&at| at < taken_over);
    Some(Marks {
        take_off: path.lasts(0..lost, |speed| speed > IN_THE_AIR[0], IN_THE_AIR[1]).filter(|&at| at > 0),
        lost,
        turned_home: first(&|stretch| stretch == Stretch::HeadingHome, lost),
        joined: first(&|stretch| stretch == Stretch::Joining, lost),
        circling: circle.map(|from| from..taken_over + 1),
        taken_over,
        landed: path.lasts(taken_over..path.len(), |speed| speed < ON_THE_GROUND[0], ON_THE_GROUND[1]),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::{Channels, WindChoice, fly};

    /// The track of a flight of the tool, without what only the tool knows.
    fn bare(scenario: &Scenario, trial: u64) -> (Track, Vec<Stretch>) {
        let run = fly(scenario, trial, WindChoice::Mean);
        let track = run.track();
        let stretches = run.trace.stretch.clone();
        let bare =
            Track::new(track.time_s().to_vec(), track.place().to_vec(), track.height_m().to_vec(), Channels::default());
        (bare.unwrap(), stretches)
    }

    #[test]
    fn the_stretches_of_a_flight_are_found_within_seconds() {
        let scenario = Scenario::demo();
        let step_s = crate::run::setting(&scenario).step_s;
        for trial in [0, 1, 2, 3, 4, 5, 6, 7] {
            let (track, stretches) = bare(&scenario, trial);
            let found = find(&scenario, &track);
            assert_eq!(found.len(), 1, "trial {trial}");
            let at = |stretch: Stretch| stretches.iter().position(|other| *other == stretch);
            let off_s =
                |found: usize, stretch: Stretch| at(stretch).map_or(0.0, |at| (found as f64 - at as f64) * step_s);
            let marks = &found[0];
            // The autopilot joins once within one and a half radii; a track is looked at from its end, and there for good.
            let joined = marks.joined.unwrap();
            let joins = at(Stretch::Joining).unwrap();
            let on_it = marks.circling.as_ref().unwrap().start;
            // One that is lost near the ring has joined already.
            assert!((joined + 20 >= joins || joined == 0) && joined <= on_it, "trial {trial} {joins} {marks:?}");
            // The autopilot is on the circle once it crosses the ring along it. The rule waits until it stays, and takes a
            // jet that is lost along the ring to be on it.
            assert!(on_it == 0 || off_s(on_it, Stretch::Circling).abs() < 12.0, "trial {trial} {marks:?}");
            assert!(marks.taken_over + 20 >= stretches.len(), "trial {trial} {marks:?} of {}", stretches.len());
        }
    }

    #[test]
    fn a_log_that_says_so_is_believed_and_one_without_a_circle_has_none() {
        let scenario = Scenario::demo();
        let run = fly(&scenario, 0, WindChoice::Mean);
        let marks = find(&scenario, &run.track()).remove(0);
        assert_eq!(marks.lost, 0);
        let circling = run.trace.stretch.iter().position(|stretch| *stretch == Stretch::Circling);
        assert_eq!(marks.circling.map(|range| range.start), circling);
        let times: Vec<f64> = (0..200).map(|index| f64::from(index) * 0.5).collect();
        let places = times.iter().map(|time| DVec2::new(20.0 * time, 0.0)).collect();
        let straight = Track::new(times, places, vec![60.0; 200], Channels::default()).unwrap();
        assert_eq!(find(&scenario, &straight), []);
    }
}
