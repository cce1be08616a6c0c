//! What the window is about: one scenario, its flight and its ledger, and where the eye and the play head are.
//!
//! [`Session::apply`] obeys one command and flies again where the answer depends on it: a flight takes a fraction of a
//! millisecond, so every answer on the screen is always the answer to the plan on the screen.

use std::path::PathBuf;

use bevy::prelude::{Real, Res, ResMut, Resource, Time};
use glam::DVec2;

use super::Theme;
use super::lens::{Bounds, Lens, Look};
use super::show::Shown;
use crate::error::Fault;
use crate::ledger::{Ledger, judge};
use crate::run::{Run, Scenario, WindChoice, fly};

mod knob;
#[cfg(test)]
mod tests;

pub use knob::Knob;

/// What a panel asks for. Panels change nothing themselves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AppCommand {
    /// Sets a number of the plan or the wind, in the knob's unit.
    Turn(Knob, f64),
    /// Puts every knob back to what the file says.
    Restore,
    /// Flies another case; 0 is the plan as written.
    Case(u64),
    /// Flies in the mean or in the gust.
    Wind(WindChoice),
    /// Plays, or pauses.
    PlayOrPause,
    /// Moves the play head to a time since the loss, seconds.
    Scrub(f64),
    /// Moves the play head by some seconds.
    Nudge(f64),
    /// Plays this many times as fast as it flew.
    Speed(f64),
    /// Chooses a row of the ledger and moves the play head to its moment.
    Choose(usize),
    /// Shows the whole field and the whole path.
    Fit,
    /// Shows this many times as much ground, keeping a place of the ground where it is on the screen.
    Zoom {
        /// Above 1 shows more ground.
        factor: f64,
        /// The place that stays; the middle where left out.
        about: Option<DVec2>,
    },
    /// Moves the view over the ground, metres.
    Pan(DVec2),
    /// Changes between light and dark.
    SwapTheme,
    /// The notice has been read.
    NoticeRead,
    /// Shows or hides the warnings of the file.
    ShowWarnings(bool),
}

/// A scenario with its flight.
#[derive(Debug, Clone)]
pub struct Flown {
    /// As the file has it.
    pub written: Scenario,
    /// As the knobs have it.
    pub scenario: Scenario,
    /// The flight.
    pub run: Run,
    /// Its margins.
    pub ledger: Ledger,
}

impl Flown {
    fn new(written: Scenario, case: u64, wind: WindChoice) -> Self {
        let run = fly(&written, case, wind);
        let ledger = judge(&written, &run);
        Self { scenario: written.clone(), written, run, ledger }
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

    /// Whether a knob stands elsewhere than the file has it.
    pub fn is_changed(&self) -> bool {
        Knob::ALL.iter().any(|knob| knob.get(&self.scenario) != knob.get(&self.written))
    }

    fn bounds(&self) -> Bounds {
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

/// Everything the window shows.
#[derive(Debug, Clone, Resource)]
pub struct Session {
    /// The file, where there is one.
    pub path: Option<PathBuf>,
    /// What is wrong with the file, errors and warnings.
    pub faults: Vec<Fault>,
    /// Whether what comes before the first use has been read, or was read when this file was made.
    pub notice_read: bool,
    /// Whether warnings are on the screen.
    pub warnings_shown: bool,
    /// The flight; none where the file can't be used.
    pub flown: Option<Flown>,
    /// Number of the case flown.
    pub case: u64,
    /// The wind flown in.
    pub wind: WindChoice,
    /// The replay.
    pub playhead: Playhead,
    /// The row of the ledger that is chosen.
    pub chosen: Option<usize>,
    /// Light or dark.
    pub theme: Theme,
    /// What part of the ground is looked at.
    pub look: Look,
    /// Counts the flights, so that whoever draws can tell a new one.
    pub flights: u64,
}

impl Session {
    /// A session on a scenario that can be used.
    pub fn new(scenario: Scenario, warnings: Vec<Fault>, path: Option<PathBuf>) -> Self {
        let mut session = Self::faulty(warnings, path);
        let flown = Flown::new(scenario, session.case, session.wind);
        session.look = Look::whole(flown.bounds());
        session.flown = Some(flown);
        session
    }

    /// A session on a file that can't be used.
    pub fn faulty(faults: Vec<Fault>, path: Option<PathBuf>) -> Self {
        Self {
            notice_read: path.is_some(),
            path,
            warnings_shown: !faults.is_empty(),
            faults,
            flown: None,
            case: 0,
            wind: WindChoice::Mean,
            playhead: Playhead { at_s: 0.0, playing: false, speed: 1.0 },
            chosen: None,
            theme: Theme::Light,
            look: Look::default(),
            flights: 0,
        }
    }

    /// Obeys one command. `seen` is the view that the person had when asking.
    pub fn apply(&mut self, command: AppCommand, seen: Lens) {
        let end_s = self.flown.as_ref().map_or(0.0, Flown::end_s);
        let playhead = &mut self.playhead;
        match command {
            AppCommand::Turn(knob, value) => {
                if let Some(flown) = &mut self.flown {
                    knob.set(&flown.written, &mut flown.scenario, value);
                    self.fly();
                }
            }
            AppCommand::Restore => {
                if let Some(flown) = &mut self.flown {
                    flown.scenario = flown.written.clone();
                    self.fly();
                }
            }
            AppCommand::Case(case) => {
                self.case = case;
                self.fly();
            }
            AppCommand::Wind(wind) => {
                self.wind = wind;
                self.fly();
            }
            AppCommand::PlayOrPause => {
                playhead.playing = !playhead.playing && end_s > 0.0;
                // Playing from the very end starts again.
                if playhead.playing && playhead.at_s >= end_s {
                    playhead.at_s = 0.0;
                }
            }
            AppCommand::Scrub(at_s) => playhead.at_s = at_s.clamp(0.0, end_s),
            AppCommand::Nudge(by_s) => playhead.at_s = (playhead.at_s + by_s).clamp(0.0, end_s),
            AppCommand::Speed(speed) => playhead.speed = speed,
            AppCommand::Choose(index) => {
                if let Some(row) = self.flown.as_ref().and_then(|flown| flown.ledger.rows.get(index)) {
                    playhead.at_s = row.at_s.clamp(0.0, end_s);
                    playhead.playing = false;
                    self.chosen = Some(index);
                }
            }
            AppCommand::Fit => {
                self.look = self.flown.as_ref().map_or_else(Look::default, |flown| Look::whole(flown.bounds()));
            }
            AppCommand::Zoom { factor, about } => self.look = seen.zoomed(factor, about),
            AppCommand::Pan(by) => self.look = seen.panned(by),
            AppCommand::SwapTheme => self.theme = self.theme.other(),
            AppCommand::NoticeRead => self.notice_read = true,
            AppCommand::ShowWarnings(shown) => self.warnings_shown = shown,
        }
    }

    /// Lets some seconds pass.
    pub fn tick(&mut self, by_s: f64) {
        let end_s = self.flown.as_ref().map_or(0.0, Flown::end_s);
        let playhead = &mut self.playhead;
        if playhead.playing {
            playhead.at_s = (playhead.at_s + by_s * playhead.speed).min(end_s);
            playhead.playing = playhead.at_s < end_s;
        }
    }

    fn fly(&mut self) {
        let Some(flown) = &mut self.flown else { return };
        let chosen = self.chosen.and_then(|index| flown.ledger.rows.get(index)).map(|row| row.limit);
        flown.run = fly(&flown.scenario, self.case, self.wind);
        flown.ledger = judge(&flown.scenario, &flown.run);
        // The rows may have changed places: what was chosen is a limit, not a line.
        self.chosen = chosen.and_then(|limit| flown.ledger.rows.iter().position(|row| row.limit == limit));
        self.playhead.at_s = self.playhead.at_s.min(flown.end_s());
        self.flights += 1;
    }
}

/// Obeys what the panels asked for in the last frame.
pub(super) fn obey(mut session: ResMut<Session>, mut shown: ResMut<Shown>) {
    for command in std::mem::take(&mut shown.commands) {
        session.apply(command, shown.lens);
    }
}

/// Moves the play head.
pub(super) fn step(mut session: ResMut<Session>, time: Res<Time<Real>>) {
    if session.playhead.playing {
        session.tick(time.delta_secs_f64());
    }
}
