//! Losses from cells flown, and what each cell's flights came to.

use std::ops::Range;

use glam::DVec2;

use crate::margins::{MarginUnit, Outcome, Score, Scorer};
use crate::run::{Loss, Scenario, Trial, WindChoice, draw};
use crate::study::losses::{Cell, Count, LossAsk, Replay};
use crate::study::work::Work;
use crate::units::{Angle, Bearing, Length, Speed};

/// Flights that cells are put together for, about.
const TOGETHER: usize = 128;
/// Flights given to the scorer between looks at whether to go on: where none comes home, they take 10 ms.
const BATCH: usize = 32;

/// What is flown from every cell.
pub(super) struct Flyer<'a> {
    scenario: &'a Scenario,
    scorer: Scorer<'a>,
    /// One a heading, height and speed, headings outermost; the place stays open.
    losses: Vec<Replay>,
    headings: usize,
    /// Which limits are in metres.
    metric: Vec<bool>,
}

impl<'a> Flyer<'a> {
    pub(super) fn new(scenario: &'a Scenario, ask: &LossAsk) -> Self {
        let mut losses = Vec::new();
        for index in 0..ask.headings {
            let heading_deg = 360.0 * f64::from(index) / f64::from(ask.headings);
            for &height_m in &ask.heights_m {
                for &speed_mps in &ask.speeds_mps {
                    losses.push(Replay { at: DVec2::ZERO, heading_deg, height_m, speed_mps, trial: 0 });
                }
            }
        }
        let scorer = Scorer::new(scenario);
        let metric = scorer.limits().iter().map(|info| info.unit == MarginUnit::Metres).collect();
        Self { scenario, scorer, losses, headings: ask.headings as usize, metric }
    }

    pub(super) fn scorer(&self) -> &Scorer<'a> {
        &self.scorer
    }

    /// Flights from a number of cells in a number of rounds.
    pub(super) fn flights(&self, cells: usize, rounds: usize) -> u64 {
        (cells * rounds * self.losses.len()) as u64
    }

    /// How many cells to fly at once where each flies a number of rounds.
    pub(super) fn cells_at_once(&self, rounds: usize) -> usize {
        TOGETHER.div_ceil((self.losses.len() * rounds).max(1))
    }

    /// Flies rounds from every one of some cells: the plan as entered in round 0, a trial on every heading in the
    /// others. None where the work is stopped on the way.
    pub(super) fn fly(
        &self,
        from: &[LossSpot],
        rounds: Range<usize>,
        pool: &Pool<'_>,
        work: &Work,
    ) -> Option<Vec<Counts>> {
        // Neighbours fly alike, so cells are innermost: flights side by side then end at about the same time.
        let flight = |index: usize| {
            let (number, cell) = (index / from.len(), index % from.len());
            let (round, number) = (rounds.start + number / self.losses.len(), number % self.losses.len());
            let (trial, drawn) = pool.pick(from[cell].at, number, round);
            let replay = Replay { at: from[cell].middle, trial, ..self.losses[number] };
            (number * self.headings / self.losses.len(), cell, replay, drawn.lost(&replay.loss(self.scenario)))
        };
        let mut counts = vec![Counts::none(self.headings); from.len()];
        let all = rounds.len() * self.losses.len() * from.len();
        // However many there are, no more than a batch of them is held at once.
        for first in (0..all).step_by(BATCH) {
            if !work.go_on() {
                return None;
            }
            let some: Vec<_> = (first..all.min(first + BATCH)).map(flight).collect();
            let trials: Vec<Trial> = some.iter().map(|(.., trial)| *trial).collect();
            for ((heading, cell, replay, _), score) in some.iter().zip(self.scorer.score(&trials)) {
                counts[*cell].add(*heading, *replay, self.spare_m(&score), &score);
            }
        }
        Some(counts)
    }

    /// The least left over what was asked for, of the limits in metres.
    fn spare_m(&self, score: &Score) -> f64 {
        let metric = score.gaps.iter().zip(&self.metric).filter(|(_, metric)| **metric);
        metric.map(|(gap, _)| gap.margin - gap.buffer).fold(f64::INFINITY, f64::min)
    }
}

/// A cell to fly from.
#[derive(Debug, Clone, Copy)]
pub(super) struct LossSpot {
    /// Column and row.
    pub(super) at: [u32; 2],
    /// Its middle, metres.
    pub(super) middle: DVec2,
}

/// The plan as entered and trials drawn beforehand.
pub(super) struct Pool<'a> {
    ask: &'a LossAsk,
    trials: Vec<Trial>,
}

impl<'a> Pool<'a> {
    /// The plan as entered, without errors.
    pub(super) fn plan(scenario: &Scenario, ask: &'a LossAsk) -> Self {
        Self { ask, trials: vec![draw(scenario, 0, WindChoice::Mean)] }
    }

    /// All that a map may fly.
    pub(super) fn draw(scenario: &Scenario, ask: &'a LossAsk) -> Self {
        Self { ask, trials: (0..=ask.pool()).map(|trial| draw(scenario, trial, WindChoice::Mean)).collect() }
    }

    /// The number and the draws of a cell's round on the loss of a number.
    fn pick(&self, at: [u32; 2], loss: usize, round: usize) -> (u64, &Trial) {
        let number = self.ask.trial(at, loss as u64, round as u64);
        (number, &self.trials[number as usize])
    }
}

impl Replay {
    /// The loss to fly: level, wings level, of the scenario's kind and charge. [`Trial::lost`] with it gives the flight
    /// of the study.
    pub fn loss(&self, scenario: &Scenario) -> Loss {
        let loss = scenario.file.loss;
        Loss {
            kind: loss.kind,
            at_m: self.at.to_array(),
            height: Length::new(self.height_m),
            speed: Speed::new(self.speed_mps),
            heading: Bearing::from_deg(self.heading_deg),
            climb: Angle::new(0.0),
            bank: Angle::new(0.0),
            charge: loss.charge,
        }
    }
}

/// What the flights from one cell came to so far.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Counts {
    /// The worst: its outcome, the least it spared of any margin in metres, and how to fly it again.
    worst: Option<(Outcome, f64, Replay)>,
    outcomes: [u64; Outcome::ALL.len()],
    by_heading: Vec<Count>,
    /// Without the plan as entered.
    trials: Count,
    homes_s: Vec<f64>,
    energies_wh: Vec<f64>,
}

impl Counts {
    fn none(headings: usize) -> Self {
        Self {
            worst: None,
            outcomes: [0; Outcome::ALL.len()],
            by_heading: vec![Count::default(); headings],
            trials: Count::default(),
            homes_s: Vec::new(),
            energies_wh: Vec::new(),
        }
    }

    fn add(&mut self, heading: usize, replay: Replay, spare_m: f64, score: &Score) {
        self.take_worst(score.outcome, spare_m, replay);
        self.outcomes[score.outcome as usize] += 1;
        let one = Count { crossed: u64::from(score.crossed), kept: u64::from(score.kept), flown: 1 };
        self.by_heading[heading] += one;
        if replay.trial > 0 {
            self.trials += one;
        }
        if let Some(home) = score.home_s {
            self.homes_s.push(home);
            self.energies_wh.push(score.energy_home_j / 3600.0);
        }
    }

    /// Keeps the worse outcome; of two alike that with less to spare, and the earlier where that is the same too.
    fn take_worst(&mut self, outcome: Outcome, spare: f64, replay: Replay) {
        let worse = self.worst.is_none_or(|(kept, least, _)| outcome < kept || (outcome == kept && spare < least));
        if worse {
            self.worst = Some((outcome, spare, replay));
        }
    }

    /// Adds flights of later trials.
    pub(super) fn join(&mut self, later: Self) {
        if let Some((outcome, spare, replay)) = later.worst {
            self.take_worst(outcome, spare, replay);
        }
        self.outcomes.iter_mut().zip(later.outcomes).for_each(|(sum, more)| *sum += more);
        self.by_heading.iter_mut().zip(later.by_heading).for_each(|(sum, more)| *sum += more);
        self.trials += later.trials;
        self.homes_s.extend(later.homes_s);
        self.energies_wh.extend(later.energies_wh);
    }

    /// The cell they make; none without a flight. Its flights so far were all the plan as entered.
    pub(super) fn cell(&self, at: [u32; 2], middle: DVec2) -> Option<Cell> {
        let (worst, _, replay) = self.worst?;
        Some(Cell {
            at,
            middle,
            plan_worst: worst,
            worst,
            replay,
            outcomes: self.outcomes,
            count: self.by_heading.iter().copied().sum(),
            by_heading: self.by_heading.clone(),
            trials: self.trials,
            home_s: middle_and_most(&self.homes_s),
            energy_wh: middle_and_most(&self.energies_wh),
        })
    }
}

fn middle_and_most(values: &[f64]) -> Option<[f64; 2]> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let count = sorted.len();
    let most = *sorted.last()?;
    Some([f64::midpoint(sorted[(count - 1) / 2], sorted[count / 2]), most])
}
