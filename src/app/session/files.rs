//! What a panel may ask for with files, and what a person answers when asked back.

use std::path::PathBuf;

use super::{Paper, RehearsalFile};
use crate::report::Format;
use crate::run::SampleField;

/// What is asked for with files.
#[derive(Debug, Clone, PartialEq)]
pub enum FileCommand {
    /// An empty field.
    New,
    /// The built-in demo.
    Demo,
    /// A field that comes with the program.
    Sample(&'static SampleField),
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
    /// Writes something of a rehearsal to a file chosen in the system's dialog.
    SaveRehearsal(RehearsalFile),
    /// A log of a flight chosen in the system's dialog.
    OpenLog,
    /// All logs in a folder chosen in the system's dialog.
    OpenLogs,
    /// Reads the table that was read last again, with its columns as a person has said them.
    ReadAgain,
    /// Writes the debrief to a file chosen in the system's dialog.
    SaveDebrief(Format),
    /// A recording chosen in the system's dialog, to be flown again.
    OpenRehearsal,
    /// Writes a print to a file of the program's own and opens it, to be put on paper from there.
    PutOnPaper(Paper),
    /// Opens a file with the program that the system has for it.
    Launch(PathBuf),
    /// Shapes, a picture or a world file chosen in the system's dialog.
    Import,
    /// Lets go of changes brought back after the program ended without saving them.
    DropRecovered,
    /// Keeps them as the draft on the screen.
    KeepRecovered,
    /// Brings back changes that wait while another file is on the screen.
    BringBack,
    /// A file dropped on the window.
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
    /// Keeps the jet of the draft under its name.
    KeepJet,
    /// Takes the kept jet of a name off the list.
    DropJet(String),
    /// Brings back the jet that was taken off the list last.
    BringJetBack,
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
