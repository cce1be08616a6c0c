//! The jet sheet: whose numbers they are, and what follows from them.

use bevy_egui::egui::Shape;
use bevy_egui::egui::accesskit::{Role, Toggled};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use peewit::app::{AppCommand, FieldSheet, FileCommand};
use peewit::jet::Origin;

use super::{click, enter, file, open, says, shapes, undo_words};
use crate::panels::Stage;

/// Line segments and rectangles, as the frames are made of.
fn frames(harness: &Harness<'_, Stage>) -> (usize, usize) {
    let shapes = shapes(harness);
    let dashes = shapes.iter().filter(|shape| matches!(shape, Shape::LineSegment { .. })).count();
    let thick = shapes.iter().filter(|shape| matches!(shape, Shape::Rect(rect) if rect.stroke.width == 2.5)).count();
    (dashes, thick)
}

#[test]
fn what_is_not_measured_yet_is_counted_and_look_different() {
    let mut harness = open(FieldSheet::Jet);
    let jet = serde_json::to_value(&file(&harness).jet).unwrap();
    let origins: Vec<&str> = jet.as_object().unwrap().values().filter_map(|entry| entry["origin"].as_str()).collect();
    let unmeasured = origins.iter().filter(|origin| **origin == "default").count();
    says(&harness, &format!("{unmeasured} of {} numbers are not measured yet", origins.len()));
    let (dashes, heavy) = frames(&harness);
    click(&mut harness, "origin of mass: default");
    assert_eq!(file(&harness).jet.mass.origin, Origin::Default);
    assert_eq!(undo_words(&harness), Some("set the mass"));
    says(&harness, &format!("{} of {} numbers are not measured yet", unmeasured + 1, origins.len()));
    let after = frames(&harness);
    assert!(after.0 > dashes + 20 && after.1 + 1 == heavy, "{dashes} {heavy} to {after:?}");
    click(&mut harness, "origin of mass: estimated");
    assert_eq!(file(&harness).jet.mass.origin, Origin::Estimated);
    let estimated = frames(&harness);
    assert!(estimated.0 < after.0 && estimated.1 == after.1, "neither dashed nor heavy");
}

#[test]
fn a_number_typed_in_place_of_nobodys_is_an_estimate_until_somebody_says_more() {
    let mut harness = open(FieldSheet::Jet);
    assert_eq!(file(&harness).jet.fan_lag.origin, Origin::Default);
    enter(&mut harness, "fan spin-up", "500 ms");
    let lag = file(&harness).jet.fan_lag;
    assert_eq!((lag.value.s(), lag.origin), (0.5, Origin::Estimated));
    enter(&mut harness, "spread of mass", "50 g");
    let mass = file(&harness).jet.mass;
    assert_eq!((mass.spread.kg(), mass.origin), (0.05, Origin::Measured));
}

#[test]
fn what_follows_from_the_numbers_follows_at_once() {
    let mut harness = open(FieldSheet::Jet);
    // job.md 10, airframe B: 1.75 kg, 0.19 m2, CLmax 1.00, 22 m/s, 35 deg: stalls at 12.1 m/s, smallest circle 70 m.
    enter(&mut harness, "mass", "1750 g");
    enter(&mut harness, "wing area", "19 dm2");
    says(&harness, "12.1 m/s");
    says(&harness, "70.5 m");
    // A stall speed as flown takes the place of the lift coefficient.
    harness.get_by_role_and_label(Role::CheckBox, "Stall speed is known").click();
    harness.run_steps(3);
    enter(&mut harness, "stall speed as flown", "11");
    let jet = &file(&harness).jet;
    assert_eq!((jet.stall_speed.unwrap().value.mps(), jet.lift_max), (11.0, None));
    says(&harness, "11 m/s");
    // By hand: 2 * 1.75 * 9.80665 / (1.225 * 0.19 * 121) = 1.2187.
    approx::assert_abs_diff_eq!(jet.whole().lift_max.unwrap().value, 1.2187, epsilon = 1e-3);
}

#[test]
fn a_class_of_jet_is_started_from_with_the_mass_that_is_there() {
    let mut harness = open(FieldSheet::Jet);
    enter(&mut harness, "mass", "4 kg");
    harness.get_by_label_contains("Typical values by size").click();
    harness.run_steps(12);
    click(&mut harness, "typical values: fast");
    let jet = &file(&harness).jet;
    // The class stalls at 14.5 m/s with 1.9 kg: 14.5 (4 / 1.9)^(1/6) = 16.4 (closed form).
    assert_eq!((jet.mass.value.kg(), jet.stall_speed.unwrap().value.mps()), (4.0, 16.4));
    assert_eq!(undo_words(&harness), Some("start from the jet class fast"));
}

#[test]
fn a_jet_that_was_kept_is_taken_over_with_one_press_and_one_step_back() {
    let mut harness = open(FieldSheet::Jet);
    click(&mut harness, "Keep this jet");
    assert!(harness.state().asked.contains(&AppCommand::File(FileCommand::KeepJet)));
    let before = file(&harness).jet.clone();
    let mut other = peewit::run::airframe_classes()[2].sheet(peewit::units::Mass::new(5.0));
    other.name = "Big Bertha".into();
    harness.state_mut().session.jets.kept = vec![other.clone()];
    harness.run_steps(2);
    says(&harness, "5.0 kg, returns at");
    click(&mut harness, "my jet: Big Bertha");
    assert_eq!(file(&harness).jet, other);
    assert_eq!(undo_words(&harness), Some("take over my jet Big Bertha"));
    harness.state_mut().session.apply(AppCommand::Undo, peewit::app::Shown::default().lens);
    assert_eq!(file(&harness).jet, before);
    harness.run_steps(2);
    click(&mut harness, "remove my jet Big Bertha");
    let asked = AppCommand::File(FileCommand::DropJet("Big Bertha".into()));
    assert!(harness.state().asked.contains(&asked));
}

#[test]
fn a_wrong_number_is_faulted_below_its_box() {
    let mut harness = open(FieldSheet::Jet);
    enter(&mut harness, "maximum bank", "80");
    says(&harness, "makes no sense here");
    says(&harness, "Write angle between 5 deg and 60 deg");
}

#[test]
fn what_people_measure_of_the_battery_takes_the_place_of_an_efficiency() {
    let mut harness = open(FieldSheet::Jet);
    for label in
        ["Power at the return speed was measured", "Time of flight was measured", "Cold pack: 15 % less energy"]
    {
        let node = harness.get_by_role_and_label(Role::CheckBox, label);
        assert_eq!(node.accesskit_node().toggled(), Some(Toggled::False), "{label}");
        node.click();
        harness.run_steps(3);
    }
    let jet = &file(&harness).jet;
    let (power, time) = (jet.return_power.unwrap(), jet.flight_time.unwrap());
    assert_eq!((power.origin, time.origin, jet.cold), (Origin::Estimated, Origin::Estimated, true));
    // Both begin with what the sheet amounts to, which was warm: 80 % of 6 cells of 3.7 V and 5 Ah.
    approx::assert_relative_eq!(power.value.w() * time.value.s(), 0.8 * 6.0 * 3.7 * 18_000.0, max_relative = 0.01);
    enter(&mut harness, "power at return speed", "600");
    enter(&mut harness, "flight until a fifth is left", "8 min");
    let jet = &file(&harness).jet;
    assert_eq!((jet.return_power.unwrap().value.w(), jet.flight_time.unwrap().value.s()), (600.0, 480.0));
    assert_eq!(undo_words(&harness), Some("set the time of flight"));
    harness.get_by_role_and_label(Role::CheckBox, "Time of flight was measured").click();
    harness.run_steps(3);
    assert_eq!(file(&harness).jet.flight_time, None);
}
