//! Plans that teach one failure each, by the limit that fails and why it must.

use peewit::units::{Length, Ratio};

use super::{breaks, crossing, flown, shipped, smallest_m};

#[test]
fn brantop_a_circle_level_with_home_is_too_high_over_falling_ground() {
    // One metre down in three to the west: 80 m above home is 80 + 115 / 3 = 118.3 m over the ground on the west side,
    // 1.7 m under the limit, where the height reference alone is off by 4 m (one deviation).
    let found = breaks("brantop-hill", |_| ());
    assert!(crossing(&found, "height limit over the ground") > 0.3, "{}", found.verdict.in_words());
    // And home against the wind: 17 m/s less 13 are 4.
    let file = shipped("brantop-hill");
    assert!(file.jet.return_speed.value.mps() - file.wind.mean.mps() <= 4.0);
}

#[test]
fn withersedge_the_room_is_less_than_a_calm_takes() {
    // From the middle to path or lane there are 72.5 m; 24 m/s in 35 deg turn on 83.9 m in still air.
    assert!(smallest_m(24.0, 0.0, 35.0) > 72.5);
    for radius in [50.0, 70.0, 90.0, 120.0] {
        breaks("withersedge-reach", |file| file.recovery.radius = Length::new(radius));
    }
}

#[test]
fn ashenhurl_is_too_low_over_the_woods_and_higher_is_clear_of_them() {
    // 40 m less 25 m of trees on a rise of 10 m leave 5 m over the west wood, of 6 m asked for.
    let low = breaks("ashenhurl-clearing", |_| ());
    assert!(crossing(&low, "obstacle: west wood") > 0.1, "{}", low.verdict.in_words());
    let mut file = shipped("ashenhurl-clearing");
    file.recovery.height = Length::new(80.0);
    let circuit = file.field.as_mut().and_then(|field| field.circuit.as_mut()).expect("a circuit");
    (circuit.lowest, circuit.highest) = (Length::new(75.0), Length::new(85.0));
    let high = flown(file);
    assert!(crossing(&high, "obstacle: west wood") == 0.0, "{}", high.verdict.in_words());
}

#[test]
fn twobarn_a_home_in_the_pits_circles_outside() {
    // Home is 65 m from the south edge, the circle 110 m: 45 m outside.
    let found = breaks("twobarn-field", |_| ());
    assert!(crossing(&found, "boundary") > 0.99, "{}", found.verdict.in_words());
    // About (0, 150) nothing lies within 110 m and the buffer but the corner of the pilots' box, 158 m off.
    let mut file = shipped("twobarn-field");
    file.field.as_mut().expect("inline").centre_m = Some([0.0, 150.0]);
    assert!(crossing(&flown(file), "boundary") < 0.01);
}

#[test]
fn whinfarrow_comes_home_with_no_laps_left() {
    let late = breaks("whinfarrow-moor", |_| ());
    assert!(crossing(&late, "energy over reserve") > 0.9, "{}", late.verdict.in_words());
    let mut file = shipped("whinfarrow-moor");
    let circuit = file.field.as_mut().and_then(|field| field.circuit.as_mut()).expect("a circuit");
    (circuit.charge_low, circuit.charge_high) = (Ratio::new(0.9), Ratio::new(0.99));
    assert!(crossing(&flown(file), "energy over reserve") < 0.5);
}
