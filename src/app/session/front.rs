//! What stands in front of the boards: a question about a file, the settings, a page of help, the tour.

use std::path::PathBuf;

use super::{FileCommand, Session, Settings};
use crate::app::session::tour::{Tour, TourCommand};
use crate::app::session::{Intake, Paper, RehearsalFile, TakeCommand};
use crate::report::Format;
use crate::run::ScenarioFile;

/// Everything that can stand in front of the boards.
#[derive(Debug, Clone, Default)]
pub struct Front {
    /// A question about files that waits for its answer.
    pub ask: Option<Ask>,
    /// Unsaved changes of a window that ended without asking.
    pub brought: Option<Brought>,
    /// Whether the settings are open.
    pub settings: bool,
    /// A page of help that is about no single thing.
    pub page: Option<Page>,
    /// The tour, while it goes on.
    pub tour: Option<Tour>,
    /// Whether the program is to end.
    pub leaving: bool,
}

/// What is asked of a person about files.
#[derive(Debug, Clone, PartialEq)]
pub enum Ask {
    /// The draft has not been saved, and something else would take its place.
    Unsaved {
        /// What comes afterwards.
        then: Box<FileCommand>,
    },
    /// The system's dialog is open.
    System(Purpose),
    /// The path, in a box of the window.
    Path {
        /// What for.
        purpose: Purpose,
        /// Why it is asked for here, in a sentence; empty for no reason.
        why: String,
        /// What stands in the box at first.
        start: String,
    },
    /// A file is there already.
    Replace {
        /// What it would be replaced by.
        purpose: Purpose,
        /// The file.
        path: PathBuf,
    },
    /// Something went wrong; there is nothing to answer.
    Told {
        /// What could not be done.
        title: String,
        /// Why, and the way out.
        text: String,
    },
    /// Which shapes of a file stand for what.
    Import(Box<Intake>),
}

/// What a path is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A scenario to be opened.
    Open,
    /// Where the scenario is to be saved.
    SaveAs,
    /// Shapes or a picture to be put into it.
    Import,
    /// Where a print is to be written.
    Print(Paper),
    /// Where something of a rehearsal is to be written.
    Rehearsal(RehearsalFile),
    /// A recording to be flown again.
    Recording,
    /// A log of a flight.
    Log,
    /// A folder of logs.
    Logs,
    /// Where a debrief is to be written.
    Debrief(Format),
}

impl Purpose {
    /// The ending of a file that is to be written; none where one is to be read.
    pub const fn writes(self) -> Option<&'static str> {
        match self {
            Self::SaveAs => Some("json"),
            Self::Print(paper) => Some(paper.format.ending()),
            Self::Rehearsal(file) => Some(file.ending()),
            Self::Debrief(format) => Some(format.ending()),
            Self::Open | Self::Import | Self::Recording | Self::Log | Self::Logs => None,
        }
    }

    /// What is about to be done, as the head of a dialog.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Open => "Open a scenario",
            Self::SaveAs => "Save the scenario",
            Self::Import => "Import shapes or a picture of the ground",
            Self::Print(_) => "Save a print",
            Self::Rehearsal(_) => "Save a rehearsal",
            Self::Recording => "Fly a recording again",
            Self::Log => "Open a log of a flight",
            Self::Logs => "Open a folder of logs",
            Self::Debrief(_) => "Save the debrief",
        }
    }
}

/// Unsaved changes of a window that ended without asking.
#[derive(Debug, Clone, PartialEq)]
pub struct Brought {
    /// What they are changes of.
    pub name: String,
    /// When they were made, such as "14:02".
    pub when: String,
    /// Whether they are on the screen; they wait where another file was asked for.
    pub shown: bool,
}

/// A page of help that is about no single thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Page {
    /// Everything that is explained.
    Topics,
    /// Every key.
    Keys,
    /// The words.
    Words,
    /// Every caution.
    Cautions,
}

/// What is asked of what stands in front.
#[derive(Debug, Clone, PartialEq)]
pub enum FrontCommand {
    /// Opens the settings, or puts them away.
    Settings(bool),
    /// Opens a page of help, or puts it away.
    Page(Option<Page>),
    /// Something of the shapes that wait to be put in.
    Take(TakeCommand),
    /// Something of the tour.
    Tour(TourCommand),
    /// Closes whatever is in front.
    Close,
}

impl Front {
    /// Whether something is open that has the keyboard to itself.
    pub const fn holds(&self) -> bool {
        self.ask.is_some() || self.settings || self.page.is_some()
    }

    /// Whether a draft is what the tour has made of the demo, and nobody's work.
    pub fn is_of_tour(&self, draft: &ScenarioFile) -> bool {
        self.tour.as_ref().is_some_and(|tour| tour.made.as_ref() == Some(draft))
    }
}

impl Session {
    /// Whether a person who has never been here, and has asked for no file, is asked where to begin.
    pub const fn is_at_the_doors(&self) -> bool {
        let Settings { notice_read, tour_seen, .. } = &self.settings;
        let busy = self.path.is_some() || self.front.ask.is_some() || self.front.tour.is_some();
        *notice_read && !*tour_seen && !busy && self.refused.is_none()
    }

    pub(super) fn front_obeys(&mut self, command: FrontCommand) {
        match command {
            FrontCommand::Settings(open) => self.front.settings = open,
            FrontCommand::Page(page) => {
                self.front.page = page;
                self.help = None;
            }
            FrontCommand::Take(command) => {
                if let Some(Ask::Import(intake)) = &mut self.front.ask {
                    intake.obey(command);
                }
            }
            FrontCommand::Tour(command) => self.tour_obeys(command),
            FrontCommand::Close if self.help.is_some() || self.front.page.is_some() => {
                self.help = None;
                self.front.page = None;
            }
            FrontCommand::Close => self.front.settings = false,
        }
    }
}
