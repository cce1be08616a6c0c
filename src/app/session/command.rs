//! What a panel may ask for. Panels change nothing themselves.

use std::path::PathBuf;

use glam::DVec2;

use super::{Change, FrontCommand, Knob};
use crate::app::survey::SurveyCommand;
use crate::app::{Board, BriefCommand, CircleView, LossCommand, Paper, Settings, Sheet};
use crate::run::WindChoice;
use crate::study::losses::Replay;
use crate::words::help::Topic;

/// What a panel asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum AppCommand {
    /// Shows a board.
    Board(Board),
    /// Opens a sheet of the survey.
    Sheet(Sheet),
    /// Shows a view of the board of the circle.
    Circle(CircleView),
    /// Sets a number of the plan or the wind, in the knob's unit.
    Turn(Knob, f64),
    /// Puts the whole scenario back to what was opened or last saved.
    Restore,
    /// Edits the scenario.
    Edit(Box<Change>),
    /// The edit that was going on has come to an end: a drag was let go, a box was left.
    Settle,
    /// Takes the last edit back.
    Undo,
    /// Does it again.
    Redo,
    /// Flies another case; 0 is the plan as written.
    Case(u64),
    /// Flies in the mean or in the gust.
    Wind(WindChoice),
    /// Replays a loss elsewhere, or again that of the plan.
    Lost(Option<Replay>),
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
    /// Replaces the settings.
    Settings(Box<Settings>),
    /// Shows what a number is, or puts that away.
    Help(Option<Topic>),
    /// Keeps the plan as it stands, to be compared with, or lets the kept one go.
    Keep(bool),
    /// Puts the kept plan in the draft's place, and the draft in the kept plan's.
    Swap,
    /// Shows the plan and the kept one side by side, or the board again.
    Compare(bool),
    /// Stops what is worked out beside the window, or lets it go on.
    Refine(bool),
    /// Something of the survey: a tool, a choice, a corner.
    Survey(SurveyCommand),
    /// Something of the map of losses: what it shows, a cell.
    Losses(LossCommand),
    /// Something of the board that tells others: a step, a print.
    Brief(BriefCommand),
    /// Something that stands in front of the boards: settings, a page of help, the tour.
    Front(FrontCommand),
    /// Something with files; whoever has the disk obeys it.
    File(FileCommand),
}

impl AppCommand {
    /// Whether it can be obeyed while a file is on the screen that can't be understood.
    pub(super) const fn needs_no_draft(&self) -> bool {
        matches!(self, Self::SwapTheme | Self::Settings(_) | Self::Help(_) | Self::Front(_) | Self::NoticeRead)
    }
}

/// What is asked for with files.
#[derive(Debug, Clone, PartialEq)]
pub enum FileCommand {
    /// An empty field.
    New,
    /// The built-in demo.
    Demo,
    /// A file chosen in the system's dialog.
    Open,
    /// This file.
    OpenThis(PathBuf),
    /// Saves to the file it came from; asks where there is none.
    Save,
    /// Saves to a file chosen in the system's dialog.
    SaveAs,
    /// Writes a print to a file chosen in the system's dialog.
    Print(Paper),
    /// Shapes, a picture or a world file chosen in the system's dialog.
    Import,
    /// Lets go of changes brought back after the program ended without saving them.
    DropRecovered,
    /// Keeps them as the draft on the screen.
    KeepRecovered,
    /// Brings back changes that wait while another file is on the screen.
    BringBack,
    /// A file let fall on the window.
    Dropped(PathBuf),
    /// The path typed in the window's own box.
    Typed(String),
    /// A box for the path in the window instead of the system's dialog.
    PathBox,
    /// What to do with changes that have not been saved.
    Reply(Reply),
    /// Puts the shapes that have a role into the field, or their whole field in its place.
    PutIn {
        /// The whole field of the file instead.
        whole: bool,
    },
    /// Starts the tour on the demo.
    Tour,
    /// Ends the tour.
    EndTour,
    /// Ends the program.
    Quit,
}

/// What a person answers when something on the screen has not been saved or would be replaced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reply {
    /// Do it.
    Save,
    /// Go on without.
    DoNotSave,
    /// Leave everything as it is.
    GoBack,
}
