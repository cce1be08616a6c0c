//! The program as people run it: what it prints, what it writes, what it refuses and with which exit code.

use std::path::{Path, PathBuf};
use std::process::Output;

use assert_cmd::cargo::cargo_bin_cmd;
use serde_json::Value;
use tempfile::TempDir;

/// A folder with a scenario in it.
pub(crate) struct Desk {
    folder: TempDir,
}

impl Desk {
    pub(crate) fn new() -> Self {
        let desk = Self { folder: tempfile::tempdir().unwrap() };
        std::fs::write(desk.path("field.json"), demo()).unwrap();
        desk
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Runs the program in the folder, where no display is.
    fn run(&self, words: &[&str]) -> Output {
        let mut command = cargo_bin_cmd!("peewit");
        command.current_dir(self.folder.path()).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY").args(words);
        command.output().unwrap()
    }

    /// Runs it, expects an exit code and returns stdout and stderr.
    #[track_caller]
    pub(crate) fn check(&self, words: &[&str], code: i32) -> (String, String) {
        let output = self.run(words);
        let (out, err) = (String::from_utf8(output.stdout).unwrap(), String::from_utf8(output.stderr).unwrap());
        assert_eq!(output.status.code(), Some(code), "peewit {words:?}\nstdout: {out}\nstderr: {err}");
        (out, err)
    }

    pub(crate) fn names(&self) -> Vec<String> {
        let entries = std::fs::read_dir(self.folder.path()).unwrap();
        let mut names: Vec<_> = entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }
}

fn demo() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/tight-strip.json");
    std::fs::read_to_string(path).unwrap()
}

#[test]
fn the_same_question_gets_the_same_bytes() {
    let desk = Desk::new();
    for words in [&["recover", "field.json", "--trial", "3"][..], &["recover", "field.json", "--json"]] {
        let (first, second) = (desk.run(words), desk.run(words));
        assert!(!first.stdout.is_empty());
        assert_eq!(first.stdout, second.stdout, "{words:?}");
    }
}

#[test]
fn files_get_the_same_bytes_as_the_screen() {
    let desk = Desk::new();
    let (text, _) = desk.check(&["recover", "field.json", "--out", "a.txt", "--out", "a.json"], 0);
    let (json, _) = desk.check(&["recover", "field.json", "--json"], 0);
    assert_eq!(std::fs::read_to_string(desk.path("a.txt")).unwrap(), text);
    assert_eq!(std::fs::read_to_string(desk.path("a.json")).unwrap(), json);
}

#[test]
fn every_format_is_written_and_nothing_else() {
    let desk = Desk::new();
    let words = "recover field.json --out a.txt --out a.json --out a.csv --out a.geojson --out a.gpx --out a.kml";
    desk.check(&words.split(' ').collect::<Vec<_>>(), 0);
    assert_eq!(desk.names(), ["a.csv", "a.geojson", "a.gpx", "a.json", "a.kml", "a.txt", "field.json"]);
}

#[test]
fn what_was_typed_is_flown_and_said() {
    let desk = Desk::new();
    let (plain, _) = desk.check(&["recover", "field.json"], 0);
    let words =
        ["recover", "field.json", "--radius", "200 ft", "--centre", "-20 -80", "--turn", "clockwise", "--seed", "7"];
    let (text, _) = desk.check(&words, 0);
    for said in ["61 m clockwise about (-20, -80) m", "instead of 115 m", "seed 7"] {
        assert!(text.contains(said), "no \"{said}\" in {text}");
    }
    assert!(plain.contains("115 m anticlockwise about (0, -80) m"), "{plain}");
    let hash = |text: &str| text.lines().find(|line| line.trim_start().starts_with("Scenario")).unwrap().to_owned();
    assert_ne!(hash(&plain), hash(&text), "another plan has another hash");
}

#[test]
fn strict_tells_a_crossing_by_its_exit_code_and_only_strict() {
    let desk = Desk::new();
    // Pits under the circle, forbidden at any height: no recovery can keep clear of them.
    let forbidden = demo().replace(r#""rule": "caution""#, r#""rule": "no-fly""#).replace("-40, -45", "-400, -445");
    let forbidden =
        forbidden.replace("40, -45", "400, -445").replace("[40, -20], [-40, -20]", "[400, 390], [-400, 390]");
    std::fs::write(desk.path("forbidden.json"), forbidden).unwrap();
    let (_, plain) = desk.check(&["recover", "forbidden.json"], 0);
    assert!(!plain.contains("error"), "{plain}");
    let (text, _) = desk.check(&["recover", "forbidden.json", "--strict"], 3);
    assert!(text.contains("CROSSED") && text.contains("pits and cars"), "{text}");
}

#[test]
fn a_broken_file_gets_every_fault_and_nothing_is_written() {
    let desk = Desk::new();
    let broken = demo().replace(r#""115 m""#, r#""115""#).replace(r#""9 m/s""#, r#""9 kg""#);
    std::fs::write(desk.path("broken.json"), broken).unwrap();
    let before = desk.names();
    for words in [&["check", "broken.json"][..], &["recover", "broken.json", "--out", "a.txt", "--json"]] {
        let (out, err) = desk.check(words, 2);
        assert!(out.is_empty(), "{out}");
        for place in ["/recovery/radius", "/wind/gust"] {
            assert!(err.contains(place), "no {place} in {err}");
        }
    }
    assert_eq!(desk.names(), before);
}

#[test]
fn check_looks_at_every_file_and_says_what_it_understood() {
    let desk = Desk::new();
    let (out, err) = desk.check(&["check", "missing.json", "field.json"], 2);
    assert!(err.contains("missing.json"), "{err}");
    // 520 m by 460 m, from the corners in the file.
    assert!(out.contains("23.92 ha") && out.contains("520 m east to west"), "{out}");
    desk.check(&["check", "field.json"], 0);
}

#[test]
fn what_can_not_be_written_is_refused_before_the_work() {
    let desk = Desk::new();
    let before = (desk.names(), std::fs::read(desk.path("field.json")).unwrap());
    for (out, said) in [
        ("report.doc", ".geojson"),
        ("nowhere/a.csv", "nowhere"),
        ("field.json", "nothing that was read is written over"),
        ("./field.json", "nothing that was read is written over"),
    ] {
        let (text, err) = desk.check(&["recover", "field.json", "--out", "a.csv", "--out", out], 2);
        assert!(text.is_empty() && err.contains(said), "{out}: {err}");
    }
    let (_, err) = desk.check(&["recover", "field.json", "--out", "a.csv", "--out", "./a.csv"], 2);
    assert!(err.contains("twice"), "{err}");
    assert_eq!(before, (desk.names(), std::fs::read(desk.path("field.json")).unwrap()));
}

#[test]
fn words_that_mean_nothing_are_refused_with_the_way_out() {
    let desk = Desk::new();
    for (words, said) in [
        (&["recover", "field.json", "--radius", "60"][..], "no unit"),
        (&["recover", "field.json", "--radius", "60 kt"], "not a unit of length"),
        (&["recover", "field.json", "--radius", "0,75"], "write \"0.75 m\""),
        (&["recover", "field.json", "--centre", "here"], "such as"),
        (&["recover", "field.json", "--centre", "0", "-80"], "quotes: --centre \"0 -80\""),
        (&["recover", "field.json", "--centre", "0,5 -80"], "decimals after a point"),
        (&["recover", "field.json", "--out", "a.svg"], "this command writes no .svg. It writes .txt"),
        (&["recover", "."], "is a folder, not a file"),
        (&["recover", "gone.json"], "there is no file gone.json"),
        (&["recover", "field.json", "--turn", "widdershins"], "anticlockwise"),
        (&["recover"], "FILE"),
    ] {
        let (_, err) = desk.check(words, 2);
        assert!(err.contains(said), "{words:?}: {err}");
    }
}

#[test]
fn new_writes_a_scenario_that_can_be_used_and_replaces_nothing_unasked() {
    let desk = Desk::new();
    desk.check(&["new", "mine.json"], 0);
    desk.check(&["check", "mine.json"], 0);
    std::fs::write(desk.path("mine.json"), "precious").unwrap();
    let (_, err) = desk.check(&["new", "mine.json"], 2);
    assert!(err.contains("--force"), "{err}");
    assert_eq!(std::fs::read_to_string(desk.path("mine.json")).unwrap(), "precious");
    desk.check(&["new", "mine.json", "--force"], 0);
    desk.check(&["check", "mine.json"], 0);
}

#[test]
fn the_schema_is_a_schema_and_takes_the_built_in_scenario() {
    let desk = Desk::new();
    let (out, _) = desk.check(&["schema"], 0);
    let schema: Value = serde_json::from_str(&out).unwrap();
    jsonschema::meta::validate(&schema).unwrap();
    let scenario: Value = serde_json::from_str(&demo()).unwrap();
    assert!(jsonschema::is_valid(&schema, &scenario));
    assert!(!jsonschema::is_valid(&schema, &serde_json::json!({ "peewit": 1 })));
}

#[test]
fn without_a_display_the_radius_study_is_told_instead() {
    let desk = Desk::new();
    let (told, why) = desk.check(&["field.json"], 0);
    assert!(why.contains("No window"), "{why}");
    assert!(told.contains("which circle holds here") && told.contains("Goatwillow Strip"), "{told}");
    desk.check(&["missing.json"], 2);
}

#[test]
fn a_reader_that_has_seen_enough_is_no_failure() {
    use std::process::Stdio;
    let desk = Desk::new();
    let mut command = std::process::Command::new(assert_cmd::cargo::cargo_bin!("peewit"));
    command
        .current_dir(desk.folder.path())
        .args(["recover", "field.json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

/// The numbers without a dimension.
const PLAIN: [&str; 11] = [
    "seed",
    "trial",
    "laps_to_reserve",
    "load",
    "trials",
    "most_trials",
    "crossed",
    "kept",
    "held",
    "confidence",
    "areas",
];
/// What the keys of all other numbers end in.
const UNITS: [&str; 8] = ["_m", "_s", "_mps", "_wh", "_deg", "_j", "_w", "_share"];

fn numbers_without_a_unit(key: &str, value: &Value, found: &mut Vec<String>) {
    match value {
        Value::Number(_) if !PLAIN.contains(&key) && !UNITS.iter().any(|unit| key.ends_with(unit)) => {
            found.push(key.to_owned());
        }
        Value::Array(items) => items.iter().for_each(|item| numbers_without_a_unit(key, item, found)),
        Value::Object(map) => map.iter().for_each(|(key, value)| numbers_without_a_unit(key, value, found)),
        _ => {}
    }
}

#[test]
fn every_number_in_json_has_its_unit_in_the_key() {
    let desk = Desk::new();
    let (out, _) = desk.check(&["recover", "field.json", "--json"], 0);
    let report: Value = serde_json::from_str(&out).unwrap();
    let mut found = Vec::new();
    numbers_without_a_unit("", &report, &mut found);
    assert!(found.is_empty(), "{found:?}");
    numbers_without_a_unit("", &serde_json::json!({ "at": { "radius": 3.0 } }), &mut found);
    assert_eq!(found, ["radius"], "the check sees a number without one");
}

#[test]
fn every_report_carries_what_it_can_be_repeated_from_and_the_cautions() {
    use peewit::words::cautions;
    let desk = Desk::new();
    let (out, _) = desk.check(&["recover", "field.json", "--json", "--trial", "2", "--gust"], 0);
    let report: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(report["peewit_version"], env!("CARGO_PKG_VERSION"));
    assert_eq!((&report["trial"], &report["seed"], &report["wind"]), (&2.into(), &1.into(), &"gust".into()));
    let hash = report["scenario_hash"].as_str().unwrap();
    assert_eq!(report["cautions"].as_array().map(Vec::len), Some(cautions::ALL.len()));
    let (text, _) = desk.check(&["recover", "field.json", "--trial", "2", "--gust"], 0);
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [hash, env!("CARGO_PKG_VERSION"), "trial 2", "gust wind", "seed 1", cautions::FOOT, cautions::IN_FULL] {
        assert!(flat(&text).contains(&flat(said)), "no \"{said}\" in {text}");
    }
    let (all, _) = desk.check(&["cautions"], 0);
    for caution in cautions::ALL {
        assert!(flat(&all).contains(&flat(caution)), "no \"{caution}\" in {all}");
    }
}

#[cfg(unix)]
#[test]
fn words_that_are_no_text_are_refused_without_a_crash() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt as _;
    let typed = [OsStr::from_bytes(&[0xff]), OsStr::new("--bogus")];
    cargo_bin_cmd!("peewit").args(typed).assert().code(2);
}

#[test]
fn a_jet_is_said_back_to_whoever_entered_it() {
    let desk = Desk::new();
    let (told, _) = desk.check(&["check", "field.json"], 0);
    // Stall of 2.1 kg on 0.228 m2 at a coefficient of 1, and over sqrt(cos 35 deg); 22^2 / (g tan 35 deg): closed forms.
    for line in ["level stall: 12.1 m/s", "stall at maximum bank: 13.4 m/s", "smallest circle, still air: 70.5 m"] {
        assert!(told.contains(line), "{told}");
    }
    let (json, _) = desk.check(&["check", "field.json", "--json"], 0);
    let all: Value = serde_json::from_str(&json).unwrap();
    let jet = &all[0]["jet"];
    assert!((jet["stall_mps"].as_f64().unwrap() - 12.14).abs() < 0.01, "{jet}");
    assert_eq!((&all[0]["can_be_used"], &jet["left_out"]), (&Value::from(true), &serde_json::json!([])));
    std::fs::write(desk.path("bad.json"), "{").unwrap();
    let (json, _) = desk.check(&["check", "bad.json", "--json"], 2);
    let all: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(all[0]["faults"][0]["severity"], "error");
}

#[test]
fn a_new_scenario_has_the_jet_asked_for_by_what_people_know() {
    let desk = Desk::new();
    desk.check(&["new", "mine.json", "--jet", "scale", "--mass", "4 kg"], 0);
    let mine: Value = serde_json::from_str(&std::fs::read_to_string(desk.path("mine.json")).unwrap()).unwrap();
    let jet = mine["jet"].as_object().unwrap();
    // The class stalls at 13.5 m/s with 3.4 kg: 13.5 (4 / 3.4)^(1/6) = 13.9 (closed form).
    assert_eq!((&jet["mass"]["value"], &jet["stall_speed"]["value"]), (&"4 kg".into(), &"13.9 m/s".into()));
    assert!(jet.contains_key("top_speed") && jet.contains_key("flight_time"));
    assert!(!["lift_max", "wing_area", "drag_zero_lift", "nozzle_area"].iter().any(|key| jet.contains_key(*key)));
    let (told, _) = desk.check(&["check", "mine.json"], 0);
    assert!(told.contains("level stall: 13.9 m/s") && told.contains("by default, nobody has measured it"), "{told}");
    let (_, err) = desk.check(&["new", "other.json", "--jet", "glider"], 2);
    assert!(err.contains("light foam"), "{err}");
    let (_, err) = desk.check(&["new", "other.json", "--mass", "400 kg"], 2);
    assert!(err.contains("makes no sense here"), "{err}");
}
