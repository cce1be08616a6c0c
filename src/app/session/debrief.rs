//! Where a person is with the board that debriefs: the logs that were read, the recovery that is looked at, its moments, and
//! what of it was taken into the sheet.

use std::path::PathBuf;
use std::sync::Arc;

use super::{Change, Session};
use crate::debrief::{Correction, Marks, corrected};
use crate::log::Columns;
use crate::report::debrief::{LogDebrief, together};
use crate::study::work::Work;

/// What is looked at beside the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum DebriefView {
    /// The flown path over the predicted one.
    #[default]
    Map,
    /// The velocities over the ground, with the circle that fits them.
    Velocities,
    /// How far every velocity is off that circle.
    Residuals,
    /// The wind of every whole turn, by its height.
    Heights,
}

impl DebriefView {
    /// All of them, from the left.
    pub const ALL: [Self; 4] = [Self::Map, Self::Velocities, Self::Residuals, Self::Heights];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Map => "Map",
            Self::Velocities => "Wind and airspeed",
            Self::Residuals => "What is left over",
            Self::Heights => "Wind by height",
        }
    }
}

/// A moment of a recovery that can be moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Mark {
    /// The loss.
    Lost,
    /// Where it begins to turn home.
    TurnedHome,
    /// Where it joins.
    Joined,
    /// Where the circle begins.
    CircleFrom,
    /// Where it ends.
    TakenOver,
}

impl Mark {
    /// All of them, in order.
    pub const ALL: [Self; 5] = [Self::Lost, Self::TurnedHome, Self::Joined, Self::CircleFrom, Self::TakenOver];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Lost => "lost",
            Self::TurnedHome => "heading home",
            Self::Joined => "joining",
            Self::CircleFrom => "on the circle",
            Self::TakenOver => "taken over",
        }
    }

    /// Its sample.
    pub fn of(self, marks: &Marks) -> Option<usize> {
        match self {
            Self::Lost => Some(marks.lost),
            Self::TurnedHome => marks.turned_home,
            Self::Joined => marks.joined,
            Self::CircleFrom => marks.circling.as_ref().map(|range| range.start),
            Self::TakenOver => Some(marks.taken_over),
        }
    }

    /// The marks with it at a sample, the others pushed along so that all stay in order.
    fn moved(self, marks: &Marks, to: usize) -> Marks {
        let mut all = Self::ALL.map(|mark| mark.of(marks));
        let own = Self::ALL.iter().position(|mark| *mark == self).unwrap_or_default();
        all[own] = Some(to);
        for (index, at) in all.iter_mut().enumerate() {
            *at = at.map(|at| if index < own { at.min(to) } else { at.max(to) });
        }
        let [lost, turned_home, joined, circle, taken_over] = all;
        let taken_over = taken_over.unwrap_or(marks.taken_over);
        Marks {
            lost: lost.unwrap_or(marks.lost),
            turned_home,
            joined,
            circling: circle.map(|from| from..(taken_over + 1).max(from + 1)),
            taken_over,
            ..marks.clone()
        }
    }
}

/// The state of the board.
#[derive(Debug, Clone, Default)]
pub struct Debriefing {
    /// The logs, in the order read.
    pub logs: Vec<Arc<LogDebrief>>,
    /// What they would correct in the sheet, all of them together.
    pub corrections: Vec<Correction>,
    /// Which recovery of which log is looked at.
    pub chosen: Option<(usize, usize)>,
    /// What is looked at.
    pub view: DebriefView,
    /// Where in the log the eye is, seconds.
    pub at_s: f64,
    /// Logs that are still to be read, by name, the next one first.
    pub reading: Vec<String>,
    /// The table that was read last, and what its columns hold.
    pub columns: Option<(PathBuf, Columns)>,
    /// Whether places are left out of what is saved.
    pub no_places: bool,
    /// Whether a correction was taken from one of them.
    pub taken: bool,
}

/// What is asked of the board.
#[derive(Debug, Clone, PartialEq)]
pub enum DebriefCommand {
    /// Looks at a recovery of a log.
    Choose(usize, usize),
    /// Shows a view.
    View(DebriefView),
    /// Looks at a moment of the log, seconds.
    Scrub(f64),
    /// Moves a moment of the recovery to where the eye is.
    Move(Mark),
    /// Takes a correction into the sheet.
    Take(usize),
    /// Says what the columns of the table that was read last hold.
    Columns(Box<Columns>),
    /// Holds every log against the plan as it is now.
    Again,
    /// Puts a log away.
    Forget(usize),
    /// Leaves places out of what is saved, or lets them in.
    NoPlaces(bool),
}

impl Session {
    /// A log was read and debriefed.
    pub fn debriefed(&mut self, log: LogDebrief) {
        let debrief = &mut self.debrief;
        debrief.logs.retain(|known| known.log.name != log.log.name);
        if !log.recoveries.is_empty() {
            debrief.chosen = Some((debrief.logs.len(), 0));
            debrief.at_s = log.log.track.time_s()[log.recoveries[0].marks.lost];
        }
        debrief.logs.push(Arc::new(log));
        self.speak_together();
    }

    /// What all logs would correct in the plan that they are held against.
    fn speak_together(&mut self) {
        let Some(flown) = &self.flown else { return };
        self.debrief.corrections = together(&flown.scenario.file, self.debrief.logs.iter().map(Arc::as_ref));
    }

    /// The recovery that is looked at, with its log.
    pub fn debrief_chosen(&self) -> Option<(&LogDebrief, &crate::debrief::Debriefed)> {
        let (log, one) = self.debrief.chosen?;
        let log = self.debrief.logs.get(log)?;
        Some((log, log.recoveries.get(one)?))
    }

    pub(super) fn debrief_obeys(&mut self, command: DebriefCommand) {
        match command {
            DebriefCommand::Choose(log, one) => {
                self.debrief.chosen = Some((log, one));
                if let Some((log, one)) = self.debrief_chosen() {
                    self.debrief.at_s = log.log.track.time_s()[one.marks.lost];
                }
            }
            DebriefCommand::View(view) => self.debrief.view = view,
            DebriefCommand::Scrub(at_s) => self.debrief.at_s = at_s.max(0.0),
            DebriefCommand::Move(mark) => self.move_mark(mark),
            DebriefCommand::Take(index) => self.take_correction(index),
            DebriefCommand::Columns(next) => {
                if let Some((_, columns)) = &mut self.debrief.columns {
                    *columns = *next;
                }
            }
            DebriefCommand::Again => self.debrief_again(),
            DebriefCommand::Forget(log) => {
                if log < self.debrief.logs.len() {
                    self.debrief.logs.remove(log);
                    self.debrief.chosen = None;
                    self.speak_together();
                }
            }
            DebriefCommand::NoPlaces(no_places) => self.debrief.no_places = no_places,
        }
    }

    fn move_mark(&mut self, mark: Mark) {
        let (Some((number, which)), Some(flown)) = (self.debrief.chosen, &self.flown) else { return };
        let Some(log) = self.debrief.logs.get(number) else { return };
        let Some(one) = log.recoveries.get(which) else { return };
        let times = log.log.track.time_s();
        let to = times.partition_point(|&time| time < self.debrief.at_s).min(times.len() - 1);
        let mut marks: Vec<Marks> = log.recoveries.iter().map(|one| one.marks.clone()).collect();
        marks[which] = mark.moved(&one.marks, to);
        let again = LogDebrief::marked(&flown.scenario, log.log.clone(), marks, &Work::default());
        self.debrief.logs[number] = Arc::new(again);
        self.speak_together();
    }

    /// A person has agreed to it: the sheet says it from now on, and undo takes it back.
    fn take_correction(&mut self, index: usize) {
        let Some(correction) = self.debrief.corrections.get(index).cloned() else { return };
        let file = corrected(self.draft.file(), std::slice::from_ref(&correction));
        self.edit(Change { what: format!("correct the {} by what was flown", correction.what), file });
        self.draft.settle();
        self.debrief.taken = true;
        self.debrief_again();
    }

    /// Whether a log is held against another plan than the one on the screen.
    pub fn is_debrief_stale(&self) -> bool {
        let plan = self.flown.as_ref().filter(|_| self.is_current()).map(|flown| flown.scenario.hash());
        self.debrief.logs.iter().any(|log| Some(&log.plan) != plan.as_ref())
    }

    fn debrief_again(&mut self) {
        let Some(flown) = self.flown.as_ref().filter(|_| self.is_current()) else { return };
        for log in &mut self.debrief.logs {
            *log = Arc::new(log.against(&flown.scenario, &Work::default()));
        }
        self.speak_together();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_that_is_moved_pushes_the_others_along() {
        let marks = Marks {
            take_off: None,
            lost: 10,
            turned_home: Some(20),
            joined: Some(30),
            circling: Some(40..101),
            taken_over: 100,
            landed: None,
        };
        let moved = Mark::Joined.moved(&marks, 50);
        assert_eq!((moved.lost, moved.turned_home, moved.joined), (10, Some(20), Some(50)));
        assert_eq!((moved.circling, moved.taken_over), (Some(50..101), 100));
        let moved = Mark::TakenOver.moved(&marks, 5);
        assert_eq!((moved.lost, moved.turned_home, moved.taken_over), (5, Some(5), 5));
    }
}
