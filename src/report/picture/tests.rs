//! Nothing is cut off, nothing rests on colour alone, and the same study gives the same picture.

use std::path::Path;

use crate::brief::{Answer, StudyReport, fixture};
use crate::draw::{Document, Fill, Sheet, html, pdf, png, read};
use crate::margins::Outcome;
use crate::run::Scenario;

/// Every picture, of studies with everything in them.
fn pictures() -> Vec<(&'static str, Sheet)> {
    let scenario = Scenario::tight_strip();
    let (open, shut) = (fixture::radius(&scenario, true), fixture::radius(&scenario, false));
    let (wind_limit, losses) = (fixture::wind_limit(&scenario), fixture::losses(&scenario, 50));
    let mut nowhere = fixture::wind_limit(&scenario);
    nowhere.directions.iter_mut().for_each(|found| (found.wind_limit_mps, found.at_2m_mps) = (None, None));
    let mut alone = fixture::wind_limit(&scenario);
    alone.ask.trials = 0;
    let mut far = fixture::losses(&scenario, 12);
    far.no_return.iter_mut().for_each(|at| *at *= 9.0);
    let answers = [
        ("radius", Answer::Radius(&open)),
        ("radius-none", Answer::Radius(&shut)),
        ("wind-limit", Answer::WindLimit(&wind_limit)),
        ("wind-limit-none", Answer::WindLimit(&nowhere)),
        ("wind-limit-plan", Answer::WindLimit(&alone)),
        ("losses", Answer::Losses(&losses)),
        ("losses-far", Answer::Losses(&far)),
    ];
    let draw =
        |answer| StudyReport { scenario: &scenario, answer, remedy: None, warnings: &[], changes: &[] }.picture();
    answers.map(|(name, answer)| (name, draw(answer))).into()
}

#[test]
fn no_word_runs_off_the_page_and_none_is_too_small_to_read() {
    for (name, sheet) in pictures() {
        for (words, low, high) in sheet.lettered() {
            let inside = low.min_element() >= 5.0 && (sheet.size_mm - high).min_element() >= 5.0;
            assert!(inside, "{name}: \"{words}\" from {low} to {high} of {}", sheet.size_mm);
        }
        for mark in &sheet.marks {
            if let crate::draw::Mark::Words { words, lettering, .. } = mark {
                assert!(lettering.size_mm >= 3.0, "{name}: \"{words}\" is {} mm", lettering.size_mm);
            }
        }
    }
}

#[test]
fn words_do_not_lie_on_words() {
    for (name, sheet) in pictures() {
        let all = sheet.lettered();
        for (index, (words, low, high)) in all.iter().enumerate() {
            for (other, other_low, other_high) in &all[index + 1..] {
                let across = high.min(*other_high) - low.max(*other_low);
                // Feet and heads of neighbouring lines may touch.
                let apart = across.x < 0.3 || across.y < 0.6;
                assert!(apart, "{name}: \"{words}\" lies on \"{other}\" by {across}");
            }
        }
    }
}

#[test]
fn the_picture_is_well_formed_says_where_it_comes_from_and_is_the_same_each_time() {
    let scenario = Scenario::tight_strip();
    for ((name, sheet), (_, again)) in pictures().into_iter().zip(pictures()) {
        let svg = sheet.svg();
        assert_eq!(svg, again.svg(), "{name}");
        let document = roxmltree::Document::parse(&svg).unwrap();
        let text: String = document.descendants().filter_map(|node| node.text()).collect::<Vec<_>>().join(" ");
        let words: Vec<&str> = text.split_whitespace().collect();
        for said in [&scenario.hash(), crate::VERSION, "seed 1", "N = ", "Planning aid, not approved equipment"] {
            assert!(words.join(" ").contains(said), "{name} does not say {said}");
        }
        let used = |node: &str| {
            document.descendants().filter(|found| found.has_tag_name(("http://www.w3.org/2000/svg", node))).count()
        };
        assert!(used("path") > 10 && used("text") > 20, "{name}");
    }
}

#[test]
fn the_pdf_says_every_word_of_the_picture_in_its_order_and_stays_small() {
    for (name, sheet) in pictures() {
        let bytes = pdf(&Document::from(sheet.clone())).unwrap();
        assert!(bytes.len() < 200_000, "{name}: {} bytes", bytes.len());
        let file = lopdf::Document::load_mem(&bytes).unwrap();
        let lines: Vec<_> = read::pages(&file).remove(0).lines.into_iter().map(|line| line.words).collect();
        let words: Vec<_> = sheet.lettered().into_iter().map(|(words, ..)| words).collect();
        assert_eq!(lines, words, "{name}");
        assert_eq!(read::lettering(&file).len(), 2, "{name}");
    }
}

/// Pictures for people to look at, in the folder where cargo keeps what tests make.
#[test]
fn every_picture_can_be_made_of_dots() {
    let folder =
        std::env::var_os("PEEWIT_PICTURES").map_or_else(std::env::temp_dir, |folder| Path::new(&folder).into());
    for (name, sheet) in pictures() {
        let dots = png(&sheet, 100.0).unwrap();
        assert!(dots.starts_with(b"\x89PNG") && dots.len() > 20_000, "{name}: {} bytes", dots.len());
        assert_eq!(dots, png(&sheet, 100.0).unwrap(), "{name}");
        if std::env::var_os("PEEWIT_PICTURES").is_some() {
            std::fs::create_dir_all(&folder).unwrap();
            std::fs::write(folder.join(format!("print-{name}.png")), dots).unwrap();
            std::fs::write(folder.join(format!("print-{name}.svg")), sheet.svg()).unwrap();
            let document = Document::from(sheet);
            std::fs::write(folder.join(format!("print-{name}.pdf")), pdf(&document).unwrap()).unwrap();
            std::fs::write(folder.join(format!("print-{name}.html")), html(&document)).unwrap();
        }
    }
}

#[test]
fn outcomes_differ_without_colour() {
    let shapes = Outcome::ALL.map(|outcome| match super::losses::look(outcome) {
        Fill::Hatch(hatch) => Some(hatch.pattern),
        Fill::Plain(_) | Fill::None => None,
    });
    for (index, shape) in shapes.iter().enumerate() {
        assert!(!shapes[index + 1..].contains(shape), "{shape:?} twice");
    }
}

#[test]
fn curves_differ_without_colour() {
    use super::kind::{KINDS, Kind};
    let shapes = KINDS.map(Kind::shape);
    for (index, shape) in shapes.iter().enumerate() {
        assert!(!shapes[index + 1..].contains(shape), "{shape:?} twice");
    }
}
