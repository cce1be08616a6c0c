//! Boxes: any unit, what is refused, what is kept, and the keyboard alone.

use bevy_egui::egui::Key;
use bevy_egui::egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use peewit::app::{AppCommand, FieldSheet, Units};

use super::{click, does_not_say, enter, file, open, press, says, stands, undo_words, write};

#[test]
fn knots_typed_into_a_box_of_metres_a_second_are_taken() {
    let mut harness = open(FieldSheet::Wind);
    write(&mut harness, "mean wind", "15kt");
    says(&harness, "= 7.717 m/s");
    press(&mut harness, Key::Enter);
    // 1 kt is 1852/3600 m/s, exactly (ISO 80000-3).
    approx::assert_abs_diff_eq!(file(&harness).wind.mean.mps(), 15.0 * 1852.0 / 3600.0, epsilon = 1e-9);
    assert_eq!(undo_words(&harness), Some("set the mean wind"));
    assert_eq!(stands(&harness, "mean wind"), "7.717 m/s");
}

#[test]
fn a_bare_number_is_in_the_unit_that_the_person_has_chosen_and_a_comma_is_a_point() {
    let mut harness = open(FieldSheet::Wind);
    let mut settings = harness.state().session.settings.clone();
    settings.units = Units { wind: peewit::app::Pair { first: "kt".into(), second: "m/s".into() }, ..settings.units };
    let lens = harness.state().lens;
    harness.state_mut().session.apply(AppCommand::Settings(Box::new(settings)), lens);
    harness.run_steps(2);
    enter(&mut harness, "mean wind", "12,5");
    approx::assert_abs_diff_eq!(file(&harness).wind.mean.mps(), 12.5 * 1852.0 / 3600.0, epsilon = 1e-9);
    assert_eq!(stands(&harness, "mean wind"), "12.5 kt");
}

#[test]
fn what_can_not_be_read_is_said_kept_and_put_back_with_escape() {
    let mut harness = open(FieldSheet::Wind);
    let before = file(&harness).clone();
    write(&mut harness, "mean wind", "15 kg");
    says(&harness, "\"kg\" is not a unit of speed");
    press(&mut harness, Key::Tab);
    assert_eq!(file(&harness), &before);
    assert_eq!(stands(&harness, "mean wind"), "15 kg");
    says(&harness, "\"kg\" is not a unit of speed");
    // Fixed in place.
    enter(&mut harness, "mean wind", "5");
    assert_eq!(file(&harness).wind.mean.mps(), 5.0);
    does_not_say(&harness, "is not a unit");
    // Or given up, with the key or with the button.
    write(&mut harness, "mean wind", "windy");
    press(&mut harness, Key::Escape);
    assert_eq!(stands(&harness, "mean wind"), "5 m/s");
    write(&mut harness, "mean wind", "windy");
    press(&mut harness, Key::Tab);
    click(&mut harness, "put mean wind back");
    assert_eq!(stands(&harness, "mean wind"), "5 m/s");
    assert_eq!(file(&harness).wind.mean.mps(), 5.0);
}

#[test]
fn leaving_a_box_takes_what_was_typed_and_one_step_back_undoes_it() {
    let mut harness = open(FieldSheet::Wind);
    let before = file(&harness).clone();
    write(&mut harness, "measured at", "30 ft");
    press(&mut harness, Key::Tab);
    approx::assert_abs_diff_eq!(file(&harness).wind.measured_at.m(), 9.144, epsilon = 1e-9);
    let lens = harness.state().lens;
    harness.state_mut().session.apply(AppCommand::Undo, lens);
    harness.run_steps(2);
    assert_eq!(file(&harness), &before);
    assert_eq!(stands(&harness, "measured at"), "70 m");
}

#[test]
fn a_box_that_is_only_looked_at_changes_nothing() {
    let mut harness = open(FieldSheet::Wind);
    enter(&mut harness, "mean wind", "15kt");
    let before = file(&harness).clone();
    harness.get_by_role_and_label(Role::TextInput, "mean wind").focus();
    harness.run_steps(2);
    press(&mut harness, Key::Enter);
    press(&mut harness, Key::Tab);
    assert_eq!(file(&harness), &before, "the four figures shown must not take the place of the value");
}

#[test]
fn arrow_keys_step_and_a_run_of_them_is_one_step_back() {
    let mut harness = open(FieldSheet::Wind);
    let before = file(&harness).clone();
    harness.get_by_role_and_label(Role::TextInput, "mean wind").focus();
    harness.run_steps(2);
    for key in [Key::ArrowUp, Key::ArrowUp, Key::ArrowUp, Key::ArrowDown] {
        press(&mut harness, key);
    }
    approx::assert_abs_diff_eq!(file(&harness).wind.mean.mps(), 6.2, epsilon = 1e-9);
    assert_eq!(stands(&harness, "mean wind"), "6.2 m/s");
    let lens = harness.state().lens;
    harness.state_mut().session.apply(AppCommand::Undo, lens);
    assert_eq!(file(&harness), &before);
}

#[test]
fn a_number_that_makes_no_sense_is_taken_and_its_fault_stands_below_it() {
    let mut harness = open(FieldSheet::Wind);
    enter(&mut harness, "wind in the gusts", "2");
    assert_eq!(file(&harness).wind.gust().mps(), 2.0);
    says(&harness, "is below the mean");
    let _ = harness.get_by_role_and_label(Role::Button, "Wind sheet: 1 error to fix");
}

#[test]
fn the_keyboard_alone_walks_through_the_boxes_of_a_sheet() {
    let mut harness = open(FieldSheet::Wind);
    let focused = |harness: &egui_kittest::Harness<'_, crate::panels::Stage>| {
        let boxes = harness.get_all_by_role(Role::TextInput);
        boxes.into_iter().find(|node| node.is_focused()).and_then(|node| node.accesskit_node().label())
    };
    harness.get_by_role_and_label(Role::TextInput, "mean wind").focus();
    harness.run_steps(2);
    let mut walked = Vec::new();
    for text in ["4", "7", "SSW", "2"] {
        walked.extend(focused(&harness));
        harness.event(bevy_egui::egui::Event::Text(text.into()));
        harness.run_steps(2);
        // Past the mark that explains the next one.
        press(&mut harness, Key::Tab);
        for _ in 0..3 {
            if focused(&harness).is_none() {
                press(&mut harness, Key::Tab);
            }
        }
    }
    assert_eq!(walked, ["mean wind", "wind in the gusts", "blows FROM", "measured at"]);
    let wind = &file(&harness).wind;
    assert_eq!((wind.mean.mps(), wind.gust().mps(), wind.from.deg(), wind.measured_at.m()), (4.0, 7.0, 202.5, 2.0));
}
