//! How is a good input made a bad one? Bytes, lines and values changed, dropped, doubled and moved.

use rand::RngExt as _;
use rand_xoshiro::Xoshiro256PlusPlus;
use serde_json::{Value, json};

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

/// Deletes, doubles, moves or replaces up to three things.
pub(super) fn mutated(value: &Value, random: &mut Xoshiro256PlusPlus) -> Value {
    let mut value = value.clone();
    for _ in 0..random.random_range(1..4) {
        mutate(&mut value, random);
    }
    value
}

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
        json!("\u{1b}[2J=1+1"),
        json!("x".repeat(20_000)),
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

/// Flips, drops or doubles bytes and lines, or cuts the text off.
pub(super) fn damaged(text: impl AsRef<str>, random: &mut Xoshiro256PlusPlus) -> Vec<u8> {
    let mut bytes = text.as_ref().as_bytes().to_vec();
    for _ in 0..random.random_range(1..4) {
        if bytes.is_empty() {
            break;
        }
        let at = random.random_range(0..bytes.len());
        match random.random_range(0..9) {
            0 => bytes[at] ^= 1 << random.random_range(0..8),
            1 => drop(bytes.remove(at)),
            2 => bytes.insert(at, bytes[at]),
            3 => bytes[at] = random.random_range(32..127),
            4 => bytes.truncate(at),
            5 => bytes[at] = random.random_range(0..=255),
            6 | 7 => {
                let mut lines: Vec<&[u8]> = bytes.split_inclusive(|byte| *byte == b'\n').collect();
                let (from, to) = (random.random_range(0..lines.len()), random.random_range(0..lines.len()));
                match random.random_range(0..3) {
                    0 => lines.insert(to, lines[from]),
                    1 => drop(lines.remove(from)),
                    _ => lines.swap(from, to),
                }
                bytes = lines.concat();
            }
            _ => bytes[at] = b"0123456789-+.eE,:;\"[]{}<>&N"[random.random_range(0..27)],
        }
    }
    bytes
}
