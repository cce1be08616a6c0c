//! What a panel may ask for. Panels change nothing themselves.

use glam::DVec2;

use super::{Change, FrontCommand, Knob};
use crate::app::session::field_board::FieldCommand;
use crate::app::session::{
    Board, BriefCommand, CircleView, DebriefCommand, FieldSheet, FileCommand, LossCommand, RehearseCommand, Settings,
    TodayCommand, Unfolded,
};
use crate::run::WindChoice;
use crate::study::losses::Replay;
use crate::words::help::Topic;

/// What a panel asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum AppCommand {
    /// Shows a board.
    Board(Board),
    /// Opens a sheet of the field board.
    Sheet(FieldSheet),
    /// Shows a view of the board of the circle.
    Circle(CircleView),
    /// Unfolds what lies below its map, or folds it away.
    Unfold(Unfolded),
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
    /// Flies another trial; 0 is the plan as entered.
    Trial(u64),
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
    /// Chooses a row of the margins and moves the play head to its moment.
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
    /// Something of the Field board: a tool, a choice, a corner.
    Field(FieldCommand),
    /// Something of the reading of the wind today.
    Today(TodayCommand),
    /// Something of the map of losses: what it shows, a cell.
    Losses(LossCommand),
    /// Something of the board that rehearses.
    Rehearse(RehearseCommand),
    /// Something of the board that debriefs.
    Debrief(DebriefCommand),
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
