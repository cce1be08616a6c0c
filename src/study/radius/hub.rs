//! Where in the outline would the circle best be centred?
//!
//! A coarse grid by the room about each place, the best dozen flown, and from the best of those a search downhill over
//! centre, radius and way round.

use std::cmp::Ordering;

use glam::DVec2;

use super::answer::{BestHub, RadiusAsk};
use super::bands::{bands, between, circles};
use super::closed::room;
use super::trials::{Circle, Trials};
use crate::jet::turn;
use crate::ledger::Score;
use crate::recovery::Turn;
use crate::run::{Case, WindChoice};

/// Cells of the coarse grid along the longer side of the outline.
const CELLS: f64 = 24.0;
/// Places of it that are flown.
const FLOWN: usize = 12;
/// Most steps of the search.
const STEPS: usize = 60;

/// A centre and a circle about it, whole metres.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Spot {
    hub: DVec2,
    circle: Circle,
}

/// A spot flown in both winds.
#[derive(Debug, Clone)]
struct Tried {
    spot: Spot,
    /// Whether it meets the demand in the mean wind, and in the gust wind too.
    meets: [bool; 2],
    /// Least spare in either wind, in hundredths of a scale: what is nearer than that is equal, and the room decides.
    spare: f64,
    room: f64,
    score: Score,
}

impl Tried {
    fn compare(&self, other: &Self) -> Ordering {
        self.meets.cmp(&other.meets).then(self.spare.total_cmp(&other.spare)).then(self.room.total_cmp(&other.room))
    }
}

/// The best centre found; none where there is no circle to centre, or no place inside.
pub(super) fn best_hub(trials: &Trials<'_>, ask: &RadiusAsk) -> Option<BestHub> {
    if !trials.circles() {
        return None;
    }
    let (least, most) = (*ask.radii_m.first()?, *ask.radii_m.last()?);
    let started = starts(trials, ask);
    let mut best = fly(trials, &started).into_iter().max_by(Tried::compare)?;
    let (mut aside, mut wider) = (CELLS, 8.0);
    for _ in 0..STEPS {
        let near: Vec<Spot> =
            around(best.spot, aside, wider, &ask.turns).filter(|spot| allowed(trials, spot, least, most)).collect();
        match fly(trials, &near).into_iter().max_by(Tried::compare) {
            Some(better) if better.compare(&best) == Ordering::Greater => best = better,
            _ if aside <= 1.0 => break,
            _ => (aside, wider) = ((aside / 2.0_f64).round(), (wider / 2.0_f64).round().max(1.0)),
        }
        if !trials.work.go_on() {
            return None;
        }
    }
    let Spot { hub, circle } = best.spot;
    let there = trials.about(hub);
    let flights = there.fly(&circles(&ask.turns, &between(&ask.radii_m, ask.finest_m)), WindChoice::Mean);
    let bands = bands(&there, &flights, WindChoice::Mean);
    if !trials.work.go_on() {
        return None;
    }
    Some(BestHub { hub, radius_m: circle.radius_m, turn: circle.turn, bands, mean: best.score })
}

/// The roomiest dozen places of the grid and the present hub, each with circles between the smallest that the bank
/// limit holds and the largest that there is room for.
fn starts(trials: &Trials<'_>, ask: &RadiusAsk) -> Vec<Spot> {
    let scenario = trials.scenario;
    let (low, high) = scenario.field.outline.bounds();
    let cell = (high - low).max_element() / CELLS;
    let standoff = scenario.file.limits.standoff.m();
    let mut places = Vec::new();
    let mut at = low + DVec2::splat(cell / 2.0);
    while at.y < high.y {
        while at.x < high.x {
            let hub = at.round();
            if scenario.field.outline.contains(hub) {
                places.push((hub, room(scenario, hub, standoff).0));
            }
            at.x += cell;
        }
        at = DVec2::new(low.x + cell / 2.0, at.y + cell);
    }
    places.sort_by(|a, b| b.1.total_cmp(&a.1));
    // Neighbours of a place already taken say nothing new.
    let mut taken = vec![(trials.hub.round(), room(scenario, trials.hub, standoff).0)];
    for place in places {
        if taken.len() <= FLOWN && taken.iter().all(|other| other.0.distance(place.0) > 1.5 * cell) {
            taken.push(place);
        }
    }
    let jet = &trials.plain(WindChoice::Mean).jet;
    let smallest = turn::smallest_radius(jet.return_speed, scenario.wind_at_circle()[0], jet.bank_limit).ceil();
    let inside = |radius: f64| {
        let ends = (ask.radii_m.first().copied().unwrap_or(radius), ask.radii_m.last().copied().unwrap_or(radius));
        radius.max(ends.0).min(ends.1)
    };
    let mut spots = Vec::new();
    for (hub, room) in taken {
        let largest = room.floor().max(smallest);
        let mut radii =
            [smallest, f64::midpoint(smallest, largest).round(), largest, Circle::planned(scenario).radius_m]
                .map(inside)
                .to_vec();
        radii.sort_by(f64::total_cmp);
        radii.dedup();
        spots.extend(circles(&ask.turns, &radii).into_iter().map(|circle| Spot { hub, circle }));
    }
    spots
}

/// The spots a step away: aside in eight directions, wider, narrower, both, and the other way round.
fn around(spot: Spot, aside: f64, wider: f64, turns: &[Turn]) -> impl Iterator<Item = Spot> {
    let steps = [-1.0, 0.0, 1.0];
    let moves = steps.into_iter().flat_map(move |x| {
        steps.into_iter().flat_map(move |y| steps.into_iter().map(move |r| (DVec2::new(x, y) * aside, r * wider)))
    });
    let moved = moves.filter(|(step, r)| *step != DVec2::ZERO || *r != 0.0).map(move |(step, r)| Spot {
        hub: spot.hub + step,
        circle: Circle { radius_m: spot.circle.radius_m + r, ..spot.circle },
    });
    let others = turns.iter().filter(move |turn| **turn != spot.circle.turn);
    moved.chain(others.map(move |&turn| Spot { circle: Circle { turn, ..spot.circle }, ..spot }))
}

fn allowed(trials: &Trials<'_>, spot: &Spot, least: f64, most: f64) -> bool {
    (least..=most).contains(&spot.circle.radius_m) && trials.scenario.field.outline.contains(spot.hub)
}

fn fly(trials: &Trials<'_>, spots: &[Spot]) -> Vec<Tried> {
    let winds = [WindChoice::Mean, WindChoice::Gust];
    let there =
        |wind| move |spot: &Spot| trials.plain(wind).about(spot.hub).circling(spot.circle.radius_m, spot.circle.turn);
    let cases: Vec<Case> = winds.into_iter().flat_map(|wind| spots.iter().map(there(wind))).collect();
    trials.work.expect(cases.len() as u64);
    let mut mean = trials.score(&cases);
    if mean.len() < cases.len() {
        return Vec::new();
    }
    let gust = mean.split_off(spots.len());
    let tried = |(&spot, (mean, gust)): (&Spot, (Score, Score))| {
        let meets = mean.meets();
        let least = |score| trials.least_spare(spot.circle, score);
        Tried {
            spot,
            meets: [meets, meets && gust.meets()],
            spare: (100.0 * least(&mean).min(least(&gust))).round(),
            room: room(trials.scenario, spot.hub, spot.circle.radius_m).0,
            score: mean,
        }
    };
    spots.iter().zip(mean.into_iter().zip(gust)).map(tried).collect()
}
