//! What the window is about: the scenario being written, its flight and its margins, what is known of the longer
//! questions, and where the eye and the play head are.
//!
//! [`Session::apply`] obeys one command and flies again where the answer depends on it: a flight takes a fraction of a
//! millisecond, so the flight on the screen is always the flight of the plan on the screen. Longer questions are worked
//! out [`beside`](super::beside) the window; [`Session::edition`] says which plan an answer belongs to.

use std::path::PathBuf;

use crate::app::look::lens::MapView;
use crate::error::Fault;
use crate::run::{Brief, Reading, Scenario, ScenarioFile, WindChoice, today};
use crate::study::losses::Replay;
use crate::words::help::Topic;

mod answers;
mod board;
mod brief;
mod checklist;
mod checks;
mod command;
mod debrief;
mod dial;
mod draft;
pub mod field_board;
mod files;
mod flown;
mod front;
mod intake;
mod jets;
mod kept;
mod knob;
mod lacking;
mod losses;
mod new_field;
mod obey;
mod question;
mod rehearse;
mod settings;
mod sheet;
pub mod sticks;
#[cfg(test)]
mod tests;
pub mod tour;
mod view;
mod wind_today;

pub use answers::{Answer, Answers, Doing, Grade, News};
pub use board::{Board, CircleView, Unfolded};
pub use brief::{BriefCommand, BriefView, Briefing, Paper};
pub use checklist::{Checklist, ChecklistLine, Task, checklist, lies_under};
pub use checks::Checks;
pub use command::AppCommand;
pub use debrief::{DebriefCommand, DebriefView, Debriefing, LogJob, Mark, ReadLog};
pub use dial::Dial;
pub use draft::{Change, Draft};
pub use files::{FileCommand, Reply};
pub use flown::{Flown, Playhead};
pub use front::{Ask, Brought, Front, FrontCommand, Page, Purpose};
pub use intake::{Intake, Take, TakeCommand, size};
pub use jets::Jets;
pub use kept::Kept;
pub use knob::Knob;
pub use lacking::{Lack, lacking};
pub use losses::{LossCommand, LossView, Losses};
pub use new_field::new_field;
pub use question::Question;
pub use rehearse::{
    Caption, Class, Gaze, Going, Practice, RehearsalFile, Rehearse, RehearseCommand, RehearseSheet, RehearseView,
    Rehearsed, Stopwatch, StopwatchCommand, TRIES,
};
pub use settings::Settings;
pub use sheet::FieldSheet;
pub use view::View;
pub use wind_today::{Stands, TodayCommand, WindToday};

use field_board::{FieldBoard, still_there};

/// Everything the window shows.
#[derive(Debug, Clone)]
pub struct Session {
    /// The file, where there is one.
    pub path: Option<PathBuf>,
    /// What is wrong with a file that could not be read at all; nothing else is shown until it is left.
    pub refused: Option<Vec<Fault>>,
    /// The scenario being written.
    pub draft: Draft,
    /// The flight of the draft, or of the last draft that could be flown; none where there was none yet.
    pub flown: Option<Flown>,
    /// Number of the trial flown.
    pub trial: u64,
    /// The wind flown in.
    pub wind: WindChoice,
    /// The loss elsewhere that is replayed.
    pub lost: Option<Replay>,
    /// The replay.
    pub playhead: Playhead,
    /// The row of the margins that is chosen.
    pub chosen: Option<usize>,
    /// What part of the ground is looked at.
    pub look: MapView,
    /// Counts the flights, so that whoever draws can tell a new one.
    pub flights: u64,
    /// Counts the plans that could be flown, so that answers can be told apart.
    pub edition: u64,
    /// What is known of the longer questions.
    pub answers: Answers,
    /// What is being worked out.
    pub doing: Doing,
    /// The plan kept to be compared with.
    pub kept: Option<Kept>,
    /// Whether the two are shown side by side.
    pub compared: bool,
    /// Which question is asked.
    pub board: Board,
    /// Which sheet of the field board lies open.
    pub sheet: FieldSheet,
    /// What is looked at on the board of the circle.
    pub circle: CircleView,
    /// What is unfolded below its map.
    pub unfolded: Unfolded,
    /// The Field board's tool and choices.
    pub field_board: FieldBoard,
    /// What the map of losses shows.
    pub losses: Losses,
    /// The board that rehearses.
    pub rehearse: Rehearse,
    /// The board that debriefs.
    pub debrief: Debriefing,
    /// Where the briefing and the prints are.
    pub brief: Briefing,
    /// The program's own checks on this machine.
    pub checks: Checks,
    /// A reading of the wind today, where one was typed.
    pub wind_today: Option<WindToday>,
    /// The jets that a person has kept.
    pub jets: Jets,
    /// The day on which this is, year-month-day: what is printed carries it.
    pub today: String,
    /// What a person has chosen for good.
    pub settings: Settings,
    /// What is explained at the moment.
    pub help: Option<Topic>,
    /// Whether warnings are on the screen.
    pub warnings_shown: bool,
    /// What stands in front of the boards.
    pub front: Front,
    /// A word to the person about the last thing done with files, such as "saved"; empty for none.
    pub word: String,
    /// The same about the last print.
    pub printed: String,
    /// Where that is, once it is there.
    pub printed_to: Option<PathBuf>,
}

impl Session {
    /// A session on a scenario that can be used.
    pub fn new(scenario: Scenario, warnings: Vec<Fault>, path: Option<PathBuf>) -> Self {
        let draft = Draft::new(scenario.file.clone(), warnings);
        let mut session = Self::on(draft, path);
        session.fly_this(scenario);
        session.fit();
        session
    }

    /// A session on what was read from a file.
    pub fn read(reading: Reading, path: Option<PathBuf>) -> Self {
        let Reading { scenario, file, faults } = reading;
        match (scenario, file) {
            (Some(scenario), _) => Self::new(scenario, faults, path),
            (None, Some(file)) => {
                let mut session = Self { board: Board::Field, ..Self::on(Draft::new(file, faults), path) };
                session.fit();
                session
            }
            (None, None) => Self::faulty(faults, path),
        }
    }

    /// A session on a file that can't be used.
    pub fn faulty(faults: Vec<Fault>, path: Option<PathBuf>) -> Self {
        let draft = Draft::new(Scenario::demo().file, Vec::new());
        Self { refused: Some(faults), ..Self::on(draft, path) }
    }

    fn on(draft: Draft, path: Option<PathBuf>) -> Self {
        let known = path.is_some();
        let settings = Settings { notice_read: known, tour_seen: known, ..Settings::default() };
        Self {
            path,
            refused: None,
            warnings_shown: !draft.faults().is_empty(),
            draft,
            flown: None,
            trial: 0,
            wind: WindChoice::Mean,
            lost: None,
            playhead: Playhead { at_s: 0.0, playing: false, speed: 1.0 },
            chosen: None,
            look: MapView::default(),
            flights: 0,
            edition: 0,
            answers: Answers::default(),
            doing: Doing::default(),
            kept: None,
            compared: false,
            board: Board::default(),
            sheet: FieldSheet::default(),
            circle: CircleView::default(),
            unfolded: Unfolded::default(),
            field_board: FieldBoard::default(),
            losses: Losses::default(),
            rehearse: Rehearse::default(),
            debrief: Debriefing::default(),
            brief: Briefing::default(),
            checks: Checks::default(),
            wind_today: None,
            jets: Jets::default(),
            today: today(),
            settings,
            help: None,
            front: Front::default(),
            word: String::new(),
            printed: String::new(),
            printed_to: None,
        }
    }

    /// Puts another scenario on the screen, flown where it can be; what a person has chosen for good stays.
    pub fn load(&mut self, draft: Draft, path: Option<PathBuf>) {
        let scenario = Scenario::from_file(draft.file().clone()).ok();
        let (settings, edition, flights) = (self.settings.clone(), self.edition + 1, self.flights + 1);
        let (board, circle, sheet, brief) = (self.board, self.circle, self.sheet, Briefing { page: 0, ..self.brief });
        let (front, jets) = (std::mem::take(&mut self.front), std::mem::take(&mut self.jets));
        let desk = std::mem::take(&mut self.rehearse.desk);
        let (today, unfolded, checks) = (self.today.clone(), self.unfolded, std::mem::take(&mut self.checks));
        let kept = Self { settings, edition, flights, board, circle, unfolded, sheet, ..Self::on(draft, path) };
        *self = Self { brief, front, jets, today, checks, ..kept };
        self.rehearse.desk = desk;
        if let Some(scenario) = scenario {
            self.fly_this(scenario);
        }
        self.fit();
    }

    /// Puts a file on the screen that can't be understood: its faults and nothing else.
    pub fn refuse(&mut self, faults: Vec<Fault>, path: Option<PathBuf>) {
        let (settings, front) = (self.settings.clone(), std::mem::take(&mut self.front));
        let (jets, checks) = (std::mem::take(&mut self.jets), std::mem::take(&mut self.checks));
        let (edition, flights, today) = (self.edition + 1, self.flights + 1, self.today.clone());
        *self = Self { settings, front, jets, checks, edition, flights, today, ..Self::faulty(faults, path) };
    }

    /// Whether something is on the screen that would be lost.
    pub fn is_unsaved(&self) -> bool {
        self.refused.is_none() && self.draft.is_changed() && !self.front.is_of_tour(self.draft.file())
    }

    /// Whether the flight and the answers are those of the draft, and not of an earlier one that could be flown.
    pub fn is_current(&self) -> bool {
        self.flown.is_some() && self.draft.errors().next().is_none()
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

    pub(super) fn edit(&mut self, change: Change) {
        let scenario = self.draft.edit(change);
        self.edited(scenario);
    }

    /// After an edit the flight is a new one, where there can be one.
    fn edited(&mut self, scenario: Option<Scenario>) {
        self.field_board.chosen = self.field_board.chosen.and_then(|chosen| still_there(chosen, self.draft.file()));
        if let Some(scenario) = scenario {
            self.lost = None;
            if self.flown.as_ref().is_some_and(|flown| flies_alike(&flown.scenario.file, &scenario.file)) {
                self.answers = self.answers.carried(self.edition, self.edition + 1);
            }
            self.edition += 1;
            self.fly_this(scenario);
        }
        self.speak_together();
    }

    pub(super) fn fly(&mut self) {
        // What is replayed elsewhere is the plan's scenario with another loss, so the plan's is asked for again.
        if let Ok(scenario) = Scenario::from_file(self.draft.file().clone()) {
            self.fly_this(scenario);
        }
    }

    fn fly_this(&mut self, scenario: Scenario) {
        let chosen = |flown: &Flown| Some(flown.margins.rows.get(self.chosen?)?.limit);
        let chosen = self.flown.as_ref().and_then(chosen);
        let flown = Flown::new(scenario, self.lost, self.trial, self.wind);
        // The rows may have changed places: what was chosen is a limit, not a line.
        self.chosen = chosen.and_then(|limit| flown.margins.rows.iter().position(|row| row.limit == limit));
        self.playhead.at_s = self.playhead.at_s.min(flown.end_s());
        self.flown = Some(flown);
        self.flights += 1;
    }

    pub(super) fn fit(&mut self) {
        self.look = match &self.flown {
            Some(flown) if self.board != Board::Field => MapView::whole(flown.bounds()),
            _ => MapView::whole(field_board::bounds(self.draft.file(), &self.field_board)),
        };
    }
}

/// Whether two files differ in nothing but what prints tell beside the plan and who allows it: every answer about one is
/// true of the other.
fn flies_alike(one: &ScenarioFile, other: &ScenarioFile) -> bool {
    let plan = |file: &ScenarioFile| {
        let mut plan = ScenarioFile { brief: Brief::default(), ..file.clone() };
        plan.recovery.authorised_by.clear();
        plan.recovery.authorised_for.clear();
        plan
    };
    plan(one) == plan(other)
}
