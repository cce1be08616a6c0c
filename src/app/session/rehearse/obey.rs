//! What every command does to a rehearsal, and what comes of a flight that is over.

use super::super::sticks::RawSticks;
use super::super::{Board, Change, Session};
use super::{Gaze, RehearseCommand, RehearseSheet, Rehearsed, SEARCHING_DEG, WIDTHS_DEG};
use crate::rehearsal::{Deed, Hands, Rehearsal, TakeOverTimes, score};
use crate::units::Bearing;

impl Session {
    /// Whether somebody flies at the moment.
    pub fn rehearses(&self) -> bool {
        self.rehearse.flying.is_some() && self.rehearse.paused.is_none()
    }

    /// Whether the screen has to go on by itself.
    pub fn rehearsal_moves(&self) -> bool {
        let sticks = self.rehearse.sheet == RehearseSheet::Sticks && self.rehearse.last.is_none();
        let listens = self.board == Board::Rehearse && sticks;
        let replays = self.rehearse.last.as_ref().is_some_and(|last| last.playing);
        self.rehearses() || replays || self.rehearse.stopwatch.runs() || listens
    }

    /// What is plugged in says something, some seconds after the last time.
    pub fn hear_sticks(&mut self, plugged: &[RawSticks], by_s: f64) {
        let desk = &mut self.rehearse.desk;
        if desk.maps.is_empty() {
            desk.maps.clone_from(&self.settings.sticks);
        }
        desk.hear(plugged.to_vec(), by_s);
    }

    /// Where the eye rests at first: as people face, a little up.
    pub(in crate::app::session) fn rest_gaze(&mut self) {
        let facing = self.flown.as_ref().map_or(Bearing::from_deg(0.0), |flown| flown.scenario.field.facing);
        self.rehearse.gaze = Gaze { bearing_deg: facing.deg(), elevation_deg: 15.0, width_deg: SEARCHING_DEG };
    }

    pub(in crate::app::session) fn rehearse_obeys(&mut self, command: RehearseCommand) {
        let rehearse = &mut self.rehearse;
        match command {
            RehearseCommand::Exercise(exercise, rung) => {
                if rehearse.flying.is_none() {
                    (rehearse.exercise, rehearse.rung) = (*exercise, rung);
                }
            }
            RehearseCommand::Begin => self.begin_rehearsal(),
            RehearseCommand::Pause(pause) => {
                rehearse.paused = (pause && rehearse.flying.is_some()).then(|| "Paused.".into());
            }
            RehearseCommand::GiveUp => {
                (rehearse.flying, rehearse.paused, rehearse.caption) = (None, None, None);
            }
            RehearseCommand::Do(deed) => {
                rehearse.heading = None;
                if rehearse.flying.is_some() {
                    rehearse.pending.push(deed);
                }
            }
            RehearseCommand::Next => {
                let next = rehearse.flying.as_ref().and_then(|flown| flown.stages().next());
                if let Some(stage) = next.filter(|stage| stage.is_said()) {
                    rehearse.pending.push(Deed::Stage { stage });
                }
            }
            RehearseCommand::Heading(heading) => rehearse.heading = Some(heading),
            RehearseCommand::SpotterWindow(open) => rehearse.spotter_window = open,
            RehearseCommand::View(view) => rehearse.view = view,
            RehearseCommand::Sheet(sheet) => rehearse.sheet = sheet,
            RehearseCommand::Look(gaze) => rehearse.gaze = within_reach(gaze),
            RehearseCommand::Replay(at_s) => {
                if let Some(last) = &mut rehearse.last {
                    last.at_s = at_s.clamp(0.0, last.flown.time_s());
                    last.playing = false;
                }
            }
            RehearseCommand::PlayReplay(playing) => {
                if let Some(last) = &mut rehearse.last {
                    if playing && last.at_s >= last.flown.time_s() {
                        last.at_s = 0.0;
                    }
                    last.playing = playing;
                }
            }
            RehearseCommand::Leave => rehearse.last = None,
            RehearseCommand::Pilot(pilot) => rehearse.pilot = pilot,
            RehearseCommand::Enter => self.enter_class(),
            RehearseCommand::EmptyClass => rehearse.class = None,
            RehearseCommand::Sticks(command) => {
                rehearse.desk.obey(command);
                if self.settings.sticks != rehearse.desk.maps {
                    self.settings.sticks.clone_from(&rehearse.desk.maps);
                }
            }
            RehearseCommand::Stopwatch(command) => self.stopwatch_obeys(command),
            RehearseCommand::Practice(practice) => self.settings.practice = *practice,
        }
    }

    /// The flight is over: what came of it.
    pub(super) fn finish_rehearsal(&mut self) {
        if let Some(flown) = self.rehearse.flying.take() {
            self.show_rehearsed(*flown);
        }
    }

    /// Shows what came of a flight.
    pub fn show_rehearsed(&mut self, flown: Rehearsal) {
        let score = score(&flown);
        let name = practised(&flown);
        let before = self.settings.practice.last.insert(name, score.points());
        let at_s = flown.time_s();
        self.rehearse.last = Some(Box::new(Rehearsed { flown, score, before, at_s, playing: false, entered: false }));
        (self.rehearse.flying, self.rehearse.paused) = (None, None);
    }

    /// The club's own times as the plan's.
    pub(super) fn take_over_measured(&mut self) {
        let Some(fit) = TakeOverTimes::fit(&self.settings.practice.tries_s) else { return };
        let mut file = self.draft.file().clone();
        file.limits.take_over = fit.entry();
        self.edit(Change { what: "enter the club's own take-over time".into(), file });
        self.draft.settle();
    }
}

/// What one run is compared by with the next: the exercise, the way of flying, and the plan.
fn practised(flown: &Rehearsal) -> String {
    let exercise = flown.exercise();
    let through = if exercise.hands == Hands::Levelling { "" } else { ", straight through" };
    format!("{}{through}, {}", exercise.name, flown.base().hash())
}

fn within_reach(gaze: Gaze) -> Gaze {
    Gaze {
        bearing_deg: gaze.bearing_deg.rem_euclid(360.0),
        elevation_deg: gaze.elevation_deg.clamp(-20.0, 89.0),
        width_deg: gaze.width_deg.clamp(WIDTHS_DEG[0], WIDTHS_DEG[1]),
    }
}
