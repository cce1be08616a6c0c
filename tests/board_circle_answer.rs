//! Does the board of the circle tell the answer first, in the words of the reports, and leave the map at least half of the
//! window?

use std::sync::Arc;

use bevy_egui::egui::Key;
use bevy_egui::egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use peewit::app::{Answer, AppCommand, CircleView, Doing, Grade, Knob, Session, Shown};
use peewit::brief::FiveLines;
use peewit::study::remedy::{Change, Design, Found, Remedy};
use peewit::study::verdict::PlanVerdict;
use peewit::words;

use crate::board_circle::{empty, open};
use crate::panels::{Stage, click, press, stage, texts};

const SIZES: [[f32; 2]; 2] = [[1366.0, 768.0], [1920.0, 1080.0]];

fn says(harness: &Harness<'_, Stage>, words: &str) -> bool {
    texts(harness).iter().any(|(text, ..)| text.contains(words))
}

fn trials(session: &Session) -> PlanVerdict {
    let study = &session.answers.own_circle.as_ref().unwrap().found;
    study.plan_on(&study.points[0]).unwrap()
}

/// With what the search for changes came to.
fn found(mut session: Session, found: Found) -> Session {
    session.answers.remedy = Some(Answer { found: Arc::new(found), edition: session.edition, grade: Grade::Refined });
    session
}

#[test]
fn the_five_lines_stand_in_every_view_in_the_words_of_the_reports() {
    for (session, remedy) in [(open(), Found::Holds), (empty(), Found::Nothing)] {
        let scenario = session.flown.as_ref().unwrap().scenario.clone();
        let told = FiveLines::of(&scenario, &trials(&session), Some(&remedy));
        for view in CircleView::ALL {
            let mut session = found(session.clone(), remedy.clone());
            session.circle = view;
            let harness = stage(session, SIZES[0]);
            for (name, words) in told.rows() {
                assert!(says(&harness, &format!("{name}  {words}")), "{view:?}: {name}: {words}");
            }
        }
    }
}

#[test]
fn a_line_that_is_being_worked_out_says_so() {
    let mut harness = stage(empty(), SIZES[0]);
    assert!(says(&harness, "What it would take  Being worked out."));
    harness.state_mut().session.doing = Doing::Stopped;
    harness.run_steps(2);
    assert!(says(&harness, "What it would take  Not worked out: stopped."));
    harness.state_mut().session.answers = peewit::app::Answers::default();
    harness.state_mut().session.doing = Doing::Resting;
    harness.run_steps(2);
    assert!(says(&harness, "Does it hold  No verdict yet: being worked out."));
    assert!(says(&harness, "People  Passes "), "what needs no trials is told at once");
}

#[test]
fn what_it_would_take_is_done_with_one_press_and_not_for_another_plan() {
    let session = open();
    let design = Design::of(&session.flown.as_ref().unwrap().scenario);
    let remedy = Remedy {
        changes: vec![Change::Radius([design.radius_m, 130.0])],
        design,
        verdict: trials(&session),
        usable_m: [125.0, 135.0],
    };
    let remedy = Found::Changes(Box::new(remedy));
    let told = words::remedy(&remedy);
    let mut harness = stage(found(session, remedy), SIZES[0]);
    assert!(says(&harness, &told));
    click(&mut harness, "Change the plan so");
    let radius = |harness: &Harness<'_, Stage>| harness.state().session.draft.file().recovery.radius.m();
    assert!((radius(&harness) - 130.0).abs() < 1e-9);
    assert!(!says(&harness, &told), "it was of the plan before");
    assert!(harness.query_by_role_and_label(Role::Button, "Change the plan so").is_none());
    harness.state_mut().session.apply(AppCommand::Undo, Shown::default().lens);
    assert!(!harness.state().session.draft.is_changed());
}

#[test]
fn another_trial_on_the_screen_leaves_the_answer_as_it_is() {
    let mut harness = stage(open(), SIZES[0]);
    let flown = |harness: &Harness<'_, Stage>| harness.state().session.flown.clone().unwrap();
    let before = flown(&harness);
    harness.state_mut().session.apply(AppCommand::Trial(7), Shown::default().lens);
    harness.run_steps(2);
    assert_ne!(flown(&harness).margins, before.margins);
    assert_eq!(flown(&harness).entered, before.entered);
}

#[test]
fn the_map_has_at_least_half_of_the_window() {
    for size in SIZES {
        for view in CircleView::ALL {
            let mut session = open();
            (session.circle, session.warnings_shown) = (view, false);
            let map = stage(session, size).state().lens.rect;
            let share = map.area() / (size[0] * size[1]);
            assert!(map.width() >= 0.5 * size[0], "{view:?} at {size:?}: {map:?}");
            // On the small screen some views take room from it while they are open.
            let at_rest = view == CircleView::Radii || size == SIZES[1];
            assert!(share >= if at_rest { 0.5 } else { 0.4 }, "{view:?} at {size:?}: {share}");
        }
    }
}

#[test]
fn heights_and_legend_lie_folded_away_until_asked_for() {
    let mut harness = stage(open(), SIZES[0]);
    let map = |harness: &Harness<'_, Stage>| harness.state().lens.rect;
    let (whole, folded) = (map(&harness), harness.state().session.unfolded);
    for (button, sign) in [("Heights", "commanded 70 m"), ("Legend", "commanded ring")] {
        assert!(!says(&harness, sign), "{sign}");
        click(&mut harness, button);
        // A panel takes the room of what is in it a frame later.
        harness.run_steps(3);
        assert!(says(&harness, sign), "{sign}");
        assert!(map(&harness).height() < whole.height(), "{button}: {:?}, {whole:?}", map(&harness));
        click(&mut harness, button);
        harness.run_steps(3);
        assert_eq!((map(&harness), harness.state().session.unfolded), (whole, folded));
    }
    // It is what the session shows, so that another scenario leaves it as it was.
    click(&mut harness, "Legend");
    let draft = harness.state().session.draft.clone();
    harness.state_mut().session.load(draft, None);
    assert!(harness.state().session.unfolded.legend);
}

#[test]
fn the_radius_is_at_most_five_tabs_away() {
    let mut harness = stage(open(), SIZES[0]);
    let focused = |harness: &Harness<'_, Stage>| {
        harness.get_by_role_and_label(Role::Slider, Knob::Radius.name()).accesskit_node().is_focused()
    };
    let tabs = (1..=5).find(|_| {
        press(&mut harness, Key::Tab);
        focused(&harness)
    });
    assert!(tabs.is_some(), "not in five");
}

#[test]
fn all_of_the_plan_is_reached_on_a_small_screen() {
    let mut harness = stage(open(), SIZES[0]);
    let button =
        |harness: &Harness<'_, Stage>| harness.get_by_role_and_label(Role::Button, "Keep this plan to compare").rect();
    harness.get_by_role_and_label(Role::Button, "Keep this plan to compare").focus();
    harness.run_steps(4);
    let rect = button(&harness);
    assert!(rect.bottom() < harness.state().lens.rect.bottom() + 40.0, "{rect:?}");
}

#[test]
fn the_worst_limit_is_named_at_its_mark() {
    let harness = stage(open(), SIZES[0]);
    let margins = &harness.state().session.flown.as_ref().unwrap().margins;
    let nearest = peewit::brief::nearest_row(margins).unwrap();
    let number = margins.rows.iter().position(|row| row == nearest).unwrap() + 1;
    let words = format!("{number} {}: {}", nearest.name, words::left(nearest));
    let map = harness.state().lens.rect;
    assert!(texts(&harness).iter().any(|(text, rect, ..)| *text == words && map.contains_rect(*rect)), "{words}");
}
