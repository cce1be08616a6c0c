//! What would take minutes, or more memory than there is, is refused before the work, with the way out.

use peewit::error::Severity;
use peewit::study::losses::LossAsk;
use serde_json::{Value, json};

use crate::commands::Desk;
use crate::doors::{DEMO, expect, fine, set};

fn changed(place: &str, value: Value) -> Value {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, place, value);
    demo
}

#[track_caller]
fn error(place: &str, value: Value, fault_place: &str, says: &str) {
    expect(&changed(place, value), Severity::Error, fault_place, says);
}

#[test]
fn spot_heights_of_one_place_are_one_fact() {
    let spots = |apart: f64, heights: [&str; 2]| {
        let spot = |at: f64, height: &str| json!({ "at_m": [at, 3.0], "height": height });
        json!([spot(-200.0, "2 m"), spot(7.0, heights[0]), spot(150.0, "0 m"), spot(7.0 + apart, heights[1])])
    };
    for (apart, heights) in
        [(0.0, ["1 m", "1 m"]), (0.0001, ["0 m", "8 m"]), (0.49, ["1 m", "1.1 m"]), (-0.3, ["1 m", "2 m"])]
    {
        error(
            "/field/ground",
            spots(apart, heights),
            "/field/ground/3",
            "spot height 1, counted from 0, is at the same place",
        );
    }
    for apart in [0.51, -0.51, 30.0] {
        fine(&changed("/field/ground", spots(apart, ["0 m", "8 m"])));
    }
}

#[test]
fn a_field_has_as_many_things_as_people_tell_apart() {
    let ring = |index: usize| {
        let (x, y) = ((index % 30) as f64, (index / 30) as f64);
        json!([[x + 100.0, y], [x + 100.5, y], [x + 100.5, y + 0.5]])
    };
    let areas = |count: usize| -> Value {
        let one = |index| json!({ "name": format!("a{index}"), "rule": "caution", "ring_m": ring(index) });
        (0..count).map(one).collect()
    };
    let trees = |count: usize| -> Value {
        let one = |index: usize| json!({ "name": format!("t{index}"), "height": "9 m", "at_m": [index % 200, -200] });
        (0..count).map(one).collect()
    };
    error("/field/areas", areas(501), "/field/areas", "501 areas are more than 500");
    error("/field/obstacles", trees(501), "/field/obstacles", "501 obstacles are more than 500");
    fine(&changed("/field/obstacles", trees(500)));
    error("/field/obstacles/0/height", json!("1e308 m"), "/field/obstacles/0/height", "1e308 m makes no sense here");
    error("/field/runway/width", json!("1e308 m"), "/field/runway/width", "1e308 m wide");
}

/// Teeth side by side, each of four corners; `slant` leans them, so that the frames of all lie over one another.
fn comb(teeth: usize, slant: f64) -> Value {
    let tooth = |index: usize| {
        let low = -50.0 + 100.0 * index as f64 / teeth as f64;
        let high = low + 40.0 / teeth as f64;
        [
            [100.0, low + slant],
            [100.0, high + slant],
            [-95.0, high - slant],
            [-95.0, high - slant + 50.0 / teeth as f64],
        ]
    };
    // Below the lowest tooth, which leans by its length.
    let back = [[-100.0, 50.0 - slant], [-100.0, -51.0 + slant - 400.0 * slant / 195.0]];
    (0..teeth).flat_map(tooth).chain(back).map(|at| json!(at)).collect()
}

#[test]
fn a_ring_of_thousands_of_corners_is_looked_at_pair_by_pair_only_where_they_meet() {
    let area = |ring: Value| json!([{ "name": "comb", "rule": "caution", "ring_m": ring }]);
    // All edges lie over one another from east to west, none from south to north.
    let faults = crate::doors::read_value(&changed("/field/areas", area(comb(2_400, 0.0))));
    assert!(faults.iter().all(|fault| fault.severity < Severity::Error), "{faults:?}");
    error("/field/areas", area(comb(2_400, 60.0)), "/field/areas/0/ring_m", "side by side in too many places");
    let hole: Value =
        (0..2_000).map(|index| f64::from(index) * 0.003).map(|turn| json!([turn.cos(), turn.sin()])).collect();
    error("/field/boundary/holes_m", json!([hole]), "/field/boundary/holes_m", "a ring with holes has");
}

#[test]
fn a_loss_map_that_would_not_fit_is_refused_with_what_to_ask_less_of() {
    let scenario = crate::support::tight_strip();
    let usual = LossAsk::usual(&scenario);
    let rising = |count: u32| (1..=count).map(f64::from).collect::<Vec<_>>();
    for (ask, says) in [
        (usual.clone(), None),
        (LossAsk { cells: 500, ..usual.clone() }, None),
        (
            LossAsk { heights_m: rising(200), speeds_mps: rising(200), ..usual.clone() },
            Some("320000 losses from every cell"),
        ),
        (LossAsk { trials: 1_000_000, ..usual.clone() }, Some("20001 million flights, more than 40 million")),
        (LossAsk { cells: 500, headings: 72, heights_m: rising(100), ..usual.clone() }, Some("million flights")),
        (LossAsk { cells: u32::MAX, trials: u64::MAX, ..usual }, Some("ask for fewer cells")),
    ] {
        let told = ask.too_much();
        assert_eq!(told.is_some(), says.is_some(), "{told:?}");
        assert!(says.is_none_or(|says| told.as_ref().unwrap().contains(says)), "{told:?}");
    }
    let desk = Desk::new();
    for (asked, says) in [
        ("losses field.json --heights 1m..200m|step|1m --speeds 1m/s..200m/s|step|1m/s", "ask for fewer"),
        ("losses field.json --heights 1m..3km|step|1m", "too many"),
        ("radius field.json --radii 5m..5km|step|5m", "too many"),
        ("radius field.json --radii 1e308m", "makes no sense here"),
    ] {
        let words: Vec<String> = asked.split(' ').map(|word| word.replace('|', " ")).collect();
        let (_, err) = desk.check(&words.iter().map(String::as_str).collect::<Vec<_>>(), 2);
        assert!(err.contains(says), "{asked}: {err}");
    }
}

#[test]
fn a_study_of_radii_far_apart_comes_to_an_answer() {
    let desk = Desk::new();
    let (text, _) = desk.check(&["radius", "field.json", "--radii", "5 m, 5 km", "--trials", "8"], 0);
    assert!(text.contains("which circle holds here"), "{text}");
}
