//! The ground under the panels: one mesh of the field, rebuilt only when what it shows has changed, and the camera on it.

use bevy::asset::RenderAssetUsages;
use bevy::camera::visibility::NoFrustumCulling;
use bevy::mesh::{Indices, PrimitiveTopology};
use bevy::prelude::*;
use bevy::sprite_render::AlphaMode2d;
use bevy_egui::PrimaryEguiContext;

use super::Held;
use super::frame::Shown;
use crate::app::look::lens::local;
use crate::app::look::theme::Theme;
use crate::app::map::ground;
use crate::app::map::sketch::Sketch;
use crate::app::session::Session;

/// The one mesh of the field.
#[derive(Component)]
pub(super) struct Ground;

/// Points the camera so that the lens of the panels and the picture on the screen agree.
pub(super) fn aim_camera(
    session: Res<Held<Session>>,
    shown: Res<Shown>,
    mut clear: ResMut<ClearColor>,
    camera: Single<(&Camera, &mut Transform, &mut Projection), With<PrimaryEguiContext>>,
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
pub(super) fn redraw_ground(
    session: Res<Held<Session>>,
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
    let mesh = meshes.add(mesh(sketch));
    if let Ok(mut ground) = ground.single_mut() {
        ground.0 = mesh;
        return;
    }
    let material = ColorMaterial { alpha_mode: AlphaMode2d::Blend, ..ColorMaterial::from_color(Color::WHITE) };
    commands.spawn((Ground, Mesh2d(mesh), MeshMaterial2d(materials.add(material)), NoFrustumCulling));
}

/// The mesh of a sketch.
fn mesh(sketch: Sketch) -> Mesh {
    let (corners, colours, triangles) = sketch.into_parts();
    let colours: Vec<_> = colours
        .iter()
        .map(|colour| Color::srgb_u8(colour.r(), colour.g(), colour.b()).to_linear().to_f32_array())
        .collect();
    Mesh::new(PrimitiveTopology::TriangleList, RenderAssetUsages::RENDER_WORLD)
        .with_inserted_attribute(Mesh::ATTRIBUTE_POSITION, corners)
        .with_inserted_attribute(Mesh::ATTRIBUTE_COLOR, colours)
        .with_inserted_indices(Indices::U32(triangles))
}
