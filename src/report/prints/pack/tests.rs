//! Whether the pack holds every number of the file, its decision paper is four pages, and no table contradicts another.

use std::path::Path;

use serde_json::Value;

use crate::brief::items::told;
use crate::brief::{Plan, Studies, fixture};
use crate::draw::Sheet;
use crate::run::{Brief, Hours, Neighbours, RuleNote, Scenario, ScenarioFile, Signature};
use crate::study::verdict::Answer;
use crate::units::Length;
use crate::words::number;

/// Words of the pack without the spaces: a line may end anywhere.
fn words(scenario: &Scenario) -> String {
    let plan = Plan::new(scenario, "2026-04-20", Studies::default(), &[], &[]);
    let lettered = plan.pack().iter().flat_map(Sheet::lettered).collect::<Vec<_>>();
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
    for said in ["measured", "estimated", "DEFAULT", "asentered"] {
        assert!(printed.contains(said), "{said}");
    }
}

/// What the pages of a part say, one string a page.
fn pages_of(plan: &Plan<'_>, part: &str) -> Vec<String> {
    let told = |page: &Sheet| page.lettered().into_iter().map(|(words, ..)| words + " ").collect::<String>();
    plan.pack().iter().map(told).filter(|words| words.contains(part)).collect()
}

#[test]
fn the_decision_paper_has_four_pages_each_with_its_heading_and_the_annex_follows() {
    for scenario in [Scenario::demo(), Scenario::tight_strip()] {
        let own_circle = fixture::own_circle(&scenario, Answer::No);
        for studies in [Studies::default(), Studies { own_circle: Some(&own_circle), ..Studies::default() }] {
            let plan = Plan::new(&scenario, "2026-04-20", studies, &[], &[]);
            let paper = pages_of(&plan, "decision paper");
            assert_eq!(paper.len(), 4);
            let headings = ["1  Decision", "2  The plan to scale", "3  Risks", "4  Conditions and signatures"];
            for (page, heading) in paper.iter().zip(headings) {
                assert!(page.contains(heading), "no {heading} in {page}");
            }
            let annex = pages_of(&plan, "technical annex");
            assert_eq!(annex.len() + 4, plan.pack().len());
            for (number, heading) in (1..).zip([
                "The plan, and every answer",
                "Inputs",
                "Method",
                "Results",
                "What moves the answer",
                "How sure the answer is",
                "What the sums are checked against",
                "Risks",
                "Steps in sight, still to be flown before the plan is relied on",
                "Before you rely on this",
            ]) {
                let told = format!("A{number}  {heading} ");
                assert!(annex.iter().any(|page| page.contains(&told)), "no {told}");
            }
        }
    }
}

#[test]
fn what_the_file_does_not_say_is_asked_and_what_it_says_is_not() {
    let asked = [
        "Which paths and roads",
        "How loud is it",
        "Whom do neighbours ring",
        "Who may come onto the ground",
        "Off by how much",
    ];
    let told = |scenario: &Scenario| {
        pages_of(&Plan::new(scenario, "2026-04-20", Studies::default(), &[], &[]), "decision paper").concat()
    };
    let silent = told(&Scenario::tight_strip());
    for question in asked {
        assert!(silent.contains(question), "{question}");
    }
    let mut file = Scenario::tight_strip().file;
    file.brief.survey_error = Some(Length::new(2.5));
    let said = ["bridle path, watched", "81 dB at 7 m", "the secretary, 0555 0103", "by the lane only"];
    let [footpaths, noise, complaints, access] = said.map(String::from);
    file.brief.neighbours = Neighbours { footpaths, noise, complaints, access };
    let answered = told(&Scenario::from_file(file).unwrap());
    for question in asked {
        assert!(!answered.contains(question), "{question}");
    }
    for answer in said.into_iter().chain(["may be off by 2.5 m"]) {
        assert!(answered.contains(answer), "{answer}");
    }
}

#[test]
fn what_limits_it_is_what_most_trials_fail_by_in_every_table() {
    let scenario = Scenario::tight_strip();
    let mut own_circle = fixture::own_circle(&scenario, Answer::No);
    let tally = &mut own_circle.points[0].trials;
    // More fail by the second limit than by the first; the worst outcome is none of them.
    (tally.limits[0].crossed, tally.limits[1].crossed, tally.limits[1].least) = (20, 402, -3.0);
    let studies = Studies { own_circle: Some(&own_circle), ..Studies::default() };
    let plan = Plan::new(&scenario, "2026-04-20", studies, &[], &[]);
    let limit = &own_circle.limits[1].name;
    assert_eq!(plan.own_trials().unwrap().missed[0].name, limit);
    assert!(plan.five_lines().unwrap().limited_by.contains(&format!("rossed most: {limit}, in 402")));
    let printed = plan.pack().iter().flat_map(Sheet::lettered).map(|(words, ..)| words + " ").collect::<String>();
    for (at, _) in printed.match_indices("rossed most: ") {
        assert!(printed[at..].starts_with(&format!("rossed most: {limit}")), "{}", &printed[at..at + 60]);
    }
}

#[test]
fn a_circle_that_is_not_the_plan_s_is_a_proposal_of_its_own() {
    let mut file = Scenario::tight_strip().file;
    let told = |file: &ScenarioFile| {
        let scenario = Scenario::from_file(file.clone()).unwrap();
        let radius = fixture::radius(&scenario, true);
        let studies = Studies { radius: Some(&radius), ..Studies::default() };
        Plan::new(&scenario, "2026-04-20", studies, &[], &[]).another_circle()
    };
    assert!(told(&file).unwrap().contains("a proposal of its own"));
    file.recovery.radius = Length::new(117.5);
    file.recovery.turn = crate::recovery::Turn::Anticlockwise;
    assert_eq!(told(&file), None);
}

#[test]
fn a_study_that_opens_something_is_told_with_all_of_it() {
    let scenario = Scenario::tight_strip();
    let (radius, losses) = (fixture::radius(&scenario, false), fixture::losses(&scenario, 20));
    let studies = Studies { radius: Some(&radius), losses: Some(&losses), ..Studies::default() };
    let plan = Plan::new(&scenario, "2026-04-20", studies, &[], &[]);
    let printed: String = plan.pack().iter().flat_map(Sheet::lettered).map(|(words, ..)| words + " ").collect();
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
