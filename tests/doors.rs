//! What the program says about a scenario file that has something wrong with it: all at once, each with its line.

use std::path::Path;

use peewit::error::{Error, Fault, Severity};
use peewit::run::{Scenario, read, read_text, schema};
use serde_json::{Value, json};

pub(crate) const DEMO: &str = include_str!("fixtures/tight-strip.json");

/// Sets the value at a place, adding the key where it is missing.
pub(crate) fn set(root: &mut Value, place: &str, value: Value) {
    let (parent, key) = place.rsplit_once('/').unwrap();
    match root.pointer_mut(parent).unwrap() {
        Value::Object(members) => {
            members.insert(key.into(), value);
        }
        Value::Array(items) => items[key.parse::<usize>().unwrap()] = value,
        other => panic!("{parent} is {other}"),
    }
}

fn remove(root: &mut Value, place: &str) {
    let (parent, key) = place.rsplit_once('/').unwrap();
    root.pointer_mut(parent).unwrap().as_object_mut().unwrap().remove(key).unwrap();
}

pub(crate) fn read_value(value: &Value) -> Vec<Fault> {
    let text = serde_json::to_string_pretty(value).unwrap();
    let reading = read_text(&text, None);
    let errors = reading.faults.iter().any(|fault| fault.severity == Severity::Error);
    assert_eq!(reading.scenario.is_none(), errors, "{:?}", reading.faults);
    for fault in &reading.faults {
        assert!(!fault.problem.is_empty() && !fault.way_out.is_empty(), "{fault:?}");
    }
    reading.faults
}

/// Faults but for those of the names under the plan, which any change of it lets lapse, and for the one that the tight
/// strip has: its pits are only a caution area.
fn of_the_plan(mut faults: Vec<Fault>) -> Vec<Fault> {
    faults.retain(|fault| !fault.place.starts_with("/brief/signed") && fault.place != "/recovery/authorised_for");
    faults.retain(|fault| !fault.problem.starts_with("nobody is drawn but the pilot"));
    faults
}

/// No fault of the plan.
#[track_caller]
pub(crate) fn fine(value: &Value) {
    assert_eq!(of_the_plan(read_value(value)), []);
}

#[track_caller]
pub(crate) fn expect(value: &Value, severity: Severity, place: &str, says: &str) {
    let faults = read_value(value);
    let fits = |fault: &&Fault| fault.place == place && fault.severity == severity && fault.to_string().contains(says);
    let Some(fault) = faults.iter().find(fits) else {
        panic!("no {severity:?} at {place} with \"{says}\" in {faults:#?}")
    };
    let line = fault.line.expect("a fault inside a file has a line");
    // What is not there is told where it would stand.
    let there = if value.pointer(place).is_some() { place } else { place.rsplit_once('/').unwrap_or_default().0 };
    let key = there.rsplit('/').next().unwrap_or_default();
    let text = serde_json::to_string_pretty(value).unwrap();
    if key.parse::<usize>().is_err() && says != "missing" {
        assert!(text.lines().nth(line - 1).unwrap().contains(key), "line {line} does not hold {key}");
    }
}

#[test]
fn shipped_scenarios_have_no_fault() {
    for name in ["goatwillow-strip", "cotterfold-elbow", "quillmead-aerodrome", "sallowmouth-head"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name).with_extension("json");
        let reading = read(&path).unwrap();
        assert_eq!(reading.faults, [], "{name}");
        assert!(reading.scenario.is_some(), "{name}");
    }
}

#[test]
fn keys_that_are_missing() {
    let demo: Value = serde_json::from_str(DEMO).unwrap();
    for (place, parent) in [("/jet/mass", "/jet"), ("/jet/mass/value", "/jet/mass"), ("/field/datum", "/field")] {
        let mut edited = demo.clone();
        remove(&mut edited, place);
        expect(&edited, Severity::Error, parent, "missing");
    }
    for key in ["peewit", "name", "date", "field", "jet", "wind", "loss", "recovery", "limits"] {
        let mut edited = demo.clone();
        remove(&mut edited, &format!("/{key}"));
        let faults = read_value(&edited);
        assert!(faults.iter().any(|fault| fault.place.is_empty() && fault.to_string().contains(key)), "{key}");
    }
}

#[test]
fn every_fault_is_told_at_once() {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, "/recovery/radius", json!("115"));
    set(&mut demo, "/jet/mass/value", json!("2.1 m"));
    set(&mut demo, "/wind/gust", json!("2 m/s"));
    set(&mut demo, "/date", json!("2026-02-30"));
    set(&mut demo, "/field/home_m", json!([900, 0]));
    set(&mut demo, "/field/boundary/ring_m", json!([[-260, -260], [260, 200], [260, -260], [-260, 200]]));
    let faults = read_value(&demo);
    for place in ["/recovery/radius", "/jet/mass/value", "/wind/gust", "/date", "/field/boundary/ring_m/0"] {
        assert!(faults.iter().any(|fault| fault.place == place), "{place} in {faults:#?}");
    }
    let lines: Vec<_> = faults.iter().filter_map(|fault| fault.line).collect();
    assert!(lines.is_sorted(), "{lines:?}");
}

#[test]
fn text_that_is_not_json() {
    for (text, line, says) in [
        ("", 1, "the file is empty"),
        ("{\n \"peewit\": 1,\n", 3, "breaks off"),
        ("{\n \"peewit\": 1,\n}", 3, "trailing comma"),
        ("{\n // note\n}", 2, "not JSON"),
        ("{\"a\": NaN}", 1, "not JSON"),
        ("{\"a\": 1e999}", 1, "out of range"),
        ("{\"a\": 0,75}", 1, "0,75 is written with a comma"),
        (&"[".repeat(100_000), 1, "recursion"),
    ] {
        let reading = read_text(text, None);
        assert!(reading.scenario.is_none());
        assert_eq!(reading.faults.len(), 1, "{:?}", reading.faults);
        assert_eq!(reading.faults[0].line, Some(line), "{text:.20}");
        assert!(reading.faults[0].problem.contains(says), "{}", reading.faults[0]);
    }
    let field = include_str!("fixtures/cotterfold-elbow.geojson");
    assert!(read_text(field, None).faults[0].problem.contains("a field in GeoJSON, not a scenario"));
    for text in ["null", "3", "[]", "\"peewit\""] {
        assert!(read_text(text, None).faults[0].problem.contains("an object is wanted"));
    }
}

#[test]
fn whole_numbers_may_have_a_point() {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, "/jet/cells", json!(6.0));
    fine(&demo);
}

#[test]
fn keys_written_twice() {
    let text = DEMO.replace("\"seed\": 1", "\"seed\": 1,\n  \"seed\": 2");
    let reading = read_text(&text, None);
    assert!(reading.scenario.is_none());
    let twice = reading.faults.iter().find(|fault| fault.place == "/seed").unwrap();
    assert_eq!(twice.line, Some(text.lines().count() - 1));
    assert!(twice.problem.contains("twice"));
}

#[test]
fn the_field_stands_in_one_place() {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, "/field_file", json!("field.geojson"));
    expect(&demo, Severity::Error, "/field_file", "both there");
    remove(&mut demo, "/field");
    set(&mut demo, "/field_file", json!("field.geojson"));
    expect(&demo, Severity::Error, "/field_file", "can't be looked for");
    for name in ["/etc/field.geojson", "../field.geojson", "", "."] {
        set(&mut demo, "/field_file", json!(name));
        let faults = read_text(&demo.to_string(), Some(Path::new("."))).faults;
        assert!(faults[0].problem.contains("can't be looked for"), "{name}: {faults:?}");
    }
    set(&mut demo, "/field_file", json!("not-there.geojson"));
    let faults = read_text(&demo.to_string(), Some(Path::new("."))).faults;
    assert!(faults[0].problem.contains("there is no file not-there.geojson"), "{faults:?}");
}

#[test]
fn files_are_written_whole_and_read_back() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("strip.json");
    let demo = crate::support::tight_strip();
    demo.save(&path).unwrap();
    demo.save(&path).unwrap();
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "no temporary file is left");
    let (again, warnings) = Scenario::load(&path).unwrap();
    assert_eq!((again.file, of_the_plan(warnings)), (demo.file.clone(), vec![]));
    assert!(matches!(demo.save(&folder.path().join("no/strip.json")), Err(Error::Write { .. })));
    assert!(matches!(Scenario::load(&folder.path().join("no.json")), Err(Error::Read { .. })));
}

#[test]
fn files_that_are_no_text() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("strip.json");
    let told = |bytes: &[u8]| {
        std::fs::write(&path, bytes).unwrap();
        let reading = read(&path).unwrap();
        let error = reading.faults.iter().find(|fault| fault.severity == Severity::Error);
        error.map(ToString::to_string).unwrap_or_default()
    };
    assert!(told(b"{\n \"name\": \"\xff\"\n}").contains("line 2: the file is not text in UTF-8"));
    assert!(told(b"\x89PNG\r\n\0\0").contains("the file is no text. It may be a picture"));
    assert!(told(b"\xff\xfe{\0}\0").contains("not text in UTF-8. Save it as UTF-8"));
    assert!(told(&vec![b' '; (16 << 20) + 1]).contains("larger than 16 MiB"));
    // A byte order mark does no harm.
    assert_eq!(told(format!("\u{feff}{DEMO}").as_bytes()), "");
    std::fs::write(&path, "{}").unwrap();
    assert!(matches!(Scenario::load(&path), Err(Error::Input(faults)) if faults.faults.len() >= 8));
}

#[test]
fn any_change_changes_the_hash_and_layout_does_not() {
    let demo: Value = serde_json::from_str(DEMO).unwrap();
    let hash = |value: &Value| read_text(&value.to_string(), None).scenario.unwrap().hash();
    let first = hash(&demo);
    assert_eq!(first, crate::support::tight_strip().hash());
    assert_eq!(first.len(), 12);
    let changes = [
        ("/name", json!("Other")),
        ("/date", json!("2026-04-19")),
        ("/seed", json!(2)),
        ("/jet/mass/value", json!("2.1001 kg")),
        ("/wind/from", json!("181 deg")),
        ("/field/datum/latitude_deg", json!(44.000_001)),
        ("/field/boundary/ring_m/0/0", json!(-260.001)),
        ("/recovery/perception", json!({ "delay": "0.11 s" })),
        ("/limits/stall_factor", json!(1.31)),
        ("/limits/stall_over", json!("4 s")),
        ("/limits/stall_factor_moment", json!(1.11)),
        ("/limits/crossed_at_most", json!("2 %")),
        ("/limits/kept_at_least", json!("80 %")),
        ("/limits/no_automatic_return", json!(true)),
        ("/rules", json!([{ "label": "height", "value": "120 m" }])),
        ("/brief/review_by", json!("2031-01-01")),
        ("/brief/hours/to", json!("12:31")),
        ("/brief/emergency/gate", json!("the other gate")),
        ("/brief/signed/0/name", json!("B. Reeve")),
    ];
    let mut seen = vec![first];
    for (place, value) in changes {
        let mut edited = demo.clone();
        set(&mut edited, place, value);
        let changed = hash(&edited);
        assert!(!seen.contains(&changed), "{place}");
        seen.push(changed);
    }
}

#[test]
fn what_a_scenario_leaves_out_is_not_in_its_hash() {
    // A card in somebody's pocket names this hash: it must go on naming the file it was printed from. Nothing but another
    // fixture may change it: keys that files come to have leave it as it is while they stand at their defaults.
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    remove(&mut demo, "/brief");
    let bare = read_text(&demo.to_string(), None).scenario.unwrap();
    assert_eq!(bare.hash(), "732ff94f51e9");
    set(&mut demo, "/rules", json!([]));
    set(&mut demo, "/limits/no_automatic_return", json!(false));
    set(&mut demo, "/limits/crossed_at_most", json!("1 %"));
    set(&mut demo, "/wind/terrain", json!("open"));
    assert_eq!(read_text(&demo.to_string(), None).scenario.unwrap().hash(), bare.hash());
}

#[test]
fn rules_are_read_and_asked_after() {
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    let rule = json!({ "label": "height", "value": "120 m", "checked_on": "2026-04-01", "checked_by": "A. Member" });
    set(&mut demo, "/rules", json!([rule, { "label": "observer", "value": "beside the pilot" }]));
    expect(&demo, Severity::Warning, "/rules/1", "nobody has checked \"observer");
    assert_eq!(of_the_plan(read_value(&demo)).len(), 1);
    set(&mut demo, "/rules/0/checked_on", json!("2026-02-30"));
    expect(&demo, Severity::Error, "/rules/0/checked_on", "not a day of the calendar");
    set(&mut demo, "/rules/0", json!({ "label": "height" }));
    expect(&demo, Severity::Error, "/rules/0", "missing");
    let mut demo: Value = serde_json::from_str(DEMO).unwrap();
    set(&mut demo, "/limits/no_automatic_return", json!(true));
    expect(&demo, Severity::Warning, "/recovery/failsafe_action", "not permitted here");
}

#[test]
fn an_edited_scenario_is_checked_again() {
    let mut file = crate::support::tight_strip().file;
    file.recovery.radius = peewit::units::Length::new(140.0);
    assert_eq!(Scenario::from_file(file.clone()).unwrap().file.recovery.radius.m(), 140.0);
    file.recovery.radius = peewit::units::Length::new(f64::NAN);
    file.wind.gust = Some(peewit::units::Speed::new(1.0));
    let faults = of_the_plan(Scenario::from_file(file.clone()).unwrap_err());
    assert_eq!(faults.iter().map(|fault| fault.place.as_str()).collect::<Vec<_>>(), ["/wind/gust", "/recovery/radius"]);
    file.field = None;
    assert!(Scenario::from_file(file).unwrap_err()[0].problem.contains("no field"));
}

#[test]
fn the_months_decide_which_rule_holds() {
    use peewit::field::Rule;
    for (date, rule) in [("2026-04-18", Rule::NoFly), ("2026-06-01", Rule::Caution)] {
        let mut file = crate::support::tight_strip().file;
        file.date = date.into();
        assert_eq!(Scenario::from_file(file).unwrap().field.areas[0].rule, rule, "{date}");
    }
}

#[test]
fn the_schema_is_json_schema_and_fits_the_shipped_files() {
    let schema = schema();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    assert!(jsonschema::draft202012::meta::is_valid(&schema));
    assert!(validator.is_valid(&serde_json::from_str(DEMO).unwrap()));
    assert!(!validator.is_valid(&json!({})));
}
