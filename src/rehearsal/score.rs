//! How did a rehearsal go? What failed it, by name, and otherwise its parts, each with its moment.
//!
//! A part is a straight line from nothing at the limit to all at a comfortable value, cut at both ends. Weights and
//! comfortable values are judgement, for discussion: a score is no licence.

mod landing;
mod parts;

use crate::field::Rule;
use crate::margins::{Limit, MarginRow, Verdict, judge_track};
use crate::run::{Channels, Ending, Floor, Track};

use super::{Rehearsal, Stage};
use landing::{landing, touch_down};
use parts::{heights, nearest, place, time};

/// Height below which a landing has begun, metres: what the speed does there is the flare's.
const FLARE_M: f64 = 1.0;

/// Something that fails a rehearsal.
#[derive(Debug, Clone, PartialEq)]
pub enum HardEvent {
    /// A limit was crossed.
    Crossed(MarginRow),
    /// It came down without having been taken over, or so that nobody would call it a landing.
    HitTheGround {
        /// Seconds since the beginning.
        at_s: f64,
        /// Rate of descent, m/s.
        sink_mps: f64,
        /// Bank, degrees.
        bank_deg: f64,
    },
    /// The pack was empty in the air.
    Empty {
        /// Seconds since the beginning.
        at_s: f64,
    },
    /// It was lost, and at the end nobody had it.
    NotTakenOver,
    /// It ended before anything was lost.
    NothingLost,
}

impl HardEvent {
    /// When, seconds since the beginning.
    pub const fn at_s(&self) -> Option<f64> {
        match self {
            Self::Crossed(row) => Some(row.at_s),
            Self::HitTheGround { at_s, .. } | Self::Empty { at_s } => Some(*at_s),
            Self::NotTakenOver | Self::NothingLost => None,
        }
    }
}

/// A part of the score.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PartKind {
    /// Least margin to the boundary.
    Boundary,
    /// Least margin to areas and people.
    Areas,
    /// Share of the time until the take-over at a height between both buffers.
    Heights,
    /// Time from the loss until the attitude was said.
    Time,
    /// How slow over the ground it was at the take-over.
    Place,
    /// Landing, or climbing away.
    Landing,
}

impl PartKind {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::Boundary, Self::Areas, Self::Heights, Self::Time, Self::Place, Self::Landing];

    /// Most points.
    pub const fn most(self) -> f64 {
        match self {
            Self::Boundary | Self::Areas => 30.0,
            Self::Heights => 15.0,
            Self::Time | Self::Landing => 10.0,
            Self::Place => 5.0,
        }
    }
}

/// What a part came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Which.
    pub kind: PartKind,
    /// Points, from 0 to [`PartKind::most`].
    pub points: f64,
    /// What was measured: metres, share, seconds, m/s over the ground, m/s of descent; none where there was nothing.
    pub value: Option<f64>,
    /// When it was decided, seconds since the beginning.
    pub at_s: Option<f64>,
    /// The margin that decided it.
    pub row: Option<MarginRow>,
}

/// How a rehearsal went.
#[derive(Debug, Clone, PartialEq)]
pub struct RehearsalScore {
    /// What failed it; empty where nothing did.
    pub events: Vec<HardEvent>,
    /// The parts, in the order of [`PartKind::ALL`].
    pub parts: Vec<Part>,
    /// Every margin of the flight.
    pub rows: Vec<MarginRow>,
    /// Whether it landed; otherwise it flew on to the end.
    pub landed: bool,
}

impl RehearsalScore {
    /// Points of 100; none where something failed it.
    pub fn points(&self) -> Option<f64> {
        self.events.is_empty().then(|| self.parts.iter().map(|part| part.points).sum())
    }
}

/// A share of points: 0 at the first value, 1 at the second, and straight between them.
fn share(value: f64, [nothing, all]: [f64; 2]) -> f64 {
    ((value - nothing) / (all - nothing)).clamp(0.0, 1.0)
}

/// Scores a rehearsal as far as it has been flown.
pub fn score(flown: &Rehearsal) -> RehearsalScore {
    let scenario = flown.scenario();
    let (trace, floor) = (flown.trace(), Floor::of(scenario));
    let step_s = flown.step_s();
    #[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
    let seconds = |step: usize| step as f64 * step_s;
    let over_ground = |index: usize| trace.height_m[index] - floor.height_m(trace.point(index));
    let came_down = flown.ending() == Some(Ending::Landed);
    let samples = trace.len();
    let flying = if came_down {
        (0..samples).rev().find(|&index| over_ground(index) >= FLARE_M).map_or(samples, |last| last + 1)
    } else {
        samples
    };
    let rows = track(flown, flying).map_or_else(Vec::new, |track| judge_track(scenario, &track).rows);
    let taken_over = flown.stages().at(Stage::TakenOver);

    let touch = came_down.then(|| touch_down(flown));
    let lands = touch.is_some_and(|touch| taken_over.is_some() && touch.is_a_landing());
    let mut events: Vec<HardEvent> =
        rows.iter().filter(|row| row.verdict == Verdict::Crossed).cloned().map(HardEvent::Crossed).collect();
    if let Some(touch) = touch.filter(|_| !lands) {
        let at_s = seconds(samples.saturating_sub(1));
        events.push(HardEvent::HitTheGround { at_s, sink_mps: touch.sink_mps, bank_deg: touch.bank_deg });
    }
    if flown.ending() == Some(Ending::Empty) {
        events.push(HardEvent::Empty { at_s: seconds(samples.saturating_sub(1)) });
    }
    if flown.lost_at().is_none() {
        events.push(HardEvent::NothingLost);
    } else if !flown.by_hand() {
        events.push(HardEvent::NotTakenOver);
    }
    events.sort_by(|a, b| a.at_s().unwrap_or(f64::MAX).total_cmp(&b.at_s().unwrap_or(f64::MAX)));

    let parts = vec![
        nearest(PartKind::Boundary, &rows, |row| row.limit == Limit::Boundary),
        nearest(PartKind::Areas, &rows, |row| match row.limit {
            Limit::Area(index) => scenario.field.areas.get(index).is_some_and(|area| area.rule != Rule::Caution),
            Limit::PilotPosition => true,
            _ => false,
        }),
        heights(flown, taken_over.unwrap_or(samples).min(flying), &over_ground),
        time(flown),
        place(flown, taken_over),
        landing(flown, touch.filter(|_| lands), taken_over),
    ];
    RehearsalScore { events, parts, rows, landed: lands }
}

/// The flight so far as a track, without what it does in the flare.
fn track(flown: &Rehearsal, samples: usize) -> Option<Track> {
    let trace = flown.trace();
    let to = |list: &[f64]| list[..samples].to_vec();
    let energy = flown.trial().energy_j;
    Track::new(
        (0..samples).map(|index| trace.time_s(index)).collect(),
        (0..samples).map(|index| trace.point(index)).collect(),
        to(&trace.height_m),
        Channels {
            airspeed_mps: Some(to(&trace.airspeed_mps)),
            load: Some(to(&trace.wanted_load)),
            bank_rad: Some(to(&trace.bank_rad)),
            energy_left_j: Some(trace.energy_j[..samples].iter().map(|drawn| energy - drawn).collect()),
            stretch: None,
        },
    )
}
