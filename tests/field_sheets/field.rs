//! The field sheet: day and months, datum, points and corners.

use bevy_egui::egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use peewit::app::FieldSheet;
use peewit::app::field_board::{Chosen, Part};
use peewit::field::{Month, Rule, RuleName};

use super::{click, enter, file, open, says, undo_words};
use crate::panels::Stage;

fn rule(harness: &Harness<'_, Stage>) -> Rule {
    harness.state().session.flown.as_ref().unwrap().scenario.field.areas[0].rule
}

#[test]
fn the_paddock_turns_on_in_april() {
    let mut harness = open(FieldSheet::Field);
    enter(&mut harness, "day of the flight", "2026-07-01");
    assert_eq!(rule(&harness), Rule::Caution);
    enter(&mut harness, "day of the flight", "2026-04-18");
    assert_eq!(rule(&harness), Rule::NoFly);
    // And the months themselves.
    click(&mut harness, "part goat paddock");
    says(&harness, "This rule holds in Mar to May");
    click(&mut harness, "rule holds in April");
    assert_eq!(rule(&harness), Rule::Caution);
    says(&harness, "caution; seconds over it are counted");
    assert_eq!(undo_words(&harness), Some("set the months of goat paddock"));
    click(&mut harness, "rule holds in April");
    assert_eq!(rule(&harness), Rule::NoFly);
    says(&harness, "On the day of the flight, 2026-04-18: no-fly.");
}

#[test]
fn bearings_are_told_as_a_compass_reads_them_once_the_declination_is_entered() {
    let mut harness = open(FieldSheet::Field);
    super::does_not_say(&harness, "deg magnetic");
    enter(&mut harness, "magnetic declination", "-1.5");
    assert!(file(&harness).field.as_ref().unwrap().magnetic_declination.is_some());
    // The demo's people look due north. By hand: 360 + 1.5 is a degree and a half beyond north.
    says(&harness, "360 deg true, 002 deg magnetic");
    harness
        .state_mut()
        .session
        .apply(peewit::app::AppCommand::Sheet(FieldSheet::Wind), peewit::app::Shown::default().lens);
    harness.run_steps(3);
    says(&harness, "180 deg true, 182 deg magnetic");
    harness
        .state_mut()
        .session
        .apply(peewit::app::AppCommand::Sheet(FieldSheet::Field), peewit::app::Shown::default().lens);
    harness.run_steps(3);
    enter(&mut harness, "magnetic declination", "100");
    says(&harness, "no magnetic declination");
}

#[test]
fn the_last_month_stays_and_all_of_them_are_all_year() {
    let mut harness = open(FieldSheet::Field);
    click(&mut harness, "part goat paddock");
    click(&mut harness, "rule holds in March");
    click(&mut harness, "rule holds in May");
    let months = |harness: &Harness<'_, Stage>| file(harness).field.as_ref().unwrap().areas[0].months.clone();
    assert_eq!(months(&harness), [Month::Apr]);
    let april = harness.get_by_role_and_label(Role::Button, "rule holds in April");
    assert!(april.accesskit_node().is_disabled());
    for month in [
        "January",
        "February",
        "March",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ] {
        click(&mut harness, &format!("rule holds in {month}"));
    }
    assert!(months(&harness).is_empty());
    says(&harness, "This rule holds all year");
}

#[test]
fn a_rule_above_a_height_has_a_height_and_another_has_none() {
    let mut harness = open(FieldSheet::Field);
    click(&mut harness, "part pits and cars");
    let area = |harness: &Harness<'_, Stage>| file(harness).field.as_ref().unwrap().areas[1].clone();
    click(&mut harness, "rule: above a height");
    assert!(area(&harness).height.is_some());
    enter(&mut harness, "least height over it", "100 ft");
    approx::assert_abs_diff_eq!(area(&harness).height.unwrap().m(), 30.48, epsilon = 1e-9);
    click(&mut harness, "rule: no-fly");
    assert_eq!((area(&harness).rule, area(&harness).height), (RuleName::NoFly, None));
    assert!(harness.state().session.is_current());
}

#[test]
fn the_datum_is_typed_in_several_forms_and_shown_back() {
    let mut harness = open(FieldSheet::Field);
    let datum = |harness: &Harness<'_, Stage>| file(harness).field.as_ref().unwrap().datum;
    enter(&mut harness, "datum latitude", "44 30.6 N");
    approx::assert_abs_diff_eq!(datum(&harness).latitude_deg, 44.51, epsilon = 1e-9);
    assert_eq!(super::stands(&harness, "datum latitude"), "44.51\u{b0} N");
    enter(&mut harness, "datum longitude", "30\u{b0} 15' 36\" W");
    approx::assert_abs_diff_eq!(datum(&harness).longitude_deg, -30.26, epsilon = 1e-9);
    enter(&mut harness, "datum latitude", "95");
    says(&harness, "more than 90");
    approx::assert_abs_diff_eq!(datum(&harness).latitude_deg, 44.51, epsilon = 1e-9);
}

#[test]
fn the_four_points_move_one_at_a_time() {
    let mut harness = open(FieldSheet::Field);
    enter(&mut harness, "home east", "12.5");
    enter(&mut harness, "centre north", "-90");
    enter(&mut harness, "pilot north", "-50 ft");
    let field = file(&harness).field.clone().unwrap();
    assert_eq!((field.home_m, field.centre_m), ([12.5, 0.0], Some([0.0, -90.0])));
    // 50 ft are 15.24 m, exactly.
    assert_eq!(field.pilot_m, [0.0, -15.24]);
    harness.get_by_role_and_label(Role::CheckBox, "centre at home").click();
    harness.run_steps(3);
    assert_eq!(file(&harness).field.as_ref().unwrap().centre_m, None);
    says(&harness, "at home, and goes with it");
    harness.get_by_role_and_label(Role::CheckBox, "centre at home").click();
    harness.run_steps(3);
    assert_eq!(file(&harness).field.as_ref().unwrap().centre_m, Some([12.5, 0.0]));
}

#[test]
fn corners_are_typed_added_and_deleted() {
    let mut harness = open(FieldSheet::Field);
    click(&mut harness, "part boundary");
    // By hand: 520 by 460 m.
    says(&harness, "23.92 ha");
    enter(&mut harness, "corner 3 of the boundary east", "300");
    assert_eq!(undo_words(&harness), Some("move corner 3 of the boundary"));
    click(&mut harness, "new corner after 1");
    let ring = |harness: &Harness<'_, Stage>| file(harness).field.as_ref().unwrap().boundary.ring_m.clone();
    assert_eq!(ring(&harness)[..3], [[-260.0, -260.0], [0.0, -260.0], [260.0, -260.0]]);
    click(&mut harness, "delete corner 2");
    assert_eq!(ring(&harness), [[-260.0, -260.0], [260.0, -260.0], [300.0, 200.0], [-260.0, 200.0]]);
}

#[test]
fn parts_are_added_renamed_and_deleted() {
    let mut harness = open(FieldSheet::Field);
    click(&mut harness, "add area");
    let chosen = harness.state().session.field_board.chosen;
    assert_eq!(chosen, Some(Chosen { part: Part::Area(2), corner: None }));
    enter(&mut harness, "area name", "school yard");
    assert_eq!(file(&harness).field.as_ref().unwrap().areas[2].name, "school yard");
    click(&mut harness, "Delete all of school yard");
    assert_eq!(file(&harness).field.as_ref().unwrap().areas.len(), 2);
    click(&mut harness, "add tree or mast");
    enter(&mut harness, "height of its top", "40 ft");
    let tall = file(&harness).field.as_ref().unwrap().obstacles.last().unwrap().clone();
    approx::assert_abs_diff_eq!(tall.height.m(), 12.192, epsilon = 1e-9);
}

#[test]
fn the_way_people_look_is_typed_and_left_to_the_field_again() {
    let mut harness = open(FieldSheet::Field);
    let facing = |harness: &Harness<'_, Stage>| file(harness).field.as_ref().unwrap().facing.map(|way| way.deg());
    enter(&mut harness, "people look", "SW");
    assert_eq!(facing(&harness), Some(225.0));
    says(&harness, "12 o'clock: as the field says.");
    assert_eq!(harness.state().flown().scenario.field.facing.deg(), 225.0);
    enter(&mut harness, "people look", " ");
    assert_eq!(facing(&harness), None);
    says(&harness, "12 o'clock: square across the");
    assert_eq!(undo_words(&harness), Some("set the way people look"));
}
