//! What the cards of the tour say, and what their buttons show. All of its wording is here.

use crate::app::session::{AppCommand, Board, Change, CircleView, Knob, Session};
use crate::run::{ScenarioFile, WindChoice};
use crate::units::{Length, Quantity as _};

/// A card.
#[derive(Debug)]
pub struct TourCard {
    /// What it is about.
    pub title: &'static str,
    /// The board it speaks of.
    pub board: Option<Board>,
    /// The view of the circle's answers that it speaks of.
    pub view: Option<CircleView>,
    /// What is to be understood, in paragraphs.
    pub words: &'static [&'static str],
    /// Where to look.
    pub look: &'static str,
    /// What to try; empty for nothing.
    pub try_it: &'static str,
    /// What it can show.
    pub shows: &'static [Show],
}

/// A button of a card.
#[derive(Debug)]
pub struct Show {
    /// What is on it.
    pub label: &'static str,
    /// What it asks for.
    pub does: fn(&Session) -> Vec<AppCommand>,
}

/// The cards in their order.
pub static STEPS: [TourCard; 9] = [
    TourCard {
        title: "Why a circle",
        board: Some(Board::Circle),
        view: None,
        words: &[
            "You fly from the cockpit video. The video or the control link goes. The jet turns for home by itself \
             and circles there until you have the goggles off, have found it by eye with your spotter's help, and land it.",
            "Whether that circle stays over your own land is decided now, on the ground, not then.",
        ],
        look: "The coloured path: where the jet really goes after a loss, from the loss to the take-over.",
        try_it: "Play the recovery and watch the jet come home.",
        shows: &[Show { label: "Play it", does: |_| vec![AppCommand::Scrub(0.0), AppCommand::PlayOrPause] }],
    },
    TourCard {
        title: "The jet and the field",
        board: Some(Board::Field),
        view: None,
        words: &[
            "The boundary is the land you may fly over. An area is ground with a rule, here goats in spring and the pits. \
             The oak and the hedge have heights.",
            "Four points are not the same point: the datum that everything is measured from, the pilot position where you and your \
             spotter are, home as the jet captured it, and the centre of the circle.",
        ],
        look: "Boundary, hatched areas and the four marks on the map.",
        try_it: "Read the jet sheet: each number says whether somebody measured it.",
        shows: &[],
    },
    TourCard {
        title: "A smaller circle can need a bigger field",
        board: Some(Board::Circle),
        view: Some(CircleView::Radii),
        words: &[
            "In wind the jet runs with it on one half of each lap. There the maximum bank can't hold a small circle, and the \
             jet is blown wide of it. Command 60 m and it swings further out than with 120 m.",
            "Furthest distance from the centre against commanded radius is a U. Its bottom is where the bank just holds.",
        ],
        look: "The path against the dashed ring that was commanded, and the U on the right.",
        try_it: "Press the first button, then the second, and compare.",
        shows: &[
            Show { label: "60 m in the gusts", does: |_| circle(60.0, WindChoice::Gust) },
            Show { label: "120 m in the gusts", does: |_| circle(120.0, WindChoice::Gust) },
            Show { label: "Back to the plan", does: |_| circle(115.0, WindChoice::Mean) },
        ],
    },
    TourCard {
        title: "The wind up there",
        board: Some(Board::Circle),
        view: Some(CircleView::Wind),
        words: &[
            "The wind that matters blows at circle height. A hand-held meter feels far less of it: 6 m/s at 2 m can \
             be 10 m/s or more on the circle.",
            "So say where your wind was measured. This demo's was measured at circle height.",
        ],
        look: "The wind at the top right of the map, and the margins as they shrink.",
        try_it: "Pretend that the same 6 m/s was measured at 2 m.",
        shows: &[
            Show { label: "Measured at 2 m", does: |session| measured_at(session, 2.0) },
            Show { label: "Measured at 70 m", does: |session| measured_at(session, 70.0) },
        ],
    },
    TourCard {
        title: "The usable radii",
        board: Some(Board::Circle),
        view: Some(CircleView::Radii),
        words: &[
            "The radii that meet every margin are the usable ones. Each end has a reason: below, the jet is blown wide; \
             above, the circle itself runs out of field.",
            "It counts many draws of what nobody knows exactly, such as gusts, mass and failsafe delay, and says in how many of \
             them the margins were met. It never promises more than that.",
        ],
        look: "The usable radii with the reason written at each end. They are worked out again while you change the plan.",
        try_it: "Turn the wind speed up slowly and watch the usable radii shrink.",
        shows: &[
            Show { label: "Stronger wind", does: |_| vec![AppCommand::Turn(Knob::WindSpeed, 8.0)] },
            Show { label: "Back to 6 m/s", does: |_| vec![AppCommand::Turn(Knob::WindSpeed, 6.0)] },
        ],
    },
    TourCard {
        title: "When no circle fits",
        board: Some(Board::Circle),
        view: Some(CircleView::Radii),
        words: &[
            "Often no radius is usable at all. With the centre on the datum, the goat paddock on one side leaves too little room, \
             whatever the radius.",
            "Then Peewit says so, shows the room budget and lists what would help, such as a centre moved \
             away, a slower return, or less wind. Not flying from the cockpit today is one too.",
        ],
        look: "What the answers say where no radius is usable, and the list of what would help.",
        try_it: "Put the centre on the datum, wait for the answer, then move it back south.",
        shows: &[
            Show { label: "Centre on the datum", does: |session| centre(session, [0.0, 0.0]) },
            Show { label: "Centre 80 m south", does: |session| centre(session, [0.0, -80.0]) },
        ],
    },
    TourCard {
        title: "From where",
        board: Some(Board::Losses),
        view: None,
        words: &[
            "A circle that holds is half the answer. Lose control at the far edge, fast and going away with the wind, and \
             the jet needs room to turn back first.",
            "The map shows from which places, and heading which way, a loss is recovered and from which it is not.",
        ],
        look: "The cells that are marked near the edges, above all downwind.",
        try_it: "Choose a cell: the loss there is flown, and you can replay it.",
        shows: &[Show { label: "Whole field", does: |_| vec![AppCommand::Fit] }],
    },
    TourCard {
        title: "Your own field",
        board: Some(Board::Field),
        view: None,
        words: &[
            "File, New begins an empty field. Draw the boundary on the map, over a picture of the ground if you have one, or \
             import a walk round the edge as GPX, KML or GeoJSON.",
            "Then set the four points, enter the jet sheet and the day's wind. Whatever is still missing is listed with its \
             way out. Your work is kept aside while you draw, even if the power fails.",
        ],
        look: "The File button at the top left, and the tools of this board.",
        try_it: "Leave the tour, then press File and New.",
        shows: &[],
    },
    TourCard {
        title: "What this is not",
        board: None,
        view: None,
        words: &[
            "A point with mass in a tidy wind is not your jet. Try the recovery in sight, high and in light wind before you \
             rely on any number.",
            "A spotter with unaided eyes stands beside you, always. Law, club, landowner and the people on the flight line \
             come first. Margins met in this model are no permission.",
        ],
        look: "The line at the foot of the window. It never goes away.",
        try_it: "The small round marks beside the numbers explain each of them. F1 helps wherever you are.",
        shows: &[],
    },
];

fn circle(radius_m: f64, wind: WindChoice) -> Vec<AppCommand> {
    vec![AppCommand::Turn(Knob::Radius, radius_m), AppCommand::Wind(wind), AppCommand::Fit]
}

fn measured_at(session: &Session, height_m: f64) -> Vec<AppCommand> {
    edit(session, "say where the wind was measured", |file| file.wind.measured_at = Length::from_si(height_m))
}

fn centre(session: &Session, at_m: [f64; 2]) -> Vec<AppCommand> {
    edit(session, "move the centre", |file| {
        if let Some(field) = &mut file.field {
            field.centre_m = Some(at_m);
        }
    })
}

fn edit(session: &Session, what: &str, how: impl Fn(&mut ScenarioFile)) -> Vec<AppCommand> {
    let mut file = session.draft.file().clone();
    how(&mut file);
    vec![AppCommand::Edit(Box::new(Change { what: what.into(), file }))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::lens::Lens;
    use crate::run::Scenario;

    fn demo() -> Session {
        Session::new(Scenario::tight_strip(), Vec::new(), None)
    }

    fn press(session: &mut Session, show: &Show) {
        for command in (show.does)(session) {
            session.apply(command, Lens::default());
        }
    }

    #[test]
    fn the_step_about_the_u_shows_it() {
        let shows = STEPS[2].shows;
        let furthest = |session: &Session| {
            let flown = session.flown.as_ref().unwrap();
            flown.margins.figures.furthest_m.unwrap()
        };
        let mut session = demo();
        press(&mut session, &shows[0]);
        let small = furthest(&session);
        press(&mut session, &shows[1]);
        assert!(small > furthest(&session) + 20.0, "{small} m");
        press(&mut session, &shows[2]);
        assert!(!session.draft.is_changed());
    }

    #[test]
    fn whatever_a_card_shows_can_be_flown_and_its_last_button_goes_back() {
        for step in &STEPS {
            let mut session = demo();
            for show in step.shows {
                press(&mut session, show);
                assert!(session.is_current(), "{}: {}", step.title, show.label);
            }
            assert!(!session.draft.is_changed(), "{}", step.title);
        }
    }

    #[test]
    fn the_centre_on_the_datum_has_no_usable_radii_and_south_of_it_has_some() {
        use crate::app::beside;
        use crate::app::session::Grade;
        let usable = |session: &mut Session| {
            beside::answer_now(session, Grade::Coarse);
            session.answers.radius.as_ref().unwrap().found.choice.clone()
        };
        let mut session = demo();
        press(&mut session, &STEPS[5].shows[0]);
        let without = usable(&mut session);
        press(&mut session, &STEPS[5].shows[1]);
        assert!(without.is_none() && usable(&mut session).is_some());
    }

    #[test]
    fn the_wind_measured_low_is_stronger_up_there() {
        let mut session = demo();
        let wind = |session: &Session| {
            let flown = session.flown.as_ref().unwrap();
            flown.margins.figures.smallest_radius_m[1]
        };
        let before = wind(&session);
        press(&mut session, &STEPS[3].shows[0]);
        assert!(wind(&session) > before + 10.0);
    }

    #[test]
    fn cards_are_short_enough_to_be_read() {
        for step in &STEPS {
            let words: usize = step.words.iter().map(|text| text.split_whitespace().count()).sum();
            assert!((20..=90).contains(&words), "{}: {words} words", step.title);
        }
    }
}
