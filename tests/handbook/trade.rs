//! The demo's jet against what the trade knows of such jets. Every number: common practice, no source.

use peewit::jet::{Entry, JetNumbers, JetSheet, Origin};
use peewit::units::{Charge, Length, Mass, Power, Speed, Time};
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
    let file = crate::support::tight_strip().file;
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
        let mut sheet = crate::support::tight_strip().file.jet;
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
    let strong = numbers(|sheet| {
        let power = sheet.full_power.unwrap();
        sheet.full_power = Some(Entry { value: Power::new(8.0 * power.value.w()), ..power });
    });
    close(strong.thrust_full(0.0), 4.0 * plain.thrust_full(0.0), 1e-12);
    assert!(strong.top_speed() > plain.top_speed());
}

#[test]
fn the_demo_lasts_as_long_as_its_owner_would_measure() {
    let jet = demo_jet();
    // To a fifth of the pack: handbook 12.4. 5 to 9 minutes: judgement, no source.
    let minutes = 0.8 * jet.endurance_s(jet.return_speed) / 60.0;
    assert!((5.0..=9.0).contains(&minutes), "{minutes} min");
    // At full throttle the whole of the rated power, whatever is lost below it.
    let power = jet.power(0.0, jet.thrust_full(0.0)) - jet.avionics;
    close(power, crate::support::tight_strip().file.jet.full_power.unwrap().value.w(), 1e-9);
}

#[test]
fn what_was_measured_is_what_the_jet_draws() {
    let numbers = |edit: &dyn Fn(&mut JetSheet)| {
        let mut sheet = crate::support::tight_strip().file.jet;
        edit(&mut sheet);
        JetNumbers::new(&sheet, isa_density(0.0))
    };
    // From less than drag and fan ask for without any loss to more than the greatest loss explains.
    for watts in [150.0, 300.0, 600.0, 1500.0] {
        let measured = numbers(&|sheet| sheet.return_power = Some(Entry::si(watts, 0.0, Origin::Measured)));
        let speed = measured.return_speed;
        close(measured.power(speed, measured.drag(speed, 1.0, 0.0)), watts, 1e-9);
        close(measured.thrust_full(0.0), demo_jet().thrust_full(0.0), 1e-12);
    }
    // 6 cells of 5 Ah are 111 Wh (handbook 12.5), of which 80 % in 7 min.
    let timed = numbers(&|sheet| sheet.flight_time = Some(Entry::<Time>::si(420.0, 0.0, Origin::Measured)));
    let speed = timed.return_speed;
    close(timed.power(speed, timed.drag(speed, 1.0, 0.0)), 0.8 * 111.0 * 60.0 / 7.0, 1e-9);
}

#[test]
fn more_thrust_always_draws_more_power() {
    let jet = JetNumbers { part_throttle_loss: peewit::jet::MOST_LOSS, ..demo_jet() };
    for speed in [0.0, 10.0, 22.0, 40.0] {
        let most = jet.thrust_full(speed);
        let powers: Vec<f64> = (0..=100).map(|part| jet.power(speed, most * f64::from(part) / 100.0)).collect();
        assert!(powers.windows(2).all(|pair| pair[1] >= pair[0]), "{powers:?}");
    }
}

#[test]
fn full_thrust_falls_with_the_charge() {
    let jet = demo_jet();
    // From 4.2 V full to 3.5 V with a tenth left (handbook 12.1, 12.3); standing thrust goes with the square of the
    // efflux, and that with the voltage (closed form).
    let full = JetNumbers { charge: 1.0, ..jet };
    close(full.thrust_left(0.0, 0.0), full.thrust_full(0.0), 1e-12);
    close(full.thrust_left(0.0, 0.9 * full.pack), full.thrust_full(0.0) * (3.5_f64 / 4.2).powi(2), 1e-9);
    let low = JetNumbers { charge: 0.1, ..jet };
    close(low.thrust_left(0.0, 0.0), full.thrust_left(0.0, 0.9 * full.pack), 1e-12);
}
