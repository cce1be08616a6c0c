//! The window on the person's screen, and a plain sentence where there is no screen.

use std::sync::{Arc, OnceLock};
use std::time::Duration;

use bevy::log::{Level, LogPlugin};
use bevy::prelude::*;
use bevy::window::{FileDragAndDrop, PrimaryWindow, WindowCloseRequested, WindowResolution};
use bevy::winit::{EventLoopProxyWrapper, UpdateMode, WinitSettings, WinitUserEvent};
use bevy_egui::egui::{Event, Modifiers};
use bevy_egui::{EguiGlobalSettings, EguiInput, EguiPlugin, EguiPreUpdateSet, PrimaryEguiContext};

use super::frame::Shown;
use super::{AppSystems, Held, crash, plugin, times};
use crate::app::beside::pages::Shelf;
use crate::app::beside::{Beside, Checker};
use crate::app::files::{Files, StateFolder, SystemDialogs};
use crate::app::look::theme::LEAST;
use crate::app::session::{Doing, FileCommand, Session};
use crate::{Error, Result};

/// Size of the window before it is maximised, points.
const SIZE: (u32, u32) = (1280, 720);
/// How long the screen may stay as it is while nothing happens.
const REST: Duration = Duration::from_secs(5);
/// How long the screen may stay as it is while something is worked out.
const WATCH: Duration = Duration::from_millis(120);

/// Opens the window and returns when it is closed.
pub(in crate::app) fn run(mut session: Session) -> Result<()> {
    let times = times::Times::start();
    if let Some(why) = no_display(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty())) {
        return Err(Error::Asked(why.to_owned()));
    }
    let exit = crash::caught(|opened| {
        let bell = Bell::default();
        let (dialogs, pictures) = (bell.clone(), bell.clone());
        let mut files = Files::new(SystemDialogs::new(move || dialogs.ring()), move || pictures.ring());
        files.start(&mut session, StateFolder::usual());
        let mut app = build(session);
        app.insert_resource(bell).insert_resource(Held(files)).insert_resource(opened).add_systems(Last, crash::opened);
        if let Some(times) = times {
            app.insert_resource(times).add_systems(Last, times::note);
        }
        app.run()
    });
    match exit {
        Ok(AppExit::Success) => Ok(()),
        Err(crash::Crash::Open(what)) => Err(Error::Crash(what)),
        Ok(AppExit::Error(_)) | Err(crash::Crash::Start) => Err(Error::Asked(
            "the window could not be opened: the display or its graphics driver refused. Check the display, or use the \
             commands that print text"
                .to_owned(),
        )),
    }
}

/// Why there is certainly no display, where that is so.
fn no_display(is_set: impl Fn(&str) -> bool) -> Option<&'static str> {
    let wanted = cfg!(all(unix, not(target_os = "macos")));
    (wanted && !is_set("DISPLAY") && !is_set("WAYLAND_DISPLAY")).then_some(
        "there is no display to open a window on: neither DISPLAY nor WAYLAND_DISPLAY is set. Use the commands that \
         print text, or start it from a desktop",
    )
}

fn build(session: Session) -> App {
    let window = Window {
        title: title(&session),
        resolution: WindowResolution::new(SIZE.0, SIZE.1),
        resize_constraints: WindowResizeConstraints { min_width: LEAST.0, min_height: LEAST.1, ..default() },
        ..default()
    };
    let mut app = App::new();
    app.add_plugins(
        DefaultPlugins
            .set(WindowPlugin { primary_window: Some(window), close_when_requested: false, ..default() })
            .set(LogPlugin { level: Level::ERROR, ..default() }),
    );
    app.add_plugins(EguiPlugin::default());
    app.insert_resource(Held(session));
    app.add_plugins((plugin, super::spotter::plugin, super::voice::plugin));
    app.add_systems(Startup, (spawn_camera, share_wake_up, start_beside).chain());
    app.add_systems(Update, rest_when_still.after(AppSystems::Step));
    app.add_systems(Update, listen.before(AppSystems::Obey));
    app.add_systems(Update, (set_window_title, leave).after(AppSystems::Obey));
    app.add_systems(PreUpdate, drop_old_news.after(EguiPreUpdateSet::ProcessInput));
    app
}

/// What the window is called: the scenario, and whether all of it is in a file.
fn title(session: &Session) -> String {
    let name = match (&session.refused, &session.path) {
        (Some(_), Some(path)) => path.display().to_string(),
        _ => session.draft.file().name.clone(),
    };
    let mark = if session.is_unsaved() { " (not saved)" } else { "" };
    format!("{name}{mark} \u{2013} Peewit")
}

fn set_window_title(session: Res<Held<Session>>, mut window: Single<&mut Window, With<PrimaryWindow>>) {
    if session.is_changed() {
        let title = title(&session);
        if window.title != title {
            window.title = title;
        }
    }
}

/// Takes what the system says to the window: it is to be closed, a file was dropped on it.
fn listen(
    mut shown: ResMut<Shown>,
    mut closed: MessageReader<WindowCloseRequested>,
    primary: Query<(), With<PrimaryWindow>>,
    mut fallen: MessageReader<FileDragAndDrop>,
) {
    if closed.read().any(|event| primary.contains(event.window)) {
        shown.files.push(FileCommand::Quit);
    }
    for event in fallen.read() {
        if let FileDragAndDrop::DroppedFile { path_buf, .. } = event {
            shown.files.push(FileCommand::Dropped(path_buf.clone()));
        }
    }
}

fn leave(session: Res<Held<Session>>, mut exit: MessageWriter<AppExit>) {
    if session.front.leaving {
        exit.write(AppExit::Success);
    }
}

/// Wakes the window up from another thread, once there is one.
#[derive(Clone, Default, Resource)]
struct Bell(Arc<OnceLock<Box<dyn Fn() + Send + Sync>>>);

impl Bell {
    fn ring(&self) {
        if let Some(wake) = self.0.get() {
            wake();
        }
    }
}

fn share_wake_up(bell: Res<Bell>, wake: Res<EventLoopProxyWrapper>) {
    let wake = wake.clone();
    let ring = move || {
        // Once the window is closed there is nobody to wake.
        let _ = wake.send_event(WinitUserEvent::WakeUp);
    };
    // It is hung once.
    let _ = bell.0.set(Box::new(ring));
}

fn spawn_camera(
    mut commands: Commands,
    mut egui: ResMut<EguiGlobalSettings>,
    mut window: Single<&mut Window, With<PrimaryWindow>>,
) {
    egui.auto_create_primary_context = false;
    window.set_maximized(true);
    commands.spawn((Camera2d, PrimaryEguiContext));
}

/// Starts the threads that work and draw beside the window; what they bring wakes the window up.
fn start_beside(mut commands: Commands, bell: Res<Bell>) {
    let (beside, checks) = (bell.clone(), bell.clone());
    commands.insert_resource(Held(Checker::new(move || checks.ring())));
    match Beside::start(move || beside.ring()) {
        Ok(beside) => commands.insert_resource(Held(beside)),
        Err(error) => error!("nothing can be worked out beside the window: {error}"),
    }
    let bell = (*bell).clone();
    match Shelf::aside(move || bell.ring()) {
        Ok(shelf) => commands.insert_resource(Held(shelf)),
        Err(error) => error!("pages are drawn while the window waits: {error}"),
    }
}

/// Draws without pause only while the replay moves, and seldom while something is worked out, so that a laptop on battery
/// lasts.
fn rest_when_still(session: Res<Held<Session>>, mut winit: ResMut<WinitSettings>) {
    let mode = match session.doing {
        _ if session.playhead.playing || session.rehearsal_moves() => UpdateMode::Continuous,
        Doing::Working { .. } => UpdateMode::reactive(WATCH),
        _ if session.checks.going.is_some() => UpdateMode::reactive(WATCH),
        _ => UpdateMode::reactive(REST),
    };
    if winit.focused_mode != mode {
        *winit = WinitSettings { focused_mode: mode, unfocused_mode: mode };
    }
}

/// Drops the word that the modifier keys are as they were. The link to egui says so in every frame, egui takes it for
/// something new to draw, and the window would never rest.
fn drop_old_news(mut inputs: Query<&mut EguiInput>, mut held: Local<Modifiers>) {
    for mut input in &mut inputs {
        input.events.retain(|event| match event {
            Event::ModifiersChanged(now) => std::mem::replace(&mut *held, *now) != *now,
            _ => true,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[cfg(all(unix, not(target_os = "macos")))]
    fn without_a_display_the_reason_is_a_plain_sentence() {
        assert!(no_display(|_| false).is_some_and(|why| why.contains("no display")));
        assert!(no_display(|name| name == "DISPLAY").is_none());
        assert!(no_display(|name| name == "WAYLAND_DISPLAY").is_none());
    }
}
