//! The window over one scenario, on the screen and off it: all that is of bevy, with the order of a frame.

mod crash;
mod frame;
mod ground;
mod picture;
mod screen;
mod spotter;
mod sticks;
mod times;
mod voice;

use bevy::prelude::*;
use bevy_egui::{EguiPostUpdateSet, EguiPrimaryContextPass};

pub use frame::Shown;
pub use picture::picture;
pub(super) use screen::run;

/// What the floors above make without knowing of bevy, handed from system to system.
#[derive(Debug, Resource, Deref, DerefMut)]
struct Held<T: Send + Sync + 'static>(T);

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
    app.add_systems(Update, (frame::obey, frame::obey_with_files).chain().in_set(AppSystems::Obey));
    app.add_systems(Update, frame::step.in_set(AppSystems::Step));
    app.add_systems(Update, (frame::exchange, frame::check).after(AppSystems::Obey));
    app.add_systems(EguiPrimaryContextPass, frame::show);
    app.add_systems(PostUpdate, (ground::aim_camera, ground::redraw_ground).in_set(AppSystems::Draw));
    app.init_resource::<Shown>();
    app.add_plugins(sticks::plugin);
}
