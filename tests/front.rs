//! Does what stands in front of the boards say what it should, ask for what was pressed, and leave nothing cut?

use bevy_egui::egui::Key;
use bevy_egui::egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use peewit::app::session::{Intake, TakeCommand};
use peewit::app::tour::{STEPS, Tour, TourCommand};
use peewit::app::{
    AppCommand, Ask, Brought, FileCommand, FrontCommand, Knob, Page, Purpose, Reply, SCALES, Session, Theme,
};
use peewit::error::Fault;
use peewit::field::import;
use peewit::words::help::Topic;

use crate::panels::{Stage, press, stage, texts};
use crate::pictures::{check_not_blank, draw};

/// The smallest window, and that of a small laptop.
const SIZES: [[f32; 2]; 2] = [[1180.0, 660.0], [1366.0, 768.0]];

fn demo() -> Session {
    Session::new(crate::support::tight_strip(), Vec::new(), Some("goatwillow-strip.json".into()))
}

fn shown(change: impl FnOnce(&mut Session)) -> Harness<'static, Stage> {
    let mut session = demo();
    change(&mut session);
    stage(session, [1366.0, 768.0])
}

/// Nobody has been here, and no file was asked for.
fn first_start(session: &mut Session) {
    (session.settings.tour_seen, session.path) = (false, None);
}

/// A press, and frames until what opens has found its place.
fn click(harness: &mut Harness<'_, Stage>, label: &str) {
    harness.get_by_role_and_label(Role::Button, label).click();
    harness.run_steps(6);
}

fn all_text(harness: &Harness<'_, Stage>) -> String {
    texts(harness).into_iter().map(|(text, ..)| text + "\n").collect()
}

fn asked(harness: &Harness<'_, Stage>) -> Vec<AppCommand> {
    harness.state().asked.clone()
}

/// What a file of somebody else's may hold.
fn intake() -> Intake {
    let text = r#"{"type":"FeatureCollection","features":[
        {"type":"Feature","properties":{"name":"the whole of the lower meadow with its corners"},"geometry":
            {"type":"Polygon","coordinates":[[[-30,44],[-29.995,44],[-29.995,44.003],[-30,44.003],[-30,44]]]}},
        {"type":"Feature","properties":{"name":"walk"},"geometry":
            {"type":"LineString","coordinates":[[-30,44],[-29.999,44],[-29.998,44.001]]}},
        {"type":"Feature","properties":{"name":"oak"},"geometry":{"type":"Point","coordinates":[-29.998,44.001]}},
        {"type":"Feature","properties":{"name":"lost"},"geometry":null}]}"#;
    Intake::read("meadow.geojson", text.as_bytes(), None)
}

/// Everything that can stand in front, to be looked at by the tests of room and size.
pub(crate) fn fronts() -> Vec<(&'static str, fn(&mut Session))> {
    fn ask(session: &mut Session, ask: Ask) {
        session.front.ask = Some(ask);
    }
    fn tour(session: &mut Session, step: usize) {
        session.front.tour = Some(Tour::default());
        for _ in 0..step {
            let next = AppCommand::Front(FrontCommand::Tour(TourCommand::Next));
            session.apply(next, peewit::app::Shown::default().lens);
        }
    }
    vec![
        ("settings", |session| session.front.settings = true),
        ("topics", |session| session.front.page = Some(Page::Topics)),
        ("keys", |session| session.front.page = Some(Page::Keys)),
        ("words", |session| session.front.page = Some(Page::Words)),
        ("cautions", |session| session.front.page = Some(Page::Cautions)),
        ("help", |session| session.help = Some(Topic::UCurve)),
        ("unsaved", |session| ask(session, Ask::Unsaved { then: Box::new(FileCommand::Quit) })),
        ("system", |session| ask(session, Ask::System(Purpose::Open))),
        ("path", |session| {
            let why = "This desktop offers no dialog for files.".into();
            ask(
                session,
                Ask::Path { purpose: Purpose::SaveAs, why, start: "/home/pilot/goatwillow-strip.json".into() },
            );
        }),
        ("replace", |session| {
            ask(
                session,
                Ask::Replace { purpose: Purpose::SaveAs, path: "/home/pilot/fields/goatwillow-strip.json".into() },
            );
        }),
        ("import", |session| ask(session, Ask::Import(Box::new(intake())))),
        ("brought", |session| {
            let name = "goatwillow-strip.json".into();
            session.front.brought = Some(Brought { name, when: "14:02".into(), shown: true });
        }),
        ("doors", first_start),
        ("tour 1", |session| tour(session, 0)),
        ("tour 2", |session| tour(session, 1)),
        ("tour 3", |session| tour(session, 2)),
        ("tour 4", |session| tour(session, 3)),
        ("tour 5", |session| tour(session, 4)),
        ("tour 6", |session| tour(session, 5)),
        ("tour 7", |session| tour(session, 6)),
        ("tour 8", |session| tour(session, 7)),
        ("tour 9", |session| tour(session, 8)),
    ]
}

#[test]
fn nothing_in_front_is_cut_or_too_small() {
    for size in SIZES {
        for (name, change) in fronts() {
            let mut session = demo();
            change(&mut session);
            // The boards have tests of their own.
            let mut alone = session.clone();
            (alone.front, alone.help, alone.settings.tour_seen) = (peewit::app::Front::default(), None, true);
            let behind: Vec<_> = texts(&stage(alone, size)).into_iter().map(|(text, rect, ..)| (text, rect)).collect();
            let harness = stage(session, size);
            for (text, rect, room, letters) in texts(&harness) {
                if behind.contains(&(text.clone(), rect)) {
                    continue;
                }
                assert!(letters >= 14.0, "{name}: \"{text}\" is {letters} points high");
                // What a list scrolls out of sight is seen by scrolling.
                let scrolled = rect.bottom() > room.bottom() || rect.top() < room.top();
                let inside = room.expand(1.0).x_range().contains(rect.left()) && room.right() + 1.0 >= rect.right();
                assert!(inside || scrolled, "{name} at {size:?}: \"{text}\" is cut: {rect:?} in {room:?}");
                let screen = bevy_egui::egui::Rect::from_min_size(bevy_egui::egui::Pos2::ZERO, size.into());
                let seen = room.intersect(rect);
                assert!(
                    !seen.is_positive() || screen.contains_rect(seen),
                    "{name} at {size:?}: \"{text}\" leaves the screen"
                );
            }
        }
    }
}

#[test]
fn what_stands_in_front_is_drawn() {
    let size = [1366, 768];
    let all = std::env::var_os("PEEWIT_PICTURES").is_some();
    for (name, change) in fronts() {
        for theme in [Theme::Light, Theme::Dark] {
            // The rest is for people to look at, and takes a while.
            if !all && (theme == Theme::Light || !["settings", "tour 3"].contains(&name)) {
                continue;
            }
            let mut session = demo();
            change(&mut session);
            let file = format!("front-{}-{theme:?}.png", name.replace(' ', "-")).to_lowercase();
            let Some(png) = draw(session, size, theme, &file) else { return };
            check_not_blank(&png, size);
        }
    }
}

#[test]
fn the_heading_keeps_its_parts_apart_whatever_the_name() {
    for size in SIZES {
        for name in ["Oak", "The long meadow behind the old mill, spring plan with the centre moved south"] {
            let mut session = demo();
            let mut file = session.draft.file().clone();
            file.name = name.into();
            file.recovery.radius = peewit::units::Length::new(60.0);
            let edit = AppCommand::Edit(Box::new(peewit::app::Change { what: "rename it".into(), file }));
            session.apply(edit, peewit::app::Shown::default().lens);
            let harness = stage(session, size);
            let heading: Vec<_> = texts(&harness).into_iter().filter(|(_, rect, ..)| rect.bottom() < 40.0).collect();
            assert!(heading.iter().any(|(text, ..)| text == "not saved"), "{heading:?}");
            for (index, (text, rect, ..)) in heading.iter().enumerate() {
                for (other, and, ..) in &heading[index + 1..] {
                    assert!(!rect.shrink(1.0).intersects(and.shrink(1.0)), "{size:?}: \"{text}\" lies on \"{other}\"");
                }
            }
        }
    }
}

#[test]
fn the_file_menu_asks_for_files() {
    for (label, command) in [
        ("New", FileCommand::New),
        ("Open\u{2026}", FileCommand::Open),
        ("Save as\u{2026}", FileCommand::SaveAs),
        ("Import\u{2026}", FileCommand::Import),
        ("mine.json", FileCommand::OpenThis("/fields/mine.json".into())),
    ] {
        let mut harness = shown(|session| session.settings.remember("/fields/mine.json".into()));
        click(&mut harness, "File");
        harness.get_by_role_and_label(Role::Button, label).click();
        harness.run_steps(2);
        assert!(asked(&harness).contains(&AppCommand::File(command)), "{label}");
    }
}

#[test]
fn every_field_that_comes_with_the_program_is_in_the_menu() {
    for sample in peewit::run::samples() {
        let mut harness = shown(|_| ());
        click(&mut harness, "File");
        harness.get_by_label_contains("Sample fields").click();
        harness.run_steps(6);
        harness.get_by_role_and_label(Role::Button, sample.name).click();
        harness.run_steps(2);
        assert!(asked(&harness).contains(&AppCommand::File(FileCommand::Sample(sample))), "{}", sample.name);
    }
}

#[test]
fn undo_and_redo_say_what_they_would_do() {
    let mut harness = shown(|session| {
        session.apply(AppCommand::Turn(Knob::Radius, 60.0), peewit::app::Shown::default().lens);
        session.draft.settle();
    });
    assert!(all_text(&harness).contains("not saved"));
    harness.get_by_role_and_label(Role::Button, "Undo").hover();
    harness.run_steps(4);
    assert!(all_text(&harness).contains("Undo: turn the circle radius"), "{}", all_text(&harness));
    click(&mut harness, "Undo");
    assert!(!harness.state().session.draft.is_changed() && !all_text(&harness).contains("not saved"));
    click(&mut harness, "Redo");
    assert!(harness.state().session.draft.is_changed());
}

#[test]
fn every_answer_to_a_question_is_a_button_and_escape_goes_back() {
    for (label, reply) in [("Save", Reply::Save), ("Don't save", Reply::DoNotSave), ("Go back", Reply::GoBack)] {
        let mut harness = shown(|session| {
            session.front.ask = Some(Ask::Unsaved { then: Box::new(FileCommand::Quit) });
        });
        click(&mut harness, label);
        assert!(asked(&harness).contains(&AppCommand::File(FileCommand::Reply(reply))), "{label}");
    }
    // The first has the keyboard.
    let mut harness = shown(|session| session.front.ask = Some(Ask::Unsaved { then: Box::new(FileCommand::Quit) }));
    press(&mut harness, Key::Enter);
    assert!(asked(&harness).contains(&AppCommand::File(FileCommand::Reply(Reply::Save))));
    let mut harness =
        shown(|session| session.front.ask = Some(Ask::Replace { purpose: Purpose::SaveAs, path: "a.json".into() }));
    press(&mut harness, Key::T);
    assert_eq!(harness.state().session.settings.theme, Theme::Light);
    press(&mut harness, Key::Escape);
    assert!(asked(&harness).contains(&AppCommand::File(FileCommand::Reply(Reply::GoBack))));
}

#[test]
fn a_path_can_be_typed() {
    let mut harness = shown(|session| {
        let why = "This desktop offers no dialog for files.".into();
        session.front.ask = Some(Ask::Path { purpose: Purpose::Open, why, start: String::new() });
    });
    assert!(all_text(&harness).contains("no dialog"));
    harness.get_by_role_and_label(Role::TextInput, "path").type_text("/fields/mine.json");
    harness.run_steps(2);
    press(&mut harness, Key::Enter);
    let typed = AppCommand::File(FileCommand::Typed("/fields/mine.json".into()));
    assert!(asked(&harness).contains(&typed), "{:?}", asked(&harness));
}

#[test]
fn units_and_size_are_chosen_by_buttons_and_keys() {
    let mut harness = shown(|_| ());
    click(&mut harness, "Settings");
    click(&mut harness, "115 %");
    click(&mut harness, "dark, for the evening");
    let settings = &harness.state().session.settings;
    assert_eq!((settings.scale, settings.theme), (1.15, Theme::Dark));
    // The first "mph" stands in the row of the jet's speeds.
    harness.get_all_by_role_and_label(Role::Button, "mph").next().unwrap().click();
    harness.run_steps(2);
    assert_eq!(harness.state().session.settings.units.speed.first, "mph");
    press(&mut harness, Key::Escape);
    assert!(!harness.state().session.front.settings);
    harness.key_press_modifiers(bevy_egui::egui::Modifiers::COMMAND, Key::Minus);
    harness.run_steps(2);
    assert_eq!(harness.state().session.settings.scale, 1.0);
    // There is no room for more than 115 % in this window.
    for _ in SCALES {
        harness.key_press_modifiers(bevy_egui::egui::Modifiers::COMMAND, Key::Plus);
        harness.run_steps(2);
    }
    assert_eq!(harness.state().session.settings.scale, 1.15);
    harness.key_press_modifiers(bevy_egui::egui::Modifiers::COMMAND, Key::Num0);
    harness.run_steps(2);
    assert_eq!(harness.state().session.settings.scale, 1.0);
}

#[test]
fn help_explains_and_leads_on() {
    let mut harness = shown(|_| ());
    press(&mut harness, Key::F1);
    assert_eq!(harness.state().session.front.page, Some(Page::Keys));
    press(&mut harness, Key::F1);
    assert_eq!(harness.state().session.front.page, None);
    click(&mut harness, "Help");
    let help = Topic::UCurve.help();
    click(&mut harness, help.title);
    assert_eq!(harness.state().session.help, Some(Topic::UCurve));
    let text = all_text(&harness);
    for part in [help.what, help.how, help.not_modelled] {
        assert!(text.contains(part), "\"{part}\" is not on the screen");
    }
    for (label, page) in [("Words", Page::Words), ("Keys", Page::Keys), ("Cautions", Page::Cautions)] {
        click(&mut harness, label);
        assert_eq!(harness.state().session.front.page, Some(page));
    }
    click(&mut harness, "What the model leaves out");
    assert_eq!(harness.state().session.help, Some(Topic::Model));
    press(&mut harness, Key::Escape);
    assert_eq!(harness.state().session.help, None);
}

#[test]
fn shapes_get_their_roles_from_a_person() {
    let mut harness = shown(|session| session.front.ask = Some(Ask::Import(Box::new(intake()))));
    let text = all_text(&harness);
    for word in ["meadow.geojson", "oak", "ring, ", "warning", "Put in 1 shape"] {
        assert!(text.contains(word), "\"{word}\" is not on the screen: {text}");
    }
    let oak = AppCommand::Front(FrontCommand::Take(TakeCommand::Role(2, Some(import::Role::Obstacle))));
    let lens = harness.state().lens;
    harness.state_mut().session.apply(oak, lens);
    harness.run_steps(2);
    click(&mut harness, "Put in 2 shapes");
    assert!(asked(&harness).contains(&AppCommand::File(FileCommand::PutIn { whole: false })));
}

#[test]
fn each_door_leads_where_it_says_and_is_gone_then() {
    for (door, command) in [
        ("Look round the demo", Some(FileCommand::Tour)),
        ("Draw my field", Some(FileCommand::New)),
        ("Open a file", Some(FileCommand::Open)),
        ("", None),
    ] {
        let mut harness = shown(first_start);
        // Nothing behind the doors has the keyboard.
        press(&mut harness, Key::F2);
        assert!(asked(&harness).is_empty(), "{:?}", asked(&harness));
        match &command {
            Some(_) => click(&mut harness, door),
            None => press(&mut harness, Key::Escape),
        }
        let files = asked(&harness).into_iter().filter_map(|asked| match asked {
            AppCommand::File(command) => Some(command),
            _ => None,
        });
        assert_eq!(files.collect::<Vec<_>>(), Vec::from_iter(command));
        assert!(harness.state().session.settings.tour_seen && !all_text(&harness).contains("Draw my field"));
    }
}

#[test]
fn the_tour_is_walked_with_keys() {
    let mut harness = shown(|session| session.front.tour = Some(Tour::default()));
    for step in &STEPS {
        assert!(all_text(&harness).contains(step.title), "{}", step.title);
        press(&mut harness, Key::PageDown);
    }
    press(&mut harness, Key::PageUp);
    assert!(all_text(&harness).contains(STEPS[STEPS.len() - 2].title));
    press(&mut harness, Key::PageDown);
    click(&mut harness, "Done");
    assert!(asked(&harness).contains(&AppCommand::File(FileCommand::EndTour)));
}

#[test]
fn a_file_that_cannot_be_understood_can_be_left() {
    let faults = vec![Fault::error("/wind", "no wind", "write one")];
    for (label, command) in
        [("Open another", FileCommand::Open), ("Demo", FileCommand::Demo), ("New", FileCommand::New)]
    {
        let mut harness = stage(Session::faulty(faults.clone(), Some("a.json".into())), SIZES[0]);
        click(&mut harness, label);
        assert!(asked(&harness).contains(&AppCommand::File(command)), "{label}");
    }
}

#[test]
fn what_was_brought_back_can_be_kept_or_let_go() {
    let brought = |shown_| Brought { name: "ours.json".into(), when: "14:02".into(), shown: shown_ };
    for (shown_, label, command) in [
        (true, "Keep", FileCommand::KeepRecovered),
        (true, "Drop", FileCommand::DropRecovered),
        (false, "Bring them back", FileCommand::BringBack),
    ] {
        let mut harness = shown(|session| session.front.brought = Some(brought(shown_)));
        assert!(all_text(&harness).contains("ours.json from 14:02"));
        click(&mut harness, label);
        assert!(asked(&harness).contains(&AppCommand::File(command)), "{label}");
    }
}
