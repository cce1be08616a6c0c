//! Whatever is done to an input, it is answered: read, or refused with why and what to do. Never a panic.
//!
//! Thousands of damaged inputs of every kind that is read, each made of its own seed, so that one that fails can be made
//! again alone. `PEEWIT_MUTATIONS` says how many (2,000 where left out), `PEEWIT_SEED` the first seed:
//! `PEEWIT_MUTATIONS=50000 cargo test --no-default-features --test all mutations -- --nocapture`.

mod change;
mod inputs;

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};

use assert_cmd::cargo::cargo_bin_cmd;
use peewit::brief::Recovery;
use peewit::error::{Fault, Severity};
use peewit::field::{Datum, Field, GeoField, Month, import};
use peewit::log::{Columns, guess_columns};
use peewit::margins::judge;
use peewit::rehearsal::{Recording, score};
use peewit::report::Format;
use peewit::run::{Scenario, WindChoice, fly, read_text};
use peewit::wind::Metar;
use rand::{Rng as _, RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;
use rayon::prelude::*;
use serde_json::Value;

use change::{damaged, mutated};
use inputs::{FIELD, QUANTITIES, RECORDINGS, SCENARIOS, SHAPES, WEATHER, logs};

/// How many there are where nobody says.
const USUAL: u64 = 2_000;
/// The first seed where nobody says.
const SEED: u64 = 20_260_418;
/// One input in so many is given to the program itself, which takes a hundred times as long.
const TYPED: u64 = 40;

type Random = Xoshiro256PlusPlus;

/// The kinds of input, and what becomes of one: whether it was read.
const KINDS: [(&str, fn(&Bench, &mut Random) -> bool); 11] = [
    ("scenarios, damaged", |_, random| scenario(&text(&damaged(one(&SCENARIOS, random), random)), random)),
    ("scenarios, changed", |bench, random| {
        scenario(&mutated(one(&bench.scenarios, random), random).to_string(), random)
    }),
    ("fields, damaged", |_, random| field(&text(&damaged(FIELD, random)))),
    ("fields, changed", |bench, random| field(&mutated(&bench.field, random).to_string())),
    ("shapes", shapes),
    ("logs", |bench, random| log(bench, None, random)),
    ("tables with columns", columns),
    ("weather", weather),
    ("recordings", recording),
    ("quantities", quantity),
    ("words typed", typed),
];

/// What every input is held against.
struct Bench {
    strip: Scenario,
    scenarios: Vec<Value>,
    field: Value,
    folder: tempfile::TempDir,
}

fn one<'a, T>(all: &'a [T], random: &mut Random) -> &'a T {
    &all[random.random_range(0..all.len())]
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// Every fault says what is wrong and what to do, on one line that says it shortly.
fn told(faults: &[Fault]) {
    assert!(faults.len() <= 101, "{} faults", faults.len());
    for fault in faults {
        assert!(!fault.problem.is_empty() && !fault.way_out.is_empty(), "{fault:?}");
        let line = fault.to_string();
        assert!(!line.contains(char::is_control), "{line:?}");
    }
}

/// What is read can be written, read again, flown and told.
fn scenario(text: &str, random: &mut Random) -> bool {
    let reading = read_text(text, None);
    told(&reading.faults);
    let errors = reading.faults.iter().filter(|fault| fault.severity == Severity::Error).count();
    let Some(scenario) = &reading.scenario else {
        assert!(errors > 0, "nothing read and nothing said");
        return false;
    };
    assert_eq!(errors, 0, "{:?}", reading.faults);
    let again = read_text(&scenario.to_text(), None).scenario.expect("what is written can be read");
    assert_eq!(again.hash(), scenario.hash());
    if random.random_range(0..4) == 0 {
        let run = fly(scenario, 0, WindChoice::Mean);
        let margins = judge(scenario, &run);
        let (wind, trials, remedy, warnings, changes) = (WindChoice::Mean, None, None, &reading.faults[..], &[][..]);
        let recovery = Recovery { scenario, run: &run, wind, margins: &margins, trials, remedy, warnings, changes };
        for format in Recovery::FORMATS {
            let bytes = recovery.render(*format).expect("a scenario that is read can be told");
            let text = String::from_utf8(bytes).expect("text");
            assert!(!text.contains(|letter: char| letter.is_control() && !"\r\n\t".contains(letter)), "{format:?}");
            if matches!(format, Format::Gpx | Format::Kml) {
                roxmltree::Document::parse(&text).expect("XML");
            }
        }
    }
    true
}

fn field(text: &str) -> bool {
    let found = GeoField::read(text);
    told(&found.faults);
    assert!(found.file.is_some() || !found.faults.is_empty());
    let Some(file) = found.file else { return false };
    let (field, faults) = Field::build(&file, "", Month::Apr);
    assert!(field.is_some() || faults.iter().any(|fault| fault.severity == Severity::Error));
    assert!(faults.into_iter().all(|fault| !found.places.translate(fault).place.is_empty()));
    field.is_some()
}

fn shapes(_: &Bench, random: &mut Random) -> bool {
    let (name, good) = one(&SHAPES, random);
    let bytes = damaged(good, random);
    let datum = Datum { latitude_deg: 44.0, longitude_deg: -30.0 };
    let found = import::shapes(name, &bytes, (random.random_range(0..2) == 0).then_some(datum));
    told(&found.faults);
    assert!(!found.shapes.is_empty() || !found.faults.is_empty());
    let _ = import::log(&bytes, datum).map_err(|faults| told(&faults));
    !found.shapes.is_empty()
}

fn log(bench: &Bench, columns: Option<&Columns>, random: &mut Random) -> bool {
    let logs = logs();
    let (name, good) = one(&logs, random);
    let bytes = damaged(good, random);
    let _ = guess_columns(&bytes);
    match peewit::log::read(name, &bytes, &bench.strip, columns) {
        Ok(log) => {
            told(&log.repairs);
            let samples = log.track.time_s();
            assert!(samples.len() > 1 && samples[0] == 0.0 && samples.is_sorted());
            assert!(log.track.place().iter().all(|at| at.is_finite()));
            true
        }
        Err(faults) => {
            assert!(!faults.is_empty());
            told(&faults);
            false
        }
    }
}

fn columns(bench: &Bench, random: &mut Random) -> bool {
    let (_, table) = &logs()[1];
    let guessed = serde_json::to_value(guess_columns(table.as_bytes()).expect("a table")).expect("JSON");
    let changed = serde_json::from_value::<Columns>(mutated(&guessed, random));
    changed.is_ok_and(|columns| log(bench, Some(&columns), random))
}

fn weather(_: &Bench, random: &mut Random) -> bool {
    match Metar::read(&text(&damaged(one(&WEATHER, random), random))) {
        Ok(_) => true,
        Err(faults) => {
            assert!(!faults.is_empty());
            told(&faults);
            false
        }
    }
}

fn recording(bench: &Bench, random: &mut Random) -> bool {
    let read = Recording::read(&text(&damaged(one(&RECORDINGS, random), random)), "a.jsonl".as_ref());
    let Ok(recording) = read.map_err(|error| assert!(!error.to_string().is_empty())) else { return false };
    told(&recording.fits(&bench.strip));
    assert_eq!(Recording::read(&recording.to_text(), "b.jsonl".as_ref()).expect("written").deeds, recording.deeds);
    if random.random_range(0..16) == 0 {
        match recording.play(&bench.strip) {
            Ok(flown) => drop(score(&flown)),
            Err(faults) => told(&faults),
        }
    }
    true
}

fn quantity(_: &Bench, random: &mut Random) -> bool {
    let typed = text(&damaged(one(&QUANTITIES, random), random));
    let kinds = ["length", "speed", "mass", "area", "time", "angle", "energy", "charge", "ratio", "temperature"];
    let kind = one(&kinds, random);
    match peewit::units::check_format(kind, &typed).expect("a kind") {
        Ok(()) => true,
        Err(error) => {
            assert!(!error.problem().is_empty() && !error.way_out().is_empty() && error.to_string().len() < 400);
            false
        }
    }
}

/// The program itself, with words or a file that are damaged: an answer or a refusal by its exit code.
fn typed(bench: &Bench, random: &mut Random) -> bool {
    let commands = [
        "check in.json",
        "check in.json --json",
        "recover in.json --trials 0 --gust",
        "recover in.json --trials 2 --radius 60m --height 200ft --turn left --json --out out.json --force",
        "recover in.json --trials 0 --trial 3 --seed 7 --out out.csv --out out.kml --force",
        "sign in.json --name Reeve --role pilot --on 2026-04-18",
        "new out.json --jet scale --mass 4kg --force",
        "rehearse in.json --inputs in.jsonl --json",
        "debrief in.json in.csv --json",
        "schema",
        "rehearse --list",
    ];
    let desk = tempfile::tempdir_in(bench.folder.path()).expect("a folder");
    let put = |name: &str, bytes: Vec<u8>| std::fs::write(desk.path().join(name), bytes).expect("a file");
    put("in.jsonl", damaged(RECORDINGS[0], random));
    put("in.csv", damaged(&logs()[1].1, random));
    let bad = random.random_range(0..2) == 0;
    let good = one(&SCENARIOS, random);
    put("in.json", if bad { damaged(good, random) } else { good.as_bytes().to_vec() });
    let mut words: Vec<String> = one(&commands, random).split(' ').map(String::from).collect();
    // The first word stays, since the window or a study of minutes may be what others ask for.
    if !bad && words.len() > 1 {
        let at = random.random_range(1..words.len());
        if !words[at].ends_with("trials") && !words[at - 1].ends_with("trials") {
            words[at] = text(&damaged(&words[at], random)).replace('\0', "0");
        }
    }
    let mut command = cargo_bin_cmd!("peewit");
    command.current_dir(desk.path()).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY").args(&words);
    let output = command.output().expect("an end");
    let said = [&output.stdout, &output.stderr].map(|bytes| String::from_utf8(bytes.clone()).expect("text"));
    assert!(matches!(output.status.code(), Some(0 | 2 | 3)), "{words:?}: {:?} {said:?}", output.status);
    for said in &said {
        assert!(
            !said.contains(|letter: char| letter.is_control() && !"\r\n\t".contains(letter)),
            "{words:?}: {said:?}"
        );
    }
    assert!(output.status.success() || !said[1].is_empty(), "{words:?} is refused without a word");
    output.status.success()
}

fn told_by(name: &str, usual: u64) -> u64 {
    std::env::var(name).map_or(usual, |words| words.parse().expect("a whole number"))
}

#[test]
fn whatever_is_damaged_is_answered() {
    let (count, first) = (told_by("PEEWIT_MUTATIONS", USUAL), told_by("PEEWIT_SEED", SEED));
    let bench = Bench {
        strip: crate::support::tight_strip(),
        scenarios: SCENARIOS.map(|text| serde_json::from_str(text).unwrap()).to_vec(),
        field: serde_json::from_str(FIELD).unwrap(),
        folder: tempfile::tempdir().unwrap(),
    };
    let last = KINDS.len() - 1;
    let answered: Vec<(usize, Result<bool, u64>)> = (first..first + count)
        .into_par_iter()
        .map(|seed| {
            let kind = if seed % TYPED == 0 { last } else { seed as usize % last };
            let mut random = Random::seed_from_u64(seed);
            let answer = catch_unwind(AssertUnwindSafe(|| KINDS[kind].1(&bench, &mut random)));
            (kind, answer.map_err(|_| seed))
        })
        .collect();
    let mut tally: BTreeMap<&str, [usize; 3]> = BTreeMap::new();
    for (kind, answer) in &answered {
        let column = answer.map_or(2, |read| usize::from(!read));
        tally.entry(KINDS[*kind].0).or_default()[column] += 1;
    }
    eprintln!("{count} mutations, seeds {first} to {}: read, refused, failed", first + count - 1);
    tally
        .iter()
        .for_each(|(kind, [read, refused, failed])| eprintln!("  {kind:<20} {read:>6} {refused:>6} {failed:>6}"));
    let failed: Vec<u64> = answered.iter().filter_map(|(_, answer)| answer.err()).collect();
    assert!(failed.is_empty(), "alone again: PEEWIT_MUTATIONS=1 PEEWIT_SEED=<one of {failed:?}>");
    // A run in which nothing is read, or nothing refused, has not looked.
    if count >= USUAL {
        assert!(tally.len() == KINDS.len() && tally.values().all(|[read, refused, _]| *read > 0 && *refused > 0));
    }
}

#[test]
fn random_bytes_are_answered() {
    let mut random = Random::seed_from_u64(3);
    for _ in 0..500 {
        let bytes: Vec<u8> = (0..random.random_range(0..200)).map(|_| (random.next_u32() & 0xff) as u8).collect();
        assert!(!scenario(&text(&bytes), &mut random));
    }
}

#[test]
fn large_files_are_answered() {
    let with = |ring: &str| SCENARIOS[0].replacen("[[-260, -260], [260, -260], [260, 200], [-260, 200]]", ring, 1);
    let many = |item: &str, count: usize| format!("[{}]", vec![item; count].join(","));
    let far = |i: i32| format!("[{},{}]", i % 97, (i * 31) % 101);
    let tangle = (0..5000).map(far).collect::<Vec<_>>().join(",");
    let keys: String = (0..100_000).map(|index| format!("\"key {index}\":0,")).collect();
    let again = "\"name\":\"x\",".repeat(100_000);
    let head = |keys: &str| SCENARIOS[0].replacen('{', &format!("{{{keys}"), 1);
    let rings = [
        many("[0,0]", 100_000),
        many("0", 200_000),
        many("[[[]]]", 50_000),
        many("\"x\"", 100_000),
        format!("[{tangle}]"),
        format!("{}{}", "[".repeat(120), "]".repeat(120)),
    ];
    for text in rings.iter().map(|ring| with(ring)).chain([head(&keys), head(&again)]) {
        let reading = read_text(&text, None);
        assert!(reading.scenario.is_none() && !reading.faults.is_empty());
        told(&reading.faults);
    }
    for text in [head(&keys), head(&again)] {
        let faults = read_text(&text, None).faults;
        let left = faults.iter().find_map(|fault| fault.problem.strip_suffix(" more faults are not listed"));
        let left: usize = left.expect("a count of the others").parse().unwrap();
        // What else is said of the file is among them.
        assert!((99_900..99_950).contains(&left), "{left}");
    }
}
