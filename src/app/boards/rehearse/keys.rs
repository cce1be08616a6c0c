//! The keyboard while somebody flies: sticks, the drill, the eye.

use bevy_egui::egui::{Key, Ui};

use super::sticks::held;
use crate::app::session::sticks::{KeysHeld, StickCommand};
use crate::app::session::{AppCommand, Gaze, RehearseCommand, StopwatchCommand, View};
use crate::rehearsal::{Deed, Heading, Lean, SeenAttitude, Stage};

/// How quickly the eye turns by the keys, widths of the picture a second.
const TURNS: f64 = 0.7;

/// What keys say which way it flies.
pub(super) const HEADINGS: [(Key, Heading, &str); 4] = [
    (Key::Num1, Heading::Going, "1 going away"),
    (Key::Num2, Heading::Coming, "2 coming"),
    (Key::Num3, Heading::Left, "3 going left"),
    (Key::Num4, Heading::Right, "4 going right"),
];
/// What keys say how it leans.
pub(super) const LEANS: [(Key, Lean, &str); 3] = [
    (Key::Num5, Lean::Level, "5 level"),
    (Key::Num6, Lean::Left, "6 left wing down"),
    (Key::Num7, Lean::Right, "7 right wing down"),
];

/// Turns keys into what they ask for while a flight or the stopwatch has them.
pub(super) fn show(ui: &Ui, view: &View<'_>, out: &mut Vec<AppCommand>) {
    let rehearse = &view.session.rehearse;
    let front = view.session.front.holds() || view.session.front.ask.is_some() || view.session.help.is_some();
    if front || ui.ctx().text_edit_focused() {
        return;
    }
    let mut ask = |command| out.push(AppCommand::Rehearse(command));
    let pressed = |key: Key| ui.input(|input| input.key_pressed(key));
    if rehearse.stopwatch.runs() {
        let_go(ui);
        if pressed(Key::Space) || pressed(Key::Enter) {
            ask(RehearseCommand::Stopwatch(StopwatchCommand::Press));
        }
        if pressed(Key::Escape) {
            ask(RehearseCommand::Stopwatch(StopwatchCommand::GiveUp));
        }
        return;
    }
    let Some(flown) = &rehearse.flying else { return };
    if pressed(Key::Escape) || pressed(Key::P) {
        ask(RehearseCommand::Pause(rehearse.paused.is_none()));
    }
    if rehearse.paused.is_some() {
        // What is held down meanwhile moves nothing.
        ask(RehearseCommand::Sticks(StickCommand::Held(KeysHeld::default())));
        return;
    }
    // Keys fly; a button that was pressed before would take them.
    let_go(ui);
    ask(RehearseCommand::Sticks(StickCommand::Held(held(ui))));
    if pressed(Key::Space) {
        ask(RehearseCommand::Next);
    }
    for (key, deed) in [(Key::R, Deed::Return), (Key::Enter, Deed::TakeOver), (Key::X, Deed::Lose), (Key::E, Deed::End)]
    {
        if pressed(key) && (deed != Deed::Lose || flown.lost_at().is_none()) {
            ask(RehearseCommand::Do(deed));
        }
    }
    for (_, heading, _) in HEADINGS.iter().filter(|(key, ..)| pressed(*key)) {
        ask(RehearseCommand::Heading(*heading));
    }
    if let Some(heading) = rehearse.heading {
        for (_, lean, _) in LEANS.iter().filter(|(key, ..)| pressed(*key)) {
            ask(RehearseCommand::Do(Deed::Say { seen: SeenAttitude { heading, lean: *lean } }));
        }
    }
    if pressed(Key::Num0) && flown.stages().at(Stage::Found).is_none() {
        let Gaze { bearing_deg, elevation_deg, .. } = rehearse.gaze;
        ask(RehearseCommand::Do(Deed::Point { bearing_deg, elevation_deg }));
    }
    if let Some(gaze) = turned(ui, rehearse.gaze) {
        ask(RehearseCommand::Look(gaze));
    }
}

/// Where the keys turn the eye.
fn turned(ui: &Ui, gaze: Gaze) -> Option<Gaze> {
    let (down, dt) = ui.input(|input| (input.keys_down.clone(), f64::from(input.stable_dt.min(0.1))));
    let way = |less: Key, more: Key| f64::from(i8::from(down.contains(&more)) - i8::from(down.contains(&less)));
    let (aside, up, wide) = (way(Key::J, Key::L), way(Key::K, Key::I), way(Key::U, Key::O));
    let by = TURNS * gaze.width_deg * dt;
    ((aside, up, wide) != (0.0, 0.0, 0.0)).then(|| Gaze {
        bearing_deg: gaze.bearing_deg + aside * by,
        elevation_deg: gaze.elevation_deg + up * by,
        width_deg: gaze.width_deg * (wide * dt).exp(),
    })
}

fn let_go(ui: &Ui) {
    ui.memory_mut(|memory| {
        if let Some(id) = memory.focused() {
            memory.surrender_focus(id);
        }
    });
}
