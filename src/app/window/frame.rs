//! One frame: obeys what was asked for in the last one, hands plans over to whoever works beside the window, moves the play
//! head, and shows every panel in one egui pass.

use std::sync::Arc;

use bevy::prelude::*;
use bevy_egui::{EguiContexts, egui};

use super::Held;
use crate::app::beside::pages::Shelf;
use crate::app::beside::{Beside, Checker, Job};
use crate::app::files::Files;
use crate::app::front as panels;
use crate::app::look::lens::Lens;
use crate::app::look::theme;
use crate::app::look::theme::Theme;
use crate::app::session::sticks::RawSticks;
use crate::app::session::{AppCommand, Doing, FileCommand, Session, View};

/// What the last pass showed and what was asked for in it.
#[derive(Debug, Resource)]
pub struct Shown {
    /// The lens that the map was painted through.
    pub lens: Lens,
    /// All of the screen, points.
    pub screen: egui::Rect,
    /// Whether there has been a picture yet.
    pub any: bool,
    /// What was asked for, in order.
    pub commands: Vec<AppCommand>,
    /// What was asked for with files and not done yet.
    pub files: Vec<FileCommand>,
}

impl Default for Shown {
    fn default() -> Self {
        let lens = Lens::default();
        Self { lens, screen: lens.rect, any: false, commands: Vec::new(), files: Vec::new() }
    }
}

/// Shows the window. egui may repeat a pass within a frame, so nothing but `shown` is changed, and that from scratch.
pub(super) fn show(
    mut contexts: EguiContexts,
    session: Res<Held<Session>>,
    mut shown: ResMut<Shown>,
    mut dressed: Local<Option<Theme>>,
    shelf: Option<Res<Held<Shelf>>>,
) -> Result {
    let ctx = contexts.ctx_mut()?.clone();
    if let Some(shelf) = shelf {
        shelf.put_up(&ctx);
    }
    shown.commands.clear();
    if *dressed != Some(session.settings.theme) {
        theme::apply(&ctx, session.settings.theme);
        *dressed = Some(session.settings.theme);
    }
    if !theme::fonts_ready(&ctx) {
        return Ok(());
    }
    theme::scale(&ctx, session.settings.scale);
    shown.screen = ctx.viewport_rect();
    shown.lens = panels::window(&ctx, &View::new(&session), &mut shown.commands);
    shown.any = true;
    if !shown.commands.is_empty() {
        ctx.request_repaint();
    }
    Ok(())
}

/// Obeys what the panels asked for in the last frame.
pub(super) fn obey(mut session: ResMut<Held<Session>>, mut shown: ResMut<Shown>) {
    let commands = std::mem::take(&mut shown.commands);
    // What the panels saw when they asked.
    let before = session.draft.file().clone();
    for command in commands {
        match command {
            AppCommand::File(command) => shown.files.push(command),
            AppCommand::Edit(change) => {
                let change = session.draft.upon(&before, *change);
                session.apply(AppCommand::Edit(Box::new(change)), shown.lens);
            }
            command => session.apply(command, shown.lens),
        }
    }
}

/// Moves the play head.
pub(super) fn step(mut session: ResMut<Held<Session>>, time: Res<Time<Real>>, plugged: Res<Held<Vec<RawSticks>>>) {
    if session.playhead.playing {
        session.tick(time.delta_secs_f64());
    }
    if session.rehearsal_moves() {
        session.hear_sticks(&plugged.0, time.delta_secs_f64());
        session.rehearse_tick(time.delta_secs_f64());
    }
}

/// Obeys what the panels asked for with files, and keeps aside what has changed.
pub(super) fn obey_with_files(
    mut session: ResMut<Held<Session>>,
    mut shown: ResMut<Shown>,
    files: Option<ResMut<Held<Files>>>,
) {
    let Some(mut files) = files else {
        shown.files.clear();
        return;
    };
    // Whoever draws is told of a change only where there is one.
    let quiet = &mut session.bypass_change_detection().0;
    let commands = std::mem::take(&mut shown.files);
    let any = files.step(quiet, commands);
    let troubled = files.keep(quiet);
    if any || troubled {
        session.set_changed();
    }
}

/// What was asked last: an edition, and whether answers are to be refined.
#[derive(Debug, Default)]
pub(super) struct Asked(Option<(u64, bool)>);

/// Hands a new plan over, and takes what has come.
pub(super) fn exchange(mut session: ResMut<Held<Session>>, beside: Option<Res<Held<Beside>>>, mut asked: Local<Asked>) {
    let Some(beside) = beside else { return };
    let stopped = session.doing == Doing::Stopped;
    let wanted = (session.edition, !stopped);
    if session.lost.is_none()
        && asked.0 != Some(wanted)
        && let Some(flown) = &session.flown
    {
        if stopped {
            beside.stop();
        } else if !session.answers.are_whole(session.edition) {
            let scenario = Arc::new(flown.scenario.clone());
            beside.ask(Job { edition: session.edition, scenario, board: session.board, refine: true });
        }
        asked.0 = Some(wanted);
    }
    for news in beside.news() {
        session.hear(news);
    }
    let doing = beside.doing();
    if !stopped && session.doing != doing {
        session.doing = doing;
    }
}

/// Begins and ends the program's own checks as asked, and takes what has come of them.
pub(super) fn check(mut session: ResMut<Held<Session>>, checker: Option<ResMut<Held<Checker>>>) {
    let Some(mut checker) = checker else { return };
    // Whoever draws is told of a change only where there is one.
    if checker.step(&mut session.bypass_change_detection().0.checks) {
        session.set_changed();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::files::SystemDialogs;
    use crate::app::session::{Ask, Knob};
    use crate::run::Scenario;
    use tempfile::TempDir;

    /// A window on the demo, which keeps things aside in a folder.
    fn opened(folder: &TempDir) -> (Session, Files) {
        let mut session = Session::new(Scenario::demo(), Vec::new(), None);
        let mut files = Files::new(SystemDialogs::new(|| ()), || ());
        files.start(&mut session, Some(folder.path().into()));
        (session, files)
    }

    #[test]
    fn checks_that_are_asked_for_come_into_the_session() {
        use crate::study::work::Work;
        use crate::verify::{Depth, verify};
        // Stopped before its first check, a run is there at once.
        let nothing = |_: &Work| {
            let work = Work::default();
            work.stop();
            verify(7, &Depth::brief(), &work)
        };
        let mut app = App::new();
        let session = Session::new(Scenario::demo(), Vec::new(), None);
        app.add_plugins(MinimalPlugins).insert_resource(Held(session)).add_systems(Update, check);
        // A window without anybody to make them stands as well.
        app.world_mut().resource_mut::<Held<Session>>().checks.ask();
        app.update();
        app.insert_resource(Held(Checker::making(nothing, || ())));
        for _ in 0..30_000 {
            app.update();
            if app.world().resource::<Held<Session>>().checks.made.is_some() {
                return;
            }
            std::thread::sleep(std::time::Duration::from_millis(2));
        }
        panic!("they never came");
    }

    #[test]
    fn commands_are_handed_on_and_all_is_quiet_where_nothing_happens() {
        #[derive(Resource, Default)]
        struct Changes(u32);
        fn count(session: Res<Held<Session>>, mut changes: ResMut<Changes>) {
            changes.0 += u32::from(session.is_changed());
        }
        let folder = TempDir::new().unwrap();
        let (session, files) = opened(&folder);
        let mut app = App::new();
        app.add_plugins(MinimalPlugins).insert_resource(Held(session)).insert_resource(Held(files));
        app.init_resource::<Shown>().init_resource::<Changes>();
        app.add_systems(Update, (obey, obey_with_files, count).chain());
        app.update();
        let asked = [AppCommand::Turn(Knob::Radius, 88.0), AppCommand::File(FileCommand::Quit)];
        app.world_mut().resource_mut::<Shown>().commands.extend(asked);
        app.update();
        let before = app.world().resource::<Changes>().0;
        app.update();
        app.update();
        assert_eq!(app.world().resource::<Changes>().0, before);
        let session = app.world().resource::<Held<Session>>();
        assert!(matches!(session.front.ask, Some(Ask::Unsaved { .. })) && session.is_unsaved());
        // The app ends without a word, as where the system takes the power.
        drop(app);
        let (session, _) = opened(&folder);
        assert_eq!(session.draft.file().recovery.radius.m(), 88.0);
    }
}
