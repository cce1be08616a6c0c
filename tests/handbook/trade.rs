//! The demo's jet against what the trade knows of such jets. Every number: common practice, no source.

use peewit::jet::{JetNumbers, JetSheet};
use peewit::run::Scenario;
use peewit::units::{Charge, Length, Mass, Power, Speed};
use peewit::wind::isa_density;

use crate::support::{close, demo_jet, si};

#[track_caller]
fn check(found: f64, low: &str, high: &str) {
    let range = si::<Speed>(low)..=si::<Speed>(high);
    assert!(range.contains(&found), "{found} m/s is not in {range:?}");
}

#[test]
fn the_demo_jet_flies_as_such_jets_do() {
    let jet = demo_jet();
    // Lift-off and threshold are taken as 1.3 stall speeds. Common practice, no source.
    check(1.3 * jet.stall_speed(1.0), "35 mph", "40 mph");
    check(1.3 * jet.stall_speed(1.0), "30 mph", "40 mph");
    // A fast pass of about 90 mph is below full throttle. Common practice, no source.
    let pass = si::<Speed>("90 mph");
    assert!(jet.top_speed() > pass, "{} m/s", jet.top_speed());
    assert!(jet.trim_throttle(pass) < 1.0);
    // Half to three fifths of full throttle in level flight. Common practice, no source.
    let trim = jet.trim_throttle(jet.return_speed);
    assert!((0.50..=0.60).contains(&trim), "{trim}");
}

#[test]
fn the_demo_is_the_usual_day() {
    let file = Scenario::demo().file;
    // Six cells, 5000 to 6000 mAh; 2 to 4 kg; about 200 ft. Common practice, no source.
    assert_eq!(file.jet.cells, 6);
    assert!((si::<Charge>("5000 mAh")..=si::<Charge>("6000 mAh")).contains(&file.jet.capacity.value.c()));
    assert!((2.0..=4.0).contains(&file.jet.mass.value.kg()));
    close(file.recovery.height.m(), si::<Length>("200 ft"), 0.2);
}

/// What the tool works out follows from the sheet, so that changing the sheet changes it in the known proportion.
#[test]
fn stall_throttle_and_top_speed_are_worked_out() {
    let numbers = |edit: fn(&mut JetSheet)| {
        let mut sheet = Scenario::demo().file.jet;
        edit(&mut sheet);
        JetNumbers::new(&sheet, isa_density(0.0))
    };
    let plain = numbers(|_| ());
    let heavy = numbers(|sheet| sheet.mass.value = Mass::new(2.0 * sheet.mass.value.kg()));
    // Closed form: speed squared carries weight.
    close(heavy.stall_speed(1.0), 2.0_f64.sqrt() * plain.stall_speed(1.0), 1e-12);
    assert!(heavy.trim_throttle(22.0) > plain.trim_throttle(22.0));
    assert!(heavy.top_speed() < plain.top_speed());
    // Closed form: efflux speed goes with the cube root of power, and standing thrust with its square.
    let strong = numbers(|sheet| sheet.full_power.value = Power::new(8.0 * sheet.full_power.value.w()));
    close(strong.thrust_full(0.0), 4.0 * plain.thrust_full(0.0), 1e-12);
    assert!(strong.top_speed() > plain.top_speed());
}
