//! Is the board of the circle drawn as it should be? Every picture is left in a folder for people to look at.

use peewit::app::{CircleView, Session, Theme};
use peewit::run::Scenario;

use crate::board_circle::{answered, empty, open};
use crate::pictures::{check_not_blank, draw};

fn shipped(name: &str) -> Session {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name);
    let (scenario, warnings) = Scenario::load(&file).unwrap();
    Session::new(scenario, warnings, Some(file))
}

/// Each view of a session: the demo without usable radii, with usable radii, and the field with a corner cut out.
#[test]
fn the_board_of_the_circle_is_drawn() {
    use CircleView::{Doubts, Lap, Margins, Radii, Room, Wind};
    for (name, session, views) in [
        ("empty", empty(), [Radii, Wind].as_slice()),
        ("radii", open(), &[Radii, Margins, Wind, Room, Lap, Doubts]),
        ("elbow", answered(shipped("cotterfold-elbow.json")), &[Room, Lap]),
    ] {
        for &view in views {
            let mut session = session.clone();
            (session.circle, session.warnings_shown) = (view, false);
            for (size, theme) in [([1366, 768], Theme::Light), ([1920, 1080], Theme::Dark)] {
                let file = format!("circle-{name}-{}-{}-{theme:?}.png", view.name(), size[0]).to_lowercase();
                let Some(png) = draw(session.clone(), size, theme, &file) else { return };
                check_not_blank(&png, size);
            }
        }
    }
}
