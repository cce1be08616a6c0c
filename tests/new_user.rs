//! Can somebody who has never used the window draw a field, enter a jet and a wind, read the usable radii, move the
//! centre and save, and is nothing lost when the program ends without a word?
//!
//! Everything is done with the pointer and the keyboard on the panels, and on a disk of its own; only the dialogs of the
//! system are missing, so the path is typed.

use std::path::{Path, PathBuf};

use bevy_egui::egui::accesskit::Role;
use bevy_egui::egui::{Event, Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use glam::DVec2;
use peewit::app::beside::{answer_now, remedy_now};
use peewit::app::files::{ChosenFile, Dialogs, Files};
use peewit::app::{AppCommand, FileCommand, Grade, Purpose, Session, checklist};
use peewit::brief::{DO_NOT_FLY, Plan, Studies};
use peewit::report::prints::Print;
use peewit::run::{Scenario, ScenarioFile};
use peewit::study::radius::{RadiusAsk, study_briefly};
use peewit::study::remedy::{DECIDING, Found};
use peewit::study::work::Work;

use crate::board_field::{ELL, click_at, drag, seen};
use crate::field_sheets::{enter, says};
use crate::panels::{Stage, click, press, stage, texts};

/// A system without dialogs.
#[derive(Default)]
struct Dumb {
    asked: Option<u64>,
}

impl Dialogs for Dumb {
    fn open(&mut self, ticket: u64, _: Purpose, _: Option<&Path>) {
        self.asked = Some(ticket);
    }

    fn launch(&mut self, _: &Path) -> std::io::Result<()> {
        Ok(())
    }

    fn chosen(&mut self) -> Option<(u64, ChosenFile)> {
        Some((self.asked.take()?, ChosenFile::NoService("There is no dialog here.".into())))
    }
}

/// A window with a disk.
struct Window {
    harness: Harness<'static, Stage>,
    files: Files,
    obeyed: usize,
}

impl Window {
    fn open(folder: &Path) -> Self {
        let mut session = Session::new(crate::support::tight_strip(), Vec::new(), None);
        let mut files = Files::new(Dumb::default(), || ());
        files.start(&mut session, Some(folder.to_owned()));
        Self { harness: stage(session, [1366.0, 768.0]), files, obeyed: 0 }
    }

    /// What the panels asked for with files since the last time is done, as in every frame.
    fn obey_files(&mut self) {
        for _ in 0..2 {
            let stage = self.harness.state_mut();
            let asked: Vec<FileCommand> = stage.asked[self.obeyed..]
                .iter()
                .filter_map(|command| match command {
                    AppCommand::File(command) => Some(command.clone()),
                    _ => None,
                })
                .collect();
            self.obeyed = stage.asked.len();
            self.files.step(&mut stage.session, asked);
            self.files.keep(&mut stage.session);
            self.harness.run_steps(2);
        }
    }

    fn session(&self) -> &Session {
        &self.harness.state().session
    }

    /// A sheet is longer than a small screen; it is scrolled to by a screen that is higher.
    fn on_a_high_screen(&mut self, work: impl FnOnce(&mut Harness<'static, Stage>)) {
        self.harness.set_size(vec2(1366.0, 3200.0));
        self.harness.run_steps(3);
        work(&mut self.harness);
        self.harness.set_size(vec2(1366.0, 768.0));
        self.harness.run_steps(3);
    }

    fn draw(&mut self, tool: Key, corners: &[(f64, f64)]) {
        press(&mut self.harness, tool);
        for &corner in corners {
            let at = seen(&self.harness, corner);
            click_at(&mut self.harness, at);
        }
        press(&mut self.harness, Key::Enter);
        self.obey_files();
    }
}

fn words(window: &Window) -> String {
    texts(&window.harness).into_iter().map(|(text, ..)| text + "\n").collect()
}

/// A scenario as it stands in a file, where quantities have the twelve digits that people may see.
fn text(file: &ScenarioFile) -> String {
    Scenario::from_file(file.clone()).unwrap().to_text()
}

#[test]
fn a_new_user_draws_plans_saves_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mine: PathBuf = folder.path().join("mine.json");
    let state = folder.path().join("state");
    let mut window = Window::open(&state);
    click(&mut window.harness, "I have read this");
    // The doors that follow find their size first.
    window.harness.run_steps(3);

    // An empty field, an L with a paddock in it.
    click(&mut window.harness, "Draw my field");
    window.obey_files();
    assert!(window.session().flown.is_none() && window.session().path.is_none());
    window.draw(Key::O, &ELL);
    assert!(window.session().is_current(), "{:?}", window.session().draft.faults());
    window.draw(Key::P, &[(-120.0, 60.0), (-40.0, 60.0), (-40.0, 120.0), (-120.0, 120.0)]);
    assert!(words(&window).contains("area 1, no-fly"));

    // The jet and the wind, in whatever units come to hand.
    click(&mut window.harness, "Jet sheet");
    window.on_a_high_screen(|harness| {
        enter(harness, "return speed", "45 mph");
        enter(harness, "maximum bank", "40");
    });
    click(&mut window.harness, "Wind sheet");
    window.on_a_high_screen(|harness| {
        enter(harness, "mean wind", "8 kt");
        enter(harness, "blows FROM", "SW");
    });
    window.obey_files();
    let file = window.session().draft.file();
    // One mile is 1609.344 m, one knot 1852 m an hour.
    assert!((file.jet.return_speed.value.mps() - 45.0 * 1609.344 / 3600.0).abs() < 1e-9);
    assert!((file.wind.mean.mps() - 8.0 * 1852.0 / 3600.0).abs() < 1e-9);
    assert!((file.wind.from.deg() - 225.0).abs() < 1e-9);

    // Which circle holds: nothing fits a field this small, and the board says so with what would help.
    click(&mut window.harness, "Circle");
    answer_now(&mut window.harness.state_mut().session, Grade::Coarse);
    window.harness.run_steps(3);
    let study = window.session().answers.radius.as_ref().unwrap().found.clone();
    assert!(study.usable.mean.is_empty() && study.choice.is_none());
    window.on_a_high_screen(|harness| says(harness, "No circle fits"));

    // The centre, moved on the map.
    let (from, to) = (seen(&window.harness, (0.0, 0.0)), seen(&window.harness, (-70.0, -70.0)));
    drag(&mut window.harness, from, to);
    window.obey_files();
    let centre = DVec2::from(window.session().draft.field().unwrap().centre_m.unwrap());
    assert!(centre.distance(DVec2::new(-70.0, -70.0)) < 3.0, "{centre}");

    // Saved to a path that is typed, as there are no dialogs.
    window.harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    window.harness.run_steps(2);
    window.obey_files();
    window.harness.get_by_role_and_label(Role::TextInput, "path").focus();
    window.harness.run_steps(2);
    window.harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    window.harness.event(Event::Text(mine.to_str().unwrap().into()));
    window.harness.run_steps(2);
    press(&mut window.harness, Key::Enter);
    window.obey_files();
    assert_eq!(window.session().path.as_deref(), Some(mine.as_path()));
    assert!(!window.session().draft.is_changed());
    let saved = window.session().draft.file().clone();

    // One more change, and the program is killed.
    click(&mut window.harness, "Field");
    let (from, to) = (seen(&window.harness, (150.0, 0.0)), seen(&window.harness, (150.0, 20.0)));
    drag(&mut window.harness, from, to);
    window.obey_files();
    let last = window.session().draft.file().clone();
    assert_ne!(last, saved);
    drop(window);

    // What was saved is in the file, and what was not comes back by itself.
    assert_eq!(text(&Scenario::load(&mine).unwrap().0.file), text(&saved));
    let window = Window::open(&state);
    assert_eq!(text(window.session().draft.file()), text(&last));
    assert_eq!(text(window.session().draft.saved()), text(&saved));
    assert_eq!(window.session().path.as_deref(), Some(mine.as_path()));
    says(&window.harness, "mine.json");
}

/// The card of a plan with so many trials, and what stops it.
fn card(file: &ScenarioFile, today: &str) -> (String, Vec<String>) {
    let scenario = Scenario::from_file(file.clone()).unwrap();
    let ask = RadiusAsk { trials: DECIDING, ..RadiusAsk::own_circle(&scenario) };
    let own = study_briefly(&scenario, &ask, &Work::default());
    let plan = Plan::new(&scenario, today, Studies { own_circle: Some(&own), ..Studies::default() }, &[], &[]);
    let words =
        plan.pages(Print::Card).iter().flat_map(|page| page.lettered()).map(|(words, ..)| words + "\n").collect();
    (words, plan.release().reasons())
}

/// Somebody's hands, which count what they do: presses, corners, and numbers or names typed.
struct Hands {
    window: Window,
    done: u32,
}

impl Hands {
    fn click(&mut self, button: &str) {
        self.window.on_a_high_screen(|harness| click(harness, button));
        self.window.obey_files();
        self.done += 1;
    }

    fn key(&mut self, key: Key) {
        press(&mut self.window.harness, key);
        self.done += 1;
    }

    fn enter(&mut self, name: &str, typed: &str) {
        self.window.on_a_high_screen(|harness| enter(harness, name, typed));
        self.window.obey_files();
        self.done += 1;
    }

    fn draw(&mut self, tool: Key, corners: &[(f64, f64)]) {
        self.window.draw(tool, corners);
        self.done += 2 + u32::try_from(corners.len()).unwrap();
    }
}

#[test]
fn from_an_empty_field_to_a_card_in_ten_minutes() {
    let folder = tempfile::tempdir().unwrap();
    let mut hands = Hands { window: Window::open(folder.path()), done: 0 };
    hands.click("I have read this");
    hands.click("Draw my field");

    // The field: seen from further off, so that all of it fits.
    for _ in 0..4 {
        hands.key(Key::Minus);
    }
    hands.draw(Key::O, &[(-330.0, -80.0), (330.0, -80.0), (330.0, 520.0), (-330.0, 520.0)]);
    assert!(hands.window.session().is_current(), "{:?}", hands.window.session().draft.faults());

    // The jet, by what its owner knows.
    hands.click("Jet sheet");
    hands.enter("mass", "3.2 kg");
    hands.enter("stall speed as flown", "13 m/s");
    hands.enter("top speed as flown", "48 m/s");
    if hands.window.session().draft.file().jet.flight_time.is_none() {
        hands.window.on_a_high_screen(|harness| {
            harness.get_by_role_and_label(Role::CheckBox, "Time of flight was measured").click();
            harness.run_steps(3);
        });
        hands.done += 1;
    }
    hands.enter("flight until a fifth is left", "300 s");

    // The wind as forecast, 10 m above the ground.
    hands.click("Wind sheet");
    for (name, typed) in
        [("mean wind", "3 m/s"), ("wind in the gusts", "4.5 m/s"), ("blows FROM", "W"), ("measured at", "10 m")]
    {
        hands.enter(name, typed);
    }
    let (_, stops) = card(hands.window.session().draft.file(), &hands.window.session().today);
    assert!(stops[0].starts_with("The trials say no"), "{stops:?}");

    // A circle about home lies over the pilot; one press makes all the changes that it takes.
    hands.click("Circle");
    let session = &mut hands.window.harness.state_mut().session;
    answer_now(session, Grade::Coarse);
    remedy_now(session);
    let found = hands.window.session().answers.remedy.as_ref().unwrap().found.clone();
    assert!(matches!(&*found, Found::Changes(remedy) if remedy.changes.len() > 1), "{found:?}");
    hands.click("Change the plan so");

    // Whoever allows it, two names, and whom to call.
    hands.click("Field");
    hands.click("Loss sheet");
    hands.enter("authorised by", "the committee, today");
    hands.click("Brief sheet");
    for (index, name) in ["A. Archer", "B. Baker"].into_iter().enumerate() {
        hands.click("Add a signature");
        hands.enter(&format!("signature {}: name", index + 1), name);
    }
    let (words, stops) = card(hands.window.session().draft.file(), &hands.window.session().today);
    assert!(stops.is_empty() && !words.contains(DO_NOT_FLY), "{stops:?}");
    for said in ["Video lost", "A. Archer, B. Baker", "the committee, today"] {
        assert!(words.contains(said), "{said}: {words}");
    }
    let list = checklist(hands.window.session());
    assert!(list.stop.is_none(), "{:?}", list.stop);
    assert!(hands.done < 40, "{} actions", hands.done);
}
