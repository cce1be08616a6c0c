//! The coarse map: one flight of the plan as entered from every cell, on every heading, at every height and speed.

use crate::run::Scenario;
use crate::study::losses::fly::{Flyer, LossSpot, Pool};
use crate::study::losses::grid::Grid;
use crate::study::losses::lines::{no_return, turn_back};
use crate::study::losses::{Cell, LossAsk, LossStudy};
use crate::study::work::{Work, in_order};

/// The map of the plan as entered. The work counts recoveries.
pub fn first(scenario: &Scenario, ask: &LossAsk, work: &Work) -> LossStudy {
    let grid = Grid::over(&scenario.field, ask.cells);
    let flyer = Flyer::new(scenario, ask);
    let plan = Pool::plan(scenario, ask);
    let places = grid.cells(&scenario.field);
    work.expect(flyer.flights(places.len(), 1));
    let chunks: Vec<_> = places.chunks(flyer.cells_at_once(1)).collect();
    let flown = in_order(work, 0..chunks.len() as u64, |index| {
        let chunk = chunks[index as usize];
        let spots: Vec<_> = chunk.iter().map(|&at| LossSpot { at, middle: grid.middle(at) }).collect();
        let counts = flyer.fly(&spots, 0..1, &plan, work)?;
        work.add(flyer.flights(chunk.len(), 1));
        let each = counts.iter().zip(spots);
        Some(each.filter_map(|(counts, spot)| counts.cell(spot.at, spot.middle)).collect::<Vec<_>>())
    });
    let cells: Vec<Cell> = flown.results.into_iter().map_while(|cells| cells).flatten().collect();
    let partial = cells.len() < places.len();
    let (turn_back, no_return) =
        if partial { Default::default() } else { (turn_back(scenario, ask), no_return(scenario, ask)) };
    LossStudy {
        ask: ask.clone(),
        limits: flyer.scorer().limits().to_vec(),
        corner: grid.corner,
        cell_m: grid.cell_m,
        size: grid.size,
        cells,
        turn_back,
        no_return,
        keep_inside: None,
        partial,
    }
}
