//! Which words of a scenario are too long to be told? Every one is set on screens, maps and sheets, in every size that may
//! fit, and what nobody reads to its end is not worth that.

use serde_json::Value;

use crate::error::Fault;
use crate::error::json::join;

/// Most letters of a name: a line of print has 96, and no map has room for one.
const LONGEST_NAME: usize = 200;
/// Most letters of a paragraph: some 300 words, as many as stand on a sheet.
const LONGEST_PARAGRAPH: usize = 2_000;
/// Most paragraphs, people or other entries of one list of words.
const MOST_ENTRIES: usize = 200;

/// Sections whose words are paragraphs.
const PARAGRAPHS: [&str; 3] = ["notes", "brief", "rules"];

/// What of a scenario, or of a part of one that stands at `place`, is too long.
pub(in crate::run) fn check(value: &Value, place: &str) -> Vec<Fault> {
    let mut faults = Vec::new();
    walk(value, place, place.split('/').nth(1).is_some_and(paragraphs), &mut faults);
    faults
}

fn paragraphs(section: &str) -> bool {
    PARAGRAPHS.contains(&section)
}

fn walk(value: &Value, place: &str, wide: bool, faults: &mut Vec<Fault>) {
    match value {
        Value::String(text) => {
            let most = if wide { LONGEST_PARAGRAPH } else { LONGEST_NAME };
            // A letter has a byte or more, which are counted for nothing.
            let letters = if text.len() > most { text.chars().count() } else { 0 };
            if letters > most {
                let problem = format!("this has {letters} letters, more than {most}");
                let way_out = if wide { "Say it in less, or part it" } else { "Write a name that people call it by" };
                faults.push(Fault::error(place, problem, way_out));
            }
        }
        Value::Array(items) if wide && items.len() > MOST_ENTRIES => {
            let problem = format!("{} entries are more than {MOST_ENTRIES}", items.len());
            faults.push(Fault::error(place, problem, "Keep those that people have to read"));
        }
        Value::Array(items) => {
            let inner = items.iter().enumerate().filter(|(_, item)| !item.is_number());
            inner.for_each(|(index, item)| walk(item, &join(place, &index.to_string()), wide, faults));
        }
        Value::Object(members) => {
            let within = |key: &str| wide || (place.is_empty() && paragraphs(key));
            members.iter().for_each(|(key, item)| walk(item, &join(place, key), within(key), faults));
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::run::Scenario;

    /// Where words of so many letters, in every place of a scenario that has words, are refused.
    #[test]
    fn no_word_of_a_scenario_is_longer_than_people_read() {
        fn lengthened(value: &mut Value, letters: usize, count: &mut usize) {
            match value {
                Value::String(text) => {
                    (*text, *count) = ("x".repeat(letters), *count + 1);
                }
                Value::Array(items) => items.iter_mut().for_each(|item| lengthened(item, letters, count)),
                Value::Object(members) => members.values_mut().for_each(|item| lengthened(item, letters, count)),
                _ => {}
            }
        }
        let file = serde_json::to_value(Scenario::tight_strip().file).unwrap();
        for (letters, all) in [(200, false), (2_001, true)] {
            let (mut long, mut count) = (file.clone(), 0);
            lengthened(&mut long, letters, &mut count);
            assert!(count > 50, "{count}");
            assert_eq!(check(&long, "").len(), if all { count } else { 0 }, "{letters}");
        }
    }

    #[test]
    fn names_are_shorter_than_paragraphs_and_lists_end() {
        let long = "\u{e9}".repeat(201);
        let told = |value: Value| check(&value, "").into_iter().map(|fault| fault.place).collect::<Vec<_>>();
        assert_eq!(told(json!({ "name": long, "notes": [long], "jet": { "name": long } })), ["/name", "/jet/name"]);
        assert_eq!(told(json!({ "notes": vec!["x"; 201] })), ["/notes"]);
        assert_eq!(check(&json!({ "areas": [{ "name": long }] }), "/field")[0].place, "/field/areas/0/name");
    }

    #[test]
    fn what_is_too_long_is_refused_wherever_it_comes_from() {
        let mut file = Scenario::tight_strip().file;
        file.field.as_mut().unwrap().areas[0].name = "x".repeat(20_000);
        let text = serde_json::to_string(&file).unwrap();
        let faults = [crate::run::read_text(&text, None).faults, Scenario::from_file(file).unwrap_err()];
        for faults in faults {
            assert!(faults.iter().any(|fault| fault.place == "/field/areas/0/name"), "{faults:?}");
        }
    }
}
