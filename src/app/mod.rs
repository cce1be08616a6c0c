//! What is seen: the window over one scenario, and the very same window drawn to a file.
//!
//! Panels are plain functions of (ui, view, commands out); the [`Session`] obeys the commands and knows nothing of bevy;
//! the map is one mesh, rebuilt only when what it shows has changed.

pub mod beside;
mod board;
pub mod brief;
pub mod files;
pub mod lens;
mod losses;
pub mod map;
pub mod panels;
mod picture;
mod session;
mod settings;
mod sheet;
mod show;
pub mod survey;
pub mod theme;
pub mod tour;
mod units;
mod window;
mod words;

use std::path::PathBuf;

use bevy::prelude::*;
use bevy_egui::{EguiPostUpdateSet, EguiPrimaryContextPass};

pub use board::{Board, CircleView};
pub use brief::{BriefCommand, BriefView, Briefing, Paper};
pub use losses::{LossCommand, LossView, Losses};
pub use picture::picture;
pub use session::{
    Answer, Answers, AppCommand, Ask, Brought, Change, Dial, Doing, Draft, FileCommand, Flown, Front, FrontCommand,
    Grade, Kept, Knob, News, Page, Playhead, Purpose, Reply, Session,
};
pub use settings::{SCALES, Settings};
pub use sheet::Sheet;
pub use show::Shown;
pub use survey::{Survey, SurveyCommand};
pub use theme::Theme;
pub use units::{Measure, Pair, Units};

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
    app.add_systems(Update, (session::obey, files::obey).chain().in_set(AppSystems::Obey));
    app.add_systems(Update, session::step.in_set(AppSystems::Step));
    app.add_systems(Update, beside::exchange.after(AppSystems::Obey));
    app.add_systems(EguiPrimaryContextPass, show::show);
    app.add_plugins(map::plugin);
    app.init_resource::<Shown>();
}
