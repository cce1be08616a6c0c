//! Are the program's own checks made from the board where the pack is looked at, and does the pack then print them?

use std::time::Duration;

use bevy_egui::egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use peewit::app::beside::Checker;
use peewit::app::beside::pages::Known;
use peewit::app::{AppCommand, BriefCommand, BriefView, Session};
use peewit::draw::Sheet;
use peewit::report::prints::Print;
use peewit::study::work::Work;
use peewit::verify::{Checked, Depth, Expected, Group, Line, Machine, verify};
use peewit::words::checks::{ASK, in_a_line, outcome, ran};

use crate::board_brief::{obey, refined};
use crate::panels::{Stage, check_not_cut, click, stage, texts};

/// High enough that nothing has to be scrolled to.
const SIZE: [f32; 2] = [1366.0, 1400.0];

/// The board with the pack on it.
fn pack() -> Session {
    let mut session = refined();
    let commands = [BriefCommand::View(BriefView::Prints), BriefCommand::Print(Print::Pack)];
    obey(&mut session, commands.map(AppCommand::Brief));
    session
}

/// A run of five lines, of which so many did not hold.
fn run(missed: usize) -> Checked {
    let line = |index: usize| Line {
        group: Group::ClosedForms,
        name: format!("lap number {index}"),
        expected: Expected::AtMost(1.0),
        got: if index < missed { 2.0 } else { 1.0 },
        unit: "s".into(),
        source: "closed form".into(),
    };
    let (at, machine) = ("2026-04-18 09:41:07".into(), Machine::this());
    Checked { at, took_s: 9.0, seed: 7, machine, partial: false, lines: (0..5).map(line).collect() }
}

fn tight(words: &str) -> String {
    words.split_whitespace().collect()
}

/// All that is on the screen, without the spaces.
fn shown(harness: &Harness<'_, Stage>) -> String {
    texts(harness).into_iter().map(|(text, ..)| tight(&text)).collect()
}

/// All that the pack of a session prints, without the spaces: a line may end anywhere.
fn printed(session: &Session) -> String {
    let pages = Known::of(session).expect("a plan that can be flown").plan().pages(Print::Pack);
    pages.iter().flat_map(Sheet::lettered).map(|(words, ..)| tight(&words)).collect()
}

/// Lets the checker look at a stage until it has brought something.
fn wait_for(checker: &mut Checker, harness: &mut Harness<'_, Stage>) {
    for _ in 0..60_000 {
        if checker.step(&mut harness.state_mut().session.checks) {
            return harness.run_steps(2);
        }
        std::thread::sleep(Duration::from_millis(2));
    }
    panic!("it never came");
}

#[test]
fn asked_for_they_are_made_and_the_annex_says_when_and_where() {
    let mut checker = Checker::making(|work| verify(20, &Depth::brief(), work), || ());
    let mut harness = stage(pack(), SIZE);
    assert!(printed(&harness.state().session).contains(&tight("These checks were not run for this pack")));
    assert!(!checker.step(&mut harness.state_mut().session.checks), "nobody has asked yet");
    click(&mut harness, ASK);
    assert!(harness.query_by_label(ASK).is_none(), "it is asked for");
    assert!(harness.get_all_by_role(Role::ProgressIndicator).next().is_some());
    wait_for(&mut checker, &mut harness);
    let session = &harness.state().session;
    let made = session.checks.made.clone().expect("a run");
    assert!(made.holds() && made.seed == 20 && made.machine == Machine::this(), "{}", in_a_line(&made));
    let (screen, paper) = (shown(&harness), printed(session));
    for words in [in_a_line(&made), ASK.to_owned()] {
        assert!(screen.contains(&tight(&words)), "{words}");
    }
    for words in [ran(&made), outcome(&made), made.lines[0].name.clone()] {
        assert!(paper.contains(&tight(&words)), "{words}");
    }
    assert!(!paper.contains(&tight("These checks were not run for this pack")));
}

#[test]
fn what_is_stopped_leaves_the_run_before_on_the_screen_and_in_the_pack() {
    let waits = |work: &Work| {
        while work.go_on() {
            std::thread::sleep(Duration::from_millis(1));
        }
        Checked { partial: true, ..run(5) }
    };
    let mut checker = Checker::making(waits, || ());
    let mut session = pack();
    session.checks.hear(Ok(run(0)));
    let mut harness = stage(session, SIZE);
    click(&mut harness, ASK);
    assert!(!checker.step(&mut harness.state_mut().session.checks));
    let going = harness.state().session.checks.going.clone().expect("it is asked for");
    going.expect(40);
    going.add(12);
    harness.run_steps(2);
    assert!(harness.query_by_label("Checking: 12 of 40 parts").is_some());
    click(&mut harness, "Stop");
    assert!(!going.go_on() && !checker.step(&mut harness.state_mut().session.checks));
    let session = &harness.state().session;
    assert!(session.checks.going.is_none() && session.checks.made.as_deref() == Some(&run(0)));
    assert!(shown(&harness).contains(&tight(&in_a_line(&run(0)))));
    assert!(printed(session).contains(&tight(&outcome(&run(0)))));
    assert!(harness.query_by_label(ASK).is_some(), "it can be asked for again");
}

#[test]
fn a_check_that_did_not_hold_and_a_run_that_broke_off_are_told() {
    let mut session = pack();
    session.checks.hear(Ok(run(4)));
    session.checks.hear(Err("the system gives no thread".into()));
    let screen = shown(&stage(session.clone(), SIZE));
    for words in [
        "4 of 5 checks did NOT hold: lap number 0; lap number 1; lap number 2 and 1 more.",
        "Do not plan with it",
        "The checks were not made: the system gives no thread.",
    ] {
        assert!(screen.contains(&tight(words)), "{words}");
    }
    assert!(printed(&session).contains(&tight("Not held: lap number 3.")));
    // Other prints have no such annex.
    obey(&mut session, [AppCommand::Brief(BriefCommand::Print(Print::Card))]);
    assert!(stage(session, SIZE).query_by_label(ASK).is_none());
}

#[test]
fn all_of_it_can_be_read_on_a_small_screen() {
    let mut told = pack();
    told.checks.hear(Ok(run(4)));
    told.checks.hear(Err("the system gives no thread".into()));
    let mut going = told.clone();
    going.checks.ask();
    for session in [told, going] {
        for (text, rect, room, letters) in texts(&stage(session, [1180.0, 660.0])) {
            assert!(letters >= 14.0, "\"{text}\" is {letters} points high");
            check_not_cut(&text, rect, room.expand(1.0));
        }
    }
}
