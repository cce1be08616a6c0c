//! The commands that fly many recoveries, as people run them: coarse and with few trials, so that they take seconds.

use serde_json::Value;

use crate::commands::Desk;

/// Coarse questions: command and how much of it.
const RADIUS: &str = "radius field.json --radii 100m,140m --trials 16 --turn anticlockwise --threads 2";
const WIND_LIMIT: &str = "wind-limit field.json --directions 2 --trials 16 --threads 2";
const LOSSES: &str = "losses field.json --cells 6 --headings 2 --trials 4 --threads 2";

fn words(line: &str) -> Vec<&str> {
    line.split(' ').collect()
}

#[test]
fn each_answers_in_words_and_in_every_format() {
    let desk = Desk::new();
    for (line, formats) in [
        (RADIUS, &["txt", "json", "csv", "svg", "png", "pdf", "html"][..]),
        (WIND_LIMIT, &["txt", "json", "csv", "svg", "png", "pdf", "html"]),
        (LOSSES, &["txt", "json", "csv", "svg", "png", "pdf", "html", "geojson"]),
    ] {
        let outs: String = formats.iter().map(|ending| format!(" --out answer.{ending}")).collect();
        let (text, said) = desk.check(&words(&format!("{line}{outs}")), 0);
        assert_eq!(std::fs::read_to_string(desk.path("answer.txt")).unwrap(), text);
        for (ending, begins) in [("png", "\u{89}PNG"), ("pdf", "%PDF-"), ("html", "<!DOCTYPE html>")] {
            let bytes = std::fs::read(desk.path(&format!("answer.{ending}"))).unwrap();
            let begin: String = bytes.iter().take(begins.chars().count()).map(|byte| char::from(*byte)).collect();
            assert_eq!(begin, begins);
        }
        for ending in formats {
            let name = format!("answer.{ending}");
            assert!(said.contains(&name), "{said}");
            std::fs::remove_file(desk.path(&name)).unwrap();
        }
        assert_eq!(desk.names(), ["field.json"]);
    }
}

#[test]
fn the_answer_does_not_hang_on_the_number_of_threads() {
    let desk = Desk::new();
    for line in [RADIUS, WIND_LIMIT, LOSSES] {
        let one = line.replace("--threads 2", "--threads 1");
        let (many, _) = desk.check(&words(&format!("{line} --json")), 0);
        let (alone, _) = desk.check(&words(&format!("{one} --json")), 0);
        assert!(many == alone, "{line}");
        let report: Value = serde_json::from_str(&many).unwrap();
        assert_eq!((&report["partial"], &report["seed"]), (&false.into(), &1.into()));
    }
}

#[test]
fn what_is_asked_for_is_flown_and_said() {
    let desk = Desk::new();
    let (json, _) = desk.check(
        &words(&format!("{RADIUS} --kept-at-least 85% --crossed-at-most 2% --confidence 99% --seed 5 --json")),
        0,
    );
    let report: Value = serde_json::from_str(&json).unwrap();
    let flown: Vec<_> = report["points"].as_array().unwrap().iter().map(|point| point["radius_m"].as_f64()).collect();
    assert_eq!(flown, [Some(100.0), Some(140.0)]);
    let demand = &report["demand"];
    assert_eq!((&demand["kept_at_least_share"], &demand["crossed_at_most_share"]), (&0.85.into(), &0.02.into()));
    assert_eq!((&report["confidence"], &report["seed"]), (&0.99.into(), &5.into()));
    assert_eq!(report["points"][0]["trials"]["trials"], 16);
    assert!(report["changes"][0].as_str().unwrap().contains("anticlockwise"));
}

#[test]
fn strict_tells_a_no_by_its_exit_code() {
    let desk = Desk::new();
    // A circle of 300 m in a field 520 m wide is not usable; no wind keeps it inside; a loss there is not recovered.
    for line in [RADIUS, WIND_LIMIT, LOSSES] {
        let no = format!("{line} --radius 300m");
        desk.check(&words(&no), 0);
        desk.check(&words(&format!("{no} --strict")), 3);
    }
}

#[test]
fn what_makes_no_question_is_refused_before_the_work() {
    let desk = Desk::new();
    for (line, said) in [
        ("radius field.json --radii 60", "no unit"),
        ("radius field.json --radii 40m..60m", "step"),
        ("radius field.json --kept-at-least 2", "no unit"),
        ("radius field.json --crossed-at-most 100%", "between"),
        ("radius field.json --trials 0", "0 is not in"),
        ("radius field.json --threads 0", "0 is not in"),
        ("radius field.json --out a.gpx", ".svg"),
        ("wind-limit field.json --directions 0", "0 is not in"),
        ("wind-limit field.json --out a.geojson", ".svg"),
        ("losses field.json --speeds 20m", "not a unit of speed"),
        ("losses missing.json", "missing.json"),
    ] {
        let (out, err) = desk.check(&words(line), 2);
        assert!(out.is_empty() && err.contains(said), "{line}: {err}");
    }
    assert_eq!(desk.names(), ["field.json"]);
}
