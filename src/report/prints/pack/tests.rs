//! Whether the pack holds every number of the file, and names no test that is not there.

use std::path::Path;

use serde_json::Value;

use super::verification::RUNGS;
use crate::brief::items::told;
use crate::brief::{Plan, Studies, fixture};
use crate::run::{Brief, Hours, RuleNote, Scenario, Signature};
use crate::words::number;

/// Words of the pack without the spaces: a line may end anywhere.
fn words(scenario: &Scenario) -> String {
    let plan = Plan::new(scenario, "2026-04-20", Studies::default(), &[], &[]);
    let lettered = plan.pack(None).iter().flat_map(crate::draw::Sheet::lettered).collect::<Vec<_>>();
    lettered.iter().flat_map(|(words, ..)| words.split_whitespace()).collect()
}

/// Every value of a file in print; corners of rings to the decimetre, as the pack has them.
fn leaves(value: &Value, key: &str, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(members) => members.iter().for_each(|(key, inner)| leaves(inner, key, found)),
        Value::Array(all) if ["ring_m", "holes_m", "line_m", "area_m"].contains(&key) => {
            let pairs = all.iter().filter_map(Value::as_array).filter(|pair| pair.iter().all(Value::is_number));
            for pair in pairs {
                let [x, y] = [0, 1].map(|index| number(pair[index].as_f64().unwrap()));
                found.push((key.into(), format!("({x}, {y})")));
            }
            all.iter().filter(|inner| inner[0].is_array()).for_each(|inner| leaves(inner, key, found));
        }
        // Months and rules are in other words.
        Value::Array(_) | Value::String(_) if key == "months" || key == "rule" || key == "otherwise" => {}
        Value::Array(all) if all.iter().any(|inner| !inner.is_number()) => {
            all.iter().for_each(|inner| leaves(inner, key, found));
        }
        Value::Null => {}
        value => found.push((key.into(), told(value))),
    }
}

#[track_caller]
fn holds_everything(scenario: &Scenario) {
    let printed = words(scenario);
    let mut found = Vec::new();
    leaves(&serde_json::to_value(&scenario.file).unwrap(), "", &mut found);
    assert!(found.len() > 90, "{}", found.len());
    for (key, value) in found {
        let value: String = value.split_whitespace().collect();
        assert!(printed.contains(&value), "{}: \"{key}\": {value} is not in the pack", scenario.file.name);
    }
}

#[test]
fn every_number_and_word_of_the_file_is_in_it() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    for name in ["brantop-hill", "cotterfold-elbow", "tansycroft-common"] {
        let (scenario, _) = Scenario::load(&folder.join(format!("{name}.json"))).unwrap();
        holds_everything(&scenario);
    }
    let mut file = Scenario::tight_strip().file;
    file.rules = vec![RuleNote {
        label: "height".into(),
        value: "117 m".into(),
        source: "a letter".into(),
        checked_on: Some("2026-03-03".into()),
        checked_by: "A. Member".into(),
    }];
    file.limits.no_automatic_return = true;
    file.brief = Brief {
        hours: Some(Hours { from: "18:31".into(), to: "20:07".into(), ahead_of_utc: "-02:00".into() }),
        review_by: Some("2026-12-31".into()),
        signed: vec![Signature {
            name: "B. Member".into(),
            role: "second person".into(),
            on: "2026-03-04".into(),
            version: String::new(),
        }],
        ..file.brief
    };
    file.field.as_mut().unwrap().boundary.holes_m = vec![vec![[231.25, 171.0], [241.0, 171.0], [241.0, 181.5]]];
    holds_everything(&Scenario::from_file(file).unwrap());
}

#[test]
fn defaults_look_different_from_what_was_measured() {
    let printed = words(&Scenario::tight_strip());
    for said in ["measured", "estimated", "DEFAULT", "aswritten"] {
        assert!(printed.contains(said), "{said}");
    }
}

#[test]
fn every_test_it_names_is_there_and_every_step_of_the_ladder_is_told() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for (index, rung) in RUNGS.iter().enumerate() {
        assert_eq!(usize::from(rung.id), index + 1);
        for (file, test) in rung.places {
            let source = std::fs::read_to_string(root.join(file)).unwrap_or_default();
            let marked =
                source.find(&format!("fn {test}(")).is_some_and(|at| source[..at].trim_end().ends_with("#[test]"));
            let drawn = source.contains("proptest!") && source.contains(&format!("fn {test}("));
            assert!(marked || drawn, "V{}: {file} has no test {test}", rung.id);
        }
    }
}

#[test]
fn a_study_that_opens_something_is_told_with_all_of_it() {
    let scenario = Scenario::tight_strip();
    let (radius, losses) = (fixture::radius(&scenario, false), fixture::losses(&scenario, 20));
    let studies = Studies { radius: Some(&radius), losses: Some(&losses), ..Studies::default() };
    let plan = Plan::new(&scenario, "2026-04-20", studies, &[], &[]);
    let printed: String =
        plan.pack(None).iter().flat_map(crate::draw::Sheet::lettered).map(|(words, ..)| words + " ").collect();
    for said in [
        "return at 19 m/s instead of 22 m/s",
        "These do not help: maximum bank 40 deg",
        "area, people or obstacle",
        "late or unseen",
        "a club's tape, value judged",
        "look-ahead",
    ] {
        assert!(printed.contains(said), "{said}");
    }
}
