//! What every print keeps to: nothing is cut off, nothing lies on anything, and it says where it comes from.

use super::Print;
use crate::VERSION;
use crate::brief::{DO_NOT_FLY, Plan, Studies, fixture};
use crate::draw::{Mark, Sheet};
use crate::error::Fault;
use crate::field::{AreaFile, ObstacleFile, RuleName};
use crate::recovery::FailsafeAction;
use crate::report::Format;
use crate::run::{RuleNote, Scenario, ScenarioFile, Signature};
use crate::study::envelope::{EnvelopeAsk, envelope};
use crate::study::verdict::Answer;
use crate::study::work::Work;
use crate::units::Length;
use crate::words::cautions::FOOT;

/// Day of the prints.
const ON: &str = "2026-04-20";

/// A plan to be printed: its name, its scenario, and whether it has studies.
type Drawing = (&'static str, Scenario, bool);

fn changed(change: impl FnOnce(&mut ScenarioFile)) -> Scenario {
    let mut file = Scenario::tight_strip().file;
    change(&mut file);
    Scenario::from_file(file).unwrap()
}

/// The same, authorised and signed by two people.
fn signed(change: impl FnOnce(&mut ScenarioFile)) -> Scenario {
    changed(|file| {
        change(file);
        let version = file.plan_hash();
        file.recovery.authorised_for.clone_from(&version);
        file.brief.signed.iter_mut().for_each(|one| one.version.clone_from(&version));
    })
}

/// The awkward one, with somebody who agreed to it.
fn crowded(file: &mut ScenarioFile) {
    let signed = file.brief.signed.clone();
    awkward(file);
    file.brief.signed = signed;
    file.recovery.authorised_by = "the field committee".into();
}

/// The demo with names that are long, much of everything, and little agreed.
fn awkward(file: &mut ScenarioFile) {
    let long = |what: &str, index: usize| {
        format!("{what} number {index} behind the old windmill down by the flooded quarry pond")
    };
    file.name = long("Model field", 1);
    file.jet.name = long("home-built jet", 2);
    file.recovery.authorised_by.clear();
    let field = file.field.as_mut().unwrap();
    field.areas = (0_u8..60)
        .map(|index| {
            let (x, y) = (-255.0 + 50.0 * f64::from(index % 10), -255.0 + 76.0 * f64::from(index / 10));
            AreaFile {
                name: long("paddock", index.into()),
                rule: if index % 3 == 0 { RuleName::NoFly } else { RuleName::Caution },
                height: None,
                months: vec![],
                otherwise: None,
                ring_m: vec![[x, y], [x + 20.0, y], [x + 20.0, y + 30.0], [x, y + 30.0]],
                holes_m: vec![],
            }
        })
        .collect();
    field.obstacles = (0_u8..40)
        .map(|index| ObstacleFile {
            name: long("poplar", index.into()),
            height: Length::new(12.0),
            at_m: Some([-230.0 + 48.0 * f64::from(index % 10), -210.0 + 100.0 * f64::from(index / 10)]),
            ring_m: vec![],
        })
        .collect();
    file.rules = (0..12)
        .map(|index| RuleNote {
            label: long("rule", index),
            value: "120 m over the ground, whichever is the less".into(),
            source: "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch handbook".into(),
            checked_on: (index == 0).then(|| "2026-03-01".into()),
            checked_by: if index == 0 { "A. Member".into() } else { String::new() },
        })
        .collect();
    file.brief.signed = (0..7)
        .map(|index| Signature {
            name: long("Member", index),
            role: long("marshal", index),
            on: "2026-03-02".into(),
            version: "0123456789ab".into(),
        })
        .collect();
    file.brief.stop_also = (0..9).map(|index| long("the gate", index)).collect();
}

/// Plans of every kind.
fn drawings() -> Vec<Drawing> {
    vec![
        ("demo", Scenario::tight_strip(), true),
        ("awkward", changed(awkward), true),
        ("crowded", signed(crowded), true),
        ("cut", signed(|file| file.recovery.failsafe_action = FailsafeAction::Cut), true),
        ("no study", Scenario::tight_strip(), false),
        ("expired", changed(|file| file.brief.review_by = Some("2026-03-31".into())), true),
    ]
}

/// Hands every print of a plan to a check.
fn printed(drawing: &Drawing, check: &dyn Fn(&str, &Plan<'_>, Print, &[Sheet])) {
    let (name, scenario, studied) = drawing;
    let (mut radius, wind_limit) = (fixture::radius(scenario, false), fixture::wind_limit(scenario));
    let (own_circle, losses) = (fixture::own_circle(scenario, Answer::Yes), fixture::losses(scenario, 20));
    if *name == "awkward" {
        // A centre among areas: the names of the level lines are long and lie low.
        (radius.free_m, radius.closed.largest_m) = (35.0, 15.0);
        radius.free_to = format!("{}, no-fly", scenario.field.areas[0].name);
    }
    let envelope = envelope(scenario, &EnvelopeAsk { trials: 16, ..EnvelopeAsk::coarse() }, &Work::default());
    let studies = Studies {
        own_circle: Some(&own_circle),
        radius: Some(&radius),
        wind_limit: Some(&wind_limit),
        envelope: Some(&envelope),
        losses: Some(&losses),
        keep_inside: None,
        remedy: None,
    };
    let studies = if *studied { studies } else { Studies::default() };
    let warnings =
        [Fault::warning("/rules/0", "nobody has checked \"height: 120 m\"", "Compare it with the text in force")];
    let changes = if *name == "awkward" { vec!["radius 115 m".to_owned()] } else { vec![] };
    let plan = Plan::new(scenario, ON, studies, &warnings, &changes);
    for print in Print::ALL {
        check(&format!("{name}, {}", print.name()), &plan, print, &plan.pages(print));
    }
}

fn every_print(check: &dyn Fn(&str, &Plan<'_>, Print, &[Sheet])) {
    drawings().iter().for_each(|drawing| printed(drawing, check));
}

#[test]
fn no_word_runs_off_the_paper_and_none_is_too_small_to_read() {
    every_print(&|name, _, _, pages| {
        for (page, number) in pages.iter().zip(1..) {
            for (words, low, high) in page.lettered() {
                let inside = low.min_element() >= 5.0 && (page.size_mm - high).min_element() >= 5.0;
                assert!(inside, "{name}, page {number}: \"{words}\" from {low} to {high}");
            }
            for mark in &page.marks {
                if let Mark::Words { words, lettering, .. } = mark {
                    assert!(lettering.size_mm >= 2.4 - 1e-9, "{name}: \"{words}\" is {} mm", lettering.size_mm);
                }
            }
        }
    });
}

#[test]
fn words_do_not_lie_on_words() {
    every_print(&|name, _, _, pages| {
        for (page, number) in pages.iter().zip(1..) {
            let all = page.lettered();
            for (index, (words, low, high)) in all.iter().enumerate() {
                for (other, other_low, other_high) in &all[index + 1..] {
                    let across = high.min(*other_high) - low.max(*other_low);
                    // Feet and heads of neighbouring lines may touch.
                    let apart = across.x < 0.3 || across.y < 0.6;
                    assert!(apart, "{name}, page {number}: \"{words}\" lies on \"{other}\" by {across}");
                }
            }
        }
    });
}

#[test]
fn every_page_says_where_it_comes_from_and_what_it_is_not() {
    every_print(&|name, plan, _, pages| {
        let scenario = plan.scenario;
        for (page, number) in pages.iter().zip(1..) {
            let words: Vec<String> = page.lettered().into_iter().map(|(words, ..)| words).collect();
            let words = words.join(" ");
            for said in [&scenario.hash(), VERSION, &format!("seed {}", scenario.file.seed), ON, FOOT] {
                assert!(words.contains(said), "{name}, page {number} does not say {said}");
            }
            let late = words.contains("EXPIRED");
            assert_eq!(late, name.starts_with("expired"), "{name}, page {number}");
            assert!(!words.contains("100 %"), "{name}, page {number}: {words}");
        }
    });
}

#[test]
fn the_decision_paper_is_four_pages_whatever_the_plan_and_no_print_names_a_test() {
    every_print(&|name, _, print, pages| {
        let told = |page: &Sheet| page.lettered().into_iter().map(|(words, ..)| words + " ").collect::<String>();
        let told: Vec<String> = pages.iter().map(told).collect();
        for source in ["tests/", "src/", ".rs ", ".rs,", "cargo test"] {
            assert!(told.iter().all(|words| !words.contains(source)), "{name}: {source}");
        }
        let paper = told.iter().filter(|words| words.contains("decision paper;")).count();
        assert_eq!(paper, if print == Print::Pack { 4 } else { 0 }, "{name}");
    });
}

#[test]
fn the_same_plan_gives_the_same_sheets() {
    every_print(&|name, plan, print, pages| assert_eq!(plan.pages(print), pages, "{name}"));
}

#[test]
fn sheets_for_the_line_have_one_side_and_the_pack_counts_its_pages() {
    every_print(&|name, _, print, pages| match print {
        Print::Pack => {
            for (page, number) in pages.iter().zip(1..) {
                let said = format!("page {number} of {}", pages.len());
                assert!(page.lettered().iter().any(|(words, ..)| *words == said), "{name}: no {said}");
            }
        }
        _ => assert!(!pages.is_empty(), "{name}"),
    });
    let scenario = Scenario::tight_strip();
    let own_circle = fixture::own_circle(&scenario, Answer::Yes);
    let studies = Studies { own_circle: Some(&own_circle), ..Studies::default() };
    let plan = Plan::new(&scenario, ON, studies, &[], &[]);
    assert_eq!([Print::Card, Print::Today].map(|print| plan.pages(print).len()), [1, 1]);
}

/// Whether every print of a plan says DO NOT FLY as it should, and with it why.
#[track_caller]
fn stopped(scenario: &Scenario, answer: Answer, on: &str, expected: bool) {
    let own_circle = fixture::own_circle(scenario, answer);
    let wind_limit = fixture::wind_limit(scenario);
    let studies = Studies { own_circle: Some(&own_circle), wind_limit: Some(&wind_limit), ..Studies::default() };
    let plan = Plan::new(scenario, on, studies, &[], &[]);
    assert_eq!(plan.release().stopped(), expected, "{:?}", plan.release());
    for print in Print::ALL {
        for (page, number) in plan.pages(print).iter().zip(1..) {
            let words = page.lettered();
            let said = words.iter().any(|(words, ..)| words.contains(DO_NOT_FLY));
            assert_eq!(said, expected, "{}, page {number}", print.name());
            if expected && number == 1 {
                let across = |mark: &Mark| matches!(mark, Mark::Words { words, lettering, .. } if words == DO_NOT_FLY && lettering.size_mm >= 14.0);
                assert!(page.marks.iter().any(across), "{}: not across the sheet", print.name());
                let flat = words.iter().map(|(words, ..)| words.as_str()).collect::<Vec<_>>().join(" ");
                for reason in plan.release().reasons() {
                    assert!(flat.contains(&reason), "{}: no \"{reason}\" in {flat}", print.name());
                }
            }
        }
    }
    let text = String::from_utf8(plan.render(Print::Card, Format::Text, 1).unwrap()).unwrap();
    assert_eq!(text.contains(DO_NOT_FLY), expected, "{text}");
    let told: serde_json::Value = serde_json::from_str(&plan.json()).unwrap();
    assert_eq!(told["do_not_fly"].as_array().is_some_and(|stops| !stops.is_empty()), expected);
}

#[test]
fn every_print_says_do_not_fly_exactly_where_something_stops_the_plan() {
    let demo = Scenario::tight_strip();
    stopped(&demo, Answer::Yes, ON, false);
    stopped(&signed(|file| file.recovery.radius = Length::new(120.0)), Answer::Yes, ON, false);
    stopped(&signed(|file| file.recovery.failsafe_action = FailsafeAction::Cut), Answer::Yes, ON, false);
    stopped(&demo, Answer::No, ON, true);
    stopped(&demo, Answer::Undecided, ON, true);
    stopped(&demo, Answer::Yes, "2099-01-01", true);
    stopped(&changed(|file| file.brief.signed.clear()), Answer::Yes, ON, true);
    stopped(&changed(|file| file.recovery.authorised_by.clear()), Answer::Yes, ON, true);
}

#[test]
fn emergencies_are_read_at_arm_s_length_and_a_poster_from_two_metres() {
    for scenario in [Scenario::tight_strip(), signed(|file| file.recovery.failsafe_action = FailsafeAction::Cut)] {
        let own_circle = fixture::own_circle(&scenario, Answer::Yes);
        let studies = Studies { own_circle: Some(&own_circle), ..Studies::default() };
        let plan = Plan::new(&scenario, ON, studies, &[], &[]);
        let sizes = |print: Print| {
            let marks = plan.pages(print).remove(0).marks;
            let sized = |mark| match mark {
                Mark::Words { words, lettering, .. } => Some((words, lettering.size_mm)),
                _ => None,
            };
            marks.into_iter().filter_map(sized).collect::<Vec<(String, f64)>>()
        };
        let (card, poster) = (sizes(Print::Card), sizes(Print::Poster));
        // 11 points are 3.9 mm, 28 are 9.9 mm.
        for told in plan.loss_boxes() {
            let begin = |line: &str| line.split(' ').take(2).collect::<Vec<_>>().join(" ");
            for line in &told.lines {
                assert!(card.iter().any(|(words, size)| words.starts_with(&begin(line)) && *size >= 3.9), "{line}");
            }
        }
        assert!(poster.iter().any(|(words, size)| words.starts_with("Stop flying") && *size >= 9.9));
        assert!(poster.iter().any(|(words, size)| words.contains("112") && *size >= 9.9));
        let whole = poster.iter().map(|(words, _)| words.as_str()).collect::<Vec<_>>().join(" ");
        assert!(whole.contains("until it is down.") && !whole.contains("..."), "{whole}");
    }
}

#[test]
fn what_the_club_wants_done_stands_in_the_place_of_ours() {
    let scenario = signed(|file| {
        file.brief.drills.falling = vec!["DUCK.".into(), " ".into()];
        file.brief.drills.both_lost = vec![String::new()];
    });
    let plan = Plan::new(&scenario, ON, Studies::default(), &[], &[]);
    let lines = plan.loss_boxes().map(|told| told.lines);
    assert_eq!(lines[3], ["DUCK."]);
    assert!(lines[2].len() > 3);
}
