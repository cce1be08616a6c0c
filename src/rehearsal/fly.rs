//! A rehearsal step by step: the flight of the study, in somebody's hands until something is lost and again once it is
//! taken over, with the stages of the drill as they are done.

mod told;

use std::sync::Arc;

use glam::{DVec2, DVec3};

use super::link::Link;
use super::{Deed, Exercise, SeenAttitude, Stage, Stages, Sticks, Timed, When};
use crate::error::Fault;
use crate::field::Where;
use crate::jet::State;
use crate::margins::eyes;
use crate::run::{
    Ending, Flight, Floor, LONGEST_S, Recorder, Scenario, Setting, Stretch, Trial, WindChoice, draw, setting,
};

/// How near the jet a person has to point, degrees: half a fist at arm's length (judgement).
pub const POINTED_WITHIN_DEG: f64 = 5.0;
/// How near a place of the circuit the jet passes, metres (judgement).
const PASSES_M: f64 = 40.0;
/// When the loss comes on a place of the circuit that is never passed, seconds.
const NEVER_PASSED_S: f64 = 180.0;

/// A rehearsal that is being flown, or has been.
#[derive(Debug, Clone)]
pub struct Rehearsal {
    /// The plan, and the scenario that the exercise makes of it.
    base: Arc<Scenario>,
    scenario: Arc<Scenario>,
    exercise: Exercise,
    trial: Trial,
    setting: Setting,
    flight: Flight<f64>,
    recorder: Recorder,
    link: Link,
    sticks: Sticks,
    /// Bank that straight through the stick has asked for so far, rad.
    bank: f64,
    returning: bool,
    has_control: bool,
    index: usize,
    lost_at: Option<usize>,
    stages: Stages,
    deeds: Vec<Timed>,
    before: State<f64>,
    over: bool,
    ending: Option<Ending>,
}

impl Rehearsal {
    /// At its beginning, with the sticks where the jet flies on as it is.
    ///
    /// # Errors
    ///
    /// Where the scenario can't be flown so.
    pub fn new(base: &Scenario, exercise: &Exercise) -> Result<Self, Vec<Fault>> {
        let scenario = exercise.on(base)?;
        let setting = setting(&scenario);
        let mut trial = draw(&scenario, exercise.trial, WindChoice::Mean);
        if exercise.from != super::From::Plan {
            trial = trial.lost(&scenario.file.loss);
        }
        // Nobody but the person ends it.
        let mut flown = trial;
        (flown.plan.sweep, flown.plan.take_over) = (f64::MAX, f64::MAX);
        let flight = Flight::new(&setting, scenario.file.wind.turbulence, &[flown]);
        let start = trial.start;
        let sticks =
            Sticks { throttle_share: trial.jet.trim_throttle(start.airspeed).clamp(0.0, 1.0), ..Sticks::default() };
        Ok(Self {
            link: Link::of(&scenario, exercise),
            base: Arc::new(base.clone()),
            scenario: Arc::new(scenario),
            exercise: exercise.clone(),
            trial,
            recorder: Recorder::new(setting.step_s, 1),
            setting,
            flight,
            sticks,
            bank: start.bank,
            returning: false,
            has_control: true,
            index: 0,
            lost_at: None,
            stages: Stages::default(),
            deeds: Vec::new(),
            before: start,
            over: false,
            ending: None,
        })
    }

    /// Flies one step, at whose beginning some things are done, and tells whether it goes on.
    pub fn step(&mut self, deeds: &[Deed]) -> bool {
        if self.over {
            return false;
        }
        for deed in deeds {
            self.deeds.push(Timed { at_step: self.index as u64, deed: *deed });
            self.obey(*deed);
        }
        if self.over {
            return false;
        }
        if self.lost_at.is_none() && self.is_due() {
            self.lose();
        }
        self.follow_the_link();
        let state = *self.flight.state();
        let dt = self.setting.step_s;
        let hands = self.exercise.hands.command(self.sticks, &state, self.flight.jet(), &mut self.bank, dt);
        self.before = state;
        let floor = Floor::of(&self.scenario);
        let flies = self.flight.step(&floor, Some(hands), &mut self.recorder);
        self.index += 1;
        if !flies {
            self.over = true;
            self.ending = self.flight.endings().first().copied();
        } else if self.time_s() >= LONGEST_S {
            self.over = true;
        }
        !self.over
    }

    fn obey(&mut self, deed: Deed) {
        match deed {
            Deed::Sticks(to) => self.sticks = to.within_reach(),
            Deed::Lose => self.lose(),
            Deed::Stage { stage } if stage.is_said() && self.lost_at.is_some() => self.stages.done(stage, self.index),
            Deed::Stage { .. } => {}
            Deed::Return => {
                if self.has_control {
                    self.returning = true;
                    self.flight.return_now();
                }
            }
            Deed::Point { .. } | Deed::Say { .. } if self.lost_at.is_none() => {}
            Deed::Point { bearing_deg, elevation_deg } => {
                if self.sight().off_deg(bearing_deg, elevation_deg) <= POINTED_WITHIN_DEG {
                    self.stages.done(Stage::Found, self.index);
                } else {
                    self.stages.missed += 1;
                }
            }
            Deed::Say { seen } => {
                if self.fits(seen) {
                    self.stages.done(Stage::Said, self.index);
                } else {
                    self.stages.misread += 1;
                }
            }
            Deed::TakeOver => self.take_over(),
            Deed::End => self.over = true,
        }
    }

    fn lose(&mut self) {
        if self.lost_at.is_none() {
            self.lost_at = Some(self.index);
            if self.exercise.lost == super::Lost::Position {
                self.flight.lose();
            }
        }
    }

    fn take_over(&mut self) {
        if !self.has_control {
            return;
        }
        self.returning = false;
        self.bank = self.flight.state().bank;
        self.flight.take_over();
        if self.lost_at.is_some() {
            self.stages.done(Stage::TakenOver, self.index);
        }
    }

    fn is_due(&self) -> bool {
        match (self.link.due_s, self.exercise.when) {
            (Some(due), _) => self.time_s() >= due,
            (None, When::OnCircuitM(along_m)) => self.passes(along_m) || self.time_s() >= NEVER_PASSED_S,
            (None, _) => false,
        }
    }

    fn passes(&self, along_m: f64) -> bool {
        let Some(Where::Line(line)) = self.scenario.field.circuit.as_ref().map(|circuit| &circuit.place) else {
            return false;
        };
        line.place(along_m).distance(self.place().truncate()) <= PASSES_M
    }

    /// A link that goes leaves the jet to itself; one that comes back gives the sticks back where nothing was returned, and
    /// else waits for the person. A flickering one does not wait.
    fn follow_the_link(&mut self) {
        let Some(since_s) = self.since_loss_s() else { return };
        let has_control = self.link.has_control(since_s);
        if self.has_control && !has_control {
            self.flight.lose();
        }
        if !self.has_control && has_control && !self.returning {
            let acted = self.stretch() != Stretch::BeforeFailsafe;
            if self.exercise.lost == super::Lost::Flicker || !acted {
                self.bank = self.flight.state().bank;
                self.flight.take_over();
            }
        }
        self.has_control = has_control;
    }

    fn fits(&self, seen: SeenAttitude) -> bool {
        let state = self.flight.state();
        seen.fits(self.away(), DVec2::new(state.nose_x, state.nose_y), state.bank)
    }

    fn place(&self) -> DVec3 {
        let state = self.flight.state();
        DVec3::new(state.x, state.y, state.height)
    }

    fn away(&self) -> DVec2 {
        (self.place() - eyes(&self.scenario)).truncate()
    }
}
