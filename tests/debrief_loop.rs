//! The debrief from end to end: a flight of the tool and a rehearsal read back to the wind, law and sheet they were flown with;
//! the loop closed: wrong numbers in the sheet, three flights, corrected, and the fourth lies inside what is then predicted.

use std::fmt::Write as _;

use glam::DVec2;
use peewit::debrief::{Debriefed, LawFound, Marks, Standing, Tally, corrected, corrections, debrief, debrief_marked};
use peewit::log::read;
use peewit::recovery::Guidance;
use peewit::run::{Run, Scenario, ScenarioFile, WindChoice, fly};
use peewit::study::work::Work;
use peewit::units::{Bearing, Speed};

use crate::support::tight_strip;

/// The flight of a trial as a log of other columns, at a rate in Hz.
fn log_of(scenario: &Scenario, run: &Run, hz: f64) -> String {
    let mut text = String::from("Time(s);Lat;Lon;Alt above home (m)\r\n");
    let every = (1.0 / (hz * run.trace.step_s)).round().max(1.0) as usize;
    for index in (0..run.trace.len()).step_by(every) {
        let (latitude, longitude) = scenario.field.plane.to_degrees(run.trace.point(index));
        let cells = [run.trace.time_s(index), latitude, longitude, run.trace.height_m[index]];
        let _ = writeln!(text, "{}\r", cells.map(|cell| format!("{cell:.7}").replace('.', ",")).join(";"));
    }
    text
}

fn debriefed(scenario: &Scenario, text: &str) -> Vec<Debriefed> {
    let log = read("flight.csv", text.as_bytes(), scenario, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    debrief(scenario, &log.track, &Work::default())
}

/// The demo with a jet, wind and law of its own.
fn flown_by(edit: impl FnOnce(&mut ScenarioFile)) -> Scenario {
    let mut file = Scenario::demo().file;
    edit(&mut file);
    Scenario::from_file(file).unwrap()
}

#[test]
fn a_flight_of_the_tool_is_read_back_to_the_wind_it_was_flown_in() {
    for (mean, from) in [(3.0, 200.0), (6.0, 180.0), (8.0, 90.0)] {
        let truth = flown_by(|file| {
            file.wind.mean = Speed::new(mean);
            file.wind.from = Bearing::from_deg(from);
        });
        let run = fly(&truth, 0, WindChoice::Mean);
        let all = debriefed(&truth, &log_of(&truth, &run, 5.0));
        assert_eq!(all.len(), 1, "{mean} from {from}");
        let fit = all[0].wind.as_ref().unwrap();
        let aloft = truth.wind_at_circle()[0];
        let blown = -Bearing::from_deg(from).unit() * aloft;
        // No turbulence is drawn in trial 0: what is off is the airspeed that changes round the lap.
        assert!((fit.wind - blown).length() < 0.6, "{mean} from {from}: {:?} for {blown}", fit.wind);
        let predicted = all[0].predicted.as_ref().unwrap();
        assert_eq!(predicted.holds, Some(true), "{mean} from {from}");
        let [said, was] = [&predicted.figures, &all[0].flown].map(|figures| figures.radius_m.unwrap());
        assert!((said - was).abs() < 8.0, "{said} {was}");
    }
}

#[test]
fn the_log_of_a_rehearsal_is_debriefed_to_what_it_was_flown_with() {
    use peewit::rehearsal::{Exercise, Lost, When};
    let scenario = Scenario::demo();
    let exercise = Exercise {
        lost: Lost::Control,
        when: When::AfterS(15.0),
        back_after_s: 100.0,
        wind_share: 1.0,
        from: peewit::rehearsal::From::Upwind { aside_deg: 90.0, share: 0.5 },
        ..Exercise::default()
    };
    let flown = crate::rehearsal::pilot::flown(&scenario, &exercise, crate::rehearsal::pilot::Wrong::Nothing);
    let run =
        Run { trial: 0, drawn: *flown.trial(), trace: flown.trace().clone(), ending: peewit::run::Ending::TakenOver };
    let all = debriefed(&scenario, &log_of(&scenario, &run, 10.0));
    assert_eq!(all.len(), 1);
    let fit = all[0].wind.as_ref().unwrap();
    let blown = -scenario.file.wind.from.unit() * scenario.wind_at_circle()[0];
    assert!((fit.wind - blown).length() < 0.8, "{:?} for {blown}", fit.wind);
    assert!((fit.airspeed_mps - scenario.file.jet.return_speed.value.mps()).abs() < 0.8, "{}", fit.airspeed_mps);
    let law = all[0].steering.as_ref().unwrap().law();
    let right = Guidance::FieldOfDirections;
    assert!(
        law == LawFound::Found(right) || matches!(&law, LawFound::CantTell(laws) if laws.contains(&right)),
        "{law:?}"
    );
    // By hand it was flown round the same centre: no rule can tell from a track when that ended, so a person says it.
    let log = read("flight.csv", log_of(&scenario, &run, 10.0).as_bytes(), &scenario, None).unwrap();
    let marks = Marks { lost: 150, turned_home: Some(165), joined: Some(170), ..all[0].marks.clone() };
    let moved = debrief_marked(&scenario, &log.track, marks, &Work::default());
    let [lost, said] = [moved.marks.lost, 150].map(|sample| log.track.place()[sample]);
    let predicted = moved.predicted.as_ref().unwrap();
    assert!(lost == said && predicted.run.trace.point(0).distance(said) < 0.1);
}

#[test]
fn wrong_numbers_of_the_sheet_are_corrected_and_the_next_flight_lies_inside_the_prediction() {
    // The jet as it is, and the sheet that says otherwise: return speed 17 % low, maximum bank 7 degrees off.
    let truth = flown_by(|file| file.jet.return_speed.value = Speed::new(26.0));
    let mut sheet = Scenario::demo();
    let before = sheet.file.jet.return_speed.value.mps();
    for trial in [1, 2, 3] {
        let run = fly(&truth, trial, WindChoice::Mean);
        let text = log_of(&truth, &run, 5.0);
        let all = debriefed(&sheet, &text);
        let Some(one) = all.first() else { continue };
        let learned = one.learned.as_ref().unwrap();
        let found = corrections(&sheet.file, learned, one.steering.as_ref().ok(), &format!("flight-{trial}.csv"), None);
        sheet = Scenario::from_file(corrected(&sheet.file, &found)).unwrap();
    }
    let after = sheet.file.jet.return_speed.value.mps();
    assert!((after - 26.0).abs() < 1.2 && (before - 26.0).abs() > 3.0, "{before} {after}");
    assert_eq!(sheet.file.jet.return_speed.origin, peewit::jet::Origin::Measured);
    let fourth = fly(&truth, 4, WindChoice::Mean);
    let all = debriefed(&sheet, &log_of(&truth, &fourth, 5.0));
    assert_eq!(all[0].predicted.as_ref().unwrap().holds, Some(true));
    let tally = Tally::of(&all);
    assert_eq!((tally.held.count, tally.held.of), (1, 1));
    assert_eq!(tally.standing(), Standing::NotValidated);
}

#[test]
fn a_log_without_a_recovery_says_so_and_one_with_two_has_two() {
    let scenario = tight_strip();
    let mut straight = String::from("time_s,east_m,north_m,height_above_home_m\n");
    for second in 0..60 {
        let _ = writeln!(straight, "{second},{},0,60", second * 20);
    }
    assert!(debriefed(&scenario, &straight).is_empty());
    let centre = scenario.field.centre;
    let radius = scenario.file.recovery.radius.m();
    let mut twice = String::from("time_s,east_m,north_m,height_above_home_m\n");
    let mut time = 0;
    for _ in 0..2 {
        for degree in (0..720).step_by(5) {
            let round = if scenario.file.recovery.turn == peewit::recovery::Turn::Clockwise { -1.0 } else { 1.0 };
            let at = centre + DVec2::from_angle(round * f64::from(degree).to_radians()) * radius;
            let _ = writeln!(twice, "{},{:.2},{:.2},70", f64::from(time) * 0.4, at.x, at.y);
            time += 1;
        }
        for step in 0..100 {
            let _ = writeln!(
                twice,
                "{},{:.2},{:.2},70",
                f64::from(time) * 0.4,
                centre.x + 3.0 * radius + f64::from(step),
                centre.y
            );
            time += 1;
        }
    }
    assert_eq!(debriefed(&scenario, &twice).len(), 2);
}

#[test]
fn a_wind_that_blows_harder_than_the_gust_of_the_plan_is_predicted_in_all_the_same() {
    let truth = flown_by(|file| {
        file.wind.mean = Speed::new(12.0);
        file.wind.gust = Some(Speed::new(13.0));
        file.recovery.radius = peewit::units::Length::new(180.0);
    });
    let plan = flown_by(|file| file.recovery.radius = peewit::units::Length::new(180.0));
    assert!(plan.file.wind.gust().mps() < 12.0);
    let run = fly(&truth, 0, WindChoice::Mean);
    let all = debriefed(&plan, &log_of(&truth, &run, 5.0));
    let predicted = all[0].predicted.as_ref().unwrap();
    let wind = &predicted.scenario.file.wind;
    assert!((wind.gust().mps() - wind.mean.mps() - plan.file.wind.excess_mps()).abs() < 1e-9);
}
