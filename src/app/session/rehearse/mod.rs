//! Where a person is with rehearsing: the exercise, the flight in their hands, what came of the last one, the class, the
//! stopwatch.

mod choices;
mod class;
mod command;
mod file;
mod live;
mod obey;
mod stopwatch;

use super::sticks::StickDesk;
use crate::rehearsal::{Deed, Exercise, Heading, Rehearsal, RehearsalScore, ladder};

pub use choices::{Going, Practice, RehearseSheet, RehearseView};
pub use class::Class;
pub use command::RehearseCommand;
pub use file::RehearsalFile;
pub use live::Caption;
pub use stopwatch::{Stopwatch, StopwatchCommand, TRIES};

/// Widest and narrowest that the pilot's view is, degrees.
const WIDTHS_DEG: [f64; 2] = [12.0, 100.0];
/// How wide it is while one looks for the jet, and once it is found, degrees.
const SEARCHING_DEG: f64 = 70.0;
const FOUND_DEG: f64 = 30.0;

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
    /// The class so far.
    pub class: Option<Class>,
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
            class: None,
            stopwatch: Stopwatch::default(),
            spotter_window: false,
            heading: None,
            pending: Vec::new(),
            owed_s: 0.0,
            switch: false,
        }
    }
}
