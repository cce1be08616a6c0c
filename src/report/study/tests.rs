//! What every report of a study has to say, whatever came of it.

use std::str::FromStr as _;

use serde_json::Value;

use crate::VERSION;
use crate::brief::{Answer, StudyReport, fixture};
use crate::margins::Outcome;
use crate::report::Format;
use crate::run::Scenario;
use crate::study::radius::{RadiusPoint, RadiusStudy, Shortfall};
use crate::study::verdict::Answer::{No, Yes};
use crate::study::verdict::Verdict;
use crate::words::{self, cautions};

fn with_all(check: impl Fn(&str, &StudyReport)) {
    let scenario = Scenario::tight_strip();
    let (open, shut) = (fixture::radius(&scenario, true), fixture::radius(&scenario, false));
    let (wind_limit, losses) = (fixture::wind_limit(&scenario), fixture::losses(&scenario, 20));
    let mut alone = fixture::wind_limit(&scenario);
    alone.ask.trials = 0;
    alone.directions.iter_mut().for_each(|found| (found.held, found.failed) = (None, None));
    let answers = [
        ("radius", Answer::Radius(&open)),
        ("wind limit of the plan without errors", Answer::WindLimit(&alone)),
        ("no radius", Answer::Radius(&shut)),
        ("wind-limit", Answer::WindLimit(&wind_limit)),
        ("losses", Answer::Losses(&losses)),
    ];
    for (name, answer) in answers {
        check(
            name,
            &StudyReport { scenario: &scenario, answer, remedy: None, warnings: &[], changes: &["seed 1".into()] },
        );
    }
}

fn text(report: &StudyReport, format: Format) -> String {
    String::from_utf8(report.render(format).unwrap()).unwrap()
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_report_says_where_it_comes_from_and_what_to_remember() {
    with_all(|name, report| {
        let (words, json) = (flat(&text(report, Format::Text)), text(report, Format::Json));
        let hash = report.scenario.hash();
        for said in [VERSION, &hash, "seed 1", "N = ", "95 % confidence", cautions::FOOT, cautions::IN_FULL] {
            assert!(words.contains(&flat(said)), "{name} does not say {said}: {words}");
        }
        let json: Value = serde_json::from_str(&json).unwrap();
        assert_eq!((&json["scenario_hash"], &json["seed"], &json["partial"]), (&hash.into(), &1.into(), &false.into()));
        assert_eq!(json["cautions"].as_array().map(Vec::len), Some(cautions::ALL.len()));
        assert_eq!(json["confidence"], 0.95);
    });
}

#[test]
fn the_same_study_gives_the_same_bytes_and_none_claims_everything() {
    with_all(|name, report| {
        for format in [Format::Text, Format::Json, Format::Csv, Format::Svg, Format::Html] {
            let bytes = text(report, format);
            assert_eq!(bytes, text(report, format), "{name}");
            assert!(!bytes.contains("100 %") && !bytes.contains("100.0 %"), "{name} claims everything");
        }
        assert!(report.render(Format::Pdf).unwrap() == report.render(Format::Pdf).unwrap(), "{name}");
        assert!(report.render(Format::Gpx).unwrap_err().to_string().contains(".gpx"));
    });
}

#[test]
fn the_page_for_a_browser_has_the_answer_and_every_caution_in_words() {
    with_all(|name, report| {
        let html = text(report, Format::Html);
        let html = roxmltree::Document::parse_with_options(
            &html,
            roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() },
        );
        let html = html.unwrap();
        let said: Vec<_> = html.descendants().filter(|node| node.has_tag_name("p")).filter_map(|p| p.text()).collect();
        let (headline, stamp) = (flat(&report.headline()), flat(&report.stamp()));
        for words in [headline.as_str(), &stamp, "seed 1"].into_iter().chain(cautions::ALL) {
            assert!(said.contains(&words), "{name} does not say {words}: {said:?}");
        }
    });
}

#[test]
fn lines_of_words_keep_to_the_width_of_a_sheet() {
    with_all(|name, report| {
        let words = text(report, Format::Text);
        let answer = words.split("What was asked").next().unwrap();
        assert!(answer.lines().all(|line| line.chars().count() <= 96), "{name}: {answer}");
    });
}

#[test]
fn a_study_that_was_stopped_says_so_everywhere() {
    let scenario = Scenario::tight_strip();
    let mut study = fixture::radius(&scenario, true);
    study.partial = true;
    let report =
        StudyReport { scenario: &scenario, answer: Answer::Radius(&study), remedy: None, warnings: &[], changes: &[] };
    for format in [Format::Text, Format::Svg, Format::Html] {
        assert!(text(&report, format).contains("STOPPED BEFORE IT WAS COMPLETE"), "{format:?}");
    }
    assert!(text(&report, Format::Json).contains("\"partial\": true"));
}

#[test]
fn no_usable_radii_says_so_names_the_room_budget_and_lists_what_would_help() {
    let scenario = Scenario::tight_strip();
    let study = fixture::radius(&scenario, false);
    let report =
        StudyReport { scenario: &scenario, answer: Answer::Radius(&study), remedy: None, warnings: &[], changes: &[] };
    let words = flat(&text(&report, Format::Text));
    for said in [
        "No radius flown, from 40 to 260 m, holds.",
        "Nearest is 130 m clockwise. No: stays inside in",
        "Without errors: boundary crossed by 5.0 m",
        "Room budget survey 2.0 m",
        "return at 19 m/s instead of 22 m/s 105 to 125 m anticlockwise",
    ] {
        assert!(words.contains(said), "no \"{said}\" in {words}");
    }
}

/// The text of a radius study, on one line.
fn told(study: &RadiusStudy) -> String {
    let scenario = Scenario::tight_strip();
    let answer = Answer::Radius(study);
    flat(&text(&StudyReport { scenario: &scenario, answer, remedy: None, warnings: &[], changes: &[] }, Format::Text))
}

#[test]
fn what_is_alike_is_said_once() {
    let mut study = fixture::radius(&Scenario::tight_strip(), false);
    let words = told(&study);
    let section = |head: &str, next: &str| words.split(head).nth(1).unwrap().split(next).next().unwrap().to_owned();
    let usable = section("Usable radii", "The circle nearest");
    assert_eq!(usable.matches("none").count(), 1, "{usable}");
    // Made alike, all radii share a line.
    let first = study.points[0].clone();
    let fails = words::missed(&study.limits, &first.mean).unwrap().0.name.clone();
    for point in &mut study.points {
        let (radius_m, turn) = (point.radius_m, point.turn);
        *point = RadiusPoint { radius_m, turn, ..first.clone() };
    }
    let [low, high] = [study.ask.radii_m[0], *study.ask.radii_m.last().unwrap()].map(words::number);
    assert!(told(&study).contains(&format!("answer {low} to {high} m {fails} crossed")), "{}", told(&study));
    // What does not help alone is named, and stands in no row.
    study.remedies.iter_mut().for_each(|remedy| (remedy.usable, remedy.gust) = (vec![], vec![]));
    let kinds = study.remedies.iter().map(|remedy| remedy.step.kind());
    let said = told(&study);
    let vain = said.split("Changed alone, without success: ").nth(1).unwrap();
    assert!(kinds.into_iter().all(|kind| vain.contains(kind)) && !said.contains("return at 19 m/s"), "{vain}");
}

#[test]
fn a_circle_that_stands_alone_or_at_the_edge_is_not_recommended() {
    let scenario = Scenario::tight_strip();
    let headline = |study: &RadiusStudy| {
        let answer = Answer::Radius(study);
        StudyReport { scenario: &scenario, answer, remedy: None, warnings: &[], changes: &[] }.headline()
    };
    let mut study = fixture::radius(&scenario, true);
    study.choice.as_mut().unwrap().radius_m = 110.0;
    let choice = study.choice.clone().unwrap();
    let yes = study.points.iter().find_map(|point| point.verdict).unwrap();
    for (holds, says) in
        [(0.0, "the only one flown that holds"), (10.0, "the edge of what does"), (20.0, "recommended")]
    {
        for point in &mut study.points {
            let near = point.turn == choice.turn
                && (point.radius_m - choice.radius_m).abs() <= holds
                && (holds != 10.0 || point.radius_m <= choice.radius_m);
            let answer = if near { Yes } else { No };
            point.verdict = Some(Verdict { answer, ..yes });
        }
        assert!(headline(&study).contains(says), "{says}: {}", headline(&study));
    }
}

#[test]
fn what_no_circle_fixes_is_said_first() {
    let scenario = Scenario::tight_strip();
    let mut study = fixture::radius(&scenario, false);
    study.already = vec![Shortfall { limit: study.limits[0].clone(), margin: 4.0, buffer: 20.0 }];
    let report =
        StudyReport { scenario: &scenario, answer: Answer::Radius(&study), remedy: None, warnings: &[], changes: &[] };
    assert!(report.headline().contains("which no circle fixes: boundary: 4.0 of 20 m asked for."));
}

#[test]
fn both_ends_of_a_range_have_their_reason() {
    let scenario = Scenario::tight_strip();
    let study = fixture::radius(&scenario, true);
    let report =
        StudyReport { scenario: &scenario, answer: Answer::Radius(&study), remedy: None, warnings: &[], changes: &[] };
    let said = "without errors, mean wind, clockwise: 92.5 to 120 m. Below 92.5 m: maximum bank can't hold it: blown 12 m wide. \
                Above 120 m: boundary: 14.0 of 20 m asked for.";
    assert!(flat(&text(&report, Format::Text)).contains(said));
}

#[test]
fn tables_have_a_row_for_everything_flown() {
    let scenario = Scenario::tight_strip();
    let (radius, wind_limit, losses) =
        (fixture::radius(&scenario, true), fixture::wind_limit(&scenario), fixture::losses(&scenario, 20));
    let answers = [
        (Answer::Radius(&radius), radius.points.len(), "radius_m", "60"),
        (Answer::WindLimit(&wind_limit), 36, "wind_from_deg", "20"),
        (Answer::Losses(&losses), losses.cells.len(), "row", "0"),
    ];
    for (answer, rows, column, third) in answers {
        let report = StudyReport { scenario: &scenario, answer, remedy: None, warnings: &[], changes: &[] };
        let bytes = text(&report, Format::Csv);
        let mut table = csv::Reader::from_reader(bytes.as_bytes());
        let at = table.headers().unwrap().iter().position(|head| head == column).unwrap();
        let records: Vec<_> = table.records().map(Result::unwrap).collect();
        assert_eq!((records.len(), &records[2][at]), (rows, third));
    }
}

#[test]
fn cells_come_back_from_geojson_as_closed_rings_the_right_way_round() {
    let scenario = Scenario::tight_strip();
    let study = fixture::losses(&scenario, 20);
    let report =
        StudyReport { scenario: &scenario, answer: Answer::Losses(&study), remedy: None, warnings: &[], changes: &[] };
    let bytes = text(&report, Format::GeoJson);
    let read = geojson::FeatureCollection::try_from(geojson::GeoJson::from_str(&bytes).unwrap()).unwrap();
    let rings = |role: &str| {
        let of_role = |feature: &&geojson::Feature| feature.property("role").and_then(Value::as_str) == Some(role);
        let ring = |feature: &geojson::Feature| match &feature.geometry.as_ref()?.value {
            geojson::GeometryValue::Polygon { coordinates } => Some(coordinates[0].clone()),
            _ => None,
        };
        read.features.iter().filter(of_role).filter_map(ring).collect::<Vec<_>>()
    };
    let (cells, keep) = (rings("cell"), rings("keep-inside"));
    // Of the two keep-inside lines one is nowhere.
    assert_eq!((cells.len(), keep.len()), (study.cells.len(), 1));
    for ring in cells.iter().chain(&keep) {
        assert_eq!(ring.first(), ring.last());
        // RFC 7946, 3.1.6: exterior rings are counterclockwise, longitude first.
        let twice: f64 = ring.windows(2).map(|pair| pair[0][0] * pair[1][1] - pair[1][0] * pair[0][1]).sum();
        assert!(twice > 0.0);
    }
    for (ring, cell) in cells.iter().zip(&study.cells) {
        assert_eq!(ring.len(), 5);
        let (latitude, longitude) = scenario.field.plane.to_degrees(cell.middle);
        let near = |corner: f64, middle: f64| (corner - middle).abs() < 4e-4;
        assert!(near(ring[0][0], longitude) && near(ring[0][1], latitude));
    }
}

#[test]
fn the_map_of_letters_shows_every_outcome_the_study_has() {
    let scenario = Scenario::tight_strip();
    for cells in [20, 60] {
        let study = fixture::losses(&scenario, cells);
        let report = StudyReport {
            scenario: &scenario,
            answer: Answer::Losses(&study),
            remedy: None,
            warnings: &[],
            changes: &[],
        };
        let words = text(&report, Format::Text);
        let map = words.split("north up\n").nth(1).unwrap().split("  A line is").next().unwrap();
        for letter in "POCSNEL.+".chars() {
            assert!(map.contains(letter), "no {letter} in\n{map}");
        }
        assert!(map.lines().all(|line| line.chars().count() <= 96));
        assert_eq!(Outcome::ALL.len(), "POCSNEL.".len());
    }
}

/// The numbers without a dimension.
const PLAIN: [&str; 26] = [
    "held",
    "crossed",
    "kept",
    "trials",
    "most_trials",
    "seed",
    "trials",
    "met",
    "flown",
    "confidence",
    "laps_to_reserve",
    "crossed",
    "inside_buffer",
    "least_trial",
    "trial",
    "column",
    "row",
    "columns",
    "rows",
    "headings",
    "crossed_kept_and_flown_by_heading",
    "cells_not_checked_closely",
    "bearings",
    "centre_crossed",
    "centre_trials",
    "wind_limit",
];
/// What the keys of all other numbers end in.
const UNITS: [&str; 8] = ["_m", "_s", "_mps", "_wh", "_deg", "_share", "_laps", "_kt"];

fn without_unit(key: &str, value: &Value, found: &mut Vec<String>) {
    let outcome = Outcome::ALL.iter().any(|outcome| words::outcome_key(*outcome) == key);
    match value {
        Value::Number(_) if !outcome && !PLAIN.contains(&key) && !UNITS.iter().any(|unit| key.ends_with(unit)) => {
            found.push(key.to_owned());
        }
        Value::Array(items) => items.iter().for_each(|item| without_unit(key, item, found)),
        Value::Object(map) => map.iter().for_each(|(key, value)| without_unit(key, value, found)),
        _ => {}
    }
}

#[test]
fn every_number_in_json_has_its_unit_in_the_key() {
    with_all(|name, report| {
        let mut found = Vec::new();
        without_unit("", &serde_json::from_str(&text(report, Format::Json)).unwrap(), &mut found);
        assert!(found.is_empty(), "{name}: {found:?}");
    });
}
