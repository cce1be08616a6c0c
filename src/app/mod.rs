//! What is seen: the window over one scenario, and the very same window drawn to a file.
//!
//! Panels are plain functions of (ui, view, commands out); the [`Session`] obeys the commands and knows nothing of bevy;
//! the map is one mesh, rebuilt only when what it shows has changed.

pub mod beside;
mod board;
pub mod clip;
pub mod files;
pub mod lens;
mod losses;
pub mod map;
pub mod marks;
pub mod panels;
pub mod pens;
pub mod session;
mod settings;
mod sheet;
pub mod survey;
pub mod theme;
pub mod tour;
mod units;
mod window;
mod words;

use std::path::PathBuf;

pub use board::{Board, CircleView};
pub use losses::{LossCommand, LossView, Losses};
pub use session::{
    Answer, Answers, AppCommand, Ask, Brought, Change, Dial, Doing, Draft, FileCommand, Flown, Front, FrontCommand,
    Grade, Kept, Knob, News, Page, Playhead, Purpose, Reply, Session, View,
};
pub use settings::Settings;
pub use sheet::Sheet;
pub use survey::{Survey, SurveyCommand};
pub use theme::{SCALES, Theme};
pub use units::{Measure, Pair, Units};
pub use window::{Shown, picture};

use crate::Result;
use crate::run::Reading;

/// Opens the window on what was read from a file, or on the built-in demo, and returns when the window is closed. A file
/// with faults opens as a draft to be mended; one that can't be understood shows its faults and nothing else.
///
/// # Errors
/// There is no display or no graphics adapter; the text says so in a plain sentence.
pub fn open(reading: Reading, path: Option<PathBuf>) -> Result<()> {
    window::run(Session::read(reading, path))
}
