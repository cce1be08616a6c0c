//! The board that debriefs: does a log that is opened show what it tells, does a correction go into the sheet with consent and
//! come out again by undo, and is the board drawn as it should be?

use std::fmt::Write as _;
use std::path::Path;

use egui_kittest::Harness;
use peewit::app::{AppCommand, Board, DebriefCommand, DebriefView, Session, Shown, Theme};
use peewit::report::debrief::LogDebrief;
use peewit::run::{Scenario, WindChoice, fly};
use peewit::study::work::Work;
use peewit::units::Speed;

use crate::panels::{Stage, click, stage, texts};
use crate::pictures::{check_not_blank, draw};

fn obey(session: &mut Session, command: AppCommand) {
    session.apply(command, Shown::default().lens);
}

/// The board with two logs of a jet that returns faster than its sheet says.
pub(crate) fn board() -> Session {
    let mut session = Session::new(Scenario::demo(), Vec::new(), Some("some.json".into()));
    session.board = Board::Debrief;
    let mut file = Scenario::demo().file;
    file.jet.return_speed.value = Speed::new(26.0);
    let truth = Scenario::from_file(file).unwrap();
    for trial in [1, 2] {
        let run = fly(&truth, trial, WindChoice::Mean);
        let mut text = String::from("time_s,east_m,north_m,height_above_home_m\n");
        for index in (0..run.trace.len()).step_by(2) {
            let at = run.trace.point(index);
            let _ = writeln!(
                text,
                "{:.1},{:.2},{:.2},{:.2}",
                run.trace.time_s(index),
                at.x,
                at.y,
                run.trace.height_m[index]
            );
        }
        let scenario = Scenario::demo();
        let path = Path::new("logs").join(format!("flight-{trial}.csv"));
        let log = LogDebrief::read(&path, text.as_bytes(), &scenario, None, &Work::default()).unwrap();
        session.debriefed(&path, log);
    }
    session
}

#[test]
fn a_log_shows_its_wind_and_a_correction_is_taken_with_consent_and_undone() {
    let mut harness = stage(board(), [1366.0, 900.0]);
    let told: Vec<String> = texts(&harness).into_iter().map(|(text, ..)| text).collect();
    for words in ["Verified, not validated", "Wind from", "What steers it", "predicted"] {
        assert!(told.iter().any(|text| text.contains(words)), "no {words} in {told:?}");
    }
    let before = harness.state().session.draft.file().jet.return_speed.value.mps();
    let correction = {
        let corrections = &harness.state().session.debrief.corrections;
        corrections.iter().find(|one| one.what.contains("return speed")).unwrap().clone()
    };
    let take = AppCommand::Debrief(DebriefCommand::Take(Box::new(correction)));
    obey(&mut harness.state_mut().session, take.clone());
    harness.run_steps(2);
    let is_told = |harness: &Harness<'_, Stage>| {
        texts(harness).iter().any(|(text, ..)| text.contains("The verdict with what was taken"))
    };
    assert!(is_told(&harness), "nothing says what became of the verdict");
    let after = harness.state().session.draft.file().jet.return_speed.value.mps();
    // The trial's own jet is drawn: 1.5 m/s, one standard deviation.
    assert!((after - 26.0).abs() < 4.5 && after > before + 2.0 && (before - 22.0).abs() < 1e-9, "{before} {after}");
    // What is held against the plan of before corrects nothing in this one.
    let taken = harness.state().session.draft.file().clone();
    assert!(harness.state().session.is_debrief_stale() && harness.state().session.debrief.corrections.is_empty());
    obey(&mut harness.state_mut().session, take.clone());
    assert_eq!(*harness.state().session.draft.file(), taken);
    obey(&mut harness.state_mut().session, AppCommand::Undo);
    harness.run_steps(2);
    assert!(!is_told(&harness), "it is told of a plan that was taken back");
    assert!(!harness.state().session.is_debrief_stale());
    assert!(!harness.state().session.debrief.corrections.is_empty());
    assert_eq!(harness.state().session.draft.file().jet.return_speed.value.mps(), before);
    click(&mut harness, "Wind and airspeed");
    assert_eq!(harness.state().session.debrief.view, DebriefView::Velocities);
    click(&mut harness, "Wind by height");
    assert_eq!(harness.state().session.debrief.view, DebriefView::Heights);
}

#[test]
fn every_view_is_drawn() {
    let empty = {
        let mut session = Session::new(Scenario::demo(), Vec::new(), Some("some.json".into()));
        session.board = Board::Debrief;
        session
    };
    for (name, session) in [("empty", empty), ("map", board())] {
        for (size, theme) in [([1366, 768], Theme::Light), ([1366, 768], Theme::Dark), ([1920, 1080], Theme::Light)] {
            let file = format!("debrief-{name}-{}-{theme:?}.png", size[0]).to_lowercase();
            let Some(png) = draw(session.clone(), size, theme, &file) else { return };
            check_not_blank(&png, size);
        }
    }
    for (name, view) in [
        ("velocities", DebriefView::Velocities),
        ("residuals", DebriefView::Residuals),
        ("heights", DebriefView::Heights),
    ] {
        let mut session = board();
        obey(&mut session, AppCommand::Debrief(DebriefCommand::View(view)));
        let Some(png) = draw(session, [1366, 768], Theme::Light, &format!("debrief-{name}.png")) else { return };
        check_not_blank(&png, [1366, 768]);
    }
}
