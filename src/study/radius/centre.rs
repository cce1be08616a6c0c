//! Where in the boundary would the circle best be centred?
//!
//! A coarse grid by the room about each place, the best dozen flown, and from the best of those a search downhill over
//! centre, radius and way round.

use std::cmp::Ordering;

use glam::DVec2;

use super::answer::{BestCentre, RadiusAsk};
use super::closed::room;
use super::flyer::{Circle, CircleFlyer};
use super::usable::{circles, tried, usable};
use crate::jet::turn;
use crate::margins::Score;
use crate::recovery::Turn;
use crate::run::{Trial, WindChoice};

/// Cells of the coarse grid along the longer side of the boundary.
const CELLS: f64 = 24.0;
/// Places of it that are flown.
const FLOWN: usize = 12;
/// Most steps of the search.
const STEPS: usize = 60;

/// A centre and a circle about it, whole metres.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Spot {
    centre: DVec2,
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
pub(super) fn best_centre(flyer: &CircleFlyer<'_>, ask: &RadiusAsk) -> Option<BestCentre> {
    if !flyer.circles() {
        return None;
    }
    let (least, most) = (*ask.radii_m.first()?, *ask.radii_m.last()?);
    let started = starts(flyer, ask);
    let mut best = fly(flyer, &started).into_iter().max_by(Tried::compare)?;
    let (mut aside, mut wider) = (CELLS, 8.0);
    for _ in 0..STEPS {
        let near: Vec<Spot> =
            around(best.spot, aside, wider, &ask.turns).filter(|spot| allowed(flyer, spot, least, most)).collect();
        match fly(flyer, &near).into_iter().max_by(Tried::compare) {
            Some(better) if better.compare(&best) == Ordering::Greater => best = better,
            _ if aside <= 1.0 => break,
            _ => (aside, wider) = ((aside / 2.0_f64).round(), (wider / 2.0_f64).round().max(1.0)),
        }
        if !flyer.work.go_on() {
            return None;
        }
    }
    let Spot { centre, circle } = best.spot;
    let there = flyer.about(centre);
    let flights = there.fly(&circles(&ask.turns, &tried(&ask.radii_m, ask.finest_m)), WindChoice::Mean);
    let usable = usable(&there, &flights, WindChoice::Mean);
    if !flyer.work.go_on() {
        return None;
    }
    Some(BestCentre { centre, radius_m: circle.radius_m, turn: circle.turn, usable, mean: best.score })
}

/// The roomiest dozen places of the grid and the present centre, each with circles between the smallest that the
/// maximum bank holds and the largest that there is room for.
fn starts(flyer: &CircleFlyer<'_>, ask: &RadiusAsk) -> Vec<Spot> {
    let scenario = flyer.scenario;
    let (low, high) = scenario.field.boundary.bounds();
    let cell = (high - low).max_element() / CELLS;
    let buffer = scenario.file.limits.buffer.m();
    let mut places = Vec::new();
    let mut at = low + DVec2::splat(cell / 2.0);
    while at.y < high.y {
        while at.x < high.x {
            let centre = at.round();
            if scenario.field.boundary.contains(centre) {
                places.push((centre, room(scenario, centre, buffer).0));
            }
            at.x += cell;
        }
        at = DVec2::new(low.x + cell / 2.0, at.y + cell);
    }
    places.sort_by(|a, b| b.1.total_cmp(&a.1));
    // Neighbours of a place already taken say nothing new.
    let mut taken = vec![(flyer.centre.round(), room(scenario, flyer.centre, buffer).0)];
    for place in places {
        if taken.len() <= FLOWN && taken.iter().all(|other| other.0.distance(place.0) > 1.5 * cell) {
            taken.push(place);
        }
    }
    let jet = &flyer.plain(WindChoice::Mean).jet;
    let smallest = turn::smallest_radius(jet.return_speed, scenario.wind_at_circle()[0], jet.maximum_bank).ceil();
    let inside = |radius: f64| {
        let ends = (ask.radii_m.first().copied().unwrap_or(radius), ask.radii_m.last().copied().unwrap_or(radius));
        radius.max(ends.0).min(ends.1)
    };
    let mut spots = Vec::new();
    for (centre, room) in taken {
        let largest = room.floor().max(smallest);
        let mut radii =
            [smallest, f64::midpoint(smallest, largest).round(), largest, Circle::planned(scenario).radius_m]
                .map(inside)
                .to_vec();
        radii.sort_by(f64::total_cmp);
        radii.dedup();
        spots.extend(circles(&ask.turns, &radii).into_iter().map(|circle| Spot { centre, circle }));
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
        centre: spot.centre + step,
        circle: Circle { radius_m: spot.circle.radius_m + r, ..spot.circle },
    });
    let others = turns.iter().filter(move |turn| **turn != spot.circle.turn);
    moved.chain(others.map(move |&turn| Spot { circle: Circle { turn, ..spot.circle }, ..spot }))
}

fn allowed(flyer: &CircleFlyer<'_>, spot: &Spot, least: f64, most: f64) -> bool {
    (least..=most).contains(&spot.circle.radius_m) && flyer.scenario.field.boundary.contains(spot.centre)
}

fn fly(flyer: &CircleFlyer<'_>, spots: &[Spot]) -> Vec<Tried> {
    let winds = [WindChoice::Mean, WindChoice::Gust];
    let there =
        |wind| move |spot: &Spot| flyer.plain(wind).about(spot.centre).circling(spot.circle.radius_m, spot.circle.turn);
    let trials: Vec<Trial> = winds.into_iter().flat_map(|wind| spots.iter().map(there(wind))).collect();
    flyer.work.expect(trials.len() as u64);
    let mut mean = flyer.score(&trials);
    if mean.len() < trials.len() {
        return Vec::new();
    }
    let gust = mean.split_off(spots.len());
    let tried = |(&spot, (mean, gust)): (&Spot, (Score, Score))| {
        let meets = mean.meets();
        let least = |score| flyer.least_spare(spot.circle, score);
        Tried {
            spot,
            meets: [meets, meets && gust.meets()],
            spare: (100.0 * least(&mean).min(least(&gust))).round(),
            room: room(flyer.scenario, spot.centre, spot.circle.radius_m).0,
            score: mean,
        }
    };
    spots.iter().zip(mean.into_iter().zip(gust)).map(tried).collect()
}
