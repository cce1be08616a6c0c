//! The board of the losses: does the map say what the study counted, and does a press fly the very trial it counted?

use std::path::Path;
use std::sync::Arc;

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{self, Key};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use peewit::app::{Answer, AppCommand, Board, Grade, LossCommand, LossView, News, Session, Shown, Theme};
use peewit::margins::{MarginUnit, Outcome, Score, Scorer, Verdict};
use peewit::recovery::FailsafeAction;
use peewit::run::{Scenario, WindChoice, draw as draw_trial};
use peewit::study::losses::{Cell, LossAsk, LossStudy, Replay, first, refine};
use peewit::study::work::Work;
use peewit::words::{counted, looked_at};

use crate::panels::{Stage, click, press, stage, texts};
use crate::pictures::{check_not_blank, draw};

const SMALL: [f32; 2] = [1366.0, 768.0];
const LARGE: [f32; 2] = [1920.0, 1080.0];

fn shipped(name: &str) -> Scenario {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name);
    Scenario::load(&path).unwrap().0
}

/// The board on a scenario with a map of so many cells and at most so many trials.
fn board(scenario: Scenario, cells: u32, trials: u64) -> Session {
    let ask = LossAsk { cells, trials, ..LossAsk::usual(&scenario) };
    let plan = first(&scenario, &ask, &Work::default());
    let (found, grade) = match trials {
        0 => (plan, Grade::Coarse),
        _ => (refine(&scenario, plan, &Work::default()), Grade::Refined),
    };
    let mut session = Session::new(scenario, Vec::new(), Some("some.json".into()));
    session.board = Board::Losses;
    let edition = session.edition;
    session.hear(News::Losses(Answer { found: Arc::new(found), edition, grade }));
    session
}

fn study(session: &Session) -> &LossStudy {
    &session.answers.losses.as_ref().unwrap().found
}

fn words(harness: &Harness<'_, Stage>) -> String {
    texts(harness).into_iter().map(|(text, ..)| text + "\n").collect()
}

/// A cell that was flown with trials and whose worst is one of them.
fn drawn_worst(study: &LossStudy) -> &Cell {
    study.cells.iter().find(|cell| cell.replay.trial > 0).unwrap()
}

/// Points at the middle of a cell.
fn over(harness: &Harness<'_, Stage>, cell: &Cell) -> egui::Pos2 {
    harness.state().lens.screen(cell.middle)
}

fn press_at(harness: &mut Harness<'_, Stage>, at: egui::Pos2) {
    harness.hover_at(at);
    harness.drag_at(at);
    harness.drop_at(at);
    harness.run_steps(3);
}

/// The least left over what was asked for, of the limits in metres.
fn spare_m(scorer: &Scorer<'_>, score: &Score) -> f64 {
    let metric = scorer.limits().iter().zip(&score.gaps).filter(|(info, _)| info.unit == MarginUnit::Metres);
    metric.map(|(_, gap)| gap.margin - gap.buffer).fold(f64::INFINITY, f64::min)
}

#[test]
fn the_replay_of_a_cell_is_the_worst_flight_that_the_study_counted() {
    for name in ["goatwillow-strip.json", "sallowmouth-head.json", "whinfarrow-moor.json"] {
        let scenario = shipped(name);
        let mut session = board(scenario.clone(), 7, 8);
        // Whatever wind the window flies in, the map is flown in the mean.
        session.apply(AppCommand::Wind(WindChoice::Gust), Shown::default().lens);
        let scorer = Scorer::new(&scenario);
        let study = study(&session).clone();
        for cell in &study.cells {
            let flights = cell.count.flown / u64::from(study.ask.headings);
            let ask = &study.ask;
            let replays = (0..flights).flat_map(|round| {
                let at = cell.middle;
                (0..ask.headings).map(move |index| {
                    let trial = ask.trial(cell.at, index.into(), round);
                    Replay { at, heading_deg: f64::from(index) * 45.0, trial, ..cell.replay }
                })
            });
            let trials = replays
                .map(|replay| draw_trial(&scenario, replay.trial, WindChoice::Mean).lost(&replay.loss(&scenario)));
            let scores = scorer.score(&trials.collect::<Vec<_>>());
            let worst = scores.iter().map(|score| (score.outcome, spare_m(&scorer, score)));
            let worst = worst.min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))).unwrap();
            session.apply(AppCommand::Lost(Some(cell.replay)), Shown::default().lens);
            let flown = session.flown.as_ref().unwrap();
            assert_eq!((flown.outcome, cell.worst), (Some(worst.0), worst.0), "{name} {:?}", cell.replay);
            let rows = flown
                .margins
                .rows
                .iter()
                .filter(|row| row.unit == MarginUnit::Metres && row.verdict != Verdict::Counted);
            let spare = rows.map(|row| row.margin - row.buffer).fold(f64::INFINITY, f64::min);
            assert!((spare - worst.1).abs() < 1e-9, "{name} {:?}: {spare} m, not {} m", cell.replay, worst.1);
        }
        assert!(study.cells.iter().any(|cell| cell.replay.trial > 0), "{name}: no trial is the worst anywhere");
    }
}

#[test]
fn every_outcome_is_on_the_screen_with_its_counts() {
    for view in LossView::ALL {
        let mut session = board(crate::support::tight_strip(), 12, 8);
        session.losses.view = view;
        let harness = stage(session, LARGE);
        let all = words(&harness);
        let study = study(&harness.state().session);
        for (index, outcome) in Outcome::ALL.into_iter().enumerate() {
            let hits: u64 = study.cells.iter().map(|cell| cell.outcomes[index]).sum();
            let flown = study.cells.iter().map(|cell| cell.count.flown).sum();
            let told = counted(hits, flown, study.ask.confidence).replace(&format!("of {flown} "), "");
            assert!(all.contains(outcome.name()) && all.contains(&told), "{}: {told} is not in {all}", outcome.name());
        }
        let sum: u64 = study.cells.iter().map(|cell| cell.count.flown).sum();
        for word in
            ["Biggest reason", "refined, 8 headings", "turn-back line", "no-return line", &format!("{sum} flights")]
        {
            assert!(all.contains(word), "\"{word}\" is not on the screen");
        }
        assert!(!all.contains("100 %"));
    }
}

#[test]
fn pointing_at_a_cell_tells_what_was_counted_there() {
    let mut harness = stage(board(crate::support::tight_strip(), 12, 8), SMALL);
    let cell = drawn_worst(study(&harness.state().session)).clone();
    let at = over(&harness, &cell);
    harness.hover_at(at);
    harness.run_steps(3);
    let all = words(&harness);
    let told = looked_at(&cell, 0.95);
    for word in [told.as_str(), "press: fly its worst trial", &format!("worst as entered: {}", cell.plan_worst.name())]
    {
        assert!(all.contains(word), "\"{word}\" is not in {all}");
    }
}

#[test]
fn a_press_flies_the_worst_trial_and_the_banner_leads_back() {
    let mut harness = stage(board(crate::support::tight_strip(), 12, 8), SMALL);
    let own = harness.state().flown().run.trace.clone();
    let cell = drawn_worst(study(&harness.state().session)).clone();
    let at = over(&harness, &cell);
    press_at(&mut harness, at);
    let session = &harness.state().session;
    assert_eq!((session.lost, session.playhead.playing), (Some(cell.replay), true));
    assert_eq!(session.chosen_cell().map(|chosen| chosen.at), Some(cell.at));
    let all = words(&harness);
    let banner = format!("Replayed loss: {}", cell.worst.name());
    for word in [banner.as_str(), &format!("trial {}", cell.replay.trial), "Chosen cell"] {
        assert!(all.contains(word), "\"{word}\" is not in {all}");
    }
    click(&mut harness, "Back to the plan's own loss");
    assert!(harness.state().session.lost.is_none() && harness.state().flown().run.trace == own);
    assert!(!words(&harness).contains("Replayed loss"));
}

#[test]
fn cells_are_chosen_flown_and_left_with_the_keyboard() {
    let mut harness = stage(board(crate::support::tight_strip(), 12, 0), SMALL);
    harness.get_by_label("map of the field").focus();
    harness.run_steps(2);
    press(&mut harness, Key::ArrowRight);
    let first = harness.state().session.chosen_cell().unwrap().clone();
    press(&mut harness, Key::ArrowLeft);
    press(&mut harness, Key::ArrowDown);
    let session = &harness.state().session;
    let chosen = session.chosen_cell().unwrap().clone();
    assert!(chosen.at[0] < first.at[0] && chosen.at[1] < first.at[1], "{:?} {:?}", first.at, chosen.at);
    assert!(session.lost.is_none());
    press(&mut harness, Key::Enter);
    assert_eq!(harness.state().session.lost, Some(chosen.replay));
    assert!(harness.state().session.playhead.playing);
    press(&mut harness, Key::Space);
    assert!(!harness.state().session.playhead.playing);
    press(&mut harness, Key::Escape);
    assert!(harness.state().session.lost.is_none());
}

#[test]
fn height_and_speed_of_the_loss_are_edits_of_the_scenario() {
    let mut harness = stage(board(crate::support::tight_strip(), 8, 0), SMALL);
    let before = harness.state().session.draft.file().loss;
    for (name, key) in [("height of the loss", Key::ArrowUp), ("speed of the loss", Key::ArrowUp)] {
        harness.get_by_role_and_label(Role::SpinButton, name).focus();
        harness.run_steps(2);
        press(&mut harness, key);
    }
    let after = harness.state().session.draft.file().loss;
    assert!(after.height.m() > before.height.m() && after.speed.mps() > before.speed.mps(), "{after:?}");
    assert!(words(&harness).contains("EARLIER plan"));
    press(&mut harness, Key::Escape);
    harness.state_mut().session.apply(AppCommand::Undo, Shown::default().lens);
    harness.state_mut().session.apply(AppCommand::Undo, Shown::default().lens);
    assert_eq!(harness.state().session.draft.file().loss, before);
}

#[test]
fn a_plan_that_cuts_says_why_it_has_no_lines() {
    let mut scenario = crate::support::tight_strip();
    scenario.file.recovery.failsafe_action = FailsafeAction::Cut;
    let scenario = Scenario::from_file(scenario.file).unwrap();
    let harness = stage(board(scenario, 8, 0), SMALL);
    let all = words(&harness);
    assert!(all.contains("does not fly home") && !all.contains("turn-back line: inside"), "{all}");
}

#[test]
fn no_text_is_cut_or_too_small() {
    for size in [SMALL, LARGE] {
        let mut session = board(crate::support::tight_strip(), 12, 8);
        let cell = drawn_worst(study(&session)).middle;
        session.apply(AppCommand::Losses(LossCommand::Choose(Some(cell))), Shown::default().lens);
        let harness = stage(session, size);
        for (text, rect, room, points) in texts(&harness) {
            assert!(points >= 14.0, "\"{text}\" is {points} points high");
            // On a small screen the counts may be longer than the panel, and are turned up and down.
            let room = if size[1] < 900.0 { room.expand2(egui::vec2(1.0, 40.0)) } else { room.expand(1.0) };
            assert!(room.contains_rect(rect), "\"{text}\" is cut: {rect:?} in {room:?}");
        }
    }
}

#[test]
fn the_board_is_drawn() {
    use LossView::{Heading, Share, Worst};
    let (small, large) = ([1366, 768], [1920, 1080]);
    for (name, file, looks) in [
        ("s1", "goatwillow-strip.json", [(small, Theme::Light, Worst, true), (large, Theme::Dark, Worst, true)]),
        ("s6", "sallowmouth-head.json", [(small, Theme::Light, Worst, false), (large, Theme::Light, Heading, true)]),
        ("s10", "whinfarrow-moor.json", [(small, Theme::Dark, Share, true), (large, Theme::Light, Worst, false)]),
    ] {
        let mut session = board(shipped(file), 50, 8);
        let cell = drawn_worst(study(&session)).clone();
        for (size, theme, view, chosen) in looks {
            session.losses.view = view;
            let lens = Shown::default().lens;
            session.apply(AppCommand::Losses(LossCommand::Choose(chosen.then_some(cell.middle))), lens);
            session.apply(AppCommand::Lost(chosen.then_some(cell.replay)), lens);
            let file = format!("losses-{name}-{}-{theme:?}-{view:?}.png", size[0]).to_lowercase();
            let Some(png) = draw(session.clone(), size, theme, &file) else { return };
            check_not_blank(&png, size);
        }
    }
}
