//! Does the window open on files of its own that are damaged in any way, and say what it can't bring back?

use rand::{RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;

use super::*;

/// Tries where `PEEWIT_MUTATIONS` asks for no other number.
const USUAL: u64 = 60;
/// What a number may have become.
const NUMBERS: [&str; 6] = ["1e308", "-1", "0", "1e-308", "99999999999999999999", "null"];

/// What the folder of a window that was killed holds, by name.
fn left_behind() -> Vec<(String, Vec<u8>)> {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    stage.turn(88.0);
    stage.session.settings.recent.push("ours.json".into());
    stage.files.keep(&mut stage.session);
    stage.kill();
    let entries = std::fs::read_dir(folder.path()).unwrap().flatten();
    let files = entries.filter(|entry| entry.path().extension().is_some_and(|ending| ending == "json"));
    files.map(|entry| (entry.file_name().into_string().unwrap(), std::fs::read(entry.path()).unwrap())).collect()
}

fn damaged(bytes: &[u8], random: &mut Xoshiro256PlusPlus) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    for _ in 0..random.random_range(1..4) {
        let at = random.random_range(0..bytes.len().max(1)).min(bytes.len());
        match random.random_range(0..5) {
            0 => bytes.truncate(at),
            1 => bytes.insert(at, random.random()),
            2 => bytes = [&bytes[..at], &bytes[at / 2..]].concat(),
            3 => bytes.drain(at..(at + 20).min(bytes.len())).for_each(drop),
            _ => {
                // The next number becomes another.
                let digit = |byte: &u8| byte.is_ascii_digit() || *byte == b'.';
                let Some(from) = bytes[at..].iter().position(digit).map(|from| at + from) else { continue };
                let to = bytes[from..].iter().position(|byte| !digit(byte)).map_or(bytes.len(), |to| from + to);
                let number = NUMBERS[random.random_range(0..NUMBERS.len())];
                bytes.splice(from..to, number.bytes()).for_each(drop);
            }
        }
    }
    bytes
}

#[test]
fn a_window_opens_on_whatever_is_left_of_its_files() {
    let told = |name: &str| std::env::var(name).ok().and_then(|text| text.parse::<u64>().ok());
    let (tries, first) = (told("PEEWIT_MUTATIONS").unwrap_or(USUAL), told("PEEWIT_SEED").unwrap_or(1));
    let left = left_behind();
    assert!(left.len() >= 2, "{:?}", left.iter().map(|(name, _)| name).collect::<Vec<_>>());
    let mut brought = 0;
    for seed in first..first + tries {
        let mut random = Xoshiro256PlusPlus::seed_from_u64(seed);
        let folder = folder();
        for (name, bytes) in &left {
            std::fs::write(folder.path().join(name), damaged(bytes, &mut random)).unwrap();
        }
        eprintln!("seed {seed}");
        let mut stage = Stage::open(demo(), folder.path());
        brought += u64::from(stage.session.front.brought.is_some());
        stage.ask(FileCommand::BringBack);
        stage.turn(90.0);
        assert_eq!(stage.radius_m(), 90.0, "seed {seed}");
    }
    assert!(brought > 0 && brought < tries, "{brought} of {tries} drafts came back");
}
