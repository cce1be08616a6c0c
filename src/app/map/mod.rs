//! The field, true to scale, with the flight over it.
//!
//! The ground is one bevy mesh under the panels; whatever moves or carries words is painted over it by egui through the
//! same [`Lens`](super::lens::Lens), so that words stay crisp and the two never part.

mod circle;
mod circuit;
pub mod compare;
mod flight;
mod furniture;
pub mod ground;
pub mod hatch;
mod labels;
pub mod losses;
mod marks;
mod overlay;
mod places;
mod sketch;
mod survey;

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use bevy::sprite_render::AlphaMode2d;

pub use flight::pen_line;
pub(super) use flight::{LIMIT_BAND, rungs, stretches};
pub use marks::{answer_mark, verdict_mark};
pub use overlay::show;
pub(super) use survey::{aimed, corner_after, tool_taken};

use super::lens::local;
use super::show::Shown;
use super::{AppSystems, Session, Theme};

pub(super) fn plugin(app: &mut App) {
    app.add_systems(PostUpdate, (aim_camera, redraw_ground).in_set(AppSystems::Draw));
}

/// The one mesh of the field.
#[derive(Component)]
struct Ground;

/// Points the camera so that the lens of the panels and the picture on the screen agree.
fn aim_camera(
    session: Res<Session>,
    shown: Res<Shown>,
    mut clear: ResMut<ClearColor>,
    camera: Single<(&Camera, &mut Transform, &mut Projection)>,
) {
    let palette = session.settings.theme.palette();
    let ground = if session.flown.is_some() { palette.outside } else { palette.paper };
    clear.0 = Color::srgb_u8(ground.r(), ground.g(), ground.b());
    let Some(flown) = &session.flown else { return };
    let (camera, mut transform, mut projection) = camera.into_inner();
    let (Some(size), Projection::Orthographic(view)) = (camera.logical_viewport_size(), &mut *projection) else {
        return;
    };
    let middle = local(shown.lens.ground(shown.screen.center()), ground::origin(&flown.scenario.field));
    transform.translation = middle.extend(transform.translation.z);
    #[allow(clippy::cast_possible_truncation, reason = "a scale of the screen needs no more than f32")]
    let scale = shown.lens.metres_a_point as f32 * shown.screen.width() / size.x;
    view.scale = scale;
}

/// Redraws the ground where its scale or its colours have changed; otherwise it costs nothing.
fn redraw_ground(
    session: Res<Session>,
    shown: Res<Shown>,
    mut commands: Commands,
    mut meshes: ResMut<Assets<Mesh>>,
    mut materials: ResMut<Assets<ColorMaterial>>,
    mut ground: Query<&mut Mesh2d, With<Ground>>,
    mut drawn: Local<Option<(Theme, f64, u64)>>,
) {
    let wanted = (session.settings.theme, shown.lens.metres_a_point, session.edition);
    let Some(flown) = &session.flown else { return };
    if *drawn == Some(wanted) {
        return;
    }
    *drawn = Some(wanted);
    let sketch = ground::draw(&flown.scenario.field, session.settings.theme.palette(), shown.lens.metres_a_point);
    let mesh = meshes.add(sketch.into_mesh());
    if let Ok(mut ground) = ground.single_mut() {
        ground.0 = mesh;
        return;
    }
    let material = ColorMaterial { alpha_mode: AlphaMode2d::Blend, ..ColorMaterial::from_color(Color::WHITE) };
    commands.spawn((Ground, Mesh2d(mesh), MeshMaterial2d(materials.add(material)), NoFrustumCulling));
}
