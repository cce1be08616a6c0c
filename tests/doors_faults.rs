//! Every kind of fault a scenario can have: one change to the demo each, and what is said about it where.

use peewit::error::Severity;
use serde_json::{Value, json};

use crate::doors::{DEMO, expect, fine, read_value, set};

/// One change to the demo, and the one fault it must give.
#[track_caller]
fn check(place: &str, value: Value, severity: Severity, fault_place: &str, says: &str) {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, place, value);
    expect(&demo, severity, fault_place, says);
}

#[track_caller]
fn error(place: &str, value: Value, says: &str) {
    check(place, value, Severity::Error, place, says);
}

#[track_caller]
fn error_at(place: &str, value: Value, fault_place: &str, says: &str) {
    check(place, value, Severity::Error, fault_place, says);
}

#[track_caller]
fn warning(place: &str, value: Value, says: &str) {
    check(place, value, Severity::Warning, place, says);
}

#[track_caller]
fn warning_at(place: &str, value: Value, fault_place: &str, says: &str) {
    check(place, value, Severity::Warning, fault_place, says);
}

#[test]
fn quantities_without_a_fitting_unit() {
    error("/recovery/radius", json!("115"), "\"115\" has no unit. Length takes m, ft, km");
    error("/recovery/radius", json!(115), "\"115\" has no unit. Length takes m, ft, km");
    error("/recovery/radius", json!("115 kg"), "\"kg\" is not a unit of length");
    error("/recovery/radius", json!("wide"), "does not start with a number");
    error("/recovery/radius", json!("1e999 m"), "too large");
    error("/recovery/radius", json!("1,150 m"), "thousands");
    error("/recovery/radius", json!(true), "true stands where text is wanted");
    error("/jet/mass/value", json!(2.1), "Mass takes kg, g");
    error("/wind/from", json!(180), "Angle takes deg, rad, or write a point of the compass");
    error("/wind/from", json!("southish"), "point of the compass");
    error("/jet/cells", json!("six"), "a whole number");
    error("/jet/cells", json!(5.5), "a whole number");
    error("/jet/cells", json!(-1), "too small");
    error("/jet/cells", json!(5_000_000_000_u64), "too large");
    error("/jet/mass", json!("2.1 kg"), "{ \"value\": ..., \"spread\"");
    error("/seed", json!(-4), "too small");
    error("/wind/turbulence", json!("yes"), "true or false");
}

#[test]
fn keys_and_words_that_are_not_known() {
    error("/recovery/radios", json!("115 m"), "Did you mean \"radius\"?");
    error("/knob", json!(1), "\"knob\" is not a key");
    error("/field/areas/0/colour", json!("red"), "is not a key");
    error(
        "/recovery/failsafe_action",
        json!("retrun"),
        "Did you mean \"return\"? Write one of: return, wait-then-cut, cut",
    );
    error("/field/areas/0/rule", json!(3), "is not one of the words");
    error("/field/areas/0/months/0", json!("march"), "Did you mean \"mar\"?");
    error("/limits/height_limit", json!(null), "Leave the key out");
    error("/field/home_m", json!([0]), "1 numbers where a position has 2");
    error("/field/home_m", json!([0, 0, 0]), "3 numbers where a position has 2");
    error("/field/home_m", json!("peg"), "a list is wanted");
    error("/field", json!([]), "an object is wanted");
}

#[test]
fn rings_that_are_no_rings() {
    let ring = "/field/boundary/ring_m";
    error_at(
        ring,
        json!([[-260, -260], [260, 200], [260, -260], [-260, 200]]),
        "/field/boundary/ring_m/0",
        "from corner 0 to 1 meets the edge from corner 2 to 3 at (0.0, -30.0) m",
    );
    error_at(
        ring,
        json!([[-99, -99], [99, -99], [99, 99], [0, -99], [-99, 99]]),
        "/field/boundary/ring_m/0",
        "meets the edge",
    );
    error_at(
        ring,
        json!([[-99, -99], [99, -99], [99, 99], [99, -20], [-99, 99]]),
        "/field/boundary/ring_m/1",
        "meets the edge from corner 2 to 3",
    );
    error(ring, json!([[0, 0], [10, 0]]), "2 different corners");
    error(ring, json!([[0, 0], [10, 0], [0, 0], [10, 0]]), "2 different corners");
    error(ring, json!([]), "0 different corners");
    error(ring, json!([[0, 0], [10, 10], [20, 20], [5, 5]]), "no area");
    error_at(ring, json!([[0, 0], [30_000, 0], [0, 200]]), "/field/boundary/ring_m/1", "30 km from the datum");
    error(ring, json!(vec![[1.0, 2.0]; 12_000]), "12000 corners");
    error("/field/areas/0/ring_m", json!([[0, 0], [10, 0]]), "2 different corners");
    error("/field/obstacles/1/ring_m", json!([[0, 0], [10, 0]]), "2 different corners");
    warning_at("/field/areas/1/ring_m", json!([[900, 0], [950, 0], [950, 50]]), "/field/areas/1", "wholly outside");
}

#[test]
fn closed_and_clockwise_rings_are_fine() {
    for ring in [
        json!([[-260, -260], [260, -260], [260, 200], [-260, 200], [-260, -260]]),
        json!([[-260, 200], [260, 200], [260, -260], [-260, -260]]),
        json!([[-260, 200], [260, 200], [260, 200], [260, -260], [-260, -260]]),
    ] {
        let mut demo: Value = serde_json::from_str(DEMO).unwrap();
        set(&mut demo, "/field/boundary/ring_m", ring);
        fine(&demo);
    }
}

#[test]
fn holes_that_are_no_holes() {
    let holes = "/field/boundary/holes_m";
    let square = |x: f64, y: f64, side: f64| json!([[x, y], [x + side, y], [x + side, y + side], [x, y + side]]);
    error_at(holes, json!([square(400.0, 0.0, 20.0)]), "/field/boundary/holes_m/0", "not wholly inside");
    error_at(holes, json!([square(250.0, 0.0, 20.0)]), "/field/boundary/holes_m/0", "not wholly inside");
    error_at(holes, json!([square(240.0, 0.0, 20.0)]), "/field/boundary/holes_m/0", "along the edge");
    error_at(
        holes,
        json!([square(150.0, 0.0, 20.0), square(160.0, 10.0, 20.0)]),
        "/field/boundary/holes_m/1",
        "overlaps hole 0",
    );
    error_at(holes, json!([[[100, 0], [110, 0]]]), "/field/boundary/holes_m/0", "2 different corners");
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, holes, json!([square(150.0, 0.0, 20.0), square(180.0, 10.0, 20.0)]));
    fine(&demo);
}

#[test]
fn points_out_of_place() {
    error("/field/home_m", json!([261, 0]), "home lies outside");
    warning("/field/centre_m", json!([0, 201]), "centre lies outside");
    error("/field/centre_m", json!([44.0, 300_000.0]), "300 km from the datum");
    error("/field/pilot_m", json!([1e9, 0]), "from the datum");
    error("/field/datum", json!({ "latitude_deg": -130.0, "longitude_deg": 44.0 }), "look swapped");
    error_at("/field/datum/latitude_deg", json!(95), "/field/datum", "swapped");
    error("/field/datum/latitude_deg", json!(89.9), "out of range");
    error("/field/datum/longitude_deg", json!(200), "out of range");
    // The pilot position may be anywhere.
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, "/field/pilot_m", json!([0, -300]));
    fine(&demo);
}

#[test]
fn things_in_a_field_that_make_no_sense() {
    error("/field/areas/1/name", json!("goat paddock"), "already the name of area 0");
    error("/field/areas/1/name", json!(" "), "has no name");
    error("/field/obstacles/1/name", json!("lone oak"), "already the name of obstacle 0");
    error_at("/field/areas/1/rule", json!("above"), "/field/areas/1", "has no height");
    error_at("/field/areas/0/otherwise", json!("above"), "/field/areas/0", "has no height");
    warning("/field/areas/1/height", json!("60 m"), "no meaning");
    error("/field/obstacles/0/height", json!("0 m"), "not above the ground");
    error("/field/obstacles/0/height", json!("-3 m"), "not above the ground");
    error_at(
        "/field/obstacles/0/ring_m",
        json!([[0, 0], [9, 0], [9, 9]]),
        "/field/obstacles/0",
        "both a point and a ring",
    );
    error_at("/field/obstacles/1/ring_m", json!([]), "/field/obstacles/1", "nowhere");
    warning_at("/field/areas", json!([]), "/field/pilot_m", "nobody is drawn but the pilot");
    warning("/limits/people_buffer", json!("10 m"), "less is asked for off people");
    warning("/field/areas/1/otherwise", json!("no-fly"), "never holds");
    warning("/field/areas/0/months", json!(["mar", "mar"]), "twice");
    warning_at("/field/areas/0/otherwise", json!("no-fly"), "/field/areas/0/months", "no meaning");
    error("/field/flight_line_m", json!([[5, 5], [5, 5]]), "no length");
    error("/field/flight_line_m", json!([[-50, -12], [50, -12]]), "the pilot position lies on");
    warning("/field/flight_line_m", json!([[-50, 30], [50, 30]]), "centre lies on the pilots' side");
    error("/field/flight_line_m", json!([[-50, 30]]), "1 entries where 2 are wanted");
    error_at("/field/runway/to_m", json!([-85, 4]), "/field/runway", "no length");
    error("/field/runway/width", json!("0 m"), "0 m wide");
    error_at("/field/ground", json!([{ "at_m": [0, 0] }]), "/field/ground/0", "missing");
    let spot = |x: i32, height: &str| json!({ "at_m": [x, 0], "height": height });
    error_at("/field/ground", json!([spot(0, "1 m"), spot(0, "2 m")]), "/field/ground/1", "at the same place");
    error_at("/field/ground", json!([spot(0, "5 km")]), "/field/ground/0/height", "no height above the datum");
    error_at("/field/ground", json!([spot(50_000, "5 m")]), "/field/ground/0/at_m", "from the datum");
}

#[test]
fn numbers_that_make_no_sense() {
    error("/peewit", json!(2), "this program reads format 1");
    warning("/name", json!(""), "no name");
    error("/date", json!("2026-02-29"), "not a day of the calendar");
    error("/date", json!("18 April"), "not a day of the calendar");
    for (place, value) in [
        ("/jet/mass/value", "0 kg"),
        ("/jet/mass/value", "2100 kg"),
        ("/jet/wing_area/value", "-1 m2"),
        ("/jet/span/value", "110 m"),
        ("/jet/nozzle_area/value", "47 m2"),
        ("/jet/full_power/value", "0 W"),
        ("/jet/fan_efficiency/value", "150 %"),
        ("/jet/capacity/value", "0 mAh"),
        ("/jet/maximum_bank/value", "4 deg"),
        ("/jet/maximum_bank/value", "61 deg"),
        ("/jet/roll_lag/value", "6 s"),
        ("/jet/roll_rate/value", "0 deg/s"),
        ("/jet/climb_limit/value", "90 deg"),
        ("/jet/return_speed/value", "0 m/s"),
        ("/wind/mean", "-1 m/s"),
        ("/wind/measured_at", "0 m"),
        ("/loss/height", "0 m"),
        ("/loss/speed", "0 m/s"),
        ("/loss/charge", "170 %"),
        ("/recovery/radius", "0 m"),
        ("/recovery/radius", "-60 m"),
        ("/recovery/radius", "60 km"),
        ("/recovery/height", "0 m"),
        ("/recovery/turn_above", "-1 m"),
        ("/recovery/wait", "-5 s"),
        ("/recovery/drift_bank", "80 deg"),
        ("/limits/buffer", "-1 m"),
        ("/limits/people_buffer", "-1 m"),
        ("/limits/height_buffer", "-1 m"),
        ("/limits/height_limit/height", "0 m"),
        ("/limits/reserve", "101 %"),
        ("/limits/stall_over", "0 s"),
        ("/limits/crossed_at_most", "60 %"),
        ("/limits/kept_at_least", "100 %"),
        ("/limits/home_within", "0 s"),
        ("/limits/visibility", "0 m"),
        ("/limits/smallest_angle", "0 deg"),
    ] {
        error(place, json!(value), "makes no sense here. Write");
    }
    for (place, value) in [
        ("/jet/lift_max/value", 0.0),
        ("/jet/span_efficiency/value", 7.0),
        ("/recovery/laps", 0.1),
        ("/recovery/laps", 21.0),
        ("/limits/stall_factor", 0.9),
        ("/limits/stall_factor_moment", 0.9),
        ("/limits/laps_to_reserve", -1.0),
        ("/wind/exponent_high", 1.5),
    ] {
        error(place, json!(value), "makes no sense here. Write a number between");
    }
    error_at(
        "/recovery/perception",
        json!({ "fix_rate": "0.5 Hz" }),
        "/recovery/perception/fix_rate",
        "1 Hz and 50 Hz",
    );
    error_at("/recovery/perception", json!({ "delay": "0.8 s" }), "/recovery/perception/delay", "0 s and 0.7 s");
    error("/jet/mass/spread", json!("-1 kg"), "a spread of -1 kg");
    warning("/jet/mass/spread", json!("1.5 kg"), "more than half the value");
}

#[test]
fn numbers_that_do_not_fit_each_other() {
    error("/wind/gust", json!("5 m/s"), "below the mean, 6 m/s");
    error("/wind/exponent_low", json!(0.3), "above the highest, 0.2");
    let log = json!({ "mean": "6 m/s", "gust": "9 m/s", "from": "S", "profile": "log", "measured_at": "0.5 m", "roughness": "1 m" });
    error_at("/wind", log, "/wind/measured_at", "log law");
    error("/wind/exponent_high", json!(0.1), "the lowest exponent, 0.14, is above the highest, 0.1. Write both");
    let silent = json!({ "mean": "6 m/s", "from": "S", "measured_at": "2 m" });
    let says = "nobody reported a gust: taken as 1.5 times the mean, 9.0 m/s";
    check("/wind", silent, Severity::Warning, "/wind/gust", says);
    error_at("/air", json!({ "temperature": "300 C" }), "/air/temperature", "makes no sense");
    error_at("/air", json!({ "pressure": "29.92 hPa" }), "/air/pressure", "makes no sense");
    error_at("/air", json!({ "temperature": "25" }), "/air/temperature", "Temperature takes C, F, K");
    // Thin air, at 2000 m and 35 C: the standard has 79495 Pa there, 79495 / (287.05287 * 308.15) = 0.8987 kg/m3, and
    // sqrt(2 * 2.1 * 9.80665 / (0.8987 * 0.228)) = 14.2 m/s.
    let mut high: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut high, "/air", json!({ "elevation": "2000 m", "temperature": "35 C" }));
    set(&mut high, "/jet/return_speed/value", json!("13 m/s"));
    expect(&high, Severity::Warning, "/jet/return_speed/value", "stalls at 14.2 m/s");
    // The demo's jet stalls at sqrt(2 * 2.1 * 9.80665 / (1.225 * 0.228 * 1.0)) = 12.1 m/s.
    warning("/jet/return_speed/value", json!("12 m/s"), "stalls at 12.1 m/s");
    warning("/loss/speed", json!("11 m/s"), "below its stall speed");
    warning("/loss/at_m", json!([261, 0]), "outside the boundary");
    error("/loss/at_m", json!([44_000, 30]), "20 km");
    warning("/loss/charge", json!("20 %"), "no more than the reserve");
    warning("/recovery/authorised_by", json!(" "), "nobody is named");
    warning("/limits/stall_factor_moment", json!(1.4), "1.4, than a speed that is held, 1.3");
}

#[test]
fn a_key_that_is_not_known_hides_no_other_fault() {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, "/jet/maximum_bankk", json!("35 deg"));
    set(&mut demo, "/jet/avionics_power/value", json!("900 W"));
    set(&mut demo, "/brief/landmark", json!([]));
    set(&mut demo, "/brief/hours/from", json!("25:00"));
    set(&mut demo, "/brief/signed/0/on", json!("yesterday"));
    let mut places: Vec<String> = read_value(&demo).into_iter().map(|fault| fault.place).collect();
    places.sort();
    let expected = [
        "/brief/hours/from",
        "/brief/landmark",
        "/brief/signed/0/on",
        "/field/pilot_m",
        "/jet/avionics_power/value",
        "/jet/maximum_bankk",
    ];
    assert_eq!(places, expected);
}

/// A sheet with some keys of the jet put in and some taken out, and what is wrong with it.
#[track_caller]
fn jet_error(put: &[(&str, Value)], out: &[&str], place: &str, says: &str) {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    let jet = demo["jet"].as_object_mut().unwrap();
    out.iter().for_each(|key| drop(jet.shift_remove(*key)));
    for (key, value) in put {
        jet.insert((*key).into(), json!({ "value": value, "spread": value, "origin": "measured" }));
    }
    expect(&demo, Severity::Error, place, says);
}

#[test]
fn what_people_know_of_a_jet_is_entered_once_and_does_not_contradict_itself() {
    let (stall, top, climb) = ("stall_speed", "top_speed", "climb");
    let fast = |speed: &str| (top, json!(speed));
    for (key, value, out) in [
        (stall, "0.5 m/s", "lift_max"),
        (stall, "80 m/s", "lift_max"),
        (top, "1 m/s", "drag_zero_lift"),
        (top, "400 mph", "drag_zero_lift"),
        (climb, "0 m/s", "fan_efficiency"),
        (climb, "200 m/s", "fan_efficiency"),
    ] {
        jet_error(&[(key, json!(value))], &[out], &format!("/jet/{key}/value"), "makes no sense here. Write");
    }
    // Twice: what is worked out is entered too.
    jet_error(&[(stall, json!("12 m/s"))], &[], "/jet/lift_max", "Take lift_max out; or stall_speed");
    jet_error(&[fast("41 m/s")], &[], "/jet/drag_zero_lift", "Take drag_zero_lift out; or top_speed");
    jet_error(&[(climb, json!("8 m/s"))], &[], "/jet/fan_efficiency", "Take fan_efficiency out; or climb");
    // 2.1 kg on 0.228 m2: at 5 m/s a coefficient of 5.9, without a wing at 3 m/s 3.7 m2, at 2 m/s 8.4 m2 (closed form).
    jet_error(&[(stall, json!("5 m/s"))], &["lift_max"], "/jet/stall_speed/value", "coefficient of 5.90");
    jet_error(&[(stall, json!("2 m/s"))], &["lift_max", "wing_area"], "/jet/stall_speed/value", "a wing of 8.406 m2");
    // It stalls at 12.1 m/s; its fan's efflux is 69 m/s; at 14 m/s it would have to be a parachute.
    jet_error(&[fast("12 m/s")], &["drag_zero_lift"], "/jet/top_speed/value", "not above the stall speed, 12.1 m/s");
    jet_error(&[fast("68 m/s")], &["drag_zero_lift"], "/jet/top_speed/value", "does not drive this jet at 68 m/s");
    jet_error(&[fast("14 m/s")], &["drag_zero_lift"], "/jet/top_speed/value", "asks for a drag coefficient of");
    // It flies home at 22 m/s.
    jet_error(&[(climb, json!("22 m/s"))], &["fan_efficiency"], "/jet/climb/value", "steeper than straight up");
    let home = [(climb, json!("3 m/s")), fast("22.5 m/s")];
    jet_error(&home, &["fan_efficiency", "drag_zero_lift"], "/jet/climb/value", "nothing is left to climb with");
    let weak = [(climb, json!("21 m/s")), ("full_power", json!("600 W"))];
    jet_error(&weak, &["fan_efficiency", "full_power"], "/jet/climb/value", "a fan on 600 W has 30 W to 600 W there");
    let heavy = [(climb, json!("21 m/s")), ("mass", json!("49 kg")), ("nozzle_area", json!("0.0002 m2"))];
    let out = ["fan_efficiency", "full_power", "mass", "nozzle_area"];
    jet_error(&heavy, &out, "/jet/climb/value", "asks for a full power of");
}
