//! One good run, and one for each way to fail; each comes to the same live, replayed and from its file, bit for bit.

use std::path::Path;

use peewit::margins::Limit;
use peewit::rehearsal::{Exercise, From, HardEvent, Lost, Recording, Rehearsal, RehearsalScore, When, score};
use peewit::run::Scenario;

use super::pilot::{Wrong, recorded};

fn exercise(lost: Lost) -> Exercise {
    Exercise {
        name: "drill".into(),
        lost,
        when: When::AfterS(20.0),
        back_after_s: 40.0,
        trial: 0,
        wind_share: 0.5,
        from: From::Upwind { aside_deg: 90.0, share: 0.4 },
        ..Exercise::default()
    }
}

#[track_caller]
fn check(lost: Lost, wrong: Wrong) -> (Rehearsal, RehearsalScore) {
    let scenario = Scenario::demo();
    let (live, recording) = recorded(&scenario, &exercise(lost), wrong);
    let text = recording.to_text();
    let read = Recording::read(&text, Path::new("drill.jsonl")).unwrap();
    assert_eq!(read, recording);
    assert_eq!(read.fits(&scenario), []);
    let played = read.play(&scenario).unwrap();
    assert_eq!(played.trace(), live.trace());
    let (one, other) = (score(&live), score(&played));
    assert_eq!(one, other);
    let bits = |score: &RehearsalScore| score.parts.iter().map(|part| part.points.to_bits()).collect::<Vec<_>>();
    assert_eq!(bits(&one), bits(&other));
    (live, one)
}

#[test]
fn a_good_run_lands_and_has_most_of_the_points() {
    for lost in [Lost::Video, Lost::Control, Lost::Both] {
        let (flown, score) = check(lost, Wrong::Nothing);
        assert!(score.landed, "{lost:?} {:?}", flown.ending());
        assert_eq!(score.events, []);
        assert!(score.points().unwrap() > 75.0);
    }
}

#[test]
fn each_way_to_fail_is_named() {
    let crossed = |limit: fn(&Limit) -> bool| move |event: &HardEvent| matches!(event, HardEvent::Crossed(row) if limit(&row.limit));
    let checks: [(Wrong, &dyn Fn(&HardEvent) -> bool); 8] = [
        (Wrong::OverTheBoundary, &crossed(|limit| *limit == Limit::Boundary)),
        (Wrong::OverAnArea, &crossed(|limit| *limit == Limit::Area(0))),
        (Wrong::OverPeople, &crossed(|limit| *limit == Limit::Area(1))),
        (Wrong::TooHigh, &crossed(|limit| *limit == Limit::HeightLimit)),
        (Wrong::Stalls, &crossed(|limit| *limit == Limit::Stall)),
        (Wrong::IntoTheGround, &|event| matches!(event, HardEvent::HitTheGround { .. })),
        (Wrong::NeverTakesOver, &|event| *event == HardEvent::NotTakenOver),
        (Wrong::HardLanding, &|event| matches!(event, HardEvent::HitTheGround { .. })),
    ];
    for (wrong, fails) in checks {
        let (flown, score) = check(Lost::Video, wrong);
        assert!(
            score.events.iter().any(fails),
            "{wrong:?}: {:?}, {:?}, {:?}",
            score.events,
            flown.ending(),
            flown.time_s()
        );
        assert_eq!(score.points(), None);
    }
}

#[test]
fn a_recording_cut_at_any_byte_is_refused_or_plays_to_the_cut() {
    let scenario = Scenario::demo();
    let (live, recording) = recorded(&scenario, &exercise(Lost::Video), Wrong::Nothing);
    let text = recording.to_text();
    let head = text.find('\n').unwrap();
    let mut played = 0;
    // Every byte of the head and of the lines about it, and a byte here and there of the rest.
    for cut in (0..head + 300).chain((head + 300..text.len()).step_by(997)) {
        match Recording::read(&text[..cut], Path::new("cut.jsonl")) {
            Err(error) => assert!(cut < head, "{cut} of {}: {error}", text.len()),
            Ok(read) => {
                let whole = text[..cut].ends_with('\n')
                    || serde_json::from_str::<serde_json::Value>(text[..cut].lines().last().unwrap()).is_ok();
                assert_eq!(read.warnings.is_empty(), whole, "{cut}");
                if cut % 5 == 0 {
                    let flown = read.play(&scenario).unwrap();
                    let far = flown.trace().len();
                    assert!(far <= live.trace().len());
                    assert_eq!(flown.trace().x_m, live.trace().x_m[..far]);
                    played += 1;
                }
            }
        }
    }
    assert!(played > 10);
}

/// What the study flies after a loss of control is what a rehearsal flies with nobody at the sticks, bit for bit.
#[test]
fn a_rehearsal_left_alone_is_the_flight_of_the_study() {
    let scenario = Scenario::demo();
    for trial in [0, 3, 11] {
        let exercise = Exercise {
            lost: Lost::Control,
            when: When::AfterS(0.0),
            back_after_s: Exercise::LONGEST_S,
            trial,
            wind_share: 1.0,
            from: From::Plan,
            ..Exercise::default()
        };
        let mut rehearsal = Rehearsal::new(&scenario, &exercise).unwrap();
        let studied = peewit::run::fly(&scenario, trial, peewit::run::WindChoice::Mean).trace;
        while rehearsal.index() < studied.len() {
            assert!(rehearsal.step(&[]));
        }
        let flown = rehearsal.trace();
        // The last sample of the study is the take-over, which a rehearsal leaves to the person.
        let until = studied.len() - 1;
        for (one, other) in
            [(&flown.x_m, &studied.x_m), (&flown.height_m, &studied.height_m), (&flown.energy_j, &studied.energy_j)]
        {
            assert_eq!(one[..until], other[..until], "trial {trial}");
        }
        assert_eq!(flown.stretch[..until], studied.stretch[..until]);
    }
}

/// Recordings of each way that are kept as files, with what they came to when they were flown: no later version may come to
/// something else unsaid. `PEEWIT_RECORD=1` writes them anew.
#[test]
fn the_recordings_that_are_kept_come_to_what_they_came_to() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/rehearsals");
    let scenario = Scenario::demo();
    for (name, wrong, outcome) in [
        ("good", Wrong::Nothing, None),
        ("boundary", Wrong::OverTheBoundary, Some("boundary")),
        ("never-taken-over", Wrong::NeverTakesOver, Some("NotTakenOver")),
        ("hard-landing", Wrong::HardLanding, Some("HitTheGround")),
    ] {
        let path = folder.join(format!("{name}.jsonl"));
        if std::env::var_os("PEEWIT_RECORD").is_some() {
            std::fs::create_dir_all(&folder).unwrap();
            std::fs::write(&path, recorded(&scenario, &exercise(Lost::Video), wrong).1.to_text()).unwrap();
        }
        let text = std::fs::read_to_string(&path).unwrap();
        let recording = Recording::read(&text, &path).unwrap();
        assert_eq!(recording.fits(&scenario), []);
        let score = score(&recording.play(&scenario).unwrap());
        let told = format!("{:?}", score.events);
        match outcome {
            None => {
                assert!(score.landed && score.points().is_some_and(|points| points > 60.0), "{told} {:?}", score.parts);
            }
            Some(event) => assert!(told.contains(event), "{name}: {told}"),
        }
    }
}
