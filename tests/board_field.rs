//! Can a field be drawn and fixed on the Field board, with the pointer and with the keyboard alone?

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{self, Key, Modifiers, Pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use glam::DVec2;
use peewit::app::field_board::{Chosen, Kind, Part, PictureCommand, Tool, open_picture};
use peewit::app::{AppCommand, Board, Draft, FieldCommand, Session, Shown};
use peewit::field::RuleName;
use peewit::run::{Scenario, ScenarioFile, template};

use crate::panels::{Stage, stage, texts};

/// A session on the Field board whose field has no boundary yet.
pub(crate) fn empty() -> Session {
    let datum = crate::support::tight_strip().file.field.unwrap().datum;
    let mut file = template("Our strip", "2026-04-18", datum);
    let field = file.field.as_mut().unwrap();
    field.boundary.ring_m.clear();
    field.areas.clear();
    (field.runway, field.flight_line_m, field.centre_m, field.facing) = (None, None, None, None);
    field.circuit = None;
    field.pilot_m = [0.0, -15.0];
    let faults = Scenario::from_file(file.clone()).unwrap_err();
    let mut session = demo();
    session.load(Draft::new(file, faults), None);
    session.warnings_shown = false;
    session.settings.notice_read = true;
    session
}

pub(crate) fn demo() -> Session {
    let mut session = Session::new(crate::support::tight_strip(), Vec::new(), Some("goatwillow-strip.json".into()));
    session.apply(AppCommand::Board(Board::Field), Shown::default().lens);
    session.apply(AppCommand::Fit, Shown::default().lens);
    session
}

const SMALL: [f32; 2] = [1366.0, 768.0];

fn file<'a>(harness: &'a Harness<'_, Stage>) -> &'a ScenarioFile {
    harness.state().session.draft.file()
}

fn points(harness: &Harness<'_, Stage>, part: Part) -> Vec<DVec2> {
    part.points(file(harness))
}

pub(crate) fn seen(harness: &Harness<'_, Stage>, at: (f64, f64)) -> Pos2 {
    harness.state().lens.screen(DVec2::new(at.0, at.1))
}

fn press(harness: &mut Harness<'_, Stage>, key: Key) {
    harness.key_press(key);
    harness.run_steps(3);
}

pub(crate) fn click_at(harness: &mut Harness<'_, Stage>, at: Pos2) {
    harness.hover_at(at);
    harness.run_steps(1);
    harness.drag_at(at);
    harness.drop_at(at);
    harness.run_steps(2);
}

pub(crate) fn drag(harness: &mut Harness<'_, Stage>, from: Pos2, to: Pos2) {
    harness.hover_at(from);
    harness.run_steps(1);
    harness.drag_at(from);
    harness.run_steps(1);
    for step in 1..=4_u8 {
        harness.hover_at(from.lerp(to, f32::from(step) / 4.0));
        harness.run_steps(1);
    }
    harness.drop_at(to);
    harness.run_steps(2);
}

fn type_in(harness: &mut Harness<'_, Stage>, text: &str) {
    harness.event(egui::Event::Text(text.into()));
    harness.run_steps(2);
}

fn words(harness: &Harness<'_, Stage>) -> String {
    texts(harness).into_iter().map(|(text, ..)| text + "\n").collect()
}

pub(crate) const ELL: [(f64, f64); 6] =
    [(-150.0, -150.0), (150.0, -150.0), (150.0, 0.0), (0.0, 0.0), (0.0, 150.0), (-150.0, 150.0)];

#[test]
fn an_l_with_a_paddock_is_drawn_with_the_pointer_and_a_corner_moved_and_undone_twice() {
    let mut harness = stage(empty(), SMALL);
    press(&mut harness, Key::O);
    for at in ELL {
        let at = seen(&harness, at);
        click_at(&mut harness, at);
    }
    assert!(words(&harness).contains("area"), "{}", words(&harness));
    let first = seen(&harness, ELL[0]);
    click_at(&mut harness, first);
    assert_eq!(points(&harness, Part::Boundary), ELL.map(|(x, y)| DVec2::new(x, y)));
    assert!(harness.state().session.is_current(), "{:?}", harness.state().session.draft.faults());
    press(&mut harness, Key::P);
    for at in [(-120.0, 60.0), (-40.0, 60.0), (-40.0, 120.0), (-120.0, 120.0)] {
        let at = seen(&harness, at);
        click_at(&mut harness, at);
    }
    press(&mut harness, Key::Enter);
    let drawn = file(&harness).clone();
    assert_eq!(drawn.field.as_ref().unwrap().areas[0].rule, RuleName::NoFly);
    assert!(words(&harness).contains("area 1, no-fly"));
    let (from, to) = (seen(&harness, (-120.0, 60.0)), seen(&harness, (-135.0, 45.0)));
    drag(&mut harness, from, to);
    assert_eq!(points(&harness, Part::Area(0))[0], DVec2::new(-135.0, 45.0));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run_steps(2);
    assert_eq!(file(&harness), &drawn);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run_steps(2);
    assert!(file(&harness).field.as_ref().unwrap().areas.is_empty());
    assert_eq!(points(&harness, Part::Boundary).len(), 6);
}

#[test]
fn the_same_field_is_drawn_without_a_pointer() {
    let mut harness = stage(empty(), SMALL);
    press(&mut harness, Key::O);
    for text in ["-150 -150", "300 at 090", "150 m at N", "0 0", "0,150", "-150 150"] {
        // A minus sign begins no number while the keyboard is free, as it is a key of the view.
        if text.starts_with('-') {
            harness.get_by_role_and_label(Role::TextInput, "place: east north, or 50 m at 045").focus();
            harness.run_steps(2);
        }
        type_in(&mut harness, text);
        press(&mut harness, Key::Enter);
    }
    assert_eq!(harness.state().session.field_board.drawing, ELL.map(|(x, y)| DVec2::new(x, y)));
    press(&mut harness, Key::Enter);
    assert_eq!(points(&harness, Part::Boundary).len(), 6);
    assert_eq!(harness.state().session.field_board.tool, Tool::Choose);
}

#[test]
fn corners_are_walked_to_moved_put_in_and_deleted_with_keys() {
    let mut harness = stage(demo(), SMALL);
    let before = points(&harness, Part::Boundary);
    harness.get_by_label("corner 2 of the boundary").focus();
    harness.run_steps(2);
    let chosen = Some(Chosen { part: Part::Boundary, corner: Some(1) });
    assert_eq!(harness.state().session.field_board.chosen, chosen);
    press(&mut harness, Key::ArrowRight);
    harness.key_press_modifiers(Modifiers::SHIFT, Key::ArrowUp);
    harness.run_steps(2);
    assert_eq!(points(&harness, Part::Boundary)[1], before[1] + DVec2::new(1.0, 10.0));
    press(&mut harness, Key::Insert);
    assert_eq!(points(&harness, Part::Boundary).len(), 5);
    assert_eq!(harness.state().session.draft.to_undo(), Some("add corner 3 of the boundary"));
    press(&mut harness, Key::Delete);
    assert_eq!(points(&harness, Part::Boundary).len(), 4);
    let lens = harness.state().lens;
    harness.get_by_label("corner 2 of the boundary").focus();
    press(&mut harness, Key::Plus);
    assert_eq!(points(&harness, Part::Boundary).len(), 5);
    assert_eq!(harness.state().lens, lens, "plus is a corner, not a nearer view");
}

#[test]
fn the_tab_key_walks_through_every_part() {
    let mut harness = stage(demo(), SMALL);
    let mut met = Vec::new();
    for _ in 0..130 {
        press(&mut harness, Key::Tab);
        met.extend(harness.state().session.field_board.chosen.map(|chosen| chosen.part));
    }
    for part in Part::all(file(&harness)) {
        assert!(met.contains(&part), "{part:?} is never reached");
    }
}

#[test]
fn points_parts_and_the_middle_of_an_edge_are_dragged() {
    let mut harness = stage(demo(), SMALL);
    for (part, to) in [(Part::Centre, (60.0, -90.0)), (Part::Home, (20.0, 30.0)), (Part::Loss, (150.0, 60.0))] {
        let from = points(&harness, part)[0];
        let (from, to_seen) = (harness.state().lens.screen(from), seen(&harness, to));
        let others: Vec<_> = Part::all(file(&harness)).into_iter().filter(|other| *other != part).collect();
        let before: Vec<_> = others.iter().map(|other| other.points(file(&harness))).collect();
        let lens = harness.state().lens;
        drag(&mut harness, from, to_seen);
        assert_eq!(harness.state().lens, lens, "{part:?}: what is on the right makes the map narrower");
        assert_eq!(points(&harness, part)[0], DVec2::new(to.0, to.1), "{part:?}");
        let after: Vec<_> = others.iter().map(|other| other.points(file(&harness))).collect();
        assert_eq!(before, after, "{part:?} moves others");
    }
    let inside = seen(&harness, (-30.0, 190.0));
    click_at(&mut harness, inside);
    assert_eq!(harness.state().session.field_board.chosen.unwrap().part, Part::Area(0));
    let ring = points(&harness, Part::Area(0));
    // It is on the map, and beside it what is chosen is named as well.
    let map = harness.state().lens.rect;
    let names = harness.get_all_by_label("goat paddock").map(|node| node.rect());
    let name = names.into_iter().find(|rect| map.contains_rect(*rect)).unwrap().center();
    let lens = harness.state().lens;
    drag(&mut harness, name, name + egui::vec2(30.0, 0.0));
    let moved = points(&harness, Part::Area(0));
    assert!(
        ring.iter().zip(&moved).all(|(from, to)| to.x > from.x + 10.0 && (to.y - from.y).abs() < 1e-9),
        "{moved:?}"
    );
    assert_eq!(harness.state().session.draft.to_undo(), Some("move goat paddock"));
    assert_eq!(harness.state().lens, lens);
    let middle = harness.get_by_label("new corner after corner 1 of goat paddock").rect().center();
    drag(&mut harness, middle, middle + egui::vec2(0.0, 40.0));
    assert_eq!(points(&harness, Part::Area(0)).len(), 5);
    assert_eq!(harness.state().session.draft.to_undo(), Some("add corner 2 of goat paddock"));
    harness.state_mut().session.apply(AppCommand::Undo, lens);
    assert_eq!(points(&harness, Part::Area(0)), moved);
}

#[test]
fn with_shift_the_map_moves_what_is_chosen_and_without_it_itself() {
    let mut harness = stage(demo(), SMALL);
    let inside = seen(&harness, (-150.0, 120.0));
    click_at(&mut harness, inside);
    let (ring, lens) = (points(&harness, Part::Area(0)), harness.state().lens);
    harness.event(egui::Event::ModifiersChanged(Modifiers::SHIFT));
    drag(&mut harness, inside, inside + egui::vec2(0.0, 40.0));
    let held = points(&harness, Part::Area(0));
    harness.event(egui::Event::ModifiersChanged(Modifiers::NONE));
    assert!(held != ring && harness.state().lens == lens, "{held:?}");
    let from = seen(&harness, (120.0, -150.0));
    drag(&mut harness, from, from + egui::vec2(40.0, 0.0));
    assert_eq!(points(&harness, Part::Area(0)), held);
    assert_ne!(harness.state().lens, lens);
}

#[test]
fn a_fault_is_said_at_its_place_and_only_there() {
    let sound = words(&stage(demo(), SMALL));
    assert!(!sound.contains("error:") && !sound.contains("warning:"), "{sound}");
    let mut session = demo();
    let lens = Shown::default().lens;
    let corner = |corner: usize, to: (f64, f64)| {
        let to = DVec2::new(to.0, to.1);
        AppCommand::Field(FieldCommand::MoveCorner { part: Part::Area(0), corner, to })
    };
    session.apply(corner(0, (60.0, 150.0)), lens);
    session.apply(corner(1, (-180.0, 95.0)), lens);
    session.apply(corner(2, (-180.0, 150.0)), lens);
    session.apply(corner(3, (60.0, 95.0)), lens);
    assert!(!session.is_current());
    let harness = stage(session, SMALL);
    let all = words(&harness);
    assert!(all.contains("error: the edge from corner"), "{all}");
    assert!(!all.contains("counted from 0"), "{all}");
    // The draft can't be flown, and is drawn all the same.
    assert!(all.contains("goat paddock, no-fly"));
}

#[test]
fn tools_are_taken_with_letters_and_buttons_and_left_with_escape() {
    for tool in Tool::ALL {
        let mut harness = stage(demo(), SMALL);
        press(&mut harness, tool.key());
        assert_eq!(harness.state().session.field_board.tool, tool);
        press(&mut harness, Key::Escape);
        assert_eq!(harness.state().session.field_board.tool, Tool::Choose);
        harness.get_all_by_role(Role::Button).find(|node| label(node).starts_with(tool.name())).unwrap().click();
        harness.run_steps(2);
        assert_eq!(harness.state().session.field_board.tool, tool);
    }
}

fn label(node: &egui_kittest::Node<'_>) -> String {
    node.accesskit_node().label().unwrap_or_default()
}

#[test]
fn leaving_the_box_with_escape_keeps_what_is_drawn() {
    let mut harness = stage(empty(), SMALL);
    press(&mut harness, Key::O);
    type_in(&mut harness, "10 10");
    press(&mut harness, Key::Enter);
    press(&mut harness, Key::Escape);
    assert_eq!(harness.state().session.field_board.drawing.len(), 1);
    press(&mut harness, Key::Escape);
    assert!(harness.state().session.field_board.drawing.is_empty());
}

#[test]
fn a_measure_reads_length_and_bearing() {
    let mut harness = stage(demo(), SMALL);
    press(&mut harness, Key::M);
    type_in(&mut harness, "0 0");
    press(&mut harness, Key::Enter);
    type_in(&mut harness, "30 40");
    press(&mut harness, Key::Enter);
    // By hand: 3-4-5, and the bearing is the arc tangent of 3/4.
    let all = words(&harness);
    assert!(all.contains("50.0 m, bearing 037\u{b0}"), "{all}");
    assert!(!harness.state().session.draft.is_changed());
}

#[test]
fn no_text_is_cut_or_too_small_while_drawing() {
    for commands in busy() {
        let mut session = demo();
        for command in commands {
            session.apply(AppCommand::Field(command), Shown::default().lens);
        }
        let harness = stage(session, SMALL);
        let map = harness.state().lens.rect;
        // The sheets on the right are scrolled, and tested by themselves.
        for (text, rect, room, size) in texts(&harness).into_iter().filter(|text| text.2.left() < map.right() - 1.0) {
            assert!(size >= 14.0, "\"{text}\" is {size} points high");
            assert!(room.expand(1.0).contains_rect(rect), "\"{text}\" is cut: {rect:?} in {room:?}");
        }
    }
}

/// States of the Field board with much to read.
fn busy() -> Vec<Vec<FieldCommand>> {
    let corner = |x, y| FieldCommand::AddCorner(DVec2::new(x, y));
    let (_folder, path) = photograph();
    let picture = Box::new(open_picture(&path).unwrap());
    vec![
        vec![FieldCommand::Choose(Some(Chosen { part: Part::Area(0), corner: Some(2) }))],
        vec![
            FieldCommand::Tool(Tool::Draw(Kind::Area)),
            corner(100.0, -100.0),
            corner(200.0, -100.0),
            corner(210.0, -20.0),
        ],
        vec![FieldCommand::Picture(PictureCommand::Lay(picture)), corner(100.0, -100.0), corner(120.0, -90.0)],
    ]
}

/// A picture of ground from above, as somebody might bring one.
pub(crate) fn photograph() -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("from-above.png");
    let field = image::RgbImage::from_fn(1200, 900, |x, y| {
        let wave = (f64::from(x) / 37.0).sin() * (f64::from(y) / 23.0).cos();
        let road = (i64::from(x) - i64::from(y) - 150).abs() < 12;
        let wood = (f64::from(x) - 900.0).hypot(f64::from(y) - 250.0) < 140.0;
        let shade = (wave * 12.0) as i16;
        let tone = |base: i16| (base + shade).clamp(0, 255) as u8;
        match (road, wood) {
            (true, _) => image::Rgb([tone(150), tone(140), tone(128)]),
            (_, true) => image::Rgb([tone(48), tone(82), tone(44)]),
            _ => image::Rgb([tone(126), tone(150), tone(86)]),
        }
    });
    field.save(&path).unwrap();
    (folder, path)
}

#[test]
fn the_checklist_leads_from_new_to_ready_and_fits_a_small_screen() {
    let mut harness = stage(empty(), SMALL);
    let head = "checklist: 1 of 11 done: next is boundary";
    let node = harness.get_by_role_and_label(Role::Button, head);
    assert!(node.rect().width() < 470.0, "the head is as wide as the sheets");
    assert!(harness.query_all_by_label("circuit, open: draw where you fly").next().is_none(), "it is folded");
    harness.get_by_role_and_label(Role::Button, head).click();
    harness.run_steps(3);
    let screen = egui::Rect::from_min_size(Pos2::ZERO, SMALL.into());
    let lines = harness.get_all_by_role(Role::Button).filter(|node| label(node).contains(", open: "));
    let rects: Vec<egui::Rect> = lines.map(|node| node.rect()).collect();
    assert!(rects.len() == 10 && rects.iter().all(|rect| screen.contains_rect(*rect)), "{rects:?}");
    harness.get_by_label("boundary, open: draw the land whose overflight is allowed").click();
    harness.run_steps(3);
    assert_eq!(harness.state().session.field_board.tool, Tool::Draw(Kind::Boundary));
    harness.get_by_label("contacts, open: enter numbers to call, and the gate by which help comes in").click();
    harness.run_steps(3);
    assert_eq!(harness.state().session.sheet, peewit::app::FieldSheet::Brief);
}
