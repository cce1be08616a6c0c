//! Recordings of rehearsals as people play them: scored, put in a table, written in each format, refused with every fault.

use std::str::FromStr as _;

use peewit::rehearsal::{
    Deed, Exercise, From, Heading, Recording, Rehearsal, SeenAttitude, Stage, Sticks, Timed, When, ladder,
};
use peewit::run::Scenario;
use proptest::prelude::*;
use serde_json::Value;

use crate::commands::Desk;
use crate::support::tight_strip;

/// Lost after two seconds, so that flights are short.
fn exercise() -> Exercise {
    Exercise { name: "Short".into(), when: When::AfterS(2.0), wind_share: 0.5, ..Exercise::default() }
}

/// A drill that is done as it should be, so many steps between its stages; then the climb away.
fn flown(scenario: &Scenario, exercise: &Exercise, pace: usize) -> Rehearsal {
    let mut flown = Rehearsal::new(scenario, exercise).unwrap();
    while flown.lost_at().is_none() {
        flown.step(&[]);
    }
    let on = |flown: &mut Rehearsal| {
        for _ in 0..pace {
            flown.step(&[]);
        }
    };
    on(&mut flown);
    flown.step(&[Deed::Stage { stage: Stage::Noticed }, Deed::Return]);
    for stage in [Stage::Called, Stage::GogglesOff, Stage::Cued] {
        on(&mut flown);
        flown.step(&[Deed::Stage { stage }]);
    }
    let sight = flown.sight();
    flown.step(&[Deed::Point { bearing_deg: sight.bearing.deg(), elevation_deg: sight.elevation_deg }]);
    let seen = flown.seen();
    let other = match seen.heading {
        Heading::Going => Heading::Coming,
        Heading::Coming => Heading::Going,
        Heading::Left => Heading::Right,
        Heading::Right => Heading::Left,
    };
    flown.step(&[Deed::Say { seen: SeenAttitude { heading: other, ..seen } }]);
    let seen = flown.seen();
    flown.step(&[Deed::Say { seen }]);
    let throttle_share = flown.sticks().throttle_share;
    flown.step(&[Deed::TakeOver, Deed::Sticks(Sticks { throttle_share, ..Sticks::default() })]);
    on(&mut flown);
    flown.step(&[Deed::End]);
    flown
}

/// One that is never taken over.
fn left_alone(scenario: &Scenario, exercise: &Exercise) -> Rehearsal {
    let mut flown = Rehearsal::new(scenario, exercise).unwrap();
    while flown.time_s() < 6.0 {
        flown.step(&[]);
    }
    flown.step(&[Deed::Return]);
    flown.step(&[Deed::End]);
    flown
}

fn keep(desk: &Desk, name: &str, pilot: &str, rehearsal: &Rehearsal) {
    std::fs::write(desk.path(name), Recording::of(rehearsal, pilot).to_text()).unwrap();
}

/// A desk with one good recording, `good.jsonl`, and one that fails, `left.jsonl`.
fn desk() -> Desk {
    let (desk, scenario) = (Desk::new(), tight_strip());
    keep(&desk, "good.jsonl", "A. Reeve", &flown(&scenario, &exercise(), 8));
    keep(&desk, "left.jsonl", "=SUM(A1)", &left_alone(&scenario, &exercise()));
    desk
}

fn words(line: &str) -> Vec<&str> {
    line.split(' ').collect()
}

#[test]
fn one_recording_is_told_with_its_drill_and_its_points() {
    let desk = desk();
    let (text, said) = desk.check(&words("rehearse field.json --inputs good.jsonl"), 0);
    for told in
        ["of 100 points. For discussion", "A. Reeve", "The drill", "attitude said", "Once another attitude", "boundary"]
    {
        assert!(text.contains(told), "no \"{told}\" in {text}");
    }
    assert!(text.contains("peewit cautions"), "{text}");
    // Of the plan there is something to say, of the recording nothing.
    assert!(!said.contains("good.jsonl"), "{said}");
    // The step of the loss and eight more to the first stage.
    let step_s = flown(&tight_strip(), &exercise(), 8).step_s();
    let noticed = text.lines().find(|line| line.trim_start().starts_with("noticed")).unwrap();
    assert!(noticed.contains(&format!("{:.1} s", 9.0 * step_s)), "{noticed}");
    let (again, _) = desk.check(&words("rehearse field.json --inputs good.jsonl"), 0);
    assert_eq!(text, again);
}

#[test]
fn what_failed_is_named_has_no_points_and_is_told_by_strict() {
    let desk = desk();
    desk.check(&words("rehearse field.json --inputs good.jsonl --strict"), 0);
    let (text, _) = desk.check(&words("rehearse field.json --inputs left.jsonl --strict"), 3);
    assert!(text.contains("FAILED: nobody had taken it over at the end."), "{text}");
    let (json, _) = desk.check(&words("rehearse field.json --inputs left.jsonl --json"), 0);
    let report: Value = serde_json::from_str(&json).unwrap();
    assert_eq!((&report["points"], &report["failed"]), (&Value::Null, &true.into()));
    assert_eq!(report["events"][0]["event"], "not_taken_over");
    assert_eq!(report["scenario_hash"], tight_strip().hash());
}

#[test]
fn a_rehearsal_as_json_adds_up() {
    let desk = desk();
    let (json, _) = desk.check(&words("rehearse field.json --inputs good.jsonl --json"), 0);
    let report: Value = serde_json::from_str(&json).unwrap();
    let number = |value: &Value| value.as_f64().unwrap_or_else(|| panic!("{value}"));
    let parts: f64 = report["parts"].as_array().unwrap().iter().map(|part| number(&part["points"])).sum();
    assert!((parts - number(&report["points"])).abs() < 1e-4, "{report}");
    let most: f64 = report["parts"].as_array().unwrap().iter().map(|part| number(&part["points_most"])).sum();
    assert_eq!(most, 100.0);
    let lost = number(&report["lost_at_s"]);
    assert!((lost - 2.0).abs() < 0.2);
    let mut before = 0.0;
    for stage in ["noticed", "called", "goggles_off", "told_where_to_look", "found", "attitude_said", "taken_over"] {
        let (since, all) = (&report["stages"][stage]["since_loss_s"], &report["stages"][stage]["since_beginning_s"]);
        assert!((number(all) - number(since) - lost).abs() < 1e-5 && number(since) >= before, "{stage}: {report}");
        before = number(since);
    }
    assert_eq!((&report["attitude_misread"], &report["pointed_beside"]), (&1.into(), &0.into()));
    assert!(report["cautions"].as_array().unwrap().len() > 5);
}

#[test]
fn the_path_comes_back_from_every_format_with_times_from_the_beginning() {
    let desk = desk();
    desk.check(
        &words("rehearse field.json --inputs good.jsonl --out a.txt --out a.json --out a.csv --out a.gpx --out a.geojson --out a.kml"),
        0,
    );
    let scenario = tight_strip();
    let rehearsal = flown(&scenario, &exercise(), 8);
    let trace = rehearsal.trace();
    let read = |name: &str| std::fs::read(desk.path(name)).unwrap();
    let bytes = read("a.csv");
    let mut table = csv::Reader::from_reader(bytes.as_slice());
    let heads = table.headers().unwrap().clone();
    let column = |name: &str| heads.iter().position(|head| head == name).unwrap();
    let rows: Vec<csv::StringRecord> = table.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), trace.len());
    for (index, row) in rows.iter().enumerate() {
        let number = |name: &str| row[column(name)].parse::<f64>().unwrap();
        assert!((number("time_s") - trace.time_s(index)).abs() < 1e-3);
        assert!(
            (number("x_m") - trace.x_m[index]).abs() < 1e-3
                && (number("height_m") - trace.height_m[index]).abs() < 1e-3
        );
        assert_eq!(&row[column("stretch")], trace.stretch[index].name());
    }
    let gpx = gpx::read(read("a.gpx").as_slice()).unwrap();
    assert_eq!(gpx.tracks[0].segments[0].points.len(), trace.len());
    assert!(gpx.metadata.unwrap().description.unwrap().contains("count from the beginning"));
    let text = String::from_utf8(read("a.geojson")).unwrap();
    let collection = geojson::FeatureCollection::try_from(geojson::GeoJson::from_str(&text).unwrap()).unwrap();
    let at = |role: &str| {
        let with = |feature: &&geojson::Feature| feature.properties.as_ref().unwrap()["role"] == role;
        let found = collection.features.iter().find(with).unwrap_or_else(|| panic!("no {role}"));
        found.properties.as_ref().unwrap()["at_s"].as_f64().unwrap()
    };
    assert!((at("loss") - rehearsal.lost_at().unwrap() as f64 * rehearsal.step_s()).abs() < 1e-5);
    assert_eq!(at("beginning"), 0.0);
    assert!(at("found") > at("loss") && at("end") >= at("taken over"));
    let kml = String::from_utf8(read("a.kml")).unwrap();
    assert!(kml.parse::<kml::Kml>().is_ok() && kml.contains("after the beginning") && kml.contains("by hand"));
}

#[test]
fn a_class_is_a_table_that_no_spreadsheet_runs() {
    let desk = desk();
    let line = "rehearse field.json --inputs good.jsonl left.jsonl";
    let (text, _) = desk.check(&words(line), 0);
    for told in ["A. Reeve", "FAILED", "nobody had taken it over", "of 100", "goggles off"] {
        assert!(text.contains(told), "no \"{told}\" in {text}");
    }
    desk.check(&words(&format!("{line} --strict")), 3);
    let outs = "--out c.csv --out c.json --out c.pdf --out c.html --out c.svg --out c.png --out c.txt";
    desk.check(&words(&format!("{line} {outs}")), 0);
    let mut table = csv::Reader::from_path(desk.path("c.csv")).unwrap();
    let heads = table.headers().unwrap().clone();
    let column =
        |name: &str| heads.iter().position(|head| head == name).unwrap_or_else(|| panic!("no {name}: {heads:?}"));
    let rows: Vec<csv::StringRecord> = table.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 2);
    assert!(rows.iter().flatten().all(|cell| !cell.starts_with(['=', '+', '-', '@'])), "{rows:?}");
    assert_eq!((&rows[0][column("pilot")], &rows[1][column("pilot")]), ("A. Reeve", "'=SUM(A1)"));
    assert_eq!(&rows[1][column("points")], "FAILED");
    assert_eq!(rows[0][column("ready_s")], rows[0][column("attitude_said_s")]);
    assert!(rows[0][column("ready_s")].parse::<f64>().unwrap() > 0.0 && rows[1][column("ready_s")].is_empty());
    let sum: f64 = ["boundary", "areas", "heights", "time", "place", "landing"]
        .iter()
        .map(|part| rows[0][column(&format!("{part}_points"))].parse::<f64>().unwrap())
        .sum();
    // Six parts, each rounded to a tenth.
    assert!((sum - rows[0][column("points")].parse::<f64>().unwrap()).abs() < 0.4);
    let json: Value = serde_json::from_slice(&std::fs::read(desk.path("c.json")).unwrap()).unwrap();
    assert_eq!((&json["failed"], &json["attempts"][1]["points"]), (&1.into(), &Value::Null));
    let html = std::fs::read_to_string(desk.path("c.html")).unwrap();
    assert!(html.contains("A. Reeve") && html.contains(&tight_strip().hash()) && html.contains("Planning aid"));
    assert!(std::fs::read(desk.path("c.pdf")).unwrap().starts_with(b"%PDF"));
    let (_, said) = desk.check(&words(&format!("{line} --page 2 --out d.svg")), 2);
    assert!(said.contains("there is no page 2") && !desk.names().contains(&"d.svg".to_owned()), "{said}");
}

#[test]
fn a_large_class_takes_more_pages() {
    let desk = desk();
    let all = vec!["good.jsonl"; 40].join(" ");
    let line = format!("rehearse field.json --inputs {all} --page 2 --out p.svg --out p.pdf");
    desk.check(&words(&line), 0);
    assert!(std::fs::read_to_string(desk.path("p.svg")).unwrap().contains("2 of "));
}

#[test]
fn recordings_of_different_exercises_make_no_table() {
    let (desk, scenario) = (desk(), tight_strip());
    let other = Exercise { name: "Other".into(), when: When::AfterS(3.0), ..exercise() };
    keep(&desk, "other.jsonl", "B. Plover", &left_alone(&scenario, &other));
    let again = Exercise { trial: 4, ..exercise() };
    keep(&desk, "again.jsonl", "B. Plover", &left_alone(&scenario, &again));
    let before = desk.names();
    let (out, said) = desk.check(&words("rehearse field.json --inputs good.jsonl other.jsonl --out c.csv"), 2);
    assert!(out.is_empty() && said.contains("good.jsonl is of Short, other.jsonl of Other"), "{said}");
    let (_, said) = desk.check(&words("rehearse field.json --inputs good.jsonl again.jsonl --out c.csv"), 2);
    assert!(said.contains("both are called Short"), "{said}");
    assert_eq!(desk.names(), before);
}

#[test]
fn bad_recordings_get_every_fault_with_file_and_line_and_nothing_is_written() {
    let desk = desk();
    let good = std::fs::read_to_string(desk.path("good.jsonl")).unwrap();
    let mut lines: Vec<&str> = good.lines().collect();
    lines.insert(2, r#"{"at_step":9,"did":"fly-away"}"#);
    lines.insert(1, "nonsense");
    std::fs::write(desk.path("bad.jsonl"), lines.join("\n") + "\n").unwrap();
    std::fs::write(desk.path("empty.jsonl"), "").unwrap();
    let before = desk.names();
    let (out, said) =
        desk.check(&words("rehearse field.json --inputs bad.jsonl good.jsonl empty.jsonl none.jsonl --out c.csv"), 2);
    assert!(out.is_empty());
    for told in ["bad.jsonl: 2 errors", "line 2", "line 4", "empty.jsonl: 1 error", "there is no file none.jsonl"] {
        assert!(said.contains(told), "no \"{told}\" in {said}");
    }
    assert_eq!(desk.names(), before);
    let (_, said) = desk.check(&words("rehearse field.json --inputs good.jsonl --out good.jsonl"), 2);
    assert!(said.contains("writes no .jsonl"), "{said}");
    std::fs::copy(desk.path("good.jsonl"), desk.path("good.json")).unwrap();
    let (_, said) = desk.check(&words("rehearse field.json --inputs good.json --out good.json"), 2);
    assert!(said.contains("nothing that was read is written over"), "{said}");
}

#[test]
fn what_is_odd_is_told_and_played_all_the_same() {
    let desk = desk();
    let good = std::fs::read_to_string(desk.path("good.jsonl")).unwrap();
    let cut = good.trim_end().strip_suffix('}').unwrap();
    std::fs::write(desk.path("cut.jsonl"), cut).unwrap();
    let (_, said) = desk.check(&words("rehearse field.json --inputs cut.jsonl"), 0);
    assert!(said.contains("cut.jsonl: warning, line") && said.contains("cut within its last line"), "{said}");
    let hash = tight_strip().hash();
    let old = good.replacen(&hash, "0123456789ab", 1).replacen(
        &format!("\"version\":\"{}\"", peewit::VERSION),
        "\"version\":\"0.0.1\"",
        1,
    );
    std::fs::write(desk.path("old.jsonl"), old).unwrap();
    let (text, said) = desk.check(&words("rehearse field.json --inputs old.jsonl"), 0);
    for told in ["0123456789ab", "flown with Peewit 0.0.1"] {
        assert!(said.contains(told) && text.contains(told), "{said}\n{text}");
    }
}

#[test]
fn the_ladder_is_listed_and_without_recordings_the_way_to_fly_is_told() {
    let desk = Desk::new();
    let (text, said) = desk.check(&words("rehearse --list"), 0);
    assert!(said.is_empty());
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    for rung in ladder() {
        for told in [rung.exercise.name.as_str(), rung.new, rung.good] {
            assert!(plain(&text).contains(told), "no \"{told}\" in {text}");
        }
    }
    let (json, _) = desk.check(&words("rehearse --list --json"), 0);
    let list: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(list["exercises"].as_array().unwrap().len(), ladder().len());
    let (out, said) = desk.check(&words("rehearse field.json"), 2);
    assert!(out.is_empty() && said.contains("in the window") && said.contains("--inputs"), "{said}");
    desk.check(&words("rehearse"), 2);
}

/// A flight of a second or two, with a deed of every kind.
fn short() -> String {
    let scenario = tight_strip();
    let exercise = Exercise { when: When::AfterS(0.4), from: From::Plan, ..exercise() };
    let rehearsal = Rehearsal::new(&scenario, &exercise).unwrap();
    let mut recording = Recording::of(&rehearsal, "A. Reeve");
    let seen = rehearsal.seen();
    let deeds = [
        Deed::Sticks(Sticks { roll_share: 0.5, pitch_share: -0.25, throttle_share: 1.0 }),
        Deed::Lose,
        Deed::Stage { stage: Stage::Called },
        Deed::Return,
        Deed::Point { bearing_deg: 10.0, elevation_deg: 20.0 },
        Deed::Say { seen },
        Deed::TakeOver,
        Deed::End,
    ];
    recording.deeds = (1..).step_by(2).zip(deeds).map(|(at_step, deed)| Timed { at_step, deed }).collect();
    recording.to_text()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn no_mutation_of_a_recording_makes_it_panic(
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0_u8..4, any::<u8>()), 1..6)
    ) {
        let mut bytes = short().into_bytes();
        for (place, kind, byte) in edits {
            if bytes.is_empty() {
                break;
            }
            let at = place.index(bytes.len());
            match kind {
                0 => bytes[at] = byte,
                1 => {
                    bytes.remove(at);
                }
                2 => bytes.insert(at, b"0123456789-.,\"{}[]\n"[usize::from(byte) % 19]),
                _ => bytes.truncate(at),
            }
        }
        let scenario = tight_strip();
        let text = String::from_utf8_lossy(&bytes);
        if let Ok(recording) = Recording::read(&text, std::path::Path::new("a.jsonl")) {
            let odd = recording.fits(&scenario);
            prop_assert!(odd.iter().all(|fault| !fault.problem.is_empty() && !fault.way_out.is_empty()));
            if let Ok(rehearsal) = recording.play(&scenario) {
                let score = peewit::rehearsal::score(&rehearsal);
                let rehearsed = peewit::report::rehearsal::Rehearsed {
                    flown: &rehearsal, score: &score, pilot: &recording.header.pilot, warnings: &odd,
                };
                for &format in peewit::report::rehearsal::Rehearsed::FORMATS {
                    prop_assert!(rehearsed.render(format).is_ok());
                }
            }
        }
    }
}
