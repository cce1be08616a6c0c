//! Does one plan say the same figures on every print, on the screen and in JSON?

use regex::Regex;
use serde_json::Value;

use super::Print;
use crate::brief::{Plan, Studies, fixture};
use crate::recovery::FailsafeAction;
use crate::report::Format;
use crate::run::Scenario;
use crate::study::verdict::Answer;
use crate::units::Length;

/// Every place that tells something of a plan, with what it tells: the prints, the text, the answer in five lines.
fn told(plan: &Plan<'_>) -> Vec<(&'static str, String)> {
    let words = |print: Print| {
        let pages = plan.pages(print);
        let words = pages.iter().flat_map(|page| page.lettered().into_iter().map(|(words, ..)| words));
        words.collect::<Vec<_>>().join(" ")
    };
    let mut told: Vec<(&str, String)> = Print::ALL.iter().map(|&print| (print.name(), words(print))).collect();
    let text = String::from_utf8(plan.render(Print::Card, Format::Text, 1).unwrap()).unwrap();
    // A sentence that is broken into lines is still that sentence.
    told.push(("text", text.split_whitespace().collect::<Vec<_>>().join(" ")));
    told
}

/// What is the same everywhere: a figure of the JSON, the patterns that tell it, and where it must be told.
struct Figure {
    name: &'static str,
    expected: String,
    patterns: &'static [&'static str],
    places: &'static [&'static str],
}

fn figures(json: &Value) -> Vec<Figure> {
    let number = |place: &str, digits: usize| {
        let value = json.pointer(place).and_then(Value::as_f64).unwrap_or_else(|| panic!("no {place} in {json:#}"));
        format!("{value:.digits$}")
    };
    let figure = |name, expected, patterns, places| Figure { name, expected, patterns, places };
    vec![
        figure(
            "radius",
            number("/radius_m", 0),
            &[
                r"radius (\d+) m\b",
                r"(\d+) m radius",
                r"circle (\d+) m at",
                r"[Cc]ircle of (\d+) m about",
                r"Circle: (\d+) m,",
            ],
            &["card", "today", "poster", "text", "pack"],
        ),
        figure(
            "height",
            number("/height_m", 0),
            &[
                r"(\d+) m \(\d+ ft\) (?:over|above home, (?:anti)?clockwise)",
                r"circle \d+ m at (\d+) m",
                r"radius, (\d+) m up",
            ],
            &["card", "today", "poster", "text"],
        ),
        figure("lap", number("/lap_s", 0), &[r"one lap (\d+) s", r"Lap: (\d+) s"], &["card", "text"]),
        figure(
            "time home",
            number("/home_s", 0),
            &[r"it circles (\d+) s after the loss", r"on the circle (\d+) s after the loss"],
            &["card", "text", "briefing"],
        ),
    ]
}

/// Every telling of every figure is that of the JSON; where DO NOT FLY takes a print's place, less is told.
#[track_caller]
fn check(scenario: &Scenario, answer: Answer) {
    let (own_circle, wind_limit) = (fixture::own_circle(scenario, answer), fixture::wind_limit(scenario));
    let studies = Studies { own_circle: Some(&own_circle), wind_limit: Some(&wind_limit), ..Studies::default() };
    let plan = Plan::new(scenario, "2026-04-18", studies, &[], &[]);
    let (json, told) = (serde_json::from_str::<Value>(&plan.json()).unwrap(), told(&plan));
    let stopped = plan.release().stopped();
    for figure in figures(&json) {
        let patterns: Vec<Regex> = figure.patterns.iter().map(|pattern| Regex::new(pattern).unwrap()).collect();
        for (place, words) in &told {
            let found: Vec<&str> = patterns
                .iter()
                .flat_map(|pattern| pattern.captures_iter(words).map(|captures| captures.get(1).unwrap().as_str()))
                .collect();
            assert!(
                found.iter().all(|said| *said == figure.expected),
                "{} on {place}: {found:?}, JSON has {}",
                figure.name,
                figure.expected
            );
            assert!(
                !found.is_empty() || stopped || !figure.places.contains(place),
                "{} is not told on {place}: {words}",
                figure.name
            );
        }
    }
    same_sentences(&plan, &json, &told);
}

/// What is told in one sentence is told in that sentence wherever it is told.
fn same_sentences(plan: &Plan<'_>, json: &Value, told: &[(&'static str, String)]) {
    let verdict = plan.studies.own_circle.and_then(|study| study.plan).unwrap();
    let shares = Regex::new(r"stays inside in \d+ of \d+, keeps the buffers in \d+, holds the circle in \d+").unwrap();
    let meter = Regex::new(r"(?:over|[Aa]t most|limit)[^.]{0,20}? (\d+\.\d) m/s, (?:gusts|or) (\d+\.\d) m/s").unwrap();
    let wind = plan.facts().wind_for_card().unwrap();
    let wind = [wind.mean_mps, wind.gust_mps].map(|mps| format!("{mps:.1}"));
    let mut counted = [0; 2];
    for (place, words) in told {
        let said: Vec<&str> = shares.find_iter(words).map(|said| said.as_str()).collect();
        let own = said.iter().filter(|said| **said == verdict.shares_told()).count();
        // The pack tells of other circles and winds besides.
        assert!(own == said.len() || (*place == "pack" && own > 0), "{place}: {said:?}");
        counted[0] += own;
        for said in meter.captures_iter(words) {
            assert_eq!([&said[1], &said[2]], [&wind[0], &wind[1]], "{place}: {}", &said[0]);
            counted[1] += 1;
        }
    }
    let least = if plan.release().stopped() { [1, 1] } else { [3, 3] };
    assert!(counted[0] >= least[0] && counted[1] >= least[1], "told too seldom to be compared: {counted:?}");
    assert_eq!(json["do_not_fly"].as_array().is_some_and(|stops| !stops.is_empty()), plan.release().stopped());
}

#[test]
fn one_plan_has_one_figure_for_everything_wherever_it_is_told() {
    let holds = Scenario::tight_strip();
    check(&holds, Answer::Yes);
    check(&holds, Answer::No);
    check(&holds, Answer::Undecided);
    let mut file = Scenario::tight_strip().file;
    (file.recovery.radius, file.recovery.height) = (Length::new(131.0), Length::new(58.0));
    check(&Scenario::from_file(file).unwrap(), Answer::Yes);
}

#[test]
fn a_jet_whose_fan_is_cut_circles_nowhere() {
    let mut file = Scenario::tight_strip().file;
    file.recovery.failsafe_action = FailsafeAction::Cut;
    let scenario = Scenario::from_file(file).unwrap();
    let plan = Plan::new(&scenario, "2026-04-18", Studies::default(), &[], &[]);
    // The briefing says beforehand that its circle is what it would be.
    for (place, words) in told(&plan).into_iter().filter(|(place, _)| *place != Print::Lesson.name()) {
        for promise in ["it circles", "slow side", "one lap"] {
            assert!(!words.contains(promise), "{place} promises \"{promise}\": {words}");
        }
    }
}
