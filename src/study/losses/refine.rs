//! The same map with drawn cases where the coarse one is uncertain.
//!
//! A cell is uncertain where its flights of the plan don't agree, or where the border runs: a neighbour's plan ends
//! otherwise, or one of the two mostly meets every margin and the other mostly doesn't. It flies more cases, twice as
//! many every round, until every heading mostly meets them or mostly doesn't, with the confidence asked for. As cells
//! change their minds the border moves, and their neighbours follow. All others stay as they are.

use std::ops::Range;

use crate::run::Scenario;
use crate::study::losses::fly::{Counts, Flyer, drawn};
use crate::study::losses::grid::Grid;
use crate::study::losses::{Cell, LossStudy};
use crate::study::stats::Share;
use crate::study::work::{Work, in_order};

/// Drawn cases of the first round.
const FIRST: u64 = 8;

/// The map, flown more often where it is uncertain. The work counts recoveries; how many there are turns out round by
/// round.
pub fn refine(scenario: &Scenario, study: LossStudy, work: &Work) -> LossStudy {
    let mut study = study;
    let flyer = Flyer::new(scenario, &study.ask);
    let cases = drawn(scenario, 0..study.ask.cases + 1);
    let mut trials: Vec<Option<Trial>> = vec![None; study.cells.len()];
    while work.go_on() {
        let tasks = tasks(&study, &trials, &flyer);
        if tasks.is_empty() {
            break;
        }
        work.expect(tasks.iter().map(|task| task.flights(&flyer)).sum());
        let flown = in_order(work, 0..tasks.len() as u64, |index| {
            let task = &tasks[index as usize];
            let middles: Vec<_> = task.cells.iter().map(|&cell| study.cells[cell].middle).collect();
            let counts = flyer.fly(&middles, &cases[task.cases.clone()], work)?;
            work.add(task.flights(&flyer));
            Some(counts)
        });
        for (task, counts) in tasks.iter().zip(flown.results.into_iter().map_while(|counts| counts)) {
            for (&index, counts) in task.cells.iter().zip(counts) {
                let trial = Trial::after(trials[index].take(), counts, task.cases.end);
                let cell = &study.cells[index];
                if let Some(flown) = trial.counts.cell(cell.at, cell.middle) {
                    study.cells[index] = Cell { plan_worst: cell.plan_worst, refined: true, ..flown };
                }
                trials[index] = Some(trial);
            }
        }
    }
    let grid = Grid::over(&scenario.field, study.ask.cells);
    study.partial = !work.go_on() || study.cells.len() < grid.cells(&scenario.field).len();
    study
}

/// What a cell flew since it turned out uncertain.
#[derive(Clone)]
struct Trial {
    counts: Counts,
    /// The case to fly next.
    next: usize,
}

impl Trial {
    fn after(before: Option<Self>, counts: Counts, next: usize) -> Self {
        let counts = match before {
            None => counts,
            Some(mut before) => {
                before.counts.join(counts);
                before.counts
            }
        };
        Self { counts, next }
    }
}

/// Cells that fly the same cases at once.
struct Task {
    cases: Range<usize>,
    cells: Vec<usize>,
}

impl Task {
    fn flights(&self, flyer: &Flyer<'_>) -> u64 {
        flyer.flights(self.cells.len(), self.cases.len())
    }
}

/// What is to be flown in the next round. The plan is flown again where a cell begins, so that its counts are whole.
fn tasks(study: &LossStudy, trials: &[Option<Trial>], flyer: &Flyer<'_>) -> Vec<Task> {
    let last = study.ask.cases as usize;
    let neighbours = Neighbours::of(study);
    let due = trials.iter().enumerate().filter_map(|(index, trial)| {
        let cases = match trial {
            None if last > 0 && (study.cells[index].refined || uncertain(study, &neighbours, index)) => {
                0..1 + last.min(FIRST as usize)
            }
            Some(trial) if trial.next <= last && !decided(&study.cells[index], study.ask.confidence) => {
                trial.next..(2 * trial.next - 1).min(last + 1)
            }
            _ => return None,
        };
        Some((cases, index))
    });
    let mut due: Vec<(Range<usize>, usize)> = due.collect();
    due.sort_by_key(|(cases, index)| (cases.start, *index));
    let alike = due.chunk_by(|(a, _), (b, _)| a == b);
    let at_once = alike.flat_map(|alike| alike.chunks(flyer.cells_at_once(alike[0].0.len())));
    at_once.map(|few| Task { cases: few[0].0.clone(), cells: few.iter().map(|(_, cell)| *cell).collect() }).collect()
}

/// Whether a cell's flights disagree, or the border runs beside it.
fn uncertain(study: &LossStudy, neighbours: &Neighbours, index: usize) -> bool {
    let cell = &study.cells[index];
    let kinds = cell.outcomes.iter().filter(|&&count| count > 0).count();
    let beside = || neighbours.around(cell.at).map(|index| &study.cells[index]);
    kinds > 1
        || (cell.met > 0 && cell.met < cell.flown)
        || beside().any(|other| other.plan_worst != cell.plan_worst || mostly_met(other) != mostly_met(cell))
}

fn mostly_met(cell: &Cell) -> bool {
    2 * cell.met > cell.flown
}

/// Whether every heading mostly meets the margins or mostly doesn't, by its interval.
fn decided(cell: &Cell, confidence: f64) -> bool {
    cell.met_by_heading.iter().all(|&[count, of]| !Share { count, of }.wilson(confidence).holds(0.5))
}

/// Which cells lie around which.
struct Neighbours {
    size: [u32; 2],
    /// Number of the cell in every square of the grid.
    cells: Vec<Option<usize>>,
}

impl Neighbours {
    fn of(study: &LossStudy) -> Self {
        let [columns, rows] = study.size;
        let mut neighbours = Self { size: study.size, cells: vec![None; (columns * rows) as usize] };
        for (index, cell) in study.cells.iter().enumerate() {
            let square = neighbours.square(cell.at);
            neighbours.cells[square] = Some(index);
        }
        neighbours
    }

    fn square(&self, [column, row]: [u32; 2]) -> usize {
        (row * self.size[0] + column) as usize
    }

    /// The up to eight cells around a square.
    fn around(&self, [column, row]: [u32; 2]) -> impl Iterator<Item = usize> {
        let beside = |at: u32, count: u32| at.saturating_sub(1)..(at + 2).min(count);
        let squares = beside(row, self.size[1])
            .flat_map(move |y| beside(column, self.size[0]).map(move |x| [x, y]))
            .filter(move |&at| at != [column, row]);
        squares.filter_map(|at| self.cells[self.square(at)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;
    use crate::study::losses::{LossAsk, first};

    /// The demo on wider ground: from its middle every loss is recovered, from its corners none is seen.
    fn small() -> (Scenario, LossAsk) {
        let mut file = Scenario::demo().file;
        let half = 700.0;
        file.field.as_mut().unwrap().outline.ring_m = vec![[-half, -half], [half, -half], [half, half], [-half, half]];
        file.limits.home_within = None;
        let scenario = Scenario::from_file(file).unwrap();
        let ask = LossAsk { cells: 12, headings: 4, cases: 16, ..LossAsk::usual(&scenario) };
        (scenario, ask)
    }

    #[test]
    fn a_cell_has_the_neighbours_that_touch_it() {
        let (scenario, ask) = small();
        let study = first(&scenario, &ask, &Work::default());
        let neighbours = Neighbours::of(&study);
        for cell in &study.cells {
            let mut found: Vec<_> = neighbours.around(cell.at).map(|index| study.cells[index].at).collect();
            let near = |other: &Cell| {
                let apart = (other.middle - cell.middle).abs().max_element();
                apart > 0.0 && apart < 1.5 * study.cell_m
            };
            let mut expected: Vec<_> = study.cells.iter().filter(|other| near(other)).map(|other| other.at).collect();
            found.sort_unstable();
            expected.sort_unstable();
            assert_eq!(found, expected);
        }
    }

    #[test]
    fn rounds_double_up_to_what_was_asked() {
        let (scenario, ask) = small();
        let study = refine(&scenario, first(&scenario, &ask, &Work::default()), &Work::default());
        let mut seen = [false; 3];
        for cell in &study.cells {
            let each = cell.flown / 4;
            assert!(cell.met_by_heading.iter().all(|heading| heading[1] == each), "{cell:?}");
            assert_eq!(cell.outcomes.iter().sum::<u64>(), cell.flown);
            assert_eq!(cell.met_by_heading.iter().map(|heading| heading[0]).sum::<u64>(), cell.met);
            let round = [1, 9, 17].iter().position(|&cases| cases == each).unwrap();
            seen[round] = true;
            assert_eq!(cell.refined, round > 0);
            assert!(round != 1 || decided(cell, 0.95), "{cell:?}");
        }
        assert_eq!(seen, [true; 3], "some plain, some decided after the first round, some not");
    }
}
