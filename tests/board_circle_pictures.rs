//! Is the board of the circle drawn as it should be? Every picture is left in a folder for people to look at.

use peewit::app::beside::answer_now;
use peewit::app::{CircleView, Grade, Session, Theme};
use peewit::run::Scenario;

use crate::pictures::{check_not_blank, draw};

/// A session on a shipped scenario, with everything worked out as far as a moment allows.
pub(crate) fn session(name: &str) -> Session {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios").join(name);
    let (scenario, warnings) = Scenario::load(&file).unwrap();
    Session::new(scenario, warnings, Some(file))
}

#[test]
fn pictures_of_the_board_of_the_circle() {
    let only = std::env::var("PEEWIT_ONLY").unwrap_or_default();
    for (name, view, grade) in [
        ("goatwillow-strip", CircleView::Margins, Grade::Refined),
        ("goatwillow-strip", CircleView::Doubts, Grade::Refined),
        ("goatwillow-strip", CircleView::Room, Grade::Refined),
        ("goatwillow-strip", CircleView::Wind, Grade::Coarse),
        ("goatwillow-strip", CircleView::Lap, Grade::Coarse),
        ("quillmead-aerodrome", CircleView::Margins, Grade::Refined),
        ("quillmead-aerodrome", CircleView::Wind, Grade::Coarse),
        ("cotterfold-elbow", CircleView::Room, Grade::Refined),
    ] {
        let mut session = session(&format!("{name}.json"));
        session.circle = view;
        session.warnings_shown = false;
        if grade == Grade::Refined {
            peewit::app::beside::answer_now(&mut session, Grade::Refined);
        } else {
            answer_now(&mut session, grade);
        }
        for (size, theme) in [([1366, 768], Theme::Light), ([1920, 1080], Theme::Dark)] {
            let file = format!("circle-{name}-{}-{}-{theme:?}.png", view.name(), size[0]).to_lowercase();
            if !file.contains(&only) {
                continue;
            }
            let Some(png) = draw(session.clone(), size, theme, &file) else { return };
            check_not_blank(&png, size);
        }
    }
}
