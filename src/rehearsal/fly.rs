//! A rehearsal step by step: the flight of the study, in somebody's hands until something is lost and again once it is
//! taken over, with the stages of the drill as they are done.

use std::sync::Arc;

use glam::{DVec2, DVec3};

use super::link::Link;
use super::{Deed, Exercise, SeenAttitude, Sight, Stage, Stages, Sticks, Timed, When};
use crate::error::Fault;
use crate::field::Where;
use crate::jet::State;
use crate::margins::eyes;
use crate::run::{
    Ending, Flight, Floor, LONGEST_S, Recorder, Scenario, Setting, Stretch, Trace, Trial, WindChoice, draw, setting,
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

    /// The scenario as it is flown.
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }

    /// The exercise.
    pub const fn exercise(&self) -> &Exercise {
        &self.exercise
    }

    /// The numbers it is flown with.
    pub const fn trial(&self) -> &Trial {
        &self.trial
    }

    /// Seconds since the beginning.
    #[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
    pub fn time_s(&self) -> f64 {
        self.index as f64 * self.setting.step_s
    }

    /// Number of the step that comes next.
    pub const fn index(&self) -> usize {
        self.index
    }

    /// Seconds that a step takes.
    pub const fn step_s(&self) -> f64 {
        self.setting.step_s
    }

    /// Step of the loss.
    pub const fn lost_at(&self) -> Option<usize> {
        self.lost_at
    }

    /// Seconds since the loss.
    #[allow(clippy::cast_precision_loss, reason = "a flight has few steps")]
    pub fn since_loss_s(&self) -> Option<f64> {
        self.lost_at.map(|lost| (self.index - lost) as f64 * self.setting.step_s)
    }

    /// Whether there is a picture in the goggles.
    pub fn has_video(&self) -> bool {
        self.since_loss_s().is_none_or(|since_s| self.had_video(since_s))
    }

    /// Whether there was one so many seconds after the loss.
    pub fn had_video(&self, since_s: f64) -> bool {
        self.link.has_video(since_s)
    }

    /// Whether the sticks reach the jet.
    pub const fn has_control(&self) -> bool {
        self.has_control
    }

    /// Whether hands fly it at the moment.
    pub fn by_hand(&self) -> bool {
        self.stretch() == Stretch::ByHand
    }

    /// What it is at.
    pub fn stretch(&self) -> Stretch {
        Stretch::numbered(self.flight.stretch())
    }

    /// What is done of the drill.
    pub const fn stages(&self) -> &Stages {
        &self.stages
    }

    /// Where the sticks are.
    pub const fn sticks(&self) -> Sticks {
        self.sticks
    }

    /// Everything that was done.
    pub fn deeds(&self) -> &[Timed] {
        &self.deeds
    }

    /// Whether it has come to an end.
    pub const fn is_over(&self) -> bool {
        self.over
    }

    /// How the flight ended by itself; none where the person ended it.
    pub const fn ending(&self) -> Option<Ending> {
        self.ending
    }

    /// The path so far.
    pub fn trace(&self) -> &Trace {
        &self.recorder.traces[0]
    }

    /// Where the jet is now.
    pub fn state(&self) -> &State<f64> {
        self.flight.state()
    }

    /// Where it is a share of the way from the step before to the present one: for a screen that is quicker than the step.
    pub fn between(&self, share: f64) -> State<f64> {
        let (from, to) = (&self.before, self.flight.state());
        let part = |from: f64, to: f64| from + (to - from) * share;
        let nose = DVec2::new(part(from.nose_x, to.nose_x), part(from.nose_y, to.nose_y)).normalize_or(DVec2::Y);
        State {
            x: part(from.x, to.x),
            y: part(from.y, to.y),
            height: part(from.height, to.height),
            airspeed: part(from.airspeed, to.airspeed),
            nose_x: nose.x,
            nose_y: nose.y,
            climb: part(from.climb, to.climb),
            bank: part(from.bank, to.bank),
            ..*to
        }
    }

    /// How the air moves where the jet is, m/s east and north.
    pub fn air(&self) -> DVec2 {
        DVec2::from_array(self.flight.air())
    }

    /// How the jet is seen from the pilot position.
    pub fn sight(&self) -> Sight {
        Sight::of(eyes(&self.scenario), self.place())
    }

    /// Which attitude it has, as seen from there.
    pub fn seen(&self) -> SeenAttitude {
        let state = self.flight.state();
        SeenAttitude::of(self.away(), DVec2::new(state.nose_x, state.nose_y), state.bank)
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
