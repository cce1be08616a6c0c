//! Is nothing lost, whatever a person and the machine do?

mod damaged;
mod jets;
mod kept;
mod logs;

use std::sync::Mutex;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;

use super::*;
use crate::app::look::lens::Lens;
use crate::app::look::theme::Theme;
use crate::app::session::{AppCommand, Board, Draft, Knob, TakeCommand, new_field};
use crate::run::Scenario;
use tempfile::TempDir;

/// Dialogs in which the test chooses.
struct Scripted {
    opened: Sender<(u64, Purpose)>,
    chosen: Mutex<Receiver<(u64, ChosenFile)>>,
}

impl Dialogs for Scripted {
    fn open(&mut self, ticket: u64, purpose: Purpose, _: Option<&Path>) {
        self.opened.send((ticket, purpose)).unwrap();
    }

    fn launch(&mut self, _: &Path) -> std::io::Result<()> {
        Err(std::io::ErrorKind::Unsupported.into())
    }

    fn chosen(&mut self) -> Option<(u64, ChosenFile)> {
        self.chosen.get_mut().unwrap().try_recv().ok()
    }
}

/// A window without a window.
struct Stage {
    session: Session,
    files: Files,
    opened: Receiver<(u64, Purpose)>,
    choose: Sender<(u64, ChosenFile)>,
}

impl Stage {
    /// A window on a session, which keeps things aside in `folder`.
    fn open(mut session: Session, folder: &Path) -> Self {
        let ((opened, opens), (choose, chosen)) = (channel(), channel());
        let mut files = Files::new(Scripted { opened, chosen: Mutex::new(chosen) }, || ());
        files.start(&mut session, Some(folder.into()));
        Self { session, files, opened: opens, choose }
    }

    fn ask(&mut self, command: FileCommand) {
        self.files.step(&mut self.session, vec![command]);
        self.files.keep(&mut self.session);
    }

    /// Chooses in the dialog that has been opened.
    fn choose(&mut self, chosen: ChosenFile) -> Purpose {
        let (ticket, purpose) = self.opened.try_recv().expect("no dialog was opened");
        self.choose.send((ticket, chosen)).unwrap();
        self.files.step(&mut self.session, Vec::new());
        self.files.keep(&mut self.session);
        purpose
    }

    fn turn(&mut self, radius_m: f64) {
        self.session.apply(AppCommand::Turn(Knob::Radius, radius_m), Lens::default());
        self.files.keep(&mut self.session);
    }

    fn radius_m(&self) -> f64 {
        self.session.draft.file().recovery.radius.m()
    }

    /// Waits until everything is on the disk, and ends without a word, as a window that is killed does.
    fn kill(self) {
        drop(self);
    }
}

fn demo() -> Session {
    Session::new(Scenario::tight_strip(), Vec::new(), None)
}

fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

/// A scenario of its own on the disk, and a session on it.
fn on_disk(folder: &TempDir) -> (PathBuf, Session) {
    let path = folder.path().join("ours.json");
    Scenario::tight_strip().save(&path).unwrap();
    let reading = crate::run::read(&path).unwrap();
    (path.clone(), Session::read(reading, Some(path)))
}

#[test]
fn a_new_field_asks_for_nothing_and_stands_on_the_field_board() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.ask(FileCommand::New);
    let session = &stage.session;
    assert!(session.front.ask.is_none() && session.board == Board::Field && session.path.is_none());
    assert!(session.draft.field().unwrap().boundary.ring_m.is_empty() && !session.is_unsaved());
    assert!(session.flown.is_none() && session.draft.errors().count() == 0);
    assert!(stage.opened.try_recv().is_err());
}

#[test]
fn what_is_opened_is_on_the_screen_and_among_the_recent_files() {
    let folder = folder();
    let (path, _) = on_disk(&folder);
    let mut stage = Stage::open(demo(), folder.path());
    stage.ask(FileCommand::Open);
    assert_eq!(stage.choose(ChosenFile::Path(path.clone())), Purpose::Open);
    assert_eq!(stage.session.path, Some(path.clone()));
    assert_eq!(stage.session.settings.recent, std::slice::from_ref(&path));
    assert!(stage.session.is_current());
    std::fs::remove_file(&path).unwrap();
    stage.ask(FileCommand::OpenThis(path.clone()));
    assert!(matches!(&stage.session.front.ask, Some(Ask::Told { .. })), "{:?}", stage.session.front.ask);
    assert!(stage.session.settings.recent.is_empty() && stage.session.path == Some(path));
}

#[test]
fn a_draft_that_cannot_be_flown_is_saved_and_opened_again() {
    let folder = folder();
    let path = folder.path().join("begun");
    let mut stage = Stage::open(demo(), folder.path());
    stage.ask(FileCommand::New);
    stage.session.apply(AppCommand::Turn(Knob::Height, 55.0), Lens::default());
    stage.ask(FileCommand::Save);
    assert_eq!(stage.choose(ChosenFile::Path(path.clone())), Purpose::SaveAs);
    assert!(!stage.session.is_unsaved() && stage.session.word.contains("begun.json"));
    let whole = path.with_extension("json");
    stage.ask(FileCommand::Demo);
    assert!(stage.session.is_current());
    stage.ask(FileCommand::OpenThis(whole.clone()));
    let session = &stage.session;
    assert!(session.refused.is_none() && session.board == Board::Field && session.path == Some(whole));
    assert!(session.draft.errors().count() > 0 && session.draft.file().recovery.height.m() == 55.0);
}

#[test]
fn a_file_that_is_no_scenario_is_refused_and_can_be_left() {
    let folder = folder();
    let path = folder.path().join("shopping.json");
    std::fs::write(&path, "{\"milk\": 2}").unwrap();
    let mut stage = Stage::open(demo(), folder.path());
    stage.session.settings.theme = Theme::Dark;
    stage.ask(FileCommand::OpenThis(path));
    assert!(stage.session.refused.is_some() && stage.session.settings.theme == Theme::Dark);
    stage.ask(FileCommand::New);
    assert!(stage.session.refused.is_none() && stage.session.board == Board::Field);
}

/// What leaves the draft asks first; what a person answers is done.
#[test]
fn nothing_unsaved_is_left_without_asking() {
    let leaving = [
        FileCommand::New,
        FileCommand::Demo,
        FileCommand::Sample(&crate::run::samples()[1]),
        FileCommand::Open,
        FileCommand::OpenThis("x.json".into()),
        FileCommand::Tour,
        FileCommand::Quit,
    ];
    for command in leaving {
        let folder = folder();
        let (path, session) = on_disk(&folder);
        let mut stage = Stage::open(session, folder.path());
        stage.turn(88.0);
        stage.ask(command.clone());
        let asked = Some(Ask::Unsaved { then: Box::new(command.clone()) });
        assert_eq!(stage.session.front.ask, asked, "{command:?}");
        stage.ask(FileCommand::Reply(Reply::GoBack));
        assert!(stage.session.front.ask.is_none() && stage.radius_m() == 88.0 && !stage.session.front.leaving);
        stage.ask(command.clone());
        stage.ask(FileCommand::Reply(Reply::Save));
        let (saved, _) = Scenario::load(&path).unwrap();
        assert_eq!(saved.file.recovery.radius.m(), 88.0, "{command:?}");
        assert_eq!(stage.session.front.leaving, command == FileCommand::Quit);
    }
}

#[test]
fn without_saving_the_file_stays_as_it_was() {
    let folder = folder();
    let (path, session) = on_disk(&folder);
    let before = std::fs::read(&path).unwrap();
    let mut stage = Stage::open(session, folder.path());
    stage.turn(88.0);
    stage.ask(FileCommand::Quit);
    stage.ask(FileCommand::Reply(Reply::DoNotSave));
    assert!(stage.session.front.leaving);
    drop(stage);
    assert_eq!(std::fs::read(&path).unwrap(), before);
    let again = Stage::open(demo(), folder.path());
    assert!(again.session.front.brought.is_none());
}

#[test]
fn a_save_that_was_given_up_ends_nothing() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.turn(88.0);
    stage.ask(FileCommand::Quit);
    stage.ask(FileCommand::Reply(Reply::Save));
    assert_eq!(stage.choose(ChosenFile::Nothing), Purpose::SaveAs);
    assert!(!stage.session.front.leaving && stage.session.is_unsaved() && stage.radius_m() == 88.0);
    // A later save is only a save.
    stage.ask(FileCommand::Save);
    stage.choose(ChosenFile::Path(folder.path().join("a.json")));
    assert!(!stage.session.front.leaving && !stage.session.is_unsaved());
}

#[test]
fn where_there_is_no_dialog_the_path_is_typed() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.ask(FileCommand::SaveAs);
    stage.choose(ChosenFile::NoService("No dialog here.".into()));
    let Some(Ask::Path { purpose, why, start }) = stage.session.front.ask.clone() else { panic!("no box") };
    assert_eq!((purpose, why.as_str(), start.as_str()), (Purpose::SaveAs, "No dialog here.", "goatwillow-strip.json"));
    let path = folder.path().join("typed.json");
    stage.ask(FileCommand::Typed(format!("  \"{}\" ", path.display())));
    assert!(path.exists() && stage.session.path == Some(path.clone()));
    // Another draft does not replace it unasked.
    stage.ask(FileCommand::Demo);
    stage.ask(FileCommand::SaveAs);
    stage.ask(FileCommand::PathBox);
    stage.ask(FileCommand::Typed(path.with_extension("").display().to_string()));
    assert_eq!(stage.session.front.ask, Some(Ask::Replace { purpose: Purpose::SaveAs, path: path.clone() }));
    stage.ask(FileCommand::Reply(Reply::Save));
    assert_eq!(stage.session.path, Some(path));
}

#[test]
fn a_dialog_that_was_given_up_answers_nobody() {
    let folder = folder();
    let (path, _) = on_disk(&folder);
    let mut stage = Stage::open(demo(), folder.path());
    stage.ask(FileCommand::Open);
    let (ticket, _) = stage.opened.try_recv().unwrap();
    stage.ask(FileCommand::Reply(Reply::GoBack));
    stage.ask(FileCommand::SaveAs);
    stage.choose.send((ticket, ChosenFile::Path(path))).unwrap();
    stage.files.step(&mut stage.session, Vec::new());
    assert!(stage.session.path.is_none());
    assert_eq!(stage.session.front.ask, Some(Ask::System(Purpose::SaveAs)));
}

#[test]
fn a_disk_that_refuses_is_told_and_nothing_is_lost() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.turn(88.0);
    stage.ask(FileCommand::SaveAs);
    stage.choose(ChosenFile::Path(folder.path().join("nowhere/a.json")));
    let Some(Ask::Told { text, .. }) = &stage.session.front.ask else { panic!("nothing was said") };
    assert!(text.contains("nowhere"), "{text}");
    assert!(stage.session.is_unsaved() && stage.session.path.is_none());
}

#[test]
fn the_tour_plays_on_the_demo_and_gives_back_what_was_open() {
    use crate::app::session::FrontCommand;
    use crate::app::session::tour::TourCommand;
    let folder = folder();
    let (path, session) = on_disk(&folder);
    let mut stage = Stage::open(session, folder.path());
    stage.ask(FileCommand::Tour);
    assert!(stage.session.path.is_none() && stage.session.front.tour.is_some());
    let tour = |command| AppCommand::Front(FrontCommand::Tour(command));
    for command in [TourCommand::Next, TourCommand::Next, TourCommand::Show(0)] {
        stage.session.apply(tour(command), Lens::default());
    }
    // What the tour has changed is nobody's work, and nobody is asked about it.
    assert!(stage.session.draft.is_changed() && !stage.session.is_unsaved());
    stage.ask(FileCommand::EndTour);
    assert!(stage.session.path == Some(path) && stage.session.front.tour.is_none());
    // What the person does on the tour is.
    stage.ask(FileCommand::Tour);
    stage.turn(88.0);
    assert!(stage.session.is_unsaved());
    stage.ask(FileCommand::EndTour);
    assert!(stage.radius_m() == 88.0 && stage.session.is_unsaved());
}

/// A walk round the edge of a field near 44 N 30 W, some 100 m by 80 m, and a point.
const WALK: &str = r#"<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="44.0010" lon="-29.9990">
    <name>oak</name></wpt><trk><name>edge</name><trkseg><trkpt lat="44.0005" lon="-30.0005"/>
    <trkpt lat="44.0005" lon="-29.9992"/><trkpt lat="44.0012" lon="-29.9992"/><trkpt lat="44.0012" lon="-30.0005"/>
    <trkpt lat="44.00052" lon="-30.0005"/></trkseg></trk></gpx>"#;

#[test]
fn a_walk_dropped_on_an_empty_field_becomes_its_boundary_in_one_edit() {
    use crate::field::import::{Form, Role};
    let folder = folder();
    let path = folder.path().join("walk.gpx");
    std::fs::write(&path, WALK).unwrap();
    let mut stage = Stage::open(demo(), folder.path());
    stage.ask(FileCommand::New);
    stage.ask(FileCommand::Dropped(path));
    let Some(Ask::Import(intake)) = stage.session.front.ask.clone() else { panic!("no shapes") };
    let at = |form| intake.takes.iter().position(|take| take.shape.form == form).unwrap();
    if intake.takes.iter().all(|take| take.shape.form != Form::Ring) {
        take(&mut stage, TakeCommand::Close(at(Form::Line)));
    }
    let edge = intake.takes.iter().position(|take| take.shape.form != Form::Point).unwrap();
    take(&mut stage, TakeCommand::Role(edge, Some(Role::Boundary)));
    take(&mut stage, TakeCommand::Role(at(Form::Point), Some(Role::Obstacle)));
    stage.ask(FileCommand::PutIn { whole: false });
    let session = &stage.session;
    let field = session.draft.field().unwrap();
    assert!(session.front.ask.is_none() && field.obstacles[0].name == "oak" && field.boundary.ring_m.len() >= 4);
    // The datum is the middle of what was walked, not the place in the ocean that a new field starts at.
    assert!((field.datum.latitude_deg - 44.0009).abs() < 3e-4, "{:?}", field.datum);
    assert_eq!(session.draft.to_undo(), Some("put in 2 shapes of walk.gpx"));
    stage.session.apply(AppCommand::Undo, Lens::default());
    assert!(!stage.session.is_unsaved());
}

fn take(stage: &mut Stage, command: TakeCommand) {
    let command = AppCommand::Front(crate::app::session::FrontCommand::Take(command));
    stage.session.apply(command, Lens::default());
}

#[test]
fn a_whole_field_takes_the_place_of_the_one_there() {
    let folder = folder();
    let path = folder.path().join("field.geojson");
    let mut field = Scenario::tight_strip().file.field.unwrap();
    field.areas[0].name = "sheep".into();
    std::fs::write(&path, crate::field::geojson_text(&field)).unwrap();
    let mut stage = Stage::open(demo(), folder.path());
    stage.ask(FileCommand::Import);
    stage.choose(ChosenFile::Path(path));
    stage.ask(FileCommand::PutIn { whole: true });
    assert_eq!(stage.session.draft.field().unwrap().areas[0].name, "sheep");
    assert!(stage.session.is_current() && stage.session.is_unsaved());
}

#[test]
fn names_of_files_are_made_of_names_of_scenarios() {
    assert_eq!(file_name("Goatwillow Strip (spring)"), "goatwillow-strip-spring.json");
    assert_eq!(file_name("//"), "field.json");
    assert_eq!(with_ending("a/b.v2".into(), "json"), Path::new("a/b.v2.json"));
    assert_eq!(with_ending("b.JSON".into(), "json"), Path::new("b.JSON"));
    let draft = Draft::new(new_field(), Vec::new());
    assert_eq!(file_name(&draft.file().name), "new-field.json");
}
