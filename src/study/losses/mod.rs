//! From where in the field is a loss recovered.

mod first;
mod fly;
mod grid;
mod lines;
mod refine;

use glam::DVec2;

use crate::margins::{LimitInfo, Outcome};
use crate::run::Scenario;
use crate::study::costliness;
use crate::study::keep_inside::KeepInside;
use crate::study::stats::Share;

pub use first::first;
pub use lines::{roll_delay_s, turn_back_m};
pub use refine::refine;

/// Cells of the coarse map, about.
const COARSE: f64 = 192.0;

/// Trials that a map is flown with, at least.
const POOL: u64 = 512;

/// Most losses that are tried from a cell, headings, heights and speeds together.
const MOST_LOSSES: u64 = 10_000;

/// Most flights of a map, were all of its cells uncertain: two numbers are kept of each, and so many take a day.
const MOST_FLIGHTS: u64 = 40_000_000;

/// What is asked of a loss map.
#[derive(Debug, Clone, PartialEq)]
pub struct LossAsk {
    /// Cells along the longer side of the boundary.
    pub cells: u32,
    /// Number of headings, the first north.
    pub headings: u32,
    /// Heights above home, metres.
    pub heights_m: Vec<f64>,
    /// Airspeeds, m/s.
    pub speeds_mps: Vec<f64>,
    /// Most trials a cell and heading. Some are flown everywhere, most only where the answer is uncertain or the border
    /// runs; 0 leaves it at the plan as entered.
    pub trials: u64,
    /// Confidence of every interval.
    pub confidence: f64,
}

impl LossAsk {
    /// 50 cells along the longer side, 8 headings, the scenario's loss height and speed, 16 trials, at 95 % confidence.
    pub fn usual(scenario: &Scenario) -> Self {
        let loss = &scenario.file.loss;
        Self {
            cells: 50,
            headings: 8,
            heights_m: vec![loss.height.m()],
            speeds_mps: vec![loss.speed.mps()],
            trials: 16,
            confidence: 0.95,
        }
    }

    /// The number of the trial that a cell flies on a loss in a round: the plan as entered in round 0, a trial after
    /// it. Losses are numbered headings first, then heights, then speeds.
    ///
    /// Every cell and loss takes others: were they the same everywhere, what these few don't show would be hidden from all
    /// of the map.
    pub fn trial(&self, at: [u32; 2], loss: u64, round: u64) -> u64 {
        match round {
            0 => 0,
            _ => 1 + (u64::from(at[0]) * 89 + u64::from(at[1]) * 233 + loss * 37 + round) % self.pool().max(1),
        }
    }

    /// Why it is more than can be flown, with the way out; none where it can be.
    pub fn too_much(&self) -> Option<String> {
        let losses = u64::from(self.headings) * self.heights_m.len() as u64 * self.speeds_mps.len() as u64;
        if losses > MOST_LOSSES {
            return Some(format!(
                "{} headings, {} heights and {} speeds are {losses} losses from every cell, more than {MOST_LOSSES}: ask \
                 for fewer of them",
                self.headings,
                self.heights_m.len(),
                self.speeds_mps.len()
            ));
        }
        let cells = u64::from(self.cells).pow(2);
        let flights = cells.saturating_mul(losses).saturating_mul(self.trials.saturating_add(1));
        (flights > MOST_FLIGHTS).then(|| {
            format!(
                "{cells} cells, {losses} losses and {} trials may take {} million flights, more than {} million: ask for \
                 fewer cells, headings, heights, speeds or trials",
                self.trials,
                flights.div_ceil(1_000_000),
                MOST_FLIGHTS / 1_000_000
            )
        })
    }

    /// Trials that a map is flown with.
    fn pool(&self) -> u64 {
        if self.trials > 0 { self.trials.max(POOL) } else { 0 }
    }

    /// Some 200 cells (fewer where flights are long) and the plan as entered, without errors: at once, to be followed
    /// by the usual one. The headings are the same, since fewer would make the worst of them look better than it is.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a few dozen")]
    pub fn coarse(scenario: &Scenario) -> Self {
        let boundary = &scenario.field.boundary;
        let (low, high) = boundary.bounds();
        let squares = (high - low).max_element().powi(2) / boundary.area_m2() * COARSE / costliness(scenario);
        Self { cells: squares.sqrt().round().clamp(6.0, 50.0) as u32, trials: 0, ..Self::usual(scenario) }
    }
}

/// One cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Column and row, from the south-west.
    pub at: [u32; 2],
    /// Its middle, metres.
    pub middle: DVec2,
    /// Worst outcome of the plan as entered over all headings.
    pub plan_worst: Outcome,
    /// Worst outcome seen in any trial flown from here.
    pub worst: Outcome,
    /// That loss, to be flown again. Of several outcomes alike it is the one with the least left of any margin in metres.
    pub replay: Replay,
    /// Outcomes counted over headings, heights, speeds and trials, in the order of [`Outcome::ALL`].
    pub outcomes: [u64; Outcome::ALL.len()],
    /// Flights over headings, heights, speeds, plan and trials.
    pub count: Count,
    /// The same, a heading.
    pub by_heading: Vec<Count>,
    /// The trials among them, without the plan as entered: where none was flown, the cell was not checked closely and
    /// nothing is known but what the plan as entered comes to.
    pub trials: Count,
    /// Median and longest time home, seconds; none where none settled.
    pub home_s: Option<[f64; 2]>,
    /// Median and largest energy home, Wh; none where none settled.
    pub energy_wh: Option<[f64; 2]>,
}

/// Flights, and what became of the limits in them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Count {
    /// Flights in which a limit was crossed.
    pub crossed: u64,
    /// Flights that kept every buffer.
    pub kept: u64,
    /// Flights in all.
    pub flown: u64,
}

impl Count {
    /// Flights that crossed nothing.
    pub fn inside(self) -> Share {
        Share { count: self.flown - self.crossed, of: self.flown }
    }
}

impl std::ops::AddAssign for Count {
    fn add_assign(&mut self, more: Self) {
        self.crossed += more.crossed;
        self.kept += more.kept;
        self.flown += more.flown;
    }
}

impl std::iter::Sum for Count {
    fn sum<I: Iterator<Item = Self>>(counts: I) -> Self {
        let mut all = Self::default();
        counts.for_each(|count| all += count);
        all
    }
}

impl Cell {
    /// Whether trials were flown from here, not the plan as entered, without errors.
    pub fn checked_closely(&self) -> bool {
        self.trials.flown > 0
    }
}

/// A loss to fly again.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Replay {
    /// Where, metres.
    pub at: DVec2,
    /// Heading, degrees.
    pub heading_deg: f64,
    /// Height above home, metres.
    pub height_m: f64,
    /// Airspeed, m/s.
    pub speed_mps: f64,
    /// Number of the trial.
    pub trial: u64,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct LossStudy {
    /// What was asked.
    pub ask: LossAsk,
    /// The limits, in the order of a score's gaps.
    pub limits: Vec<LimitInfo>,
    /// South-west corner of the grid, metres.
    pub corner: DVec2,
    /// Side of a cell, metres.
    pub cell_m: f64,
    /// Columns and rows.
    pub size: [u32; 2],
    /// Cells whose middle is inside the boundary and outside every area that nobody may enter that day: elsewhere no
    /// flight may be anyway. By rows from the south; those not flown before a stop are left out.
    pub cells: Vec<Cell>,
    /// Where a loss on any heading still turns back inside the boundary less its buffer, in closed form, as a check:
    /// rings, metres, holes among them (inside is where an odd number of rings is around). Empty where nowhere is, or
    /// the plan doesn't fly home.
    pub turn_back: Vec<Vec<DVec2>>,
    /// Furthest place in every direction from the centre from which the energy reaches home over the reserve, in closed
    /// form, metres, clockwise from north; empty where the wind is no less than the return speed, the energy reaches
    /// from nowhere, or the plan doesn't fly home.
    pub no_return: Vec<DVec2>,
    /// Where a loss is recovered, flown and with intervals; none where it was not asked for.
    pub keep_inside: Option<KeepInside>,
    /// Whether it was stopped before it was complete; the lines in closed form are then left out.
    pub partial: bool,
}

impl LossStudy {
    /// All flights, plan and trials.
    pub fn count(&self) -> Count {
        self.cells.iter().map(|cell| cell.count).sum()
    }

    /// The trials among them.
    pub fn trials(&self) -> Count {
        self.cells.iter().map(|cell| cell.trials).sum()
    }

    /// Cells from which that is the worst that the plan as entered comes to, over all headings.
    pub fn cells_as_entered(&self, outcome: Outcome) -> usize {
        self.cells.iter().filter(|cell| cell.plan_worst == outcome).count()
    }

    /// Cells from which a trial came to something worse than the plan as entered.
    pub fn worse(&self) -> impl Iterator<Item = &Cell> {
        self.cells.iter().filter(|cell| cell.worst < cell.plan_worst)
    }

    /// Flights from all cells that came to that.
    pub fn flights(&self, outcome: Outcome) -> u64 {
        self.cells.iter().map(|cell| cell.outcomes[outcome as usize]).sum()
    }

    /// Cells from which only the plan as entered was flown.
    pub fn not_checked_closely(&self) -> usize {
        self.cells.iter().filter(|cell| !cell.checked_closely()).count()
    }

    /// The cell at a place of the ground; none outside, where no flight may be, or where none was flown before a stop.
    pub fn cell_at(&self, place: DVec2) -> Option<&Cell> {
        let at = ((place - self.corner) / self.cell_m).floor();
        self.cells.iter().find(|cell| DVec2::new(cell.at[0].into(), cell.at[1].into()) == at)
    }
}
