//! Is the Field board drawn as it should be? Pictures are left beside those of the other boards.

use glam::DVec2;
use peewit::app::field_board::{Chosen, Kind, Part, PictureCommand, Tool, open_picture};
use peewit::app::{AppCommand, FieldCommand, Session, Shown, Theme};

use crate::board_field::{demo, empty, photograph};
use crate::field_circuit::new;
use crate::pictures::{check_not_blank, draw};

fn with(mut session: Session, commands: Vec<FieldCommand>) -> Session {
    for command in commands {
        session.apply(AppCommand::Field(command), Shown::default().lens);
    }
    session
}

fn corner(x: f64, y: f64) -> FieldCommand {
    FieldCommand::AddCorner(DVec2::new(x, y))
}

fn moved(part: Part, corner: usize, x: f64, y: f64) -> FieldCommand {
    FieldCommand::MoveCorner { part, corner, to: DVec2::new(x, y) }
}

fn faulty() -> Session {
    let area = Part::Area(0);
    with(
        demo(),
        vec![
            moved(area, 1, 60.0, 200.0),
            moved(area, 2, 60.0, 95.0),
            moved(Part::Home, 0, 320.0, 40.0),
            FieldCommand::Choose(Some(Chosen { part: Part::Home, corner: Some(0) })),
        ],
    )
}

fn traced() -> Session {
    let (_folder, path) = photograph();
    let picture = open_picture(&path).unwrap();
    let [a, b] = [DVec2::new(200.0, 700.0), DVec2::new(1000.0, 150.0)];
    let [seen_a, seen_b] = [a, b].map(|pixel| picture.placement.ground(pixel));
    with(
        demo(),
        vec![
            FieldCommand::Picture(PictureCommand::Lay(Box::new(picture))),
            FieldCommand::AddCorner(seen_a),
            corner(-210.0, -150.0),
            FieldCommand::AddCorner(seen_b),
            corner(190.0, 150.0),
        ],
    )
}

#[test]
fn the_survey_is_drawn() {
    let drawing = || {
        let begun = vec![
            FieldCommand::Tool(Tool::Draw(Kind::Boundary)),
            corner(-150.0, -120.0),
            corner(140.0, -120.0),
            corner(140.0, 20.0),
            corner(30.0, 20.0),
        ];
        with(empty(), begun)
    };
    let moving = || {
        let commands =
            vec![FieldCommand::Tool(Tool::Measure), corner(-85.0, 4.0), corner(85.0, 4.0), corner(200.0, 120.0)];
        with(demo(), commands)
    };
    let chosen = || {
        let at = Some(Chosen { part: Part::Area(0), corner: Some(1) });
        with(demo(), vec![FieldCommand::Choose(at)])
    };
    let circuit = || {
        let at = Some(Chosen { part: Part::Circuit, corner: None });
        with(new(true), vec![FieldCommand::Choose(at)])
    };
    let begun = || with(empty(), vec![FieldCommand::Checklist(true)]);
    let scenes: [(&str, &dyn Fn() -> Session); 8] = [
        ("checklist", &begun),
        ("circuit", &circuit),
        ("empty", &empty),
        ("measured", &moving),
        ("drawing", &drawing),
        ("chosen", &chosen),
        ("faulty", &faulty),
        ("traced", &traced),
    ];
    for (name, scene) in scenes {
        for (size_name, size) in [("small", [1366, 768]), ("large", [1920, 1080])] {
            for theme in [Theme::Light, Theme::Dark] {
                // Small and light, large and dark: each is seen once either way.
                if (size_name == "small") == (theme == Theme::Dark) && name != "chosen" {
                    continue;
                }
                let file = format!("field-{name}-{size_name}-{theme:?}.png").to_lowercase();
                let Some(png) = draw(scene(), size, theme, &file) else { return };
                check_not_blank(&png, size);
            }
        }
    }
}
