//! Ten thousand broken scenario files: none panics or hangs, and each either reads or says why not and what to do.

use peewit::error::Severity;
use peewit::field::GeoField;
use peewit::run::read_text;
use rand::{Rng as _, RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;
use serde_json::{Value, json};

const SCENARIOS: [&str; 3] = [
    include_str!("fixtures/tight-strip.json"),
    include_str!("../scenarios/quillmead-aerodrome.json"),
    include_str!("../scenarios/sallowmouth-head.json"),
];
const GEOJSON: &str = include_str!("fixtures/cotterfold-elbow.geojson");
const ROUNDS: u64 = 2_500;

#[derive(Default)]
struct Tally {
    read: usize,
    refused: usize,
}

/// Reads a text and insists on an answer.
fn answer(text: &str, tally: &mut Tally) {
    let reading = read_text(text, None);
    let errors = reading.faults.iter().filter(|fault| fault.severity == Severity::Error).count();
    match &reading.scenario {
        Some(scenario) => {
            assert_eq!(errors, 0, "{:?}", reading.faults);
            let again = read_text(&scenario.to_text(), None).scenario.expect("what is written can be read");
            assert_eq!(again.hash(), scenario.hash());
            tally.read += 1;
        }
        None => {
            assert!(errors > 0, "nothing read and nothing said: {text}");
            tally.refused += 1;
        }
    }
    for fault in &reading.faults {
        assert!(!fault.problem.is_empty() && !fault.way_out.is_empty(), "{fault:?}");
    }
}

fn answer_geojson(text: &str) {
    let found = GeoField::read(text);
    assert!(found.file.is_some() || !found.faults.is_empty(), "{text}");
    if let Some(file) = found.file {
        let (field, faults) = peewit::field::Field::build(&file, "", peewit::field::Month::Apr);
        assert!(field.is_some() || faults.iter().any(|fault| fault.severity == Severity::Error));
        assert!(faults.into_iter().all(|fault| !found.places.translate(fault).place.is_empty()), "{text}");
    }
}

/// Every place in a value.
fn places(value: &Value, place: &str, all: &mut Vec<String>) {
    all.push(place.to_owned());
    match value {
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| places(item, &format!("{place}/{i}"), all));
        }
        Value::Object(members) => members.iter().for_each(|(key, item)| places(item, &format!("{place}/{key}"), all)),
        _ => {}
    }
}

/// Deletes, doubles, moves or replaces one thing.
fn mutate(value: &mut Value, random: &mut Xoshiro256PlusPlus) {
    let mut all = Vec::new();
    places(value, "", &mut all);
    let place = &all[random.random_range(0..all.len())];
    let other = value.pointer(&all[random.random_range(0..all.len())]).cloned().unwrap();
    let odd = [
        json!(null),
        json!(true),
        json!([]),
        json!({}),
        json!(""),
        json!("NaN"),
        json!("NaN m"),
        json!("inf m/s"),
        json!("-0 m"),
        json!("1e308 km"),
        json!("1e-320 kg"),
        json!("9e99 deg"),
        json!(0),
        json!(-1),
        json!(1e308),
        json!(-1e308),
        json!(5e-324),
        json!(u64::MAX),
        json!(i64::MIN),
        json!(20_000),
        json!([0, 0]),
        json!("\u{0}"),
        json!("\u{202e}m 06"),
        json!([[0, 0], [1, 0], [1, 1]]),
        json!([1e308, -1e308]),
        json!("deg"),
        json!("12 m"),
        json!("9999-12-31"),
    ];
    let odd = odd[random.random_range(0..odd.len())].clone();
    let Some((parent, key)) = place.rsplit_once('/') else {
        *value = odd;
        return;
    };
    let kind = random.random_range(0..6);
    match value.pointer_mut(parent) {
        Some(Value::Object(members)) => match kind {
            0 => drop(members.remove(key)),
            1 => drop(members.insert(format!("{key}x"), other)),
            2 => drop(members.insert(key.to_owned(), other)),
            _ => drop(members.insert(key.to_owned(), odd)),
        },
        Some(Value::Array(items)) => {
            let index = key.parse::<usize>().unwrap();
            match kind {
                0 => drop(items.remove(index)),
                1 => items.insert(index, other),
                2 => items[index] = other,
                3 => {
                    let to = random.random_range(0..items.len());
                    items.swap(index, to);
                }
                _ => items[index] = odd,
            }
        }
        _ => {}
    }
}

/// Flips, drops or doubles bytes, or cuts the text off.
fn damage(text: &str, random: &mut Xoshiro256PlusPlus) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..random.random_range(1..4) {
        if bytes.is_empty() {
            break;
        }
        let at = random.random_range(0..bytes.len());
        match random.random_range(0..6) {
            0 => bytes[at] ^= 1 << random.random_range(0..8),
            1 => drop(bytes.remove(at)),
            2 => bytes.insert(at, bytes[at]),
            3 => bytes[at] = random.random_range(32..127),
            4 => bytes.truncate(at),
            _ => bytes[at] = b"0123456789-+.eE,:\"[]{}"[random.random_range(0..22)],
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

#[test]
fn damaged_text_is_answered() {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(20_260_418);
    let mut tally = Tally::default();
    for round in 0..ROUNDS {
        answer(&damage(SCENARIOS[round as usize % 3], &mut random), &mut tally);
    }
    assert!(tally.read > 50 && tally.refused > 500, "{} read, {} refused", tally.read, tally.refused);
}

#[test]
fn changed_structure_is_answered() {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(7);
    let values = SCENARIOS.map(|text| serde_json::from_str::<Value>(text).unwrap());
    let mut tally = Tally::default();
    for round in 0..2 * ROUNDS {
        let mut value = values[round as usize % 3].clone();
        for _ in 0..random.random_range(1..4) {
            mutate(&mut value, &mut random);
        }
        answer(&value.to_string(), &mut tally);
    }
    assert!(tally.read > 50 && tally.refused > 500, "{} read, {} refused", tally.read, tally.refused);
}

#[test]
fn damaged_geojson_is_answered() {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(99);
    let sound = serde_json::from_str::<Value>(GEOJSON).unwrap();
    for _ in 0..ROUNDS / 2 {
        answer_geojson(&damage(GEOJSON, &mut random));
        let mut value = sound.clone();
        for _ in 0..random.random_range(1..4) {
            mutate(&mut value, &mut random);
        }
        answer_geojson(&value.to_string());
    }
}

#[test]
fn random_bytes_are_answered() {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(3);
    let mut tally = Tally::default();
    for _ in 0..500 {
        let bytes: Vec<u8> = (0..random.random_range(0..200)).map(|_| (random.next_u32() & 0xff) as u8).collect();
        answer(&String::from_utf8_lossy(&bytes), &mut tally);
    }
    assert_eq!(tally.read, 0);
}

#[test]
fn large_files_are_answered() {
    let with = |ring: &str| SCENARIOS[0].replacen("[[-260, -260], [260, -260], [260, 200], [-260, 200]]", ring, 1);
    let many = |item: &str, count: usize| format!("[{}]", vec![item; count].join(","));
    let far = |i: i32| format!("[{},{}]", i % 97, (i * 31) % 101);
    let tangle = (0..5000).map(far).collect::<Vec<_>>().join(",");
    for ring in [
        many("[0,0]", 100_000),
        many("0", 200_000),
        many("[[[]]]", 50_000),
        many("\"x\"", 100_000),
        format!("[{tangle}]"),
        format!("{}{}", "[".repeat(120), "]".repeat(120)),
    ] {
        let reading = read_text(&with(&ring), None);
        assert!(reading.scenario.is_none() && !reading.faults.is_empty() && reading.faults.len() < 500);
    }
}
