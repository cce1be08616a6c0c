//! Does the board that tells others lead through all steps by keys, show what moves, and put prints into files only once
//! they rest on everything?

use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;

use bevy_egui::egui::Key;
use bevy_egui::egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use peewit::app::beside::answer_now;
use peewit::app::files::{ChosenFile, Dialogs, Files};
use peewit::app::{
    AppCommand, Ask, Board, BriefCommand, BriefView, FieldSheet, FileCommand, Grade, Knob, Paper, Purpose, Reply,
    Session, Shown,
};
use peewit::brief::{Live, Plan, Studies};
use peewit::report::Format;
use peewit::report::prints::Print;
use peewit::study::keep_inside::{KeepAsk, KeepInside};

use crate::panels::{Stage, check_not_cut, click, press, stage, texts};

/// A day on which the demo's plan holds.
const DAY: &str = "2026-04-18";
const SIZE: [f32; 2] = [1366.0, 768.0];

pub(crate) fn obey(session: &mut Session, commands: impl IntoIterator<Item = AppCommand>) {
    for command in commands {
        session.apply(command, Shown::default().lens);
    }
}

/// The demo on the board, with first answers.
pub(crate) fn first_look() -> Session {
    let mut session = Session::new(crate::support::tight_strip(), Vec::new(), Some("goatwillow-strip.json".into()));
    session.today = DAY.into();
    obey(&mut session, [AppCommand::Board(Board::Brief)]);
    answer_now(&mut session, Grade::Coarse);
    session
}

/// The same with the very same answers passed off as all that was asked for, so that nobody waits.
pub(crate) fn refined() -> Session {
    let mut session = first_look();
    let known = &mut session.answers;
    for answer in [&mut known.own_circle, &mut known.radius] {
        answer.as_mut().unwrap().grade = Grade::Refined;
    }
    known.envelope.as_mut().unwrap().grade = Grade::Refined;
    known.wind_limit.as_mut().unwrap().grade = Grade::Refined;
    let losses = known.losses.as_mut().unwrap();
    let mut found = (*losses.found).clone();
    let (ask, centre) = (KeepAsk::usual(&crate::support::tight_strip()), crate::support::tight_strip().field.centre);
    found.keep_inside = Some(KeepInside { ask, limits: Vec::new(), centre, lines: Vec::new(), partial: false });
    (losses.found, losses.grade) = (std::sync::Arc::new(found), Grade::Refined);
    session
}

fn prints(session: Session) -> Session {
    let mut session = session;
    obey(&mut session, [AppCommand::Brief(BriefCommand::View(BriefView::Prints))]);
    session
}

fn all_text(harness: &Harness<'_, Stage>) -> String {
    texts(harness).into_iter().map(|(text, ..)| text + "\n").collect()
}

/// The lives of the steps, in order.
fn lives() -> Vec<Live> {
    let scenario = crate::support::tight_strip();
    let plan = Plan::new(&scenario, DAY, Studies::default(), &[], &[]);
    plan.steps().into_iter().map(|step| step.live).collect()
}

fn has(harness: &Harness<'_, Stage>, label: &str) -> bool {
    harness.query_by_label(label).is_some()
}

/// What must be on the screen while a step is.
#[track_caller]
fn check_step(harness: &Harness<'_, Stage>, number: usize, live: Live) {
    let brief = harness.state().session.brief;
    assert_eq!((brief.step, brief.live), (number, live));
    let picture = harness.query_by_role(Role::Image).is_some();
    assert_eq!(picture, live == Live::Picture, "step {number}: picture");
    assert_eq!(has(harness, "map of the field"), matches!(live, Live::Field | Live::Flight), "step {number}: map");
    assert_eq!(
        has(harness, "furthest distance from the centre by commanded radius"),
        live == Live::Curve,
        "step {number}: curve"
    );
    assert_eq!(has(harness, "time since the loss"), live == Live::Flight, "step {number}: replay");
    assert_eq!(harness.state().session.playhead.playing, live == Live::Flight, "step {number}: playing");
}

#[test]
fn keys_lead_through_every_step_and_back() {
    let lives = lives();
    assert!(lives.len() >= 8 && [Live::Curve, Live::Field, Live::Flight].iter().all(|live| lives.contains(live)));
    for (forth, back) in [(Key::PageDown, Key::PageUp), (Key::ArrowRight, Key::ArrowLeft)] {
        let mut harness = stage(refined(), SIZE);
        for (number, &live) in lives.iter().enumerate() {
            check_step(&harness, number, live);
            press(&mut harness, forth);
        }
        // There is nothing after the last.
        for (number, &live) in lives.iter().enumerate().rev() {
            check_step(&harness, number, live);
            press(&mut harness, back);
        }
        check_step(&harness, 0, lives[0]);
    }
}

#[test]
fn marks_and_buttons_lead_to_steps() {
    let mut harness = stage(refined(), SIZE);
    click(&mut harness, "Next");
    assert_eq!(harness.state().session.brief.step, 1);
    click(&mut harness, "Back");
    click(&mut harness, "step 4 of 8: Where it is here, today");
    check_step(&harness, 3, Live::Field);
    assert!(all_text(&harness).contains("4. Where it is here, today"));
}

#[test]
fn a_step_that_moves_is_the_plan_as_entered_and_plays_from_the_loss() {
    let mut session = refined();
    obey(&mut session, [AppCommand::Trial(3), AppCommand::Scrub(1e9), AppCommand::Board(Board::Circle)]);
    let number = lives().iter().position(|live| *live == Live::Flight).unwrap();
    obey(&mut session, [AppCommand::Brief(BriefCommand::Step(number, Live::Flight))]);
    assert!(!session.playhead.playing);
    obey(&mut session, [AppCommand::Board(Board::Brief)]);
    assert!(session.playhead.playing && session.playhead.at_s == 0.0 && session.trial == 0);
    obey(&mut session, [AppCommand::Board(Board::Losses)]);
    assert!(!session.playhead.playing);
}

#[test]
fn the_radius_is_dragged_on_the_curve_and_the_words_follow() {
    let mut session = refined();
    let number = lives().iter().position(|live| *live == Live::Curve).unwrap();
    obey(&mut session, [AppCommand::Brief(BriefCommand::Step(number, Live::Curve))]);
    let mut harness = stage(session, SIZE);
    let before = harness.state().session.draft.file().recovery.radius;
    let curve = harness.get_by_label("furthest distance from the centre by commanded radius").rect();
    assert!(curve.width() > 500.0 && curve.height() > 300.0, "the curve is {curve:?}");
    let at = curve.center() + bevy_egui::egui::vec2(120.0, 0.0);
    harness.hover_at(at);
    harness.drag_at(at);
    harness.drop_at(at);
    harness.run_steps(3);
    assert_ne!(harness.state().session.draft.file().recovery.radius, before);
}

#[test]
fn words_are_large_and_nothing_is_cut() {
    for size in [[1180.0, 660.0], SIZE, [1920.0, 1080.0]] {
        let mut harness = stage(refined(), size);
        for number in 0..lives().len() {
            let words = Plan::new(&crate::support::tight_strip(), DAY, Studies::default(), &[], &[]).steps()[number]
                .words
                .clone();
            let shown = texts(&harness);
            for (text, rect, room, letters) in &shown {
                assert!(*letters >= 14.0, "\"{text}\" is {letters} points high");
                check_not_cut(text, *rect, room.expand(1.0));
            }
            let large = shown
                .iter()
                .filter(|(text, _, _, letters)| words.contains(&text.replace("\u{a0}", " ")) && *letters >= 18.0)
                .count();
            assert!(large > 0, "step {number} has no words that can be read across a table at {size:?}");
            press(&mut harness, Key::PageDown);
            // A plot finds room for its digits in the pass after.
            harness.run_steps(2);
        }
        click(&mut harness, "Prints");
        for (text, rect, room, letters) in texts(&harness) {
            assert!(letters >= 14.0, "\"{text}\" is {letters} points high");
            check_not_cut(&text, rect, room.expand(1.0));
        }
    }
}

#[test]
fn every_print_is_in_the_list_and_shows_its_pages() {
    let mut harness = stage(prints(refined()), SIZE);
    for print in Print::ALL {
        click_print(&mut harness, print);
        assert_eq!(harness.state().session.brief.print, print);
        assert!(harness.query_by_role(Role::Image).is_some(), "{} shows no page", print.name());
    }
    // Few trials decide nothing: a page that says DO NOT FLY goes before the eight.
    click_print(&mut harness, Print::Lesson);
    assert!(all_text(&harness).contains("page 1 of 9"));
    press(&mut harness, Key::PageDown);
    click(&mut harness, "Next page");
    assert!(all_text(&harness).contains("page 3 of 9"));
    press(&mut harness, Key::PageUp);
    assert!(all_text(&harness).contains("page 2 of 9"));
    click(&mut harness, "As wide as fits");
    let image = harness.get_by_role(Role::Image).rect();
    assert!(image.width() > 900.0, "a page as wide as fits is {image:?}");
}

fn click_print(harness: &mut Harness<'_, Stage>, print: Print) {
    click(harness, print.purpose());
}

#[test]
fn a_first_look_is_not_saved_and_says_why() {
    let mut harness = stage(prints(first_look()), SIZE);
    let button = harness.get_by_role_and_label(Role::Button, "Save as PDF\u{2026}");
    assert!(button.accesskit_node().is_disabled());
    let text = all_text(&harness);
    assert!(text.contains("can't be saved yet") && text.contains("up to what wind (a first look)"), "{text}");
    harness.state_mut().session.answers = refined().answers;
    harness.run_steps(2);
    click(&mut harness, "Save as PDF\u{2026}");
    let wanted = Paper { print: Print::Card, format: Format::Pdf, page: 1 };
    assert!(harness.state().asked.contains(&AppCommand::File(FileCommand::Print(wanted))));
    // What is known of the plan before is not known of this one.
    obey(&mut harness.state_mut().session, [AppCommand::Turn(Knob::Radius, 77.0)]);
    harness.run_steps(2);
    assert!(harness.get_by_role_and_label(Role::Button, "Save as PDF\u{2026}").accesskit_node().is_disabled());
    assert!(all_text(&harness).contains("how often it holds (not worked out yet)"));
}

#[test]
fn a_plan_past_its_review_day_says_so_on_the_board() {
    let mut session = refined();
    session.today = "2099-01-01".into();
    for session in [session.clone(), prints(session)] {
        let mut harness = stage(session, SIZE);
        assert!(all_text(&harness).contains("EXPIRED"));
        click(&mut harness, "Set a new day");
        let session = &harness.state().session;
        assert_eq!((session.board, session.sheet), (Board::Field, FieldSheet::Brief));
    }
    assert!(!all_text(&stage(refined(), SIZE)).contains("EXPIRED"));
}

#[test]
fn the_board_stops_a_plan_where_its_prints_do() {
    use peewit::study::radius::{RadiusAsk, study_briefly};
    use peewit::study::work::Work;
    let scenario = crate::support::tight_strip();
    let ask = RadiusAsk { trials: 64, ..RadiusAsk::own_circle(&scenario) };
    let own_circle = study_briefly(&scenario, &ask, &Work::default());
    let mut judged = refined();
    judged.answers.own_circle.as_mut().unwrap().found = std::sync::Arc::new(own_circle);
    for (session, unjudged) in [(refined(), true), (judged, false)] {
        let own_circle = session.answers.own_circle.as_ref().map(|answer| &*answer.found);
        let studies = Studies { own_circle, ..Studies::default() };
        let release = Plan::new(&scenario, DAY, studies, &[], &[]).release();
        let said = all_text(&stage(session, SIZE));
        assert_eq!(said.contains("DO NOT FLY"), release.stopped());
        assert!(release.reasons().iter().all(|reason| said.contains(reason)), "{said}");
        assert_eq!(said.contains("No trials have judged it yet."), unjudged, "{said}");
    }
}

#[test]
fn a_draft_that_cannot_be_flown_leads_to_the_field_board() {
    let mut session = refined();
    let mut file = session.draft.file().clone();
    file.recovery.radius = peewit::units::Length::new(-5.0);
    obey(&mut session, [AppCommand::Edit(Box::new(peewit::app::Change { what: "spoil it".into(), file }))]);
    let mut harness = stage(session, SIZE);
    assert!(all_text(&harness).contains("can't be flown"));
    press(&mut harness, Key::PageDown);
    click(&mut harness, "Go to the Field board");
    assert_eq!(harness.state().session.board, Board::Field);
}

/// Dialogs in which the test chooses.
struct Scripted(Sender<(u64, Purpose, Option<PathBuf>)>, Mutex<Receiver<(u64, ChosenFile)>>, Sender<PathBuf>);

impl Dialogs for Scripted {
    fn open(&mut self, ticket: u64, purpose: Purpose, near: Option<&Path>) {
        self.0.send((ticket, purpose, near.map(Path::to_owned))).unwrap();
    }

    fn launch(&mut self, path: &Path) -> std::io::Result<()> {
        self.2.send(path.to_owned()).map_err(std::io::Error::other)
    }

    fn chosen(&mut self) -> Option<(u64, ChosenFile)> {
        self.1.get_mut().unwrap().try_recv().ok()
    }
}

/// Saves a print where the test says, and returns the name that was offered.
fn save(session: &mut Session, paper: Paper, to: &Path) -> PathBuf {
    let ((opened, opens), (choose, chosen)) = (channel(), channel());
    let (launched, _) = channel();
    let mut files = Files::new(Scripted(opened, Mutex::new(chosen), launched), || ());
    files.step(session, vec![FileCommand::Print(paper)]);
    let (ticket, purpose, near) = opens.try_recv().unwrap();
    assert_eq!(purpose, Purpose::Print(paper));
    choose.send((ticket, ChosenFile::Path(to.to_owned()))).unwrap();
    session.printed.clear();
    for _ in 0..3000 {
        files.step(session, Vec::new());
        match &session.front.ask {
            Some(Ask::Replace { .. }) => files.obey(session, FileCommand::Reply(Reply::Save)),
            Some(_) => break,
            None if session.printed.starts_with("saved") => break,
            None => std::thread::sleep(Duration::from_millis(10)),
        }
    }
    near.unwrap()
}

#[test]
fn a_print_is_saved_whole_and_twice_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let mut session = refined();
    session.path = Some(folder.path().join("our-strip.json"));
    let paper = Paper { print: Print::Card, format: Format::Pdf, page: 1 };
    let [one, two] = ["one.pdf", "two"].map(|name| folder.path().join(name));
    assert_eq!(save(&mut session, paper, &one), folder.path().join("our-strip-card.pdf"));
    assert_eq!(session.printed, format!("saved as one.pdf in {}", folder.path().display()));
    assert_eq!(session.printed_to.as_deref(), Some(&*one));
    // The ending is added; what stands there is asked about.
    let whole = folder.path().join("two.pdf");
    std::fs::write(&whole, "something else").unwrap();
    save(&mut session, paper, &two);
    let [first, second] = [one, whole].map(|path| std::fs::read(path).unwrap());
    assert!(first.starts_with(b"%PDF") && first == second);
    for (format, begins) in [(Format::Html, &b"<!"[..]), (Format::Png, b"\x89PNG")] {
        let to = folder.path().join("page").with_extension(format.ending());
        let near = save(&mut session, Paper { print: Print::Lesson, format, page: 2 }, &to);
        assert!(near.to_string_lossy().ends_with(&format!("our-strip-briefing-2.{}", format.ending())), "{near:?}");
        assert!(std::fs::read(to).unwrap().starts_with(begins));
    }
}

#[test]
fn a_print_for_paper_is_written_aside_and_opened_once_and_again_when_asked() {
    let folder = tempfile::tempdir().unwrap();
    let ((opened, _), (_choose, chosen), (launched, launches)) = (channel(), channel(), channel());
    let mut files = Files::new(Scripted(opened, Mutex::new(chosen), launched), || ());
    let mut session = Session::new(crate::support::tight_strip(), Vec::new(), None);
    files.start(&mut session, Some(folder.path().into()));
    (session.settings.notice_read, session.settings.tour_seen) = (true, true);
    let mut session = Session { settings: session.settings, ..refined() };
    let mut harness = stage(session.clone(), SIZE);
    obey(&mut harness.state_mut().session, [AppCommand::Brief(BriefCommand::View(BriefView::Prints))]);
    harness.run_steps(3);
    click(&mut harness, "Print");
    let paper = Paper { print: Print::default(), format: Format::Pdf, page: 1 };
    assert!(harness.state().asked.contains(&AppCommand::File(FileCommand::PutOnPaper(paper))));
    files.step(&mut session, vec![FileCommand::PutOnPaper(paper)]);
    for _ in 0..3000 {
        files.step(&mut session, Vec::new());
        if session.printed_to.is_some() {
            break;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    let path = session.printed_to.clone().expect("it was never written");
    assert!(path.starts_with(folder.path()) && std::fs::read(&path).unwrap().starts_with(b"%PDF"));
    assert_eq!(launches.try_iter().collect::<Vec<_>>(), std::slice::from_ref(&path));
    obey(&mut session, [AppCommand::Brief(BriefCommand::View(BriefView::Prints))]);
    let mut harness = stage(session.clone(), SIZE);
    assert!(all_text(&harness).contains("saved as goatwillow-strip-card.pdf in"), "{}", all_text(&harness));
    click(&mut harness, "Open");
    let again = FileCommand::Launch(path.clone());
    assert!(harness.state().asked.contains(&AppCommand::File(again.clone())));
    files.step(&mut session, vec![again]);
    assert_eq!(launches.try_iter().collect::<Vec<_>>(), [path]);
}

#[test]
fn what_cannot_be_written_or_rests_on_too_little_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let paper = Paper { print: Print::Card, format: Format::Pdf, page: 1 };
    let nowhere = folder.path().join("no folder").join("card.pdf");
    for (mut session, title) in [(refined(), "The print could not be saved"), (first_look(), "It is not printed yet")] {
        save(&mut session, paper, &nowhere);
        assert!(matches!(&session.front.ask, Some(Ask::Told { title: told, .. }) if told == title), "{title}");
        assert!(!nowhere.exists());
    }
}
