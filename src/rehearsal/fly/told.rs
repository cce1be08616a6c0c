//! What can be asked of a rehearsal: how far it is, who has it, where the jet is and how it is seen.

use std::sync::Arc;

use glam::DVec2;

use super::super::{Exercise, SeenAttitude, Sight, Stages, Sticks, Timed};
use super::Rehearsal;
use crate::jet::State;
use crate::margins::eyes;
use crate::run::{Ending, Scenario, Stretch, Trace, Trial};

impl Rehearsal {
    /// The plan that it is flown on.
    pub const fn base(&self) -> &Arc<Scenario> {
        &self.base
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
}
