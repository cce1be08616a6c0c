//! Does a session obey?

use super::*;
use crate::app::look::lens::Lens;
use crate::app::look::theme::Theme;
use crate::margins::Limit;
use crate::margins::judge;
use crate::run::fly;

fn session() -> Session {
    Session::new(Scenario::tight_strip(), Vec::new(), None)
}

fn obey(session: &mut Session, commands: &[AppCommand]) {
    for command in commands {
        session.apply(command.clone(), Lens::default());
    }
}

fn flown(session: &Session) -> &Flown {
    session.flown.as_ref().unwrap()
}

#[test]
fn every_knob_flies_again_and_every_answer_is_new() {
    for knob in Knob::ALL {
        let mut session = session();
        let before = flown(&session).clone();
        let value = knob.get(&before.scenario.file) + 7.0;
        obey(&mut session, &[AppCommand::Turn(knob, value)]);
        let after = flown(&session);
        assert!((knob.get(&after.scenario.file) - value).abs() < 1e-9, "{}", knob.name());
        assert_ne!(before.run.trace, after.run.trace, "{}", knob.name());
        assert_eq!(after.margins, judge(&after.scenario, &after.run), "{}", knob.name());
        assert!(session.draft.is_changed());
        obey(&mut session, &[AppCommand::Restore]);
        assert_eq!(flown(&session).run.trace, before.run.trace);
        assert!(!session.draft.is_changed());
    }
}

#[test]
fn every_end_of_every_knob_can_be_flown() {
    for knob in Knob::ALL {
        for value in [f64::NEG_INFINITY, f64::INFINITY] {
            for wind in [WindChoice::Mean, WindChoice::Gust] {
                let mut session = session();
                obey(&mut session, &[AppCommand::Wind(wind), AppCommand::Turn(knob, value)]);
                let flown = flown(&session);
                assert!(!flown.run.trace.is_empty() && !flown.margins.rows.is_empty(), "{} at {value}", knob.name());
            }
        }
    }
}

#[test]
fn the_gust_keeps_its_proportion_to_the_mean() {
    let mut session = session();
    let wind = |session: &Session| flown(session).scenario.file.wind;
    let written = wind(&session);
    obey(&mut session, &[AppCommand::Turn(Knob::WindSpeed, 2.0 * written.mean.mps())]);
    assert!((wind(&session).gust().mps() - 2.0 * written.gust().mps()).abs() < 1e-9);
}

#[test]
fn trials_and_winds_are_flown_as_asked() {
    let mut session = session();
    obey(&mut session, &[AppCommand::Trial(3), AppCommand::Wind(WindChoice::Gust)]);
    let expected = fly(&Scenario::tight_strip(), 3, WindChoice::Gust);
    assert_eq!(flown(&session).run.trace, expected.trace);
}

#[test]
fn a_chosen_row_moves_the_play_head_and_stays_chosen_when_rows_change_places() {
    let mut session = session();
    let index = flown(&session).margins.rows.iter().position(|row| row.limit == Limit::Boundary).unwrap();
    obey(&mut session, &[AppCommand::PlayOrPause, AppCommand::Choose(index)]);
    assert!(!session.playhead.playing);
    assert!((session.playhead.at_s - flown(&session).margins.rows[index].at_s).abs() < 1e-9);
    obey(&mut session, &[AppCommand::Turn(Knob::Radius, 30.0)]);
    let chosen = session.chosen.unwrap();
    assert_eq!(flown(&session).margins.rows[chosen].limit, Limit::Boundary);
    obey(&mut session, &[AppCommand::Choose(usize::MAX)]);
    assert_eq!(session.chosen, Some(chosen));
}

#[test]
fn playing_stops_at_the_end_and_starts_again_from_there() {
    let mut session = session();
    obey(&mut session, &[AppCommand::Speed(4.0), AppCommand::PlayOrPause]);
    session.tick(1.0);
    assert!((session.playhead.at_s - 4.0).abs() < 1e-9);
    session.tick(1e6);
    assert!(!session.playhead.playing);
    assert!((session.playhead.at_s - flown(&session).end_s()).abs() < 1e-9);
    obey(&mut session, &[AppCommand::PlayOrPause]);
    assert!(session.playhead.playing && session.playhead.at_s == 0.0);
    obey(&mut session, &[AppCommand::Scrub(-5.0), AppCommand::Nudge(1e9)]);
    assert!((session.playhead.at_s - flown(&session).end_s()).abs() < 1e-9);
}

#[test]
fn a_file_that_cannot_be_used_obeys_without_harm() {
    let mut session = Session::faulty(vec![Fault::error("/wind", "no wind", "write one")], None);
    let all = [
        AppCommand::Turn(Knob::Radius, 100.0),
        AppCommand::Restore,
        AppCommand::Trial(1),
        AppCommand::PlayOrPause,
        AppCommand::Nudge(1.0),
        AppCommand::Choose(0),
        AppCommand::Fit,
        AppCommand::SwapTheme,
    ];
    obey(&mut session, &all);
    session.tick(1.0);
    assert!(session.flown.is_none() && !session.playhead.playing);
    assert_eq!(session.settings.theme, Theme::Dark);
}

#[test]
fn knobs_read_units_and_bare_numbers() {
    #[track_caller]
    fn check(knob: Knob, text: &str, expected: Option<f64>) {
        let found = knob.parse(text);
        let same = match (found, expected) {
            (Some(found), Some(expected)) => (found - expected).abs() < 1e-6,
            (found, expected) => found.is_none() && expected.is_none(),
        };
        assert!(same, "{text}: {found:?}");
    }
    check(Knob::Radius, "120", Some(120.0));
    check(Knob::Radius, "400 ft", Some(121.92));
    check(Knob::WindSpeed, "15kt", Some(7.716_666_667));
    check(Knob::WindFrom, "SW", Some(225.0));
    check(Knob::WindFrom, "240 deg", Some(240.0));
    check(Knob::Radius, "12 kg", None);
    check(Knob::Radius, "NaN", None);
}
