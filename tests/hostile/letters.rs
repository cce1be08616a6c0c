//! Names that are code, whatever they are names of, in everything that is written: each file is read back by its own reader.

use std::path::Path;

use peewit::error::Severity;
use peewit::run::{Scenario, read_text};
use serde_json::Value;

use crate::commands::Desk;

/// What a browser runs, what ends a piece of XML, what steers a terminal, turns a line about, hides, ends a string.
const CODE: &str =
    "<script>alert(1)</script>&\"']]><!--\u{1b}[31m\u{9b}2J\u{7}\u{202e}\u{2066}\u{200b}\u{0}\u{ffff}\r\nq";
/// What of it stays to be seen.
const SEEN: &str = "<script>alert(1)</script>&\"']]><!--";

/// Every place of text in a value.
fn texts(value: &Value, place: &str, all: &mut Vec<String>) {
    match value {
        Value::String(_) => all.push(place.to_owned()),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| texts(item, &format!("{place}/{i}"), all));
        }
        Value::Object(members) => members.iter().for_each(|(key, item)| texts(item, &format!("{place}/{key}"), all)),
        _ => {}
    }
}

/// A scenario that has code wherever it takes words, after a sign that may begin a formula, and how many such places it has.
fn of_code(sign: &str) -> (Scenario, usize) {
    let mut file: Value = serde_json::from_str(include_str!("../../scenarios/goatwillow-strip.json")).unwrap();
    let mut all = Vec::new();
    texts(&file, "", &mut all);
    let mut count = 0;
    for place in all {
        let before = file.pointer(&place).unwrap().clone();
        *file.pointer_mut(&place).unwrap() = format!("{sign}{CODE}{count}").into();
        let faults = read_text(&file.to_string(), None).faults;
        if faults.iter().any(|fault| fault.severity == Severity::Error) {
            *file.pointer_mut(&place).unwrap() = before;
        } else {
            count += 1;
        }
    }
    (read_text(&file.to_string(), None).scenario.unwrap(), count)
}

fn plain(text: &str, what: &str) {
    let steers = |letter: &char| {
        (letter.is_control() && !"\r\n\t".contains(*letter))
            || ('\u{200b}'..='\u{200f}').contains(letter)
            || ('\u{202a}'..='\u{202e}').contains(letter)
            || ('\u{2066}'..='\u{2069}').contains(letter)
            || matches!(letter, '\u{ffff}' | '\u{2028}' | '\u{2029}')
    };
    if let Some(at) = text.chars().position(|letter| steers(&letter)) {
        let around: String = text.chars().skip(at.saturating_sub(40)).take(80).collect();
        panic!("{what}: {around:?}");
    }
}

/// Reads a file back with the reader of its format.
fn read_back(path: &Path) {
    let what = path.display().to_string();
    let bytes = std::fs::read(path).unwrap();
    let ending = path.extension().unwrap().to_str().unwrap();
    if ending == "pdf" {
        let document = lopdf::Document::load_mem(&bytes).unwrap_or_else(|why| panic!("{what}: {why}"));
        let pages: Vec<u32> = document.get_pages().keys().copied().collect();
        let text = document.extract_text(&pages).unwrap();
        return assert!(text.contains("<script>"), "{what}: {text}");
    }
    let text = String::from_utf8(bytes).unwrap();
    plain(&text, &what);
    match ending {
        "json" | "geojson" => drop(serde_json::from_str::<Value>(&text).unwrap()),
        "csv" => {
            let mut table = csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
            for cell in table.records().flat_map(|row| row.unwrap().iter().map(String::from).collect::<Vec<_>>()) {
                let formula = cell.trim_start().starts_with(['=', '+', '-', '@', '\t', '\r']);
                assert!(!formula || cell.parse::<f64>().is_ok(), "{what}: {cell:?}");
            }
        }
        "svg" | "html" | "kml" | "gpx" => {
            let options = roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() };
            let read =
                roxmltree::Document::parse_with_options(&text, options).unwrap_or_else(|why| panic!("{what}: {why}"));
            let script = |node: roxmltree::Node| node.tag_name().name() == "script";
            assert!(!read.descendants().any(script), "{what}");
            assert!(read.descendants().any(|node| node.text().is_some_and(|text| text.contains("<script>"))), "{what}");
        }
        _ => {}
    }
}

/// Commands with what each is written as.
const ANSWERS: [(&str, &str); 8] = [
    ("check in.json", ""),
    ("check in.json --json", ""),
    ("recover in.json --trials 2", "txt json csv geojson gpx kml"),
    ("radius in.json --radii 100m,120m --trials 2", "txt json csv svg html pdf"),
    ("wind-limit in.json --directions 2 --trials 2", "txt json csv svg html"),
    ("losses in.json --cells 4 --headings 2 --trials 0", "txt json csv geojson svg html"),
    ("debrief in.json log.csv", "txt json csv geojson gpx html svg"),
    ("card in.json --trials 1 --print card", "txt json html svg pdf"),
];

#[test]
fn code_in_every_name_is_words_in_every_format() {
    for sign in ["=", "@", ""] {
        let (scenario, count) = of_code(sign);
        assert!(count > 20, "{count} places take words");
        let desk = Desk::new();
        std::fs::write(desk.path("in.json"), scenario.to_text()).unwrap();
        desk.check(&["recover", "in.json", "--trials", "0", "--out", "log.csv"], 0);
        let answers = if sign == "=" { &ANSWERS[..] } else { &ANSWERS[2..4] };
        for (index, (command, endings)) in answers.iter().enumerate() {
            let mut words: Vec<String> = command.split(' ').map(String::from).collect();
            for ending in endings.split_whitespace() {
                words.extend(["--out".into(), format!("{index}.{ending}")]);
            }
            let (out, err) = desk.check(&words.iter().map(String::as_str).collect::<Vec<_>>(), 0);
            plain(&out, command);
            plain(&err, command);
            assert!(out.contains("<script>"), "{command}: {out}");
            endings.split_whitespace().for_each(|ending| read_back(&desk.path(&format!("{index}.{ending}"))));
        }
        assert!(scenario.file.name.contains(SEEN));
    }
}

#[test]
fn faults_quote_code_and_steer_nothing() {
    let desk = Desk::new();
    let name = "\u{1b}[2J\u{202e}key\n";
    let text = std::fs::read_to_string(desk.path("field.json")).unwrap();
    let mut file: Value = serde_json::from_str(&text).unwrap();
    file[name] = name.into();
    file["wind"]["gust"] = name.into();
    file["field"]["areas"][0]["rule"] = name.into();
    std::fs::write(desk.path("in.json"), file.to_string()).unwrap();
    for words in [&["check", "in.json"][..], &["check", "in.json", "--json"], &["recover", "in.json"]] {
        let (out, err) = desk.check(words, 2);
        plain(&(out + &err), "faults");
        assert!(err.contains("[2Jkey"), "{err}");
    }
    // Neither what is typed nor the name of a file does.
    for (words, says) in [
        (&["recover", "field.json", "--radius", "\u{1b}[2J5"][..], "does not start with a number"),
        (&["recover", "\u{1b}[2Jgone.json"], "there is no file  [2Jgone.json"),
    ] {
        let (_, err) = desk.check(words, 2);
        plain(&err, "typed");
        assert!(err.contains(says), "{err}");
    }
}
