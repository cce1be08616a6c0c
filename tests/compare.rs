//! Two plans side by side: is every number that of each plan's own margins, and are the two swapped as an edit?

use bevy_egui::egui::{self, Key};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use glam::DVec2;
use peewit::app::View;
use peewit::app::beside::answer_now;
use peewit::app::boards::compare::{Judged, Line, lines};
use peewit::app::lens::Lens;
use peewit::app::{AppCommand, Change, Grade, Session, Shown, Theme};
use peewit::margins::{MarginUnit, judge};
use peewit::run::{Scenario, WindChoice, fly};

use crate::panels::{Stage, click, press, stage, texts};
use crate::pictures::{check_not_blank, draw};

const SMALL: [f32; 2] = [1366.0, 768.0];

fn lens() -> Lens {
    Shown::default().lens
}

/// The demo with its centre moved, metres.
fn moved(session: &Session, by: DVec2) -> AppCommand {
    let mut file = session.draft.file().clone();
    let field = file.field.as_mut().unwrap();
    let centre = field.centre_m.unwrap_or(field.home_m);
    field.centre_m = Some([centre[0] + by.x, centre[1] + by.y]);
    AppCommand::Edit(Box::new(Change { what: "move the centre".into(), file }))
}

/// The demo with its centre at the peg kept, and on the screen as entered, with its centre 80 m to the south.
fn two() -> Session {
    let mut session = Session::new(crate::support::tight_strip(), Vec::new(), Some("goatwillow-strip.json".into()));
    session.apply(moved(&session, DVec2::new(0.0, 80.0)), lens());
    answer_now(&mut session, Grade::Coarse);
    session.apply(AppCommand::Keep(true), lens());
    session.apply(moved(&session, DVec2::new(0.0, -80.0)), lens());
    answer_now(&mut session, Grade::Coarse);
    session.apply(AppCommand::Compare(true), lens());
    session
}

fn words(harness: &Harness<'_, Stage>) -> String {
    texts(harness).into_iter().map(|(text, ..)| text + "\n").collect()
}

fn all_lines(session: &Session) -> Vec<Line> {
    let (now, kept) = (session.flown.as_ref().unwrap(), session.kept.as_ref().unwrap());
    lines(&View::new(session), now, kept).concat()
}

#[test]
fn every_number_is_that_of_each_plans_own_margins() {
    let session = two();
    let (plan, kept) = (session.flown.as_ref().unwrap(), session.kept.as_ref().unwrap());
    let [left, right] = lines(&View::new(&session), plan, kept);
    let units = &session.settings.units;
    let line = |name: &str| left.iter().find(|line| line.name == name).unwrap();
    let margin = |name: &str| right.iter().find(|line| line.name == name).unwrap();
    let demo = crate::support::tight_strip();
    let now = &judge(&demo, &fly(&demo, 0, WindChoice::Mean));
    let peg = &kept.flown.scenario;
    assert_eq!(peg.field.centre, DVec2::ZERO);
    let kept = judge(peg, &fly(peg, 0, WindChoice::Mean));
    for (margins, of) in [(now, (|line| &line.now) as fn(&Line) -> &String), (&kept, |line| &line.kept)] {
        for row in &margins.rows {
            let told = format!("{}, {}", units.left(row.margin, row.buffer, row.unit.symbol()), row.verdict.name());
            assert_eq!(*of(margin(&row.name)), told, "{}", row.name);
        }
        let crossed = margins.rows.iter().filter(|row| row.verdict.name() == "crossed").count();
        assert!(of(line("margins")).starts_with(&format!("{crossed} crossed")));
    }
    let difference = now.figures.furthest_m.unwrap() - kept.figures.furthest_m.unwrap();
    let told = &line("furthest from the centre").difference;
    assert!(told.contains(&units.margin(difference.abs(), "m")), "{difference}: {told}");
    assert_eq!(line("centre").difference, "80.0 m S");
    assert_eq!(line("circle radius").judged, Judged::Same);
    let judged = |name: &str, margins: &peewit::margins::Margins| {
        margins.rows.iter().find(|row| row.name == name).map(|row| row.margin).unwrap()
    };
    for row in now.rows.iter().filter(|row| row.unit == MarginUnit::Metres && row.verdict.name() != "counted") {
        let more = judged(&row.name, now) - judged(&row.name, &kept);
        if more.abs() > 0.5 && row.verdict == kept.rows.iter().find(|other| other.name == row.name).unwrap().verdict {
            let expected = if more > 0.0 { Judged::Better } else { Judged::Worse };
            assert_eq!(margin(&row.name).judged, expected, "{}", row.name);
        }
    }
}

#[test]
fn a_first_look_is_never_compared() {
    let lines = all_lines(&two());
    for name in [
        "verdict by trials",
        "trials that stay inside",
        "usable radii, mean wind",
        "wind limit, worst way",
        "cells recovered as entered",
    ] {
        let line = lines.iter().find(|line| line.name == name).unwrap();
        let told = (line.now.as_str(), line.kept.as_str(), line.judged);
        assert_eq!(told, ("not worked out", "not worked out", Judged::Open), "{name}");
    }
}

#[test]
fn a_swap_is_an_edit_that_can_be_taken_back_and_keeps_what_is_known() {
    let mut session = two();
    let [now, kept] =
        [session.flown.as_ref().unwrap(), &session.kept.as_ref().unwrap().flown].map(|flown| flown.margins.clone());
    let known = session.kept.as_ref().unwrap().answers.radius.as_ref().unwrap().found.clone();
    session.apply(AppCommand::Swap, lens());
    assert_eq!(session.flown.as_ref().unwrap().margins, kept);
    assert_eq!(session.kept.as_ref().unwrap().flown.margins, now);
    let answer = session.answers.radius.as_ref().unwrap();
    assert!(answer.edition == session.edition && *answer.found == *known);
    assert_eq!(session.draft.to_undo(), Some("swap with the kept plan"));
    session.apply(AppCommand::Undo, lens());
    assert_eq!(session.flown.as_ref().unwrap().margins, now);
    // Both are always flown in the same wind and trial.
    session.apply(AppCommand::Wind(WindChoice::Gust), lens());
    session.apply(AppCommand::Trial(3), lens());
    let kept = &session.kept.as_ref().unwrap().flown;
    assert_eq!(kept.run.trace, fly(&kept.scenario, 3, WindChoice::Gust).trace);
}

#[test]
fn plans_on_different_fields_are_compared_by_what_both_have() {
    let mut session = two();
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/sallowmouth-head.json");
    let file = Scenario::load(&path).unwrap().0.file;
    session.apply(AppCommand::Edit(Box::new(Change { what: "another field".into(), file })), lens());
    let lines = all_lines(&session);
    let missing = lines.iter().filter(|line| line.now == "no such limit" || line.kept == "no such limit").count();
    assert!(missing > 1, "{lines:?}");
    let boundary = lines.iter().find(|line| line.name == "boundary").unwrap();
    assert!(boundary.now != "no such limit" && boundary.kept != "no such limit");
    stage(session, SMALL);
}

#[test]
fn the_comparison_is_shown_and_left_by_key_and_button() {
    let mut harness = stage(Session::new(crate::support::tight_strip(), Vec::new(), Some("a.json".into())), SMALL);
    press(&mut harness, Key::F6);
    assert!(words(&harness).contains("No plan is kept yet"));
    click(&mut harness, "Keep this plan");
    let all = words(&harness);
    for word in [
        "now: Goatwillow Strip",
        "kept: Goatwillow Strip",
        "furthest from the centre",
        "way round",
        "same",
        "both flown as entered",
    ] {
        assert!(all.contains(word), "\"{word}\" is not in {all}");
    }
    let _ = harness.get_by_label("map of the plan kept");
    click(&mut harness, "Drop");
    assert!(harness.state().session.kept.is_none());
    click(&mut harness, "Back to the board");
    assert!(!harness.state().session.compared);
    click(&mut harness, "Compare");
    assert!(harness.state().session.compared);
    press(&mut harness, Key::F6);
    assert!(!harness.state().session.compared);
}

#[test]
fn nothing_is_cut_or_too_small() {
    for size in [SMALL, [1920.0, 1080.0]] {
        let harness = stage(two(), size);
        for (text, rect, room, points) in texts(&harness) {
            assert!(points >= 14.0, "\"{text}\" is {points} points high");
            // On a small screen the lists may be longer than their room, and are turned up and down.
            let room = if size[1] < 900.0 { room.expand2(egui::vec2(1.0, 40.0)) } else { room.expand(1.0) };
            assert!(room.contains_rect(rect), "\"{text}\" is cut: {rect:?} in {room:?}");
        }
    }
}

#[test]
fn the_comparison_is_drawn() {
    for (size, theme) in [([1366, 768], Theme::Light), ([1366, 768], Theme::Dark), ([1920, 1080], Theme::Light)] {
        let file = format!("compare-{}-{theme:?}.png", size[0]).to_lowercase();
        let Some(png) = draw(two(), size, theme, &file) else { return };
        check_not_blank(&png, size);
    }
}
