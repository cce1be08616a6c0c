//! Where a person is with the board that debriefs: the logs that were read, the recovery that is looked at, its moments, and
//! what of it was taken into the sheet. What takes long is only noted down here, to be worked out beside the window.

mod mark;

use std::path::{Path, PathBuf};
use std::sync::Arc;

pub use mark::Mark;

use super::{Change, Flown, Session};
use crate::debrief::{Correction, Debriefed, corrected};
use crate::log::Columns;
use crate::report::debrief::{LogDebrief, together};
use crate::run::Scenario;

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

/// A log that was read.
#[derive(Debug, Clone)]
pub struct ReadLog {
    /// Its file, which tells it from others of its name.
    pub path: PathBuf,
    /// What it tells.
    pub told: Arc<LogDebrief>,
}

/// Something to be worked out about a log. Each is one of its own, of whatever file: who works it out tells by that
/// whether it is still wanted.
#[derive(Debug)]
pub struct LogJob {
    /// The file.
    pub path: PathBuf,
    /// The log, its moments as they are, where it is to be held against the plan; none where it is to be read.
    pub held: Option<Arc<LogDebrief>>,
}

/// The state of the board.
#[derive(Debug, Clone, Default)]
pub struct Debriefing {
    /// The logs, in the order read.
    pub logs: Vec<ReadLog>,
    /// What they would correct in the sheet, all of them together; nothing while one is held against another plan.
    pub corrections: Vec<Correction>,
    /// Which recovery of which log is looked at.
    pub chosen: Option<(usize, usize)>,
    /// What is looked at.
    pub view: DebriefView,
    /// Where in the log the eye is, seconds.
    pub at_s: f64,
    /// What is to be worked out, the first being worked on. What is not in it is taken from nobody.
    pub to_do: Vec<Arc<LogJob>>,
    /// What could not be read since something was last asked to be, and why.
    pub refused: Vec<(PathBuf, String)>,
    /// The table that was read last, and what its columns hold.
    pub columns: Option<(PathBuf, Columns)>,
    /// Whether places are left out of what is saved.
    pub no_places: bool,
    /// The edition of the plan that a correction was taken into last.
    pub taken: Option<u64>,
}

impl Debriefing {
    /// The name of a log, with its folder where another has the same.
    pub fn name(&self, number: usize) -> String {
        let Some(ReadLog { path, told }) = self.logs.get(number) else { return String::new() };
        let name = &told.log.name;
        let alone = self.logs.iter().filter(|other| other.told.log.name == *name).count() < 2;
        match path.parent().and_then(Path::file_name).filter(|_| !alone) {
            Some(folder) => format!("{}/{name}", folder.to_string_lossy()),
            None => name.clone(),
        }
    }

    /// What of all logs is told.
    pub fn told(&self) -> impl Iterator<Item = &LogDebrief> {
        self.logs.iter().map(|log| &*log.told)
    }

    /// Files that were read, or will be.
    pub fn files(&self) -> impl Iterator<Item = &PathBuf> {
        let read = self.logs.iter().map(|log| &log.path);
        read.chain(self.refused.iter().map(|(path, _)| path)).chain(self.to_do.iter().map(|job| &job.path))
    }

    /// Begins to read files, instead of whatever else was to be done about them.
    pub fn read(&mut self, paths: impl IntoIterator<Item = PathBuf>) {
        self.refused.clear();
        for path in paths {
            self.drop_jobs(&path);
            self.to_do.push(Arc::new(LogJob { path, held: None }));
        }
    }

    /// Begins to hold a log against the plan, before all others. Where it is to be read anew that is enough.
    fn hold(&mut self, number: usize) {
        let Some(ReadLog { path, told }) = self.logs.get(number).cloned() else { return };
        if self.to_do.iter().any(|job| job.path == path && job.held.is_none()) {
            return;
        }
        self.drop_jobs(&path);
        self.to_do.insert(0, Arc::new(LogJob { path, held: Some(told) }));
    }

    /// A file could not be read.
    pub fn refuse(&mut self, path: &Path, why: String) {
        self.refused.retain(|(known, _)| known != path);
        self.refused.push((path.into(), why));
    }

    fn drop_jobs(&mut self, path: &Path) {
        self.to_do.retain(|job| job.path != path);
    }

    fn look_at(&mut self, number: usize, which: usize) {
        let Some(log) = self.logs.get(number) else { return };
        let Some(one) = log.told.recoveries.get(which) else { return };
        self.chosen = Some((number, which));
        self.at_s = log.told.log.track.time_s()[one.marks.lost];
    }

    fn forget(&mut self, number: usize) {
        if number >= self.logs.len() {
            return;
        }
        let log = self.logs.remove(number);
        self.drop_jobs(&log.path);
        self.chosen = match self.chosen {
            Some((chosen, _)) if chosen == number => None,
            Some((chosen, which)) if chosen > number => Some((chosen - 1, which)),
            chosen => chosen,
        };
    }
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
    /// Takes a correction into the sheet, if it is one of the present ones.
    Take(Box<Correction>),
    /// Says what the columns of a table hold, if it is the one that was read last.
    Columns(PathBuf, Box<Columns>),
    /// Holds every log against the plan as it is now.
    Again,
    /// Lets be what is still to be worked out; what was stays.
    Stop,
    /// Closes a log.
    Forget(usize),
    /// Leaves places out of what is saved, or lets them in.
    NoPlaces(bool),
}

impl Session {
    /// A log was read and debriefed: it is looked at, and takes the place of what was read from that file before.
    pub fn debriefed(&mut self, path: &Path, log: LogDebrief) {
        let debrief = &mut self.debrief;
        let number = debrief.logs.iter().position(|known| known.path == path).unwrap_or(debrief.logs.len());
        debrief.chosen = debrief.chosen.filter(|(chosen, _)| *chosen != number);
        let log = ReadLog { path: path.into(), told: Arc::new(log) };
        match debrief.logs.get_mut(number) {
            Some(known) => *known = log,
            None => debrief.logs.push(log),
        }
        debrief.look_at(number, 0);
        self.speak_together();
    }

    /// A log was held against the plan: the eye stays where it is.
    pub fn debriefed_again(&mut self, path: &Path, log: LogDebrief) {
        let debrief = &mut self.debrief;
        let Some(number) = debrief.logs.iter().position(|known| known.path == path) else { return };
        let left = log.recoveries.len();
        debrief.chosen = debrief.chosen.filter(|(chosen, which)| *chosen != number || *which < left);
        debrief.logs[number].told = Arc::new(log);
        self.speak_together();
    }

    /// What all logs would correct in the plan.
    pub(super) fn speak_together(&mut self) {
        let spoken = if self.debrief.logs.is_empty() || self.is_debrief_stale() {
            Vec::new()
        } else {
            together(self.draft.file(), self.debrief.told())
        };
        self.debrief.corrections = spoken;
    }

    /// The recovery that is looked at, with its log.
    pub fn debrief_chosen(&self) -> Option<(&LogDebrief, &Debriefed)> {
        let (log, one) = self.debrief.chosen?;
        let log = &self.debrief.logs.get(log)?.told;
        Some((log, log.recoveries.get(one)?))
    }

    /// The plan that logs are held against: the one on the screen with its own loss, whatever loss is replayed.
    pub fn debrief_plan(&self) -> Option<Scenario> {
        let flown = &self.flown.as_ref()?.scenario;
        let own = || Scenario::from_file(self.draft.file().clone()).ok();
        self.lost.and_then(|_| own()).or_else(|| Some(flown.clone()))
    }

    /// Whether a log is held against another plan than the one on the screen, or its moments were moved since.
    pub fn is_debrief_stale(&self) -> bool {
        let plan = self.flown.as_ref().filter(|_| self.is_current()).map(Flown::plan);
        self.debrief.told().any(|log| Some(&*log.plan) != plan)
    }

    pub(super) fn debrief_obeys(&mut self, command: DebriefCommand) {
        let debrief = &mut self.debrief;
        match command {
            DebriefCommand::Choose(log, one) => debrief.look_at(log, one),
            DebriefCommand::View(view) => debrief.view = view,
            DebriefCommand::Scrub(at_s) => debrief.at_s = at_s.max(0.0),
            DebriefCommand::Move(mark) => self.move_mark(mark),
            DebriefCommand::Take(correction) => self.take_correction(&correction),
            DebriefCommand::Columns(path, next) => {
                if let Some((_, columns)) = debrief.columns.as_mut().filter(|(shown, _)| *shown == path) {
                    *columns = *next;
                }
            }
            DebriefCommand::Again => self.debrief_again(),
            DebriefCommand::Stop => debrief.to_do.clear(),
            DebriefCommand::Forget(log) => {
                debrief.forget(log);
                self.speak_together();
            }
            DebriefCommand::NoPlaces(no_places) => debrief.no_places = no_places,
        }
    }

    /// The moment is moved at once; what is told stays that of where it was, held against no plan, until it is worked out.
    fn move_mark(&mut self, mark: Mark) {
        let debrief = &mut self.debrief;
        let Some((number, which)) = debrief.chosen else { return };
        let Some(log) = debrief.logs.get_mut(number) else { return };
        let told = Arc::make_mut(&mut log.told);
        let Some(one) = told.recoveries.get_mut(which) else { return };
        let times = told.log.track.time_s();
        let to = times.partition_point(|&time| time < debrief.at_s).min(times.len() - 1);
        one.marks = mark.moved(&one.marks, to);
        told.plan.clear();
        debrief.hold(number);
        self.speak_together();
    }

    /// A person has agreed to it: the sheet says it from now on, and undo takes it back.
    fn take_correction(&mut self, correction: &Correction) {
        if !self.debrief.corrections.contains(correction) {
            return;
        }
        let file = corrected(self.draft.file(), std::slice::from_ref(correction));
        self.edit(Change { what: format!("correct the {} by what was flown", correction.what), file });
        self.draft.settle();
        self.debrief.taken = Some(self.edition);
        self.debrief_again();
    }

    fn debrief_again(&mut self) {
        let Some(flown) = self.flown.as_ref().filter(|_| self.is_current()) else { return };
        let plan = flown.plan();
        // Each goes before the others.
        for number in (0..self.debrief.logs.len()).rev() {
            if self.debrief.logs[number].told.plan != plan {
                self.debrief.hold(number);
            }
        }
    }
}
