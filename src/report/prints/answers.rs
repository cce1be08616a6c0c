//! Does somebody who has nothing but the card find the answers on it, and do the files hold what the sheets do?

use glam::DVec2;

use super::Print;
use crate::brief::{Plan, Studies, fixture};
use crate::draw::read::{lettering, pages};
use crate::report::Format;
use crate::run::{Scenario, ScenarioFile};
use crate::study::verdict::Answer;

const ON: &str = "2026-04-18";

fn printed(file: ScenarioFile, check: impl FnOnce(&Plan<'_>)) {
    let scenario = Scenario::from_file(file).unwrap();
    let (own_circle, wind_limit) = (fixture::own_circle(&scenario, Answer::Yes), fixture::wind_limit(&scenario));
    let studies = Studies { own_circle: Some(&own_circle), wind_limit: Some(&wind_limit), ..Studies::default() };
    check(&Plan::new(&scenario, ON, studies, &[], &[]));
}

/// All words of a print's PDF, page after page, as a viewer finds them.
fn found(plan: &Plan<'_>, print: Print) -> (Vec<DVec2>, String, Vec<String>) {
    let bytes = plan.render(print, Format::Pdf, 1).unwrap();
    let file = lopdf::Document::load_mem(&bytes).unwrap();
    let pages = pages(&file);
    let words: Vec<&str> = pages.iter().flat_map(|page| page.lines.iter().map(|line| line.words.as_str())).collect();
    (pages.iter().map(|page| page.size_mm).collect(), words.join(" "), lettering(&file))
}

#[test]
fn a_reader_of_the_card_alone_finds_every_answer() {
    printed(Scenario::tight_strip().file, |plan| {
        let (_, words, _) = found(plan, Print::Card);
        let wind = plan.facts().wind_for_card().unwrap();
        let answers: [(&str, &[&str]); 11] = [
            ("which radius", &["radius 115 m"]),
            ("how high", &["70 m", "230 ft"]),
            ("which way round", &["anticlockwise", "turning left"]),
            ("up to what wind", &["Wind limit", &format!("{:.1} m/s, gusts", wind.mean_mps), "today: ____"]),
            ("where do I look", &["o'clock", "fist", "lone chimney"]),
            ("when do I take over", &["On the arc marked", "Never on the fast half"]),
            ("what if the video is lost", &["Video lost", "GOGGLES OFF"]),
            ("what if control is lost", &["Control lost", "LINK BACK", "NEVER BACK"]),
            ("what if both are, or it falls", &["Both lost", "Falling", "SHOUT"]),
            ("what if it leaves", &["Flying away, or a crewed aircraft", "last bearing"]),
            ("who said so", &["Authorised by: Goatwillow field committee", "A. Reeve", "M. Oakes"]),
        ];
        for (question, said) in answers {
            for part in said {
                assert!(words.contains(part), "{question}: \"{part}\" is not on the card: {words}");
            }
        }
        for said in ["112", "lane gate", "goats are let out", "one lap", "review by 2030-03-31", "STOP ALL FLYING"] {
            assert!(words.contains(said), "\"{said}\" is not on the card");
        }
    });
}

#[test]
fn papers_have_their_sizes_and_bring_their_lettering() {
    // ISO 216: A4 is 210 by 297 mm, A3 297 by 420 mm, A6 105 by 148 mm.
    let sizes = [
        (Print::Card, DVec2::new(210.0, 297.0)),
        (Print::Poster, DVec2::new(297.0, 420.0)),
        (Print::Phrases, DVec2::new(105.0, 148.0)),
        (Print::Lesson, DVec2::new(297.0, 210.0)),
    ];
    printed(Scenario::tight_strip().file, |plan| {
        for (print, size) in sizes {
            let (pages, words, fonts) = found(plan, print);
            for page in pages {
                assert!((page - size).abs().max_element() < 0.01, "{}: {page}", print.name());
            }
            assert!(words.contains(&plan.scenario.hash()), "{}", print.name());
            assert!(!fonts.is_empty() && fonts.iter().all(|font| font.contains("Atkinson")), "{fonts:?}");
        }
    });
}

#[test]
fn the_same_plan_gives_the_same_bytes_and_another_input_another_hash() {
    let bytes = |file: ScenarioFile, format: Format| {
        let mut made = Vec::new();
        printed(file, |plan| made = Print::ALL.map(|print| plan.render(print, format, 1).unwrap()).into());
        made
    };
    let demo = || Scenario::tight_strip().file;
    for format in [Format::Pdf, Format::Html, Format::Svg, Format::Json] {
        assert_eq!(bytes(demo(), format), bytes(demo(), format), "{format:?}");
    }
    let mut other = demo();
    other.brief.emergency.gate = "the other gate".into();
    printed(demo(), |plan| {
        printed(other, |changed| {
            for print in Print::ALL {
                let (mine, theirs) = (found(plan, print).1, found(changed, print).1);
                assert!(mine.contains(&plan.scenario.hash()) && !theirs.contains(&plan.scenario.hash()));
                assert!(theirs.contains(&changed.scenario.hash()));
            }
        });
    });
}

#[test]
fn what_was_signed_for_another_version_does_not_count() {
    let file = Scenario::tight_strip().file;
    printed(file.clone(), |plan| {
        let (_, words, _) = found(plan, Print::Card);
        assert!(words.contains(&file.brief.signed[0].name) && !words.contains("another version"), "{words}");
    });
    let mut changed = file.clone();
    changed.recovery.radius = crate::units::Length::new(116.0);
    printed(changed, |plan| {
        let (_, words, _) = found(plan, Print::Card);
        assert!(words.contains("signed for another version"), "{words}");
        let told: serde_json::Value = serde_json::from_str(&plan.json()).unwrap();
        assert_eq!((&told["authority_counts"], &told["signed"][0]["counts"]), (&false.into(), &false.into()));
    });
}

#[test]
fn what_nobody_agreed_to_is_no_card() {
    let mut file = Scenario::tight_strip().file;
    file.brief = crate::run::Brief::default();
    file.recovery.authorised_by.clear();
    printed(file, |plan| {
        let (_, words, _) = found(plan, Print::Card);
        for said in ["DO NOT FLY", "Nobody has signed it", "Nobody has authorised the failsafe action"] {
            assert!(words.contains(said), "no {said}: {words}");
        }
    });
}
