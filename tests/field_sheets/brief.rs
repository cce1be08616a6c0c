//! What prints tell beside the plan: hours, review day, landmarks, stops, whom to call, who signed.

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use peewit::app::{FieldSheet, beside::answer_now};

use super::{click, does_not_say, enter, file, open, says, undo_words};
use crate::panels::Stage;

fn undo(harness: &mut Harness<'_, Stage>) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run_steps(3);
}

#[test]
fn every_text_is_taken_with_words_for_taking_it_back() {
    let mut harness = open(FieldSheet::Brief);
    let before = file(&harness).clone();
    let all = [
        ("review day", "2027-01-31"),
        ("from", "09:15"),
        ("to", "18:00"),
        ("ahead of UTC", "+01:00"),
        ("jet marks", "red fin"),
        ("stop 1", "the gate is open"),
        ("call 1", "999"),
        ("gate", "north gate"),
        ("grid reference", "AB 12"),
        ("fire kit", "in the shed"),
        ("landowner", "somebody, 0555"),
        ("landmark 1", "mast"),
        ("landmark 1 east", "-100"),
        ("signature 1: name", "B. Heron"),
        ("signature 1: role", "chair"),
        ("signature 1: on", "2026-05-01"),
    ];
    for (label, text) in all {
        enter(&mut harness, label, text);
        let whole = serde_json::to_string(&file(&harness).brief).unwrap();
        assert!(whole.contains(text), "{label}: {whole}");
        assert!(undo_words(&harness).is_some(), "{label}");
    }
    assert_eq!(file(&harness).brief.landmarks[0].at_m[0], -100.0);
    let mut steps = 0;
    while undo_words(&harness).is_some() {
        // The keyboard is in a box, which has an undo of its own.
        harness.state_mut().session.apply(peewit::app::AppCommand::Undo, peewit::app::Shown::default().lens);
        steps += 1;
    }
    assert_eq!(steps, all.len());
    assert!(*file(&harness) == before);
}

#[test]
fn things_are_added_and_taken_out() {
    let mut harness = open(FieldSheet::Brief);
    harness.state_mut().session.today = "2026-07-04".into();
    let before = file(&harness).brief.clone();
    for (add, take) in [
        ("Add a stop", "take stop 1 out"),
        ("Add a number to call", "take call 1 out"),
        ("Add a landmark", "take landmark 1 out"),
        ("Add a signature", "take signature 1 out"),
    ] {
        click(&mut harness, add);
        assert_eq!(undo_words(&harness).unwrap(), add.to_lowercase().replace("a number to call", "a call"));
        click(&mut harness, take);
        assert_eq!(undo_words(&harness), Some(take));
        let brief = &file(&harness).brief;
        assert_ne!(*brief, before, "{take}");
        undo(&mut harness);
        undo(&mut harness);
        assert_eq!(file(&harness).brief, before, "{take}");
    }
    click(&mut harness, "signature 1: signed today");
    assert_eq!(file(&harness).brief.signed[0].on, "2026-07-04");
    harness.get_by_role_and_label(Role::CheckBox, "The hours are known").click();
    harness.run_steps(3);
    assert!(file(&harness).brief.hours.is_none());
    enter(&mut harness, "review day", " ");
    assert!(file(&harness).brief.review_by.is_none());
}

#[test]
fn faults_stand_at_their_places() {
    let mut harness = open(FieldSheet::Brief);
    for (label, text, problem) in [
        ("from", "25:00", "no time of day"),
        ("ahead of UTC", "1", "not so much ahead of UTC"),
        ("review day", "2026-02-30", "a day of the calendar"),
        ("signature 1: name", " ", "is named"),
        ("landmark 1", " ", "has no name"),
        ("landmark 1 east", "1e9", "more than 100 km"),
    ] {
        does_not_say(&harness, problem);
        enter(&mut harness, label, text);
        says(&harness, problem);
        undo(&mut harness);
        while harness.state().session.draft.errors().count() > 0 {
            harness.state_mut().session.apply(peewit::app::AppCommand::Undo, peewit::app::Shown::default().lens);
        }
        harness.run_steps(2);
    }
    harness.state_mut().session.today = "2099-01-01".into();
    harness.run_steps(2);
    says(&harness, "EXPIRED");
}

#[test]
fn what_is_only_told_leaves_every_answer_standing() {
    let mut harness = open(FieldSheet::Brief);
    answer_now(&mut harness.state_mut().session, peewit::app::Grade::Coarse);
    enter(&mut harness, "gate", "north gate");
    let session = &harness.state().session;
    let known = session.answers.wind_limit.as_ref().unwrap();
    assert_eq!(known.edition, session.edition);
    enter(&mut harness, "from", "09:00");
    let edition = harness.state().session.edition;
    let radius = peewit::app::AppCommand::Turn(peewit::app::Knob::Radius, 90.0);
    harness.state_mut().session.apply(radius, peewit::app::Shown::default().lens);
    let session = &harness.state().session;
    assert!(session.edition > edition && session.answers.wind_limit.as_ref().unwrap().edition == edition);
}

#[test]
fn a_signature_lapses_with_any_change_and_is_put_under_the_present_version_again() {
    let mut harness = open(FieldSheet::Brief);
    harness.state_mut().session.today = "2026-07-04".into();
    click(&mut harness, "signature 1: signed today");
    let counts = |harness: &Harness<'_, Stage>| file(harness).signed()[0].1.counts();
    assert!(counts(&harness));
    let mut file_then = file(&harness).clone();
    file_then.recovery.radius = peewit::units::Length::new(file_then.recovery.radius.m() + 1.0);
    let change = peewit::app::Change { what: "set the circle radius".into(), file: file_then };
    let lens = harness.state().lens;
    harness.state_mut().session.apply(peewit::app::AppCommand::Edit(Box::new(change)), lens);
    harness.run_steps(3);
    assert!(!counts(&harness));
    says(&harness, "lapsed: signed for another version");
    harness.state_mut().session.today = "2026-07-05".into();
    click(&mut harness, "signature 1: sign the present version");
    assert!(counts(&harness));
    assert_eq!(file(&harness).brief.signed[0].on, "2026-07-05");
    assert_eq!(undo_words(&harness), Some("sign 1 today"));
}

#[test]
fn what_neighbours_ask_and_what_the_club_does_is_written_where_the_prints_look() {
    let mut harness = open(FieldSheet::Brief);
    for (label, text) in [("footpaths", "one, watched"), ("noise", "82 dB at 7 m"), ("survey off by", "2 m")] {
        enter(&mut harness, label, text);
    }
    enter(&mut harness, "complaints", "the secretary");
    enter(&mut harness, "access", "by the lower gate");
    harness.get_by_label_contains("What your club does in an emergency").click();
    harness.run_steps(6);
    click(&mut harness, "Add an action: falling");
    enter(&mut harness, "falling 1", "DUCK.");
    let brief = &file(&harness).brief;
    let said = &brief.neighbours;
    assert_eq!(
        [&said.footpaths, &said.noise, &said.complaints, &said.access],
        ["one, watched", "82 dB at 7 m", "the secretary", "by the lower gate"]
    );
    assert_eq!((brief.survey_error.unwrap().m(), brief.drills.falling.as_slice()), (2.0, &["DUCK.".to_owned()][..]));
    click(&mut harness, "take falling 1 out");
    assert!(file(&harness).brief.drills.is_empty());
}
