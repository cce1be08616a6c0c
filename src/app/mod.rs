//! What is seen: the window over one scenario, and the very same window drawn to a file.
//!
//! The floors of it, from the one that all others stand on. Panels are plain functions of (ui, view, commands out); the
//! [`Session`] obeys the commands and knows nothing of bevy; the map is one mesh, rebuilt only when what it shows has
//! changed.

pub mod beside;
pub mod boards;
pub mod files;
pub mod front;
pub mod look;
pub mod map;
pub mod session;
pub mod widgets;
pub mod window;

use std::path::PathBuf;

pub use look::lens;
pub use look::theme::{self, SCALES, Theme};
pub use session::field_board::{self, FieldBoard, FieldCommand};
pub use session::tour;
pub use session::{
    Answer, Answers, AppCommand, Ask, Board, BriefCommand, BriefView, Briefing, Brought, Change, CircleView,
    DebriefCommand, DebriefView, Dial, Doing, Draft, FieldSheet, FileCommand, Flown, Front, FrontCommand, Grade, Kept,
    Knob, LossCommand, LossView, Losses, News, Page, Paper, Playhead, Practice, Purpose, RehearsalFile,
    RehearseCommand, RehearseSheet, RehearseView, Reply, Session, Settings, StopwatchCommand, Unfolded, View,
    checklist, sticks,
};
pub use window::{Shown, picture};

pub use crate::words::{Measure, Pair, Units};

use crate::Result;
use crate::run::Reading;

/// Opens the window on what was read from a file, or on the built-in demo, and returns when the window is closed. A file
/// with faults opens as a draft to be fixed; one that can't be understood shows its faults and nothing else.
///
/// # Errors
/// There is no display or no graphics adapter; the text says so in a plain sentence.
pub fn open(reading: Reading, path: Option<PathBuf>) -> Result<()> {
    window::run(Session::read(reading, path))
}
