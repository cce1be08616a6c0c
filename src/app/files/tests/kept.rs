//! What is kept aside, and what comes back of it.

use super::*;

#[test]
fn a_killed_window_loses_nothing() {
    let folder = folder();
    let (path, session) = on_disk(&folder);
    let mut stage = Stage::open(session, folder.path());
    stage.turn(70.0);
    stage.turn(88.0);
    stage.kill();
    let (_, session) = on_disk(&folder);
    let mut again = Stage::open(session, folder.path());
    let brought = again.session.front.brought.clone().unwrap();
    assert!(brought.shown && brought.name == "ours.json" && brought.when.contains(':'), "{brought:?}");
    assert!(again.radius_m() == 88.0 && again.session.is_unsaved() && again.session.path == Some(path.clone()));
    // Killed again at once, nothing is lost either.
    again.files.keep(&mut again.session);
    again.kill();
    let mut third = Stage::open(demo(), folder.path());
    assert!(third.radius_m() == 88.0 && third.session.path == Some(path));
    third.ask(FileCommand::DropRecovered);
    assert!(third.radius_m() != 88.0 && !third.session.is_unsaved() && third.session.front.brought.is_none());
    third.kill();
    assert!(Stage::open(demo(), folder.path()).session.front.brought.is_none());
}

#[test]
fn changes_of_another_file_wait_until_they_are_asked_for() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.turn(88.0);
    stage.kill();
    let (path, session) = on_disk(&folder);
    let mut other = Stage::open(session, folder.path());
    assert!(other.session.front.brought.as_ref().is_some_and(|brought| !brought.shown));
    assert!(!other.session.is_unsaved() && other.session.path == Some(path));
    // Work on the other file does not harm what waits.
    other.turn(99.0);
    other.kill();
    let (_, session) = on_disk(&folder);
    let mut third = Stage::open(session, folder.path());
    assert_eq!(third.radius_m(), 99.0);
    third.ask(FileCommand::DropRecovered);
    third.kill();
    let (_, session) = on_disk(&folder);
    let mut last = Stage::open(session, folder.path());
    last.ask(FileCommand::BringBack);
    assert!(last.radius_m() == 88.0 && last.session.path.is_none() && last.session.is_unsaved());
}

#[test]
fn two_windows_do_not_fight() {
    let folder = folder();
    let mut first = Stage::open(demo(), folder.path());
    first.turn(88.0);
    let mut second = Stage::open(demo(), folder.path());
    assert!(second.session.front.brought.is_none());
    second.turn(99.0);
    first.kill();
    second.kill();
    let mut found = [Stage::open(demo(), folder.path()), Stage::open(demo(), folder.path())];
    found.sort_by(|a, b| a.radius_m().total_cmp(&b.radius_m()));
    assert_eq!([found[0].radius_m(), found[1].radius_m()], [88.0, 99.0]);
}

#[test]
fn an_edit_is_on_the_disk_within_a_second() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.turn(88.0);
    std::thread::sleep(Duration::from_millis(900));
    let kept = stage.files.own.clone().unwrap();
    let left: Left = serde_json::from_slice(&std::fs::read(kept).unwrap()).unwrap();
    assert_eq!(left.file.recovery.radius.m(), 88.0);
}

#[test]
fn a_restart_opens_the_field_used_last_or_says_why_it_stays_on_the_demo() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    assert!(stage.session.front.ask.is_none() && stage.session.path.is_none());
    stage.turn(88.0);
    let path = folder.path().join("mine.json");
    stage.ask(FileCommand::SaveAs);
    stage.choose(ChosenFile::Path(path.clone()));
    drop(stage);
    let again = Stage::open(demo(), folder.path());
    assert!(again.session.path.as_ref() == Some(&path) && again.radius_m() == 88.0 && again.session.is_current());
    drop(again);
    // A file asked for is opened, and not the last.
    let (asked, session) = on_disk(&folder);
    let mut stage = Stage::open(session, folder.path());
    stage.files.keep(&mut stage.session);
    drop(stage);
    assert_eq!(Stage::open(demo(), folder.path()).session.path, Some(asked.clone()));
    for spoil in [|path: &Path| std::fs::write(path, "{").unwrap(), |path: &Path| std::fs::remove_file(path).unwrap()] {
        std::fs::copy(&path, &asked).unwrap();
        let mut stage = Stage::open(demo(), folder.path());
        stage.ask(FileCommand::OpenThis(asked.clone()));
        drop(stage);
        spoil(&asked);
        let stage = Stage::open(demo(), folder.path());
        let Some(Ask::Told { text, .. }) = &stage.session.front.ask else { panic!("nothing was said") };
        assert!(text.contains("ours.json") && text.contains("the demo"), "{text}");
        assert!(stage.session.path.is_none() && stage.session.refused.is_none() && stage.session.is_current());
        assert!(!stage.session.settings.recent.contains(&asked));
    }
}

#[test]
fn settings_come_back() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.session.settings.theme = Theme::Dark;
    stage.session.settings.notice_read = true;
    stage.ask(FileCommand::Demo);
    drop(stage);
    let again = Stage::open(demo(), folder.path());
    assert!(again.session.settings.theme == Theme::Dark && again.session.settings.notice_read);
}

/// Waits for a picture that is being decoded.
fn wait_for_picture(stage: &mut Stage) {
    for _ in 0..3000 {
        stage.files.step(&mut stage.session, Vec::new());
        if stage.session.field_board.picture.is_some() {
            stage.files.keep(&mut stage.session);
            return;
        }
        std::thread::sleep(Duration::from_millis(2));
    }
    panic!("it never came");
}

#[test]
fn a_picture_dropped_comes_back_with_its_scenario_and_lies_as_it_lay() {
    use crate::app::session::field_board::{FieldCommand, PictureCommand};
    let folder = folder();
    let picture = folder.path().join("meadow.png");
    std::fs::write(&picture, include_bytes!("../../../../assets/window.png")).unwrap();
    std::fs::write(folder.path().join("meadow.pgw"), "0.5 0 0 -0.5 -300 200").unwrap();
    let (path, session) = on_disk(&folder);
    let mut stage = Stage::open(session, folder.path());
    // The world file leads to its picture.
    stage.ask(FileCommand::Dropped(folder.path().join("meadow.pgw")));
    wait_for_picture(&mut stage);
    assert_eq!(stage.session.board, Board::Field);
    let fainter = AppCommand::Field(FieldCommand::Picture(PictureCommand::Strength(0.6)));
    stage.session.apply(fainter, Lens::default());
    stage.files.keep(&mut stage.session);
    let laid = Laid::of(&stage.session);
    // No edit has been made, so nothing asks; another scenario has no picture.
    stage.ask(FileCommand::Demo);
    assert!(stage.session.field_board.picture.is_none());
    stage.ask(FileCommand::OpenThis(path.clone()));
    wait_for_picture(&mut stage);
    assert_eq!(Laid::of(&stage.session), laid);
    stage.kill();
    let (_, session) = on_disk(&folder);
    let mut again = Stage::open(session, folder.path());
    wait_for_picture(&mut again);
    assert_eq!(Laid::of(&again.session), laid);
    let away = AppCommand::Field(FieldCommand::Picture(PictureCommand::Remove));
    again.session.apply(away, Lens::default());
    again.files.keep(&mut again.session);
    again.kill();
    let (_, session) = on_disk(&folder);
    assert!(Stage::open(session, folder.path()).files.album.is_empty());
}
