//! How did a rehearsal go? What failed it, by name, and otherwise its parts, each with its moment.
//!
//! A part is a straight line from nothing at the limit to all at a comfortable value, cut at both ends. Weights and
//! comfortable values are judgement, for discussion: a score is no licence.

use crate::field::Rule;
use crate::geometry::Edge;
use crate::margins::{Limit, MarginRow, Verdict, judge_track};
use crate::run::{Channels, Ending, Floor, Track};

use super::{Rehearsal, Stage};

/// Fastest descent at which a touch-down is still a landing, m/s, and one that nobody minds (judgement).
const SINK_MPS: [f64; 2] = [3.0, 1.0];
/// Steepest bank at a touch-down that is still a landing, degrees (judgement).
const LANDS_BANK_DEG: f64 = 20.0;
/// Speed at a touch-down in stall speeds: too fast to stop, and comfortable (judgement).
const TOUCH_STALLS: [f64; 2] = [2.0, 1.4];
/// Distance from the middle line of the runway at a touch-down: nothing of a place to land, and comfortable, metres beyond
/// half its width (judgement).
const BESIDE_M: [f64; 2] = [30.0, 0.0];
/// Height below which a landing has begun, metres: what the speed does there is the flare's.
const FLARE_M: f64 = 1.0;
/// How far below the height of the take-over a climb away may end, metres.
const BELOW_M: f64 = 5.0;
/// Steepest bank that is flown on with, degrees.
const FLIES_ON_BANK_DEG: f64 = 45.0;

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
    let lands = touch.is_some_and(|touch| {
        taken_over.is_some() && touch.sink_mps <= SINK_MPS[0] && touch.bank_deg.abs() <= LANDS_BANK_DEG
    });
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

/// The least margin of some limits, against its buffer.
fn nearest(kind: PartKind, rows: &[MarginRow], of: impl Fn(&MarginRow) -> bool) -> Part {
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
fn heights(flown: &Rehearsal, samples: usize, over_ground: &impl Fn(usize) -> f64) -> Part {
    let limits = &flown.scenario().file.limits;
    let buffer = limits.height_buffer.m();
    let trace = flown.trace();
    let most = |index: usize| {
        limits.height_limit.map_or(f64::INFINITY, |limit| {
            let measured = match limit.above {
                crate::run::HeightAbove::Ground => over_ground(index),
                crate::run::HeightAbove::Home => trace.height_m[index],
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
fn time(flown: &Rehearsal) -> Part {
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
fn place(flown: &Rehearsal, taken_over: Option<usize>) -> Part {
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

#[derive(Debug, Clone, Copy)]
struct TouchDown {
    sink_mps: f64,
    bank_deg: f64,
    stalls: f64,
    /// Beside the runway, m; none where none is drawn.
    beside_m: Option<f64>,
}

/// How it touched the ground.
fn touch_down(flown: &Rehearsal) -> TouchDown {
    let trace = flown.trace();
    let last = trace.len().saturating_sub(1);
    let before = last.saturating_sub(2);
    let floor = Floor::of(flown.scenario());
    let over_ground = |index: usize| trace.height_m[index] - floor.height_m(trace.point(index));
    let passed = trace.time_s(last) - trace.time_s(before);
    let sink_mps = if passed > 0.0 { (over_ground(before) - over_ground(last)) / passed } else { 0.0 };
    let stall = flown.trial().jet.stall_speed(1.0);
    let beside_m = flown.scenario().field.runway.map(|runway| {
        let strip = Edge { from: runway.from, to: runway.to };
        (strip.distance2(trace.point(last)).sqrt() - runway.width_m / 2.0).max(0.0)
    });
    TouchDown {
        sink_mps,
        bank_deg: trace.bank_rad[last].to_degrees(),
        stalls: trace.airspeed_mps[last] / stall,
        beside_m,
    }
}

fn landing(flown: &Rehearsal, touch: Option<TouchDown>, taken_over: Option<usize>) -> Part {
    let kind = PartKind::Landing;
    let trace = flown.trace();
    let last = trace.len().saturating_sub(1);
    let (share, value) = match (touch, taken_over) {
        (Some(touch), _) => {
            let shares = [share(touch.sink_mps, SINK_MPS), share(touch.stalls, TOUCH_STALLS)];
            let on_it = touch.beside_m.map(|beside_m| share(beside_m, BESIDE_M));
            let all: Vec<f64> = shares.into_iter().chain(on_it).collect();
            #[allow(clippy::cast_precision_loss, reason = "two or three")]
            let mean = all.iter().sum::<f64>() / all.len() as f64;
            (mean, Some(touch.sink_mps))
        }
        (None, Some(at)) if flown.ending().is_none() && at < trace.len() => {
            let limits = &flown.scenario().file.limits;
            let level = trace.bank_rad[last].to_degrees().abs() <= FLIES_ON_BANK_DEG;
            let speed = trace.airspeed_mps[last] / flown.trial().jet.stall_speed(1.0);
            let kept = trace.height_m[last] >= trace.height_m[at] - BELOW_M;
            (if level && kept { share(speed, [1.0, limits.stall_factor]) } else { 0.0 }, None)
        }
        _ => (0.0, None),
    };
    Part { kind, points: kind.most() * share, value, at_s: Some(trace.time_s(last)), row: None }
}
