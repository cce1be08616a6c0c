//! Can the way that is flown be drawn with the pointer, entered with numbers and taken back, and do the trials lose the
//! jet on it?

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{self, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use glam::DVec2;
use peewit::app::field_board::{Chosen, Part, Tool};
use peewit::app::{AppCommand, Board, Draft, Session, Shown};
use peewit::field::{CircuitFile, Loop, Way};
use peewit::jet::State;
use peewit::run::{Scenario, ScenarioFile, WindChoice, draw, template};

use crate::board_field::{click_at, drag, seen};
use crate::field_sheets::{enter, says};
use crate::panels::{Stage, click, press, stage, texts};

/// A window high enough for a whole sheet.
const TALL: [f32; 2] = [1366.0, 2600.0];
/// Anticlockwise round the circle of a new field: 2 (280 + 220) m = 1000 m.
const ROUND: [(f64, f64); 4] = [(-160.0, 100.0), (120.0, 100.0), (120.0, 320.0), (-160.0, 320.0)];

/// What `peewit new` writes, as it is or without its circuit.
pub(crate) fn new(with_circuit: bool) -> Session {
    let datum = crate::support::tight_strip().file.field.unwrap().datum;
    let mut file = template("Our strip", "2026-05-01", datum);
    if !with_circuit {
        file.field.as_mut().unwrap().circuit = None;
    }
    let faults = Scenario::from_file(file.clone()).map_or_else(|faults| faults, |scenario| scenario.warnings());
    let mut session = Session::new(crate::support::tight_strip(), Vec::new(), None);
    let lens = Shown::default().lens;
    session.load(Draft::new(file, faults), None);
    session.warnings_shown = false;
    (session.settings.notice_read, session.settings.tour_seen) = (true, true);
    session.apply(AppCommand::Board(Board::Field), lens);
    session.apply(AppCommand::Fit, lens);
    session
}

fn file<'a>(harness: &'a Harness<'_, Stage>) -> &'a ScenarioFile {
    harness.state().session.draft.file()
}

fn circuit<'a>(harness: &'a Harness<'_, Stage>) -> Option<&'a CircuitFile> {
    file(harness).field.as_ref().unwrap().circuit.as_ref()
}

fn corners(harness: &Harness<'_, Stage>) -> Vec<DVec2> {
    Part::Circuit.points(file(harness))
}

/// Where the first trials lose the jet.
fn losses(harness: &Harness<'_, Stage>) -> Vec<State<f64>> {
    assert!(harness.state().session.is_current(), "{:?}", harness.state().session.draft.faults());
    let scenario = &harness.state().flown().scenario;
    (1..=300).map(|trial| draw(scenario, trial, WindChoice::Mean).start).collect()
}

fn place(loss: &State<f64>) -> DVec2 {
    DVec2::new(loss.x, loss.y)
}

fn undo(harness: &mut Harness<'_, Stage>) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run_steps(3);
}

/// The window with that circuit drawn with the pointer.
fn drawn() -> Harness<'static, Stage> {
    let mut harness = stage(new(false), TALL);
    press(&mut harness, Key::U);
    for at in ROUND.into_iter().chain([ROUND[0]]) {
        let at = seen(&harness, at);
        click_at(&mut harness, at);
    }
    assert_eq!(corners(&harness), ROUND.map(|(x, y)| DVec2::new(x, y)));
    harness
}

#[test]
fn a_circuit_is_drawn_by_pointer_and_the_trials_are_drawn_from_it() {
    let mut harness = drawn();
    assert_eq!(harness.state().session.field_board.tool, Tool::Choose);
    assert_eq!(harness.state().session.field_board.chosen, Some(Chosen { part: Part::Circuit, corner: None }));
    assert_eq!(harness.state().session.draft.to_undo(), Some("draw the circuit"));
    for (label, text) in [
        ("spread to the side", "0"),
        ("lowest over home", "50"),
        ("highest over home", "60 m"),
        ("fastest airspeed", "25"),
        ("slowest airspeed", "20"),
        ("least charge left", "50"),
        ("most charge left", "60 %"),
    ] {
        enter(&mut harness, label, text);
    }
    click(&mut harness, "flown: as drawn");
    assert_eq!(circuit(&harness).unwrap().way, Way::Drawn);
    // By hand: 1000 m at 25 and at 20 m/s.
    says(&harness, "in 40 to 50 s, in still air");
    let line = Loop::new(&corners(&harness));
    // The middle of the field is on the left of a jet that goes round it anticlockwise.
    let middle = DVec2::new(-20.0, 210.0);
    let all = losses(&harness);
    for loss in &all {
        let at = place(loss);
        let steps = (0..2000_u16).map(|step| line.place(f64::from(step) * 0.5).distance(at));
        assert!(steps.fold(f64::INFINITY, f64::min) < 0.3, "{at} is off the line");
        assert!((50.0..=60.0).contains(&loss.height) && (20.0..=25.0).contains(&loss.airspeed), "{loss:?}");
    }
    let left = all.iter().filter(|loss| DVec2::new(loss.nose_x, loss.nose_y).perp_dot(middle - place(loss)) > 0.0);
    assert_eq!(left.count(), all.len());
    // They come from every side of it: a quarter of the line is 250 m, and 300 places leave none of that empty.
    for quarter in 0..4_u8 {
        let from = line.place(f64::from(quarter) * 250.0 + 125.0);
        assert!(all.iter().any(|loss| place(loss).distance(from) < 60.0), "none near {from}");
    }
    // The plan as entered keeps its one loss.
    let written = draw(&harness.state().flown().scenario, 0, WindChoice::Mean).start;
    assert_eq!(place(&written), DVec2::from_array(file(&harness).loss.at_m));
    for _ in 0..8 {
        undo(&mut harness);
    }
    assert_eq!(circuit(&harness).map(|flown| flown.way), Some(Way::Both));
    assert_eq!(circuit(&harness).unwrap().width.m(), 15.0);
    undo(&mut harness);
    assert_eq!(circuit(&harness), None);
    // Without one, trials are about that one place, as far as it is known.
    assert!(losses(&harness).iter().all(|loss| place(loss).distance(place(&written)) < 1e-9));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Y);
    harness.run_steps(3);
    assert_eq!(corners(&harness).len(), 4);
}

#[test]
fn its_corners_are_moved_put_in_and_deleted() {
    let mut harness = drawn();
    let (from, to) = (seen(&harness, ROUND[2]), seen(&harness, (180.0, 350.0)));
    drag(&mut harness, from, to);
    assert_eq!(corners(&harness)[2], DVec2::new(180.0, 350.0));
    assert_eq!(harness.state().session.draft.to_undo(), Some("move corner 3 of the circuit"));
    let middle = harness.get_by_label("new corner after corner 1 of the circuit").rect().center();
    drag(&mut harness, middle, middle + egui::vec2(0.0, 40.0));
    assert_eq!(corners(&harness).len(), 5);
    assert_eq!(harness.state().session.draft.to_undo(), Some("add corner 2 of the circuit"));
    let handle = |node: &egui_kittest::Node<'_>| node.accesskit_node().role() == Role::Unknown;
    harness.get_all_by_label("corner 2 of the circuit").find(handle).unwrap().focus();
    harness.run_steps(2);
    press(&mut harness, Key::Delete);
    assert_eq!(corners(&harness).len(), 4);
    assert_eq!(losses(&harness).len(), 300);
    // A press on its line chooses it, and what is chosen can be deleted whole.
    press(&mut harness, Key::Escape);
    let on_it = seen(&harness, (-160.0, 260.0));
    click_at(&mut harness, on_it);
    assert_eq!(harness.state().session.field_board.chosen.map(|chosen| chosen.part), Some(Part::Circuit));
    click(&mut harness, "Delete all of the circuit");
    assert_eq!(circuit(&harness), None);
}

#[test]
fn an_area_is_flown_over_at_any_heading() {
    let mut harness = drawn();
    click(&mut harness, "circuit is: an area, any heading");
    let flown = circuit(&harness).unwrap();
    assert!(flown.line_m.is_empty() && flown.area_m.len() == 4);
    // By hand: 280 by 220 m.
    says(&harness, "area 6.16 ha");
    let all = losses(&harness);
    for loss in &all {
        let at = place(loss);
        assert!((-160.0..=120.0).contains(&at.x) && (100.0..=320.0).contains(&at.y), "{at}");
    }
    for (east, north) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
        let quarter = all.iter().filter(|loss| loss.nose_x * east > 0.0 && loss.nose_y * north > 0.0).count();
        // A quarter of 300 is 75; 40 are further off than one draw of a million (binomial, closed form).
        assert!(quarter > 40, "{quarter} of 300");
    }
    assert!(all.iter().any(|loss| place(loss).distance(DVec2::new(-20.0, 210.0)) < 40.0), "only its edge");
    click(&mut harness, "circuit is: a closed line");
    assert_eq!(circuit(&harness).unwrap().line_m.len(), 4);
}

#[test]
fn one_is_laid_beside_the_runway_in_front_of_the_people() {
    let mut harness = stage(new(false), TALL);
    click(&mut harness, "+ circuit beside the runway");
    let field = file(&harness).field.as_ref().unwrap();
    let [from, to] = field.runway.map(|strip| [strip.from_m, strip.to_m].map(DVec2::from_array)).unwrap();
    let side = |at: DVec2| (to - from).perp_dot(at - from).signum();
    let people = side(DVec2::from_array(field.pilot_m));
    assert!(corners(&harness).len() > 6 && corners(&harness).iter().all(|&at| side(at) == -people));
    assert_eq!(harness.state().session.field_board.chosen.map(|chosen| chosen.part), Some(Part::Circuit));
    undo(&mut harness);
    assert_eq!(circuit(&harness), None);
}

#[test]
fn what_is_wrong_with_it_is_said_at_its_place() {
    let mut harness = drawn();
    let all =
        |harness: &Harness<'_, Stage>| texts(harness).into_iter().map(|(text, ..)| text + "\n").collect::<String>();
    assert!(!all(&harness).contains("of the circuit lies"), "{}", all(&harness));
    enter(&mut harness, "corner 2 of the circuit east", "400");
    let found = all(&harness);
    assert!(found.contains("warning: ") && found.contains("of the circuit lies outside the boundary"), "{found}");
    enter(&mut harness, "lowest over home", "90");
    assert!(!harness.state().session.is_current(), "lowest above highest can be flown");
    says(&harness, "Exchange the two");
    says(&harness, "error: ");
}

#[test]
fn a_new_scenario_opens_with_its_circuit_on_every_board() {
    // The board that briefs others shows pages, not the map.
    for board in Board::ALL.into_iter().filter(|board| *board != Board::Brief) {
        let mut session = new(true);
        assert!(session.is_current() && session.draft.errors().count() == 0);
        session.apply(AppCommand::Board(board), Shown::default().lens);
        let harness = stage(session, [1366.0, 768.0]);
        let map = harness.state().lens.rect;
        let named = texts(&harness).into_iter().any(|(text, rect, ..)| text == "circuit" && map.contains_rect(rect));
        assert!(named, "{board:?}");
    }
}

#[test]
fn what_is_filled_in_is_taken_off_the_list_in_the_window() {
    let mut session = new(true);
    session.warnings_shown = true;
    let mut harness = stage(session, TALL);
    let before = file(&harness).notes.clone();
    click(&mut harness, "Note 1 is filled in");
    assert_eq!(file(&harness).notes, before[1..]);
    assert_eq!(harness.state().session.draft.to_undo(), Some("take out a note"));
    undo(&mut harness);
    assert_eq!(file(&harness).notes, before);
}
