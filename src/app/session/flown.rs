//! One scenario with its flight and its ledger, and where the replay of it is.

use glam::DVec2;

use crate::app::look::lens::Bounds;
use crate::ledger::{Lap, Ledger, Outcome, Scorer, judge, lap};
use crate::run::{Floor, Run, Scenario, WindChoice, draw, fly, fly_case, setting};
use crate::study::losses::Replay;

/// A scenario with its flight.
#[derive(Debug, Clone)]
pub struct Flown {
    /// The scenario flown; its loss is that of the replay where a loss elsewhere is replayed.
    pub scenario: Scenario,
    /// The flight.
    pub run: Run,
    /// Its margins.
    pub ledger: Ledger,
    /// What came of a loss elsewhere, as the map of losses counts it; none for the plan's own loss.
    pub outcome: Option<Outcome>,
    /// Its last whole lap; none where none was flown.
    pub lap: Option<Lap>,
}

impl Flown {
    /// Flies a case of a scenario, or of a loss elsewhere, which brings its case with it and flies in the mean wind, as on
    /// the map of losses.
    pub fn new(mut scenario: Scenario, lost: Option<Replay>, case: u64, wind: WindChoice) -> Self {
        if let Some(lost) = lost {
            scenario.file.loss = lost.loss(&scenario);
        }
        let (case, wind) = lost.map_or((case, wind), |lost| (lost.case, WindChoice::Mean));
        let run = match lost {
            // The place of the replay counts, not one drawn from the circuit.
            Some(_) => {
                let drawn = draw(&scenario, case, wind).lost(&scenario.file.loss);
                let (trace, ending) =
                    fly_case(&setting(&scenario), scenario.file.wind.turbulence, &drawn, &Floor::of(&scenario));
                Run { case, drawn, trace, ending }
            }
            None => fly(&scenario, case, wind),
        };
        let ledger = judge(&scenario, &run);
        let score = lost.and_then(|_| Scorer::new(&scenario).score(&[run.drawn]).pop());
        let lap = lap(&scenario, &run);
        Self { outcome: score.map(|score| score.outcome), scenario, run, ledger, lap }
    }

    /// Time of the last sample, seconds since the loss.
    pub fn end_s(&self) -> f64 {
        self.run.trace.len().checked_sub(1).map_or(0.0, |last| self.run.trace.time_s(last))
    }

    /// Position of a time in the trace: a sample number with its fraction.
    pub fn sample_at(&self, at_s: f64) -> f64 {
        let step_s = self.run.trace.step_s;
        if step_s > 0.0 { (at_s / step_s).clamp(0.0, self.end_s() / step_s) } else { 0.0 }
    }

    /// What a view of everything shows: the field and the path near it.
    pub fn bounds(&self) -> Bounds {
        let field = &self.scenario.field;
        let mut bounds = Bounds::of(field.outline.rings().iter().flatten().copied());
        bounds.extend(field.patches.iter().flat_map(|patch| patch.region.rings().iter().flatten().copied()));
        let land = bounds;
        let trace = &self.run.trace;
        let path = (0..trace.len()).map(|index| trace.point(index));
        // A path that leaves for good must not shrink the field to a speck.
        bounds.extend(path.filter(|&point| land.grown(2.0).contains(point)));
        bounds.extend([field.stand, field.home, field.hub, DVec2::ZERO]);
        bounds
    }
}

/// Where the replay is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Playhead {
    /// Seconds since the loss.
    pub at_s: f64,
    /// Whether it moves by itself.
    pub playing: bool,
    /// How many times as fast as it flew.
    pub speed: f64,
}
