//! What is seen: the window over one scenario, and the very same window drawn to a file.
//!
//! Panels are plain functions of (ui, view, commands out); the [`Session`] obeys the commands and knows nothing of bevy;
//! the map is one mesh, rebuilt only when what it shows has changed.

pub mod beside;
mod board;
pub mod lens;
pub mod map;
pub mod panels;
mod picture;
mod session;
mod settings;
mod show;
mod survey;
pub mod theme;
mod units;
mod window;
mod words;

use std::path::PathBuf;

use bevy::prelude::*;
use bevy_egui::{EguiPostUpdateSet, EguiPrimaryContextPass};

pub use board::{Board, CircleView};
pub use picture::picture;
pub use session::{
    Answer, Answers, AppCommand, Change, Dial, Doing, Draft, FileCommand, Flown, Grade, Kept, Knob, News, Playhead,
    Session,
};
pub use settings::{SCALES, Settings};
pub use show::Shown;
pub use survey::{Survey, SurveyCommand};
pub use theme::Theme;
pub use units::{Measure, Pair, Units};

use crate::Result;
use crate::error::Fault;
use crate::run::Scenario;

/// Opens the window on a scenario, with the warnings its file gave, and returns when the window is closed.
///
/// # Errors
/// There is no display or no graphics adapter; the text says so in a plain sentence.
pub fn open(scenario: Scenario, warnings: Vec<Fault>, path: Option<PathBuf>) -> Result<()> {
    window::run(Session::new(scenario, warnings, path))
}

/// Opens the window on a file that can't be used: no field, every fault with its place and way out.
///
/// # Errors
/// As [`open`].
pub fn open_faulty(path: Option<PathBuf>, faults: Vec<Fault>) -> Result<()> {
    window::run(Session::faulty(faults, path))
}

/// The order of a frame. Whoever adds a set adds it to the chain in [`plugin`] as well.
#[derive(SystemSet, Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum AppSystems {
    /// Obey what the panels asked for in the last frame.
    Obey,
    /// Move the play head.
    Step,
    /// Move the camera and redraw the map, once the panels have said how much room it has.
    Draw,
}

/// Everything that the window and the picture have in common.
fn plugin(app: &mut App) {
    app.configure_sets(Update, (AppSystems::Obey, AppSystems::Step).chain());
    app.configure_sets(
        PostUpdate,
        AppSystems::Draw.after(EguiPostUpdateSet::EndPass).before(TransformSystems::Propagate),
    );
    app.add_systems(Update, session::obey.in_set(AppSystems::Obey));
    app.add_systems(Update, session::step.in_set(AppSystems::Step));
    app.add_systems(Update, beside::exchange.after(AppSystems::Obey));
    app.add_systems(EguiPrimaryContextPass, show::show);
    app.add_plugins(map::plugin);
    app.init_resource::<Shown>();
}
