//! The board that rehearses: can somebody with a keyboard fly it, lose it, find it, take over and land; and does the window
//! come to the same score as the recording without it?

use std::path::Path;

use bevy_egui::egui::{Key, pos2};
use egui_kittest::Harness;
use peewit::app::sticks::{KeysHeld, StickCommand};
use peewit::app::{AppCommand, Board, RehearseCommand, RehearseSheet, RehearseView, Session, Shown, Theme};
use peewit::rehearsal::{Deed, Exercise, Recording, Rehearsal, Stage as Drill, Sticks, ladder, score};
use peewit::run::Scenario;

use crate::panels::{Stage, click, press, stage, texts};
use crate::pictures::{check_not_blank, draw};
use crate::rehearsal::pilot::{Pilot, Wrong};

const SMALL: [f32; 2] = [1366.0, 768.0];

fn board() -> Session {
    let mut session = Session::new(Scenario::demo(), Vec::new(), Some("some.json".into()));
    session.board = Board::Rehearse;
    session
}

fn obey(session: &mut Session, command: RehearseCommand) {
    session.apply(AppCommand::Rehearse(command), Shown::default().lens);
}

fn rung(number: usize) -> Exercise {
    ladder().swap_remove(number).exercise
}

fn begun(exercise: Exercise) -> Session {
    let mut session = board();
    obey(&mut session, RehearseCommand::Exercise(Box::new(exercise), None));
    obey(&mut session, RehearseCommand::Begin);
    session
}

fn flying(session: &Session) -> Option<&Rehearsal> {
    session.rehearse.flying.as_deref()
}

/// Keys that bring the sticks towards where a pilot wants them: a person presses and lets go, and sees late.
fn keys(wanted: Sticks, now: Sticks) -> KeysHeld {
    let off = [
        wanted.roll_share - now.roll_share,
        wanted.pitch_share - now.pitch_share,
        wanted.throttle_share - now.throttle_share,
    ];
    KeysHeld {
        left: off[0] < -0.12 && wanted.roll_share < 0.05,
        right: off[0] > 0.12 && wanted.roll_share > -0.05,
        forward: off[1] < -0.12 && wanted.pitch_share < 0.05,
        back: off[1] > 0.12 && wanted.pitch_share > -0.05,
        less: off[2] < -0.04,
        more: off[2] > 0.04,
    }
}

/// Flies a session by its keys, at some screen rates, with hands that are late by so many frames of a tenth of a second.
fn by_keys(session: &mut Session, frames_s: &[f64], late: usize) {
    let mut pilot = Pilot::new(Wrong::Nothing);
    let mut pressed = std::collections::VecDeque::from(vec![KeysHeld::default(); late]);
    let mut frame = 0;
    let mut next_look = 0.0;
    let mut at = 0.0;
    while let Some(flown) = flying(session) {
        let (deeds, wanted, now) = (pilot.deeds(flown), pilot.sticks(flown), session.rehearse.desk.now());
        if at >= next_look {
            next_look += 0.1;
            pressed.push_back(keys(wanted, now));
            if let Some(held) = pressed.pop_front() {
                obey(session, RehearseCommand::Sticks(StickCommand::Held(held)));
            }
        }
        let before = flying(session).map(Rehearsal::index);
        for deed in deeds {
            if !matches!(deed, Deed::Stage { stage: Drill::Cued }) {
                obey(session, RehearseCommand::Do(deed));
            }
        }
        // What was asked for counts at the next step: nothing more is asked for until then.
        while flying(session).map(Rehearsal::index) == before && flying(session).is_some() {
            session.rehearse_tick(frames_s[frame % frames_s.len()]);
            at += frames_s[frame % frames_s.len()];
            frame += 1;
        }
    }
}

#[test]
fn with_the_keyboard_it_is_flown_lost_found_taken_over_and_landed() {
    for (late, frames_s) in [(1, &[1.0 / 60.0][..]), (2, &[0.011, 0.027, 0.016]), (3, &[1.0 / 30.0])] {
        let mut session = begun(rung(1));
        by_keys(&mut session, frames_s, late);
        let last = session.rehearse.last.as_ref().unwrap();
        assert!(
            last.score.landed,
            "{late}: {:?} {:?} {:?}",
            last.flown.ending(),
            last.score.events,
            last.flown.time_s()
        );
        assert_eq!(last.score.events, [], "{late}");
        assert!(last.score.points().unwrap() > 60.0, "{:?} {:?}", last.score.points(), last.score.events);
        // The same without a window.
        let text = Recording::of(&last.flown, "").to_text();
        let recording = Recording::read(&text, Path::new("some.jsonl")).unwrap();
        let played = recording.play(&Scenario::demo()).unwrap();
        assert_eq!(played.trace(), last.flown.trace());
        assert_eq!(score(&played), last.score);
    }
}

#[test]
fn another_window_pause_and_an_unplugged_device_wait() {
    let mut session = begun(rung(0));
    session.rehearse_tick(0.2);
    let index = flying(&session).unwrap().index();
    assert_eq!(index, 2);
    session.apply(AppCommand::Board(Board::Circle), Shown::default().lens);
    session.rehearse_tick(0.2);
    assert_eq!(flying(&session).unwrap().index(), index);
    session.apply(AppCommand::Board(Board::Rehearse), Shown::default().lens);
    obey(&mut session, RehearseCommand::Pause(false));
    session.rehearse_tick(0.1);
    assert_eq!(flying(&session).unwrap().index(), index + 1);
    let device = peewit::app::sticks::Way::Device("some pad".into());
    obey(&mut session, RehearseCommand::Sticks(StickCommand::FlyWith(device)));
    session.rehearse_tick(0.2);
    assert!(session.rehearse.paused.as_ref().unwrap().contains("unplugged"));
    assert_eq!(flying(&session).unwrap().index(), index + 1);
}

/// Lets a window and its flight go on together for so many seconds.
fn go_on(harness: &mut Harness<'_, Stage>, seconds: f64) {
    let mut gone = 0.0;
    while gone < seconds {
        harness.state_mut().session.rehearse_tick(0.05);
        harness.run_steps(1);
        gone += 0.05;
    }
}

#[test]
fn the_first_exercise_goes_through_by_keys_and_by_a_press_on_the_jet() {
    let mut harness = stage(board(), SMALL);
    click(&mut harness, "Fly it");
    assert!(flying(&harness.state().session).is_some());
    go_on(&mut harness, 6.5);
    assert!(flying(&harness.state().session).unwrap().lost_at().is_some());
    press(&mut harness, Key::R);
    press(&mut harness, Key::Space);
    go_on(&mut harness, 0.2);
    assert!(!flying(&harness.state().session).unwrap().by_hand());
    press(&mut harness, Key::Space);
    go_on(&mut harness, 0.2);
    press(&mut harness, Key::Space);
    go_on(&mut harness, 2.0);
    let done = *flying(&harness.state().session).unwrap().stages();
    assert_eq!(done.next(), Some(Drill::Found), "{done:?}");
    let said: Vec<String> = texts(&harness).into_iter().map(|(text, ..)| text).collect();
    assert!(said.iter().any(|text| text.contains("o'clock")), "{said:?}");
    // Beside it first, then at it.
    let sight = flying(&harness.state().session).unwrap().sight();
    let mut gaze = harness.state().session.rehearse.gaze;
    (gaze.bearing_deg, gaze.elevation_deg) = (sight.bearing.deg(), sight.elevation_deg - 30.0);
    obey(&mut harness.state_mut().session, RehearseCommand::Look(gaze));
    press(&mut harness, Key::Num0);
    go_on(&mut harness, 0.2);
    assert_eq!(flying(&harness.state().session).unwrap().stages().missed, 1);
    let sight = flying(&harness.state().session).unwrap().sight();
    (gaze.bearing_deg, gaze.elevation_deg) = (sight.bearing.deg(), sight.elevation_deg);
    obey(&mut harness.state_mut().session, RehearseCommand::Look(gaze));
    harness.run_steps(2);
    let middle = harness.state().lens.rect.center();
    harness.hover_at(pos2(middle.x, middle.y));
    harness.drag_at(middle);
    harness.drop_at(middle);
    harness.run_steps(2);
    go_on(&mut harness, 0.2);
    assert!(flying(&harness.state().session).unwrap().stages().at(Drill::Found).is_some());
    let seen = flying(&harness.state().session).unwrap().seen();
    let heading = peewit::rehearsal::Heading::ALL.iter().position(|one| *one == seen.heading).unwrap();
    let lean = peewit::rehearsal::Lean::ALL.iter().position(|one| *one == seen.lean).unwrap();
    press(&mut harness, [Key::Num1, Key::Num2, Key::Num3, Key::Num4][heading]);
    press(&mut harness, [Key::Num5, Key::Num6, Key::Num7][lean]);
    go_on(&mut harness, 0.2);
    assert!(flying(&harness.state().session).unwrap().stages().at(Drill::Said).is_some());
    press(&mut harness, Key::Enter);
    go_on(&mut harness, 1.0);
    assert!(flying(&harness.state().session).unwrap().by_hand());
    press(&mut harness, Key::E);
    go_on(&mut harness, 0.2);
    let last = harness.state().session.rehearse.last.as_ref().unwrap();
    assert_eq!(last.score.events, []);
    assert!(last.score.points().unwrap() > 70.0, "{:?}", last.score.parts);
    harness.run_steps(2);
    let told: Vec<String> = texts(&harness).into_iter().map(|(text, ..)| text).collect();
    assert!(told.iter().any(|text| text.contains("of 100 points")), "{told:?}");
    click(&mut harness, "Into the class");
    click(&mut harness, "Another exercise");
    click(&mut harness, "Class");
    assert_eq!(harness.state().session.rehearse.class.as_ref().unwrap().attempts.len(), 1);
}

#[test]
fn twenty_tries_with_the_stopwatch_are_the_plans_own_time() {
    let mut session = board();
    obey(&mut session, RehearseCommand::Sheet(RehearseSheet::Stopwatch));
    let mut harness = stage(session, SMALL);
    for _ in 0..20 {
        click(&mut harness, "Ready");
        press(&mut harness, Key::Space);
        assert!(harness.state().session.rehearse.stopwatch.early);
        while harness.state().session.rehearse.stopwatch.since_s().is_none() {
            harness.state_mut().session.rehearse_tick(0.1);
        }
        harness.run_steps(2);
        for (index, pause) in [0.5, 0.7, 3.0, 2.0, 6.0, 2.0].into_iter().enumerate() {
            let more = harness.state().session.settings.practice.tries_s.len() as f64 * 0.05;
            harness.state_mut().session.rehearse_tick(pause + if index == 4 { more } else { 0.0 });
            press(&mut harness, Key::Space);
        }
    }
    let tries = harness.state().session.settings.practice.tries_s.clone();
    assert_eq!(tries.len(), 20);
    assert!((tries[0] - 14.2).abs() < 0.11, "{tries:?}");
    click(&mut harness, "Use it in the plan");
    let entry = harness.state().session.draft.file().limits.take_over;
    assert_eq!(entry.origin, peewit::jet::Origin::Measured);
    // 14.2 s to 15.2 s evenly: their middle.
    assert!((entry.value.s() - 14.7).abs() < 0.1, "{entry:?}");
}

fn drawn(session: &Session, name: &str) -> bool {
    for (size, theme) in [
        ([1366, 768], Theme::Light),
        ([1366, 768], Theme::Dark),
        ([1920, 1080], Theme::Light),
        ([1920, 1080], Theme::Dark),
    ] {
        let file = format!("rehearse-{name}-{}-{theme:?}.png", size[0]).to_lowercase();
        let Some(png) = draw(session.clone(), size, theme, &file) else { return false };
        check_not_blank(&png, size);
    }
    true
}

/// A flight that a careful pilot has come to so many seconds of.
fn until(session: &mut Session, seconds: f64) {
    let mut pilot = Pilot::new(Wrong::Nothing);
    while let Some(flown) = flying(session).filter(|flown| flown.time_s() < seconds) {
        let (deeds, sticks) = (pilot.deeds(flown), pilot.sticks(flown));
        session.rehearse.desk.put(sticks);
        for deed in deeds {
            obey(session, RehearseCommand::Do(deed));
        }
        obey(session, RehearseCommand::Do(Deed::Sticks(sticks)));
        session.rehearse_tick(0.1);
    }
}

#[test]
fn every_view_and_stage_is_drawn() {
    if !drawn(&board(), "ladder") {
        return;
    }
    for (sheet, name) in
        [(RehearseSheet::Sticks, "sticks"), (RehearseSheet::Stopwatch, "stopwatch"), (RehearseSheet::Class, "class")]
    {
        let mut session = board();
        session.settings.practice.tries_s = (0..12).map(|i| 15.0 + f64::from(i % 5)).collect();
        obey(&mut session, RehearseCommand::Sheet(sheet));
        drawn(&session, name);
    }
    for (name, seconds, view) in [
        ("goggles", 12.0, RehearseView::Pilot),
        ("dark", 23.0, RehearseView::Pilot),
        ("searching", 30.0, RehearseView::Pilot),
        ("found", 38.0, RehearseView::Pilot),
        ("above", 42.0, RehearseView::Above),
        ("landing", 75.0, RehearseView::Eye),
    ] {
        let mut session = begun(rung(4));
        until(&mut session, seconds);
        obey(&mut session, RehearseCommand::View(view));
        drawn(&session, name);
    }
    let mut session = begun(rung(4));
    until(&mut session, 400.0);
    assert!(session.rehearse.last.is_some());
    drawn(&session, "result");
    obey(&mut session, RehearseCommand::View(RehearseView::Above));
    drawn(&session, "replay");
}
