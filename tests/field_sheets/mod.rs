//! Do the sheets of the Field board take what is typed, refuse what can't be, and ask for the edits they should?

mod brief;
mod drawn;
mod field;
mod jet;
mod limits;
mod typing;
mod wind;

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{Key, Shape};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use peewit::app::{AppCommand, Board, FieldSheet, Session, Shown};
use peewit::run::ScenarioFile;

use crate::panels::{Stage, stage};

/// A window high enough for a whole sheet: what is scrolled away can't be pressed.
const TALL: [f32; 2] = [1366.0, 3200.0];

/// The demo with a sheet open.
fn session(sheet: FieldSheet) -> Session {
    let mut session = Session::new(crate::support::tight_strip(), Vec::new(), Some("goatwillow-strip.json".into()));
    let lens = Shown::default().lens;
    session.apply(AppCommand::Board(Board::Field), lens);
    session.apply(AppCommand::Sheet(sheet), lens);
    session
}

fn open(sheet: FieldSheet) -> Harness<'static, Stage> {
    stage(session(sheet), TALL)
}

fn file<'a>(harness: &'a Harness<'_, Stage>) -> &'a ScenarioFile {
    harness.state().session.draft.file()
}

fn undo_words<'a>(harness: &'a Harness<'_, Stage>) -> Option<&'a str> {
    harness.state().session.draft.to_undo()
}

fn press(harness: &mut Harness<'_, Stage>, key: Key) {
    harness.key_press(key);
    harness.run_steps(2);
}

fn click(harness: &mut Harness<'_, Stage>, label: &str) {
    harness.get_by_role_and_label(Role::Button, label).click();
    harness.run_steps(3);
}

/// Puts the keyboard into a box, all of its text chosen, and types.
fn write(harness: &mut Harness<'_, Stage>, label: &str, text: &str) {
    harness.get_by_role_and_label(Role::TextInput, label).focus();
    harness.run_steps(2);
    harness.event(bevy_egui::egui::Event::Text(text.into()));
    harness.run_steps(2);
}

/// Types into a box and takes it with Enter.
pub(crate) fn enter(harness: &mut Harness<'_, Stage>, label: &str, text: &str) {
    write(harness, label, text);
    press(harness, Key::Enter);
}

/// What stands in a box.
fn stands(harness: &Harness<'_, Stage>, label: &str) -> String {
    let node = harness.get_by_role_and_label(Role::TextInput, label);
    node.accesskit_node().value().unwrap_or_default()
}

fn shapes(harness: &Harness<'_, Stage>) -> Vec<Shape> {
    let mut found = Vec::new();
    let mut open: Vec<Shape> = harness.output().shapes.iter().map(|clipped| clipped.shape.clone()).collect();
    while let Some(shape) = open.pop() {
        match shape {
            Shape::Vec(more) => open.extend(more),
            shape => found.push(shape),
        }
    }
    found
}

/// Every text on the screen.
fn words(harness: &Harness<'_, Stage>) -> String {
    let texts = shapes(harness).into_iter().filter_map(|shape| match shape {
        Shape::Text(text) => Some(text.galley.text().to_owned() + "\n"),
        _ => None,
    });
    texts.collect()
}

#[track_caller]
pub(crate) fn says(harness: &Harness<'_, Stage>, text: &str) {
    let all = words(harness);
    assert!(all.contains(text), "\"{text}\" is not on the screen:\n{all}");
}

#[track_caller]
fn does_not_say(harness: &Harness<'_, Stage>, text: &str) {
    assert!(!words(harness).contains(text), "\"{text}\" is on the screen");
}
