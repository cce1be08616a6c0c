//! A second window on the screen, for the spotter: opened and closed as the session asks.

use bevy::camera::RenderTarget;
use bevy::camera::visibility::RenderLayers;
use bevy::ecs::schedule::ScheduleLabel;
use bevy::prelude::*;
use bevy::window::{WindowRef, WindowResolution};
use bevy_egui::{EguiContext, EguiSchedule, PrimaryEguiContext};

use super::{AppSystems, Held};
use crate::app::boards::rehearse::spotter;
use crate::app::look::theme;
use crate::app::look::theme::Theme;
use crate::app::session::{AppCommand, RehearseCommand, Session, View};

/// Size of it before anybody changes it, points.
const SIZE: (u32, u32) = (640, 420);

/// The pass in which its panels are shown.
#[derive(ScheduleLabel, Debug, Clone, PartialEq, Eq, Hash)]
struct SpotterPass;

/// The window, or the camera on it.
#[derive(Component)]
struct Spotter;

/// What was asked for in it.
#[derive(Resource, Default)]
struct Asked(Vec<AppCommand>);

pub(super) fn plugin(app: &mut App) {
    app.init_resource::<Asked>();
    app.add_systems(SpotterPass, show);
    app.add_systems(Update, (obey, keep).chain().after(AppSystems::Obey));
}

fn show(
    session: Res<Held<Session>>,
    mut asked: ResMut<Asked>,
    mut context: Single<&mut EguiContext, Without<PrimaryEguiContext>>,
    mut dressed: Local<Option<Theme>>,
) {
    let ctx = context.get_mut();
    asked.0.clear();
    if *dressed != Some(session.settings.theme) {
        theme::apply(ctx, session.settings.theme);
        *dressed = Some(session.settings.theme);
    }
    if theme::fonts_ready(ctx) {
        spotter::window(ctx, &View::new(&session), &mut asked.0);
    }
}

fn obey(mut session: ResMut<Held<Session>>, mut asked: ResMut<Asked>, shown: Res<super::Shown>) {
    if asked.0.is_empty() {
        return;
    }
    for command in std::mem::take(&mut asked.0) {
        session.apply(command, shown.lens);
    }
}

/// Opens and closes it, and takes note where a person has closed it.
fn keep(
    mut commands: Commands,
    mut session: ResMut<Held<Session>>,
    mut closed: MessageReader<bevy::window::WindowCloseRequested>,
    windows: Query<Entity, (With<Window>, With<Spotter>)>,
    all: Query<Entity, With<Spotter>>,
    shown: Res<super::Shown>,
) {
    if closed.read().any(|event| windows.contains(event.window)) {
        session.apply(AppCommand::Rehearse(RehearseCommand::SpotterWindow(false)), shown.lens);
    }
    match (session.rehearse.spotter_window, windows.is_empty()) {
        (true, true) => {
            let window = Window {
                title: "Spotter \u{2013} Peewit".into(),
                resolution: WindowResolution::new(SIZE.0, SIZE.1),
                ..default()
            };
            let window = commands.spawn((window, Spotter)).id();
            // Nothing of the field is drawn in it.
            let target = RenderTarget::Window(WindowRef::Entity(window));
            commands.spawn((Camera2d, target, EguiSchedule::new(SpotterPass), RenderLayers::none(), Spotter));
        }
        (false, false) => all.iter().for_each(|entity| commands.entity(entity).despawn()),
        _ => {}
    }
}
