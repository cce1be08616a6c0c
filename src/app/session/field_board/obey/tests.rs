//! Does the Field board obey, one undo step an edit?

use super::*;
use crate::app::look::lens::{Lens, MapView};
use crate::app::session::field_board::GroundPicture;
use crate::app::session::{AppCommand, Draft};
use crate::error::Severity;
use crate::field::RuleName;
use crate::geometry::Placement;
use crate::run::{Scenario, template};

/// A scenario whose field has no boundary yet.
fn empty() -> Session {
    let datum = Scenario::tight_strip().file.field.unwrap().datum;
    let mut file = template("Our strip", "2026-05-01", datum);
    let field = file.field.as_mut().unwrap();
    field.boundary.ring_m.clear();
    field.areas.clear();
    (field.runway, field.flight_line_m, field.centre_m, field.facing) = (None, None, None, None);
    field.circuit = None;
    field.pilot_m = [0.0, -15.0];
    let faults = Scenario::from_file(file.clone()).unwrap_err();
    let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
    session.load(Draft::new(file, faults), None);
    session
}

fn obey(session: &mut Session, command: AppCommand) {
    session.apply(command, Lens::default());
}

fn field_board(session: &mut Session, commands: impl IntoIterator<Item = FieldCommand>) {
    for command in commands {
        obey(session, AppCommand::Field(command));
    }
}

fn draw(session: &mut Session, kind: Kind, corners: &[(f64, f64)]) {
    field_board(session, [FieldCommand::Tool(Tool::Draw(kind))]);
    field_board(session, corners.iter().map(|&(x, y)| FieldCommand::AddCorner(DVec2::new(x, y))));
    field_board(session, [FieldCommand::Finish]);
}

fn area_m2(session: &Session, part: Part) -> f64 {
    super::super::extent::ring_area(&part.points(session.draft.file()))
}

fn file(session: &Session) -> &ScenarioFile {
    session.draft.file()
}

const ELL: [(f64, f64); 6] =
    [(-200.0, -200.0), (250.0, -200.0), (250.0, 0.0), (50.0, 0.0), (50.0, 250.0), (-200.0, 250.0)];

#[test]
fn an_l_with_a_paddock_is_drawn_on_an_empty_field_and_a_corner_moved_and_undone_twice() {
    let mut session = empty();
    assert!(session.flown.is_none() && session.draft.errors().count() > 0);
    draw(&mut session, Kind::Boundary, &ELL);
    // By hand: 450 x 200 and 250 x 250.
    assert!((area_m2(&session, Part::Boundary) - 152_500.0).abs() < 1e-6);
    assert!(session.is_current(), "{:?}", session.draft.faults());
    draw(&mut session, Kind::Area, &[(-150.0, 150.0), (-50.0, 150.0), (-50.0, 230.0), (-150.0, 230.0)]);
    let drawn = file(&session).clone();
    let area = &drawn.field.as_ref().unwrap().areas[0];
    assert_eq!((area.name.as_str(), area.rule), ("area 1", RuleName::NoFly));
    assert_eq!(session.field_board.chosen, Some(Chosen { part: Part::Area(0), corner: None }));
    for x in [-140.0, -130.0, -120.0] {
        let to = DVec2::new(x, 150.0);
        field_board(&mut session, [FieldCommand::MoveCorner { part: Part::Area(0), corner: 0, to }]);
    }
    field_board(&mut session, [FieldCommand::LetGo]);
    assert!((area_m2(&session, Part::Area(0)) - 6_800.0).abs() < 1e-6);
    assert_eq!(session.draft.to_undo(), Some("move corner 1 of area 1"));
    obey(&mut session, AppCommand::Undo);
    assert_eq!(file(&session), &drawn);
    obey(&mut session, AppCommand::Undo);
    assert!(file(&session).field.as_ref().unwrap().areas.is_empty());
    assert_eq!(session.field_board.chosen, None);
    assert_eq!(Part::Boundary.points(file(&session)).len(), 6);
}

#[test]
fn a_corner_put_in_and_moved_is_one_step() {
    let mut session = empty();
    draw(&mut session, Kind::Boundary, &ELL);
    let before = file(&session).clone();
    let part = Part::Boundary;
    field_board(
        &mut session,
        [
            FieldCommand::InsertCorner { part, after: 0, at: DVec2::new(0.0, -200.0) },
            FieldCommand::MoveCorner { part, corner: 1, to: DVec2::new(0.0, -220.0) },
            FieldCommand::MoveCorner { part, corner: 1, to: DVec2::new(0.0, -250.0) },
            FieldCommand::LetGo,
        ],
    );
    assert_eq!(Part::Boundary.points(file(&session))[1], DVec2::new(0.0, -250.0));
    assert_eq!(session.draft.to_undo(), Some("add corner 2 of the boundary"));
    obey(&mut session, AppCommand::Undo);
    assert_eq!(file(&session), &before);
}

#[test]
fn undo_while_drawing_takes_the_last_corner_back_and_escape_gives_up() {
    let mut session = empty();
    field_board(&mut session, [FieldCommand::Tool(Tool::Draw(Kind::Boundary))]);
    field_board(&mut session, ELL.iter().map(|&(x, y)| FieldCommand::AddCorner(DVec2::new(x, y))));
    field_board(&mut session, [FieldCommand::AddCorner(DVec2::new(-200.0, 250.0))]);
    assert_eq!(session.field_board.drawing.len(), 6, "the same corner twice is one");
    obey(&mut session, AppCommand::Undo);
    field_board(&mut session, [FieldCommand::DropCorner]);
    assert_eq!(session.field_board.drawing.len(), 4);
    field_board(&mut session, [FieldCommand::Cancel]);
    assert!(session.field_board.drawing.is_empty() && session.field_board.tool == Tool::Draw(Kind::Boundary));
    field_board(&mut session, [FieldCommand::Cancel]);
    assert_eq!(session.field_board.tool, Tool::Choose);
    assert!(!session.draft.is_changed());
}

#[test]
fn too_few_corners_make_nothing_and_lines_end_by_themselves() {
    let mut session = empty();
    draw(&mut session, Kind::Boundary, &ELL[..2]);
    assert!(!session.draft.is_changed());
    draw(&mut session, Kind::Runway, &[(-60.0, 5.0), (60.0, 5.0)]);
    assert_eq!(session.field_board.tool, Tool::Choose);
    assert_eq!(Part::Runway.points(file(&session)).len(), 2);
    draw(&mut session, Kind::Tree, &[(90.0, 90.0), (95.0, 120.0)]);
    assert_eq!(session.field_board.tool, Tool::Draw(Kind::Tree));
    let names: Vec<_> = file(&session).field.as_ref().unwrap().obstacles.iter().map(|tall| &tall.name).collect();
    assert_eq!(names, ["tree 1", "tree 2"]);
}

#[test]
fn holes_are_cut_into_boundary_and_area_and_deleted_again() {
    let mut session = empty();
    draw(&mut session, Kind::Boundary, &ELL);
    draw(&mut session, Kind::BoundaryHole, &[(100.0, -150.0), (150.0, -150.0), (150.0, -100.0)]);
    draw(&mut session, Kind::Area, &[(-150.0, 150.0), (-50.0, 150.0), (-50.0, 230.0), (-150.0, 230.0)]);
    draw(&mut session, Kind::AreaHole(0), &[(-120.0, 170.0), (-80.0, 170.0), (-80.0, 200.0)]);
    assert!(session.is_current(), "{:?}", session.draft.faults());
    let boundary = &session.flown.as_ref().unwrap().scenario.field.boundary;
    assert!((boundary.area_m2() - (152_500.0 - 1_250.0)).abs() < 1e-6);
    let part = Part::AreaHole(0, 0);
    for corners in [2, 1] {
        field_board(&mut session, [FieldCommand::Choose(Some(Chosen { part, corner: Some(0) }))]);
        field_board(&mut session, [FieldCommand::DeleteCorner]);
        assert_eq!(part.points(file(&session)).len(), corners);
    }
    field_board(&mut session, [FieldCommand::DeletePart]);
    assert!(part.points(file(&session)).is_empty() && session.field_board.chosen.is_none());
    for _ in 0..3 {
        obey(&mut session, AppCommand::Undo);
    }
    assert_eq!(part.points(file(&session)).len(), 3);
}

#[test]
fn a_picture_is_placed_by_two_known_points_to_one_in_a_hundred() {
    let mut session = empty();
    let image = std::sync::Arc::new(bevy_egui::egui::ColorImage::default());
    let placement = Placement { east: [0.5, 0.0, -250.0], north: [0.0, -0.5, 200.0] };
    let picture = GroundPicture {
        path: "plan.png".into(),
        image,
        size: [1000, 800],
        world: None,
        placement,
        placed: false,
        strength: 0.8,
        said: String::new(),
    };
    field_board(&mut session, [FieldCommand::Picture(PictureCommand::Lay(Box::new(picture)))]);
    assert_eq!(session.field_board.tool, Tool::PlacePicture);
    // Where the peg and a gatepost are seen now, and where they really are: 0.4 m a pixel and a quarter turn.
    let pixels = [DVec2::new(100.0, 700.0), DVec2::new(900.0, 100.0)];
    let truth = [DVec2::new(0.0, 0.0), DVec2::new(240.0, -320.0)];
    for (pixel, at) in pixels.into_iter().zip(truth) {
        let seen = session.field_board.picture.as_ref().unwrap().placement.ground(pixel);
        field_board(&mut session, [FieldCommand::AddCorner(seen), FieldCommand::AddCorner(at)]);
    }
    let placed = session.field_board.picture.as_ref().unwrap();
    assert!(placed.placed && (placed.placement.metres_a_pixel() / 0.4 - 1.0).abs() < 0.01);
    assert!((placed.turn_deg() - 90.0).abs() < 0.1, "{}", placed.turn_deg());
    for (pixel, at) in pixels.into_iter().zip(truth) {
        assert!(placed.placement.ground(pixel).distance(at) < 0.05);
    }
    assert!(!session.draft.is_changed());
}

#[test]
fn fit_shows_an_empty_field_and_the_field_board_obeys_without_harm() {
    let mut session = empty();
    obey(&mut session, AppCommand::Board(crate::app::session::Board::Field));
    obey(&mut session, AppCommand::Fit);
    let MapView::Whole(bounds) = session.look else { panic!("not whole") };
    assert!(bounds.high.x >= 150.0 && bounds.high.x < 1000.0);
    let nowhere = Chosen { part: Part::AreaHole(7, 7), corner: Some(9) };
    field_board(
        &mut session,
        [
            FieldCommand::Choose(Some(nowhere)),
            FieldCommand::DeleteCorner,
            FieldCommand::DeletePart,
            FieldCommand::MoveCorner { part: nowhere.part, corner: 9, to: DVec2::ZERO },
            FieldCommand::MovePart { part: nowhere.part, to: DVec2::ZERO },
            FieldCommand::AddCorner(DVec2::NAN),
            FieldCommand::Finish,
            FieldCommand::DropCorner,
            FieldCommand::Picture(PictureCommand::Again),
            FieldCommand::AddCorner(DVec2::ONE),
            FieldCommand::Picture(PictureCommand::Remove),
        ],
    );
    assert!(!session.draft.is_changed());
    assert!(session.draft.faults().iter().any(|fault| fault.severity == Severity::Error));
}
