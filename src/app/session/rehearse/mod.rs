//! Where a person is with rehearsing: the exercise, the flight in their hands, what came of the last one, the class, the
//! stopwatch.

mod class;
mod file;
mod live;
mod stopwatch;

use serde::{Deserialize, Serialize};

use super::sticks::{RawSticks, StickCommand, StickDesk};
use super::{Board, Change, Session};
use crate::rehearsal::{Deed, Exercise, Hands, Heading, Rehearsal, RehearsalScore, ladder, score};
use crate::report::rehearsal::Attempt;
use crate::units::Bearing;

pub use file::RehearsalFile;
pub use live::Caption;
pub use stopwatch::{Stopwatch, StopwatchCommand, TRIES};

/// Widest and narrowest that the pilot's view is, degrees.
const WIDTHS_DEG: [f64; 2] = [12.0, 100.0];
/// How wide it is while one looks for the jet, and once it is found, degrees.
const SEARCHING_DEG: f64 = 70.0;
const FOUND_DEG: f64 = 30.0;

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum RehearseView {
    /// The picture in the goggles, then what is seen by eye.
    #[default]
    Pilot,
    /// By eye from the pilot position, all the time.
    Eye,
    /// The field from above.
    Above,
}

impl RehearseView {
    /// All of them, from the left.
    pub const ALL: [Self; 3] = [Self::Pilot, Self::Eye, Self::Above];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pilot => "Goggles, then eye",
            Self::Eye => "By eye",
            Self::Above => "From above",
        }
    }

    /// What is seen there.
    pub const fn hint(self) -> &'static str {
        match self {
            Self::Pilot => "the picture in the goggles until they are off, then what is seen from the pilot position",
            Self::Eye => "what is seen from the pilot position, all the time",
            Self::Above => "the field from above, for instructor and class",
        }
    }
}

/// What lies open beside the view while nothing is flown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum RehearseSheet {
    /// Which exercise.
    #[default]
    Exercise,
    /// What it is flown with.
    Sticks,
    /// The stopwatch.
    Stopwatch,
    /// The class.
    Class,
}

impl RehearseSheet {
    /// All of them, from the left.
    pub const ALL: [Self; 4] = [Self::Exercise, Self::Sticks, Self::Stopwatch, Self::Class];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Exercise => "Exercise",
            Self::Sticks => "Sticks",
            Self::Stopwatch => "Stopwatch",
            Self::Class => "Class",
        }
    }
}

/// How a picture goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Going {
    /// At once.
    #[default]
    Dark,
    /// With snow first.
    Snow,
    /// It stands still first.
    Frozen,
}

impl Going {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Dark, Self::Snow, Self::Frozen];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Dark => "dark at once",
            Self::Snow => "snow first",
            Self::Frozen => "frozen first",
        }
    }
}

/// What a person keeps of rehearsing from one start to the next.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct Practice {
    /// Tries with the stopwatch, seconds.
    pub tries_s: Vec<f64>,
    /// How a picture goes.
    pub going: Going,
    /// Whether nothing moves that need not.
    pub still: bool,
    /// Whether the program speaks the spotter's lines.
    pub spoken: bool,
    /// Whether somebody else is the spotter.
    pub with_spotter: bool,
    /// Points of the last run, by exercise and plan; none where it failed.
    pub last: std::collections::BTreeMap<String, Option<f64>>,
}

/// A run that is over.
#[derive(Debug, Clone)]
pub struct Rehearsed {
    /// The flight.
    pub flown: Rehearsal,
    /// How it went.
    pub score: RehearsalScore,
    /// How the last one like it went, where there was one: points, or none where it failed.
    pub before: Option<Option<f64>>,
    /// Where the replay is, seconds since the beginning.
    pub at_s: f64,
    /// Whether it moves.
    pub playing: bool,
    /// Whether it is in the class already.
    pub entered: bool,
}

/// Where one looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gaze {
    /// In which direction, degrees true.
    pub bearing_deg: f64,
    /// Over the horizon, degrees.
    pub elevation_deg: f64,
    /// How wide, degrees.
    pub width_deg: f64,
}

/// The state of the board.
#[derive(Debug, Clone)]
pub struct Rehearse {
    /// The exercise that is flown next.
    pub exercise: Exercise,
    /// Its place on the ladder, where it is of it.
    pub rung: Option<usize>,
    /// The flight in somebody's hands.
    pub flying: Option<Box<Rehearsal>>,
    /// Whether it waits, and why.
    pub paused: Option<String>,
    /// What came of the last one.
    pub last: Option<Box<Rehearsed>>,
    /// What is looked at.
    pub view: RehearseView,
    /// What lies open.
    pub sheet: RehearseSheet,
    /// Where one looks, by eye.
    pub gaze: Gaze,
    /// What it is flown with.
    pub desk: StickDesk,
    /// What was said last.
    pub caption: Option<Caption>,
    /// What is still to be spoken.
    pub to_say: Vec<String>,
    /// Who flies.
    pub pilot: String,
    /// The class so far, all of one exercise.
    pub class: Vec<Attempt>,
    /// The exercise that the class flies.
    pub class_exercise: Option<Exercise>,
    /// The stopwatch.
    pub stopwatch: Stopwatch,
    /// Whether the spotter has a window.
    pub spotter_window: bool,
    /// Which heading is chosen of an attitude that is being said.
    pub heading: Option<Heading>,
    /// What is done at the next step.
    pending: Vec<Deed>,
    /// Time that the flight still has to go, seconds.
    owed_s: f64,
    /// Where the switch for the return was.
    switch: bool,
}

impl Default for Rehearse {
    fn default() -> Self {
        let first = ladder().swap_remove(0).exercise;
        Self {
            exercise: first,
            rung: Some(0),
            flying: None,
            paused: None,
            last: None,
            view: RehearseView::default(),
            sheet: RehearseSheet::default(),
            gaze: Gaze { bearing_deg: 0.0, elevation_deg: 15.0, width_deg: SEARCHING_DEG },
            desk: StickDesk::default(),
            caption: None,
            to_say: Vec::new(),
            pilot: String::new(),
            class: Vec::new(),
            class_exercise: None,
            stopwatch: Stopwatch::default(),
            spotter_window: false,
            heading: None,
            pending: Vec::new(),
            owed_s: 0.0,
            switch: false,
        }
    }
}

/// What is asked of the board.
#[derive(Debug, Clone, PartialEq)]
pub enum RehearseCommand {
    /// Flies this exercise next; with its place on the ladder.
    Exercise(Box<Exercise>, Option<usize>),
    /// Begins it.
    Begin,
    /// Lets it wait, or go on.
    Pause(bool),
    /// Gives it up, without a score.
    GiveUp,
    /// Does something at the next step.
    Do(Deed),
    /// The stage of the drill that comes next and is said, is done.
    Next,
    /// Chooses the heading of an attitude that is being said.
    Heading(Heading),
    /// Gives the spotter a window, or takes it away.
    SpotterWindow(bool),
    /// Shows a view.
    View(RehearseView),
    /// Opens a sheet.
    Sheet(RehearseSheet),
    /// Looks elsewhere.
    Look(Gaze),
    /// Moves the replay of the last run to a moment, seconds.
    Replay(f64),
    /// Plays the replay, or pauses it.
    PlayReplay(bool),
    /// Puts the last run away.
    Leave,
    /// Who flies.
    Pilot(String),
    /// Puts the last run into the class.
    Enter,
    /// Empties the class.
    EmptyClass,
    /// Something of what it is flown with.
    Sticks(StickCommand),
    /// Something of the stopwatch.
    Stopwatch(StopwatchCommand),
    /// Replaces what is kept of rehearsing.
    Practice(Box<Practice>),
}

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
    pub(super) fn rest_gaze(&mut self) {
        let facing = self.flown.as_ref().map_or(Bearing::from_deg(0.0), |flown| flown.scenario.field.facing);
        self.rehearse.gaze = Gaze { bearing_deg: facing.deg(), elevation_deg: 15.0, width_deg: SEARCHING_DEG };
    }

    pub(super) fn rehearse_obeys(&mut self, command: RehearseCommand) {
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
            RehearseCommand::EmptyClass => {
                rehearse.class.clear();
                rehearse.class_exercise = None;
            }
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
    fn finish_rehearsal(&mut self) {
        if let Some(flown) = self.rehearse.flying.take() {
            self.show_rehearsed(*flown);
        }
    }

    /// Shows what came of a flight.
    pub fn show_rehearsed(&mut self, flown: Rehearsal) {
        let score = score(&flown);
        let name = self.practised(flown.exercise());
        let before = self.settings.practice.last.insert(name, score.points());
        let at_s = flown.time_s();
        self.rehearse.last = Some(Box::new(Rehearsed { flown, score, before, at_s, playing: false, entered: false }));
        (self.rehearse.flying, self.rehearse.paused) = (None, None);
    }

    /// What one run is compared by with the next: the exercise, the way of flying, and the plan.
    fn practised(&self, exercise: &Exercise) -> String {
        let plan = self.flown.as_ref().map_or_else(String::new, |flown| flown.scenario.hash());
        let through = if exercise.hands == Hands::Levelling { "" } else { ", straight through" };
        format!("{}{through}, {plan}", exercise.name)
    }

    /// The club's own times as the plan's.
    fn take_over_measured(&mut self) {
        let Some(fit) = crate::rehearsal::TakeOverTimes::fit(&self.settings.practice.tries_s) else { return };
        let mut file = self.draft.file().clone();
        file.limits.take_over = fit.entry();
        self.edit(Change { what: "enter the club's own take-over time".into(), file });
        self.draft.settle();
    }
}

fn within_reach(gaze: Gaze) -> Gaze {
    Gaze {
        bearing_deg: gaze.bearing_deg.rem_euclid(360.0),
        elevation_deg: gaze.elevation_deg.clamp(-20.0, 89.0),
        width_deg: gaze.width_deg.clamp(WIDTHS_DEG[0], WIDTHS_DEG[1]),
    }
}
