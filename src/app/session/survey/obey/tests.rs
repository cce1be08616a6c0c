//! Does the survey obey, one undo step an edit?

use super::*;
use crate::app::look::lens::{Lens, Look};
use crate::app::session::survey::GroundPicture;
use crate::app::session::{AppCommand, Draft};
use crate::error::Severity;
use crate::field::RuleName;
use crate::geometry::Placement;
use crate::run::{Scenario, template};

/// A scenario whose field has no outline yet.
fn empty() -> Session {
    let datum = Scenario::tight_strip().file.field.unwrap().datum;
    let mut file = template("Our strip", "2026-05-01", datum);
    let field = file.field.as_mut().unwrap();
    field.outline.ring_m.clear();
    (field.runway, field.flight_line_m, field.hub_m, field.facing) = (None, None, None, None);
    field.circuit = None;
    field.stand_m = [0.0, -15.0];
    let faults = Scenario::from_file(file.clone()).unwrap_err();
    let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
    session.load(Draft::new(file, faults), None);
    session
}

fn obey(session: &mut Session, command: AppCommand) {
    session.apply(command, Lens::default());
}

fn survey(session: &mut Session, commands: impl IntoIterator<Item = SurveyCommand>) {
    for command in commands {
        obey(session, AppCommand::Survey(command));
    }
}

fn draw(session: &mut Session, kind: Kind, corners: &[(f64, f64)]) {
    survey(session, [SurveyCommand::Tool(Tool::Draw(kind))]);
    survey(session, corners.iter().map(|&(x, y)| SurveyCommand::AddCorner(DVec2::new(x, y))));
    survey(session, [SurveyCommand::Finish]);
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
    draw(&mut session, Kind::Outline, &ELL);
    // By hand: 450 x 200 and 250 x 250.
    assert!((area_m2(&session, Part::Outline) - 152_500.0).abs() < 1e-6);
    assert!(session.is_current(), "{:?}", session.draft.faults());
    draw(&mut session, Kind::Patch, &[(-150.0, 150.0), (-50.0, 150.0), (-50.0, 230.0), (-150.0, 230.0)]);
    let drawn = file(&session).clone();
    let patch = &drawn.field.as_ref().unwrap().patches[0];
    assert_eq!((patch.name.as_str(), patch.rule), ("patch 1", RuleName::Never));
    assert_eq!(session.survey.chosen, Some(Chosen { part: Part::Patch(0), corner: None }));
    for x in [-140.0, -130.0, -120.0] {
        let to = DVec2::new(x, 150.0);
        survey(&mut session, [SurveyCommand::MoveCorner { part: Part::Patch(0), corner: 0, to }]);
    }
    survey(&mut session, [SurveyCommand::LetGo]);
    assert!((area_m2(&session, Part::Patch(0)) - 6_800.0).abs() < 1e-6);
    assert_eq!(session.draft.to_undo(), Some("move corner 1 of patch 1"));
    obey(&mut session, AppCommand::Undo);
    assert_eq!(file(&session), &drawn);
    obey(&mut session, AppCommand::Undo);
    assert!(file(&session).field.as_ref().unwrap().patches.is_empty());
    assert_eq!(session.survey.chosen, None);
    assert_eq!(Part::Outline.points(file(&session)).len(), 6);
}

#[test]
fn a_corner_put_in_and_moved_is_one_step() {
    let mut session = empty();
    draw(&mut session, Kind::Outline, &ELL);
    let before = file(&session).clone();
    let part = Part::Outline;
    survey(
        &mut session,
        [
            SurveyCommand::InsertCorner { part, after: 0, at: DVec2::new(0.0, -200.0) },
            SurveyCommand::MoveCorner { part, corner: 1, to: DVec2::new(0.0, -220.0) },
            SurveyCommand::MoveCorner { part, corner: 1, to: DVec2::new(0.0, -250.0) },
            SurveyCommand::LetGo,
        ],
    );
    assert_eq!(Part::Outline.points(file(&session))[1], DVec2::new(0.0, -250.0));
    assert_eq!(session.draft.to_undo(), Some("add corner 2 of the outline"));
    obey(&mut session, AppCommand::Undo);
    assert_eq!(file(&session), &before);
}

#[test]
fn undo_while_drawing_takes_the_last_corner_back_and_escape_gives_up() {
    let mut session = empty();
    survey(&mut session, [SurveyCommand::Tool(Tool::Draw(Kind::Outline))]);
    survey(&mut session, ELL.iter().map(|&(x, y)| SurveyCommand::AddCorner(DVec2::new(x, y))));
    survey(&mut session, [SurveyCommand::AddCorner(DVec2::new(-200.0, 250.0))]);
    assert_eq!(session.survey.drawing.len(), 6, "the same corner twice is one");
    obey(&mut session, AppCommand::Undo);
    survey(&mut session, [SurveyCommand::DropCorner]);
    assert_eq!(session.survey.drawing.len(), 4);
    survey(&mut session, [SurveyCommand::Cancel]);
    assert!(session.survey.drawing.is_empty() && session.survey.tool == Tool::Draw(Kind::Outline));
    survey(&mut session, [SurveyCommand::Cancel]);
    assert_eq!(session.survey.tool, Tool::Choose);
    assert!(!session.draft.is_changed());
}

#[test]
fn too_few_corners_make_nothing_and_lines_end_by_themselves() {
    let mut session = empty();
    draw(&mut session, Kind::Outline, &ELL[..2]);
    assert!(!session.draft.is_changed());
    draw(&mut session, Kind::Runway, &[(-60.0, 5.0), (60.0, 5.0)]);
    assert_eq!(session.survey.tool, Tool::Choose);
    assert_eq!(Part::Runway.points(file(&session)).len(), 2);
    draw(&mut session, Kind::Tree, &[(90.0, 90.0), (95.0, 120.0)]);
    assert_eq!(session.survey.tool, Tool::Draw(Kind::Tree));
    let names: Vec<_> = file(&session).field.as_ref().unwrap().obstacles.iter().map(|tall| &tall.name).collect();
    assert_eq!(names, ["tree 1", "tree 2"]);
}

#[test]
fn holes_are_cut_into_outline_and_patch_and_deleted_again() {
    let mut session = empty();
    draw(&mut session, Kind::Outline, &ELL);
    draw(&mut session, Kind::OutlineHole, &[(100.0, -150.0), (150.0, -150.0), (150.0, -100.0)]);
    draw(&mut session, Kind::Patch, &[(-150.0, 150.0), (-50.0, 150.0), (-50.0, 230.0), (-150.0, 230.0)]);
    draw(&mut session, Kind::PatchHole(0), &[(-120.0, 170.0), (-80.0, 170.0), (-80.0, 200.0)]);
    assert!(session.is_current(), "{:?}", session.draft.faults());
    let outline = &session.flown.as_ref().unwrap().scenario.field.outline;
    assert!((outline.area_m2() - (152_500.0 - 1_250.0)).abs() < 1e-6);
    let part = Part::PatchHole(0, 0);
    for corners in [2, 1] {
        survey(&mut session, [SurveyCommand::Choose(Some(Chosen { part, corner: Some(0) }))]);
        survey(&mut session, [SurveyCommand::DeleteCorner]);
        assert_eq!(part.points(file(&session)).len(), corners);
    }
    survey(&mut session, [SurveyCommand::DeletePart]);
    assert!(part.points(file(&session)).is_empty() && session.survey.chosen.is_none());
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
    survey(&mut session, [SurveyCommand::Picture(PictureCommand::Lay(Box::new(picture)))]);
    assert_eq!(session.survey.tool, Tool::PlacePicture);
    // Where the peg and a gatepost are seen now, and where they really are: 0.4 m a pixel and a quarter turn.
    let pixels = [DVec2::new(100.0, 700.0), DVec2::new(900.0, 100.0)];
    let truth = [DVec2::new(0.0, 0.0), DVec2::new(240.0, -320.0)];
    for (pixel, at) in pixels.into_iter().zip(truth) {
        let seen = session.survey.picture.as_ref().unwrap().placement.ground(pixel);
        survey(&mut session, [SurveyCommand::AddCorner(seen), SurveyCommand::AddCorner(at)]);
    }
    let placed = session.survey.picture.as_ref().unwrap();
    assert!(placed.placed && (placed.placement.metres_a_pixel() / 0.4 - 1.0).abs() < 0.01);
    assert!((placed.turn_deg() - 90.0).abs() < 0.1, "{}", placed.turn_deg());
    for (pixel, at) in pixels.into_iter().zip(truth) {
        assert!(placed.placement.ground(pixel).distance(at) < 0.05);
    }
    assert!(!session.draft.is_changed());
}

#[test]
fn fit_shows_an_empty_field_and_the_survey_obeys_without_harm() {
    let mut session = empty();
    obey(&mut session, AppCommand::Board(crate::app::session::Board::Survey));
    obey(&mut session, AppCommand::Fit);
    let Look::Whole(bounds) = session.look else { panic!("not whole") };
    assert!(bounds.high.x >= 150.0 && bounds.high.x < 1000.0);
    let nowhere = Chosen { part: Part::PatchHole(7, 7), corner: Some(9) };
    survey(
        &mut session,
        [
            SurveyCommand::Choose(Some(nowhere)),
            SurveyCommand::DeleteCorner,
            SurveyCommand::DeletePart,
            SurveyCommand::MoveCorner { part: nowhere.part, corner: 9, to: DVec2::ZERO },
            SurveyCommand::MovePart { part: nowhere.part, to: DVec2::ZERO },
            SurveyCommand::AddCorner(DVec2::NAN),
            SurveyCommand::Finish,
            SurveyCommand::DropCorner,
            SurveyCommand::Picture(PictureCommand::Again),
            SurveyCommand::AddCorner(DVec2::ONE),
            SurveyCommand::Picture(PictureCommand::PutAway),
        ],
    );
    assert!(!session.draft.is_changed());
    assert!(session.draft.faults().iter().any(|fault| fault.severity == Severity::Error));
}
