//! Every number of a scenario set to what nobody means: either a fault with the way out, or an answer in numbers and words.
//!
//! The numbers are found in the file, so that a new one is among them.

use peewit::brief::{Answer, Recovery, SaidBack, StudyReport};
use peewit::error::Severity;
use peewit::margins::judge;
use peewit::report::Format;
use peewit::run::{WindChoice, fly, read_text};
use peewit::study::radius::{RadiusAsk, study_briefly};
use peewit::study::work::Work;
use peewit::words::Units;
use rayon::prelude::*;
use serde_json::{Value, json};

/// What every number is set to.
const ODD: [&str; 8] = ["0", "-1", "1e-308", "-1e308", "1e9", "1e308", "NaN", "inf"];

/// Every place of a number, with its unit where it has one.
fn numbers(value: &Value, place: &str, all: &mut Vec<(String, Option<String>)>) {
    match value {
        Value::Number(_) => all.push((place.to_owned(), None)),
        Value::String(text) => {
            let unit = text.trim_start_matches(|letter: char| letter.is_ascii_digit() || ".-".contains(letter));
            if unit.len() < text.len() && unit.starts_with(' ') && unit.len() < 8 {
                all.push((place.to_owned(), Some(unit.to_owned())));
            }
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| numbers(item, &format!("{place}/{i}"), all));
        }
        Value::Object(members) => members.iter().for_each(|(key, item)| numbers(item, &format!("{place}/{key}"), all)),
        _ => {}
    }
}

/// The first word that is no number, or a number nobody counts the digits of.
fn absurd(text: &str) -> Option<String> {
    let words = text.split(|letter: char| !letter.is_alphanumeric() && !".-+".contains(letter));
    let odd = |word: &&str| {
        let word = word.trim_matches(|letter: char| !letter.is_alphanumeric());
        let digits = word.split('e').next().unwrap_or_default().trim_start_matches(['0', '.']);
        let digits = digits.chars().filter(char::is_ascii_digit).count();
        matches!(word, "inf" | "NaN" | "nan" | "infinity") || (digits > 12 && word.parse::<f64>().is_ok())
    };
    words.into_iter().find(odd).map(String::from)
}

/// What one file is answered with; none where it is well, else what is wrong with the answer.
fn wrong(text: &str, meant: &str) -> Option<String> {
    let reading = read_text(text, None);
    for fault in &reading.faults {
        // What was typed is quoted as it was, and the largest seed has its twenty digits.
        let line = fault.to_string().replace(meant, "").replace(&u64::MAX.to_string(), "");
        if let Some(word) = absurd(&line) {
            return Some(format!("{word} in {line}"));
        }
        if fault.way_out.is_empty() {
            return Some(format!("no way out of {line}"));
        }
    }
    let Some(scenario) = &reading.scenario else {
        let refused = reading.faults.iter().any(|fault| fault.severity == Severity::Error);
        return (!refused).then(|| "refused without an error".into());
    };
    let run = fly(scenario, 0, WindChoice::Mean);
    let margins = judge(scenario, &run);
    let (wind, trials, remedy, warnings, changes) = (WindChoice::Mean, None, None, &reading.faults[..], &[][..]);
    let recovery = Recovery { scenario, run: &run, wind, margins: &margins, trials, remedy, warnings, changes };
    let ask = RadiusAsk { trials: 2, first_look: true, ..RadiusAsk::own_circle(scenario) };
    let study = study_briefly(scenario, &ask, &Work::default());
    let study = StudyReport { scenario, answer: Answer::Radius(&study), remedy, warnings, changes };
    let said = SaidBack::of(&scenario.file).lines(&Units::default());
    let said: String =
        said.into_iter().map(|line| format!("{}: {} {}\n", line.name, line.value, line.second)).collect();
    let answers = [
        String::from_utf8(recovery.render(Format::Text).unwrap()).unwrap(),
        String::from_utf8(recovery.render(Format::Csv).unwrap()).unwrap(),
        String::from_utf8(study.render(Format::Text).unwrap()).unwrap(),
        said,
    ];
    answers.iter().find_map(|answer| {
        let answer = answer.replace(&scenario.hash(), "").replace(meant, "");
        let word = absurd(&answer)?;
        let line = answer.lines().find(|line| absurd(line).is_some()).unwrap_or_default();
        Some(format!("{word} in {line}"))
    })
}

fn check(file: &str, least: usize) {
    let file: Value = serde_json::from_str(file).unwrap();
    let mut all = Vec::new();
    numbers(&file, "", &mut all);
    assert!(all.len() > least, "{}", all.len());
    let asked: Vec<_> = all.iter().flat_map(|place| ODD.map(|odd| (place, odd))).collect();
    let wrong: Vec<String> = asked
        .into_par_iter()
        .filter_map(|((place, unit), odd)| {
            let mut changed = file.clone();
            let number = odd.parse::<f64>().ok().filter(|number| number.is_finite());
            *changed.pointer_mut(place).unwrap() = match (unit, number) {
                (Some(unit), _) => format!("{odd}{unit}").into(),
                (None, Some(number)) => json!(number),
                (None, None) => odd.into(),
            };
            let meant = unit.as_ref().map_or(odd.to_owned(), |unit| format!("{odd}{unit}"));
            wrong(&changed.to_string(), if number.is_some() { "seed" } else { &meant })
                .map(|wrong| format!("{place} = {odd}: {wrong}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{} of them:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_number_of_a_sheet_with_coefficients_is_answered_with_an_absurd_one() {
    check(include_str!("../fixtures/tight-strip.json"), 100);
}

#[test]
fn no_number_of_a_sheet_by_what_people_know_is_answered_with_an_absurd_one() {
    check(include_str!("../../scenarios/sallowmouth-head.json"), 100);
}

#[test]
fn an_absurd_number_is_told_from_a_number() {
    for (text, word) in [
        ("holds 12 m, 3.5e9 and 0.000123456789012", None),
        ("laps inf", Some("inf")),
        ("inside the information", None),
        ("1000000000000000 m", Some("1000000000000000")),
        ("(NaN, 2)", Some("NaN")),
    ] {
        assert_eq!(absurd(text).as_deref(), word, "{text}");
    }
}
