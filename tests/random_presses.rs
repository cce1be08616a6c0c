//! Does the window stand whatever is pressed, wherever, at any size, at any zoom, with names of any length?

use bevy_egui::egui::{Event, Key, Modifiers, MouseWheelUnit, PointerButton, Pos2, TouchPhase, Vec2, pos2, vec2};
use egui_kittest::Harness;
use peewit::app::theme::LEAST;
use peewit::app::{AppCommand, Board, Session, Shown};
use peewit::run::{Scenario, ScenarioFile, read_text};
use peewit::words::cautions::FOOT;

use crate::board_debrief;
use crate::panels::{Stage, stage, texts};
use crate::support::dice::Dice;

/// Presses of one try.
const PRESSES: usize = 60;
/// Widths and heights in points, from the least that the window can be made.
const WIDTHS: [f32; 4] = [LEAST.0, 1280.0, 1366.0, 1920.0];
const HEIGHTS: [f32; 4] = [LEAST.1, 768.0, 1080.0, 1440.0];
const KEYS: [Key; 30] = [
    Key::Tab,
    Key::Enter,
    Key::Escape,
    Key::Space,
    Key::Delete,
    Key::Backspace,
    Key::ArrowLeft,
    Key::ArrowRight,
    Key::ArrowUp,
    Key::ArrowDown,
    Key::Home,
    Key::End,
    Key::PageUp,
    Key::PageDown,
    Key::F1,
    Key::F2,
    Key::F3,
    Key::F5,
    Key::F6,
    Key::F7,
    Key::A,
    Key::D,
    Key::O,
    Key::P,
    Key::R,
    Key::Z,
    Key::Plus,
    Key::Minus,
    Key::Num0,
    Key::Num5,
];

/// What nobody would call anything: long, written from right to left, of pictures, of what steers a terminal, of nothing.
const NAMES: [&str; 5] = [
    "beyond the old hawthorn hedge ",
    "\u{5e9}\u{5d3}\u{5d4} \u{5dc}\u{5d9}\u{5d3} \u{5d4}\u{5d2}\u{5d3}\u{5e8} ",
    "\u{1f426}\u{1f6e9}\u{fe0f}\u{1f469}\u{200d}\u{1f33e}",
    "\u{1b}[31m\u{7}\u{202e}\u{0}",
    "",
];

/// The demo with every name so, whether it may be used like that or not.
fn named(name: &str, times: usize) -> Session {
    let mut file: ScenarioFile = Scenario::demo().file;
    let rename = |old: &mut String| *old = name.repeat(times);
    rename(&mut file.name);
    rename(&mut file.jet.name);
    file.notes.iter_mut().for_each(rename);
    if let Some(field) = &mut file.field {
        field.areas.iter_mut().for_each(|area| rename(&mut area.name));
        field.obstacles.iter_mut().for_each(|obstacle| rename(&mut obstacle.name));
    }
    let text = serde_json::to_string(&file).unwrap();
    Session::read(read_text(&text, None), Some("some.json".into()))
}

#[test]
fn every_board_stands_with_any_names() {
    for (name, times) in [(NAMES[0], 8), (NAMES[0], 330), (NAMES[1], 12), (NAMES[2], 30), (NAMES[3], 6), (NAMES[4], 1)]
    {
        for board in Board::ALL {
            let mut session = named(name, times);
            session.settings.notice_read = true;
            session.apply(AppCommand::Board(board), Shown::default().lens);
            let mut harness = stage(session, [LEAST.0, LEAST.1]);
            harness.run_steps(3);
            harness.set_size(vec2(WIDTHS[3], HEIGHTS[3]));
            harness.run_steps(2);
            assert!(texts(&harness).iter().any(|(text, ..)| text == FOOT), "{board:?}, {name:?} {times} times");
        }
    }
}

fn pointer(dice: &mut Dice, size: Vec2) -> Pos2 {
    #[allow(clippy::cast_possible_truncation, reason = "points of the screen")]
    let mut along = |most: f32| dice.between(0.0, f64::from(most)) as f32;
    pos2(along(size.x), along(size.y))
}

/// One thing that a hand may do.
fn press(harness: &mut Harness<'_, Stage>, dice: &mut Dice) {
    let size = harness.ctx.content_rect().size();
    let at = pointer(dice, size);
    let modifiers = dice.pick(&[Modifiers::NONE, Modifiers::NONE, Modifiers::SHIFT, Modifiers::COMMAND]);
    match dice.pick(&[0, 0, 0, 1, 2, 2, 3, 4, 5]) {
        0 => {
            let button = dice.pick(&[PointerButton::Primary, PointerButton::Primary, PointerButton::Secondary]);
            let click = |pressed| Event::PointerButton { pos: at, button, pressed, modifiers };
            harness.event(Event::PointerMoved(at));
            harness.event(click(true));
            if dice.pick(&[true, false]) {
                harness.run_steps(1);
                harness.event(Event::PointerMoved(pointer(dice, size)));
            }
            harness.event(click(false));
        }
        1 => {
            let delta = vec2(0.0, dice.pick(&[-40.0, -3.0, 3.0, 40.0]));
            harness.event(Event::PointerMoved(at));
            let (unit, phase) = (MouseWheelUnit::Line, TouchPhase::Move);
            harness.event(Event::MouseWheel { unit, delta, phase, modifiers });
        }
        2 => harness.key_press_modifiers(modifiers, dice.pick(&KEYS)),
        3 => harness.event(Event::Text(dice.pick(&["7", "-", "0 m", "ever so long a name", "\u{e9}"]).into())),
        4 => {
            harness.set_size(vec2(dice.pick(&WIDTHS), dice.pick(&HEIGHTS)));
        }
        _ => {
            let stage = harness.state_mut();
            let factor = dice.pick(&[0.01, 0.3, 3.0, 100.0]);
            let command = dice.pick(&[AppCommandKind::Zoom, AppCommandKind::Fit, AppCommandKind::Board]);
            let board = dice.pick(&Board::ALL);
            let lens = stage.lens;
            stage.session.apply(command.of(factor, board), lens);
        }
    }
    harness.run_steps(1);
}

/// What may also be asked for without a hand.
#[derive(Clone, Copy)]
enum AppCommandKind {
    Zoom,
    Fit,
    Board,
}

impl AppCommandKind {
    fn of(self, factor: f64, board: Board) -> AppCommand {
        match self {
            Self::Zoom => AppCommand::Zoom { factor, about: None },
            Self::Fit => AppCommand::Fit,
            Self::Board => AppCommand::Board(board),
        }
    }
}

#[test]
fn the_window_stands_whatever_is_pressed() {
    let debriefed = board_debrief::board();
    for seed in 0..16_u64 {
        let mut dice = Dice::new(seed);
        let mut session = match seed {
            0 | 2 | 4 | 6 => named(NAMES[seed as usize / 2], 6),
            1 | 3 | 5 | 7 => Session::new(Scenario::demo(), Vec::new(), None),
            _ => debriefed.clone(),
        };
        let opened = session.draft.file().clone();
        session.settings.notice_read = seed % 4 != 3;
        let board = dice.pick(&Board::ALL);
        let board = if session.debrief.logs.is_empty() { board } else { Board::Debrief };
        session.apply(AppCommand::Board(board), Shown::default().lens);
        let mut harness = stage(session, [dice.pick(&WIDTHS), dice.pick(&HEIGHTS)]);
        for _ in 0..PRESSES {
            press(&mut harness, &mut dice);
        }
        let told = texts(&harness).into_iter().map(|(text, ..)| text).collect::<Vec<_>>();
        let is_no_number = |word: &str| ["NaN", "inf"].contains(&word);
        let wrong = told.iter().find(|text| text.split(|c: char| !c.is_alphanumeric()).any(is_no_number));
        assert_eq!(wrong, None, "seed {seed}");
        if harness.state().session.settings.notice_read {
            assert!(told.iter().any(|text| text == FOOT), "seed {seed}: the caution is gone");
        }
        // Whatever was done can be undone, down to what was opened.
        while harness.state().session.draft.to_undo().is_some() {
            let lens = harness.state().lens;
            harness.state_mut().session.apply(AppCommand::Undo, lens);
        }
        let is_opened = harness.state().session.draft.file() == &opened || !harness.state().session.draft.is_changed();
        assert!(is_opened, "seed {seed}: undone, it is not what was opened");
    }
}
