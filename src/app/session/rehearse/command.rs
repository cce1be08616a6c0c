//! What may be asked of the board that rehearses.

use super::super::sticks::StickCommand;
use super::{Gaze, Practice, RehearseSheet, RehearseView, StopwatchCommand};
use crate::rehearsal::{Deed, Exercise, Heading};

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
