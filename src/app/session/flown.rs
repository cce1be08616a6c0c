//! One scenario with its flight and its margins, and where the replay of it is.

use std::sync::OnceLock;

use glam::DVec2;

use crate::app::look::lens::LensBounds;
use crate::brief::Entered;
use crate::margins::{Lap, Margins, Outcome, Scorer, judge, lap};
use crate::run::{Floor, Run, Scenario, WindChoice, draw, fly, fly_trial, setting};
use crate::study::losses::Replay;

/// A scenario with its flight.
#[derive(Debug, Clone)]
pub struct Flown {
    /// The scenario flown; its loss is that of the replay where a loss elsewhere is replayed.
    pub scenario: Scenario,
    /// The flight.
    pub run: Run,
    /// Its margins.
    pub margins: Margins,
    /// What came of a loss elsewhere, as the map of losses counts it; none for the plan's own loss.
    pub outcome: Option<Outcome>,
    /// Its last whole lap; none where none was flown.
    pub lap: Option<Lap>,
    /// What the plan as entered tells of its answer, whichever trial, wind or loss is on the screen.
    pub entered: Entered,
    /// The plan, by its hash, once somebody has asked.
    plan: OnceLock<String>,
}

impl Flown {
    /// Flies a trial of a scenario, or of a loss elsewhere, which brings its trial with it and flies in the mean wind,
    /// as on the map of losses.
    pub fn new(mut scenario: Scenario, lost: Option<Replay>, trial: u64, wind: WindChoice) -> Self {
        let another = (lost, trial, wind) != (None, 0, WindChoice::Mean);
        let entered = another.then(|| Entered::of(&scenario));
        let plan = OnceLock::new();
        if let Some(lost) = lost {
            // The loss of the replay is not the plan's.
            plan.get_or_init(|| scenario.hash());
            scenario.file.loss = lost.loss(&scenario);
        }
        let (trial, wind) = lost.map_or((trial, wind), |lost| (lost.trial, WindChoice::Mean));
        let run = match lost {
            // The place of the replay counts, not one drawn from the circuit.
            Some(_) => {
                let drawn = draw(&scenario, trial, wind).lost(&scenario.file.loss);
                let (trace, ending) =
                    fly_trial(&setting(&scenario), scenario.file.wind.turbulence, &drawn, &Floor::of(&scenario));
                Run { trial, drawn, trace, ending }
            }
            None => fly(&scenario, trial, wind),
        };
        let margins = judge(&scenario, &run);
        let score = lost.and_then(|_| Scorer::new(&scenario).score(&[run.drawn]).pop());
        let lap = lap(&scenario, &run);
        let entered = entered.unwrap_or_else(|| Entered::judged(&scenario, &run, &margins));
        Self { outcome: score.map(|score| score.outcome), scenario, run, margins, lap, entered, plan }
    }

    /// The plan, by its hash, whatever loss is replayed.
    pub fn plan(&self) -> &str {
        self.plan.get_or_init(|| self.scenario.hash())
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
    pub fn bounds(&self) -> LensBounds {
        let field = &self.scenario.field;
        let mut bounds = LensBounds::of(field.boundary.rings().iter().flatten().copied());
        bounds.extend(field.areas.iter().flat_map(|area| area.region.rings().iter().flatten().copied()));
        let land = bounds;
        let trace = &self.run.trace;
        let path = (0..trace.len()).map(|index| trace.point(index));
        // A path that leaves for good must not shrink the field to a speck.
        bounds.extend(path.filter(|&point| land.grown(2.0).contains(point)));
        bounds.extend([field.pilot, field.home, field.centre, DVec2::ZERO]);
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
