//! Is each thing done by what does it, and by nothing else?

use std::sync::Arc;

use super::*;
use crate::app::look::lens::Lens;
use crate::app::session::{Answer as Known, Change, Draft, new_field};
use crate::brief::fixture;
use crate::run::Scenario;
use crate::units::Speed;

fn open(session: &Session) -> Vec<Task> {
    checklist(session).lines.iter().filter(|line| line.open.is_some()).map(|line| line.task).collect()
}

fn edit(session: &mut Session, change: impl FnOnce(&mut ScenarioFile)) {
    let mut file = session.draft.file().clone();
    change(&mut file);
    session.edit(Change { what: "change it".into(), file });
    session.draft.settle();
}

/// What the trials say of the plan on the screen.
fn judged(session: &mut Session, answer: Answer) {
    let scenario = Scenario::from_file(session.draft.file().clone()).unwrap();
    let found = Arc::new(fixture::own_circle(&scenario, answer));
    session.answers.own_circle = Some(Known { found, edition: session.edition, grade: Grade::Refined });
}

/// A plan that nothing is missing from, on a day before its review.
fn ready() -> Session {
    let mut session = Session::new(Scenario::demo(), Vec::new(), None);
    session.today = "2026-04-18".into();
    judged(&mut session, Answer::Yes);
    session
}

/// Those who signed and authorised the plan do so again.
fn sign(session: &mut Session) {
    edit(session, |file| {
        let version = file.plan_hash();
        file.recovery.authorised_for.clone_from(&version);
        file.brief.signed.iter_mut().for_each(|one| one.version.clone_from(&version));
    });
}

#[test]
fn nothing_is_done_on_a_new_field_and_everything_on_a_plan_that_goes_out() {
    let mut session = ready();
    assert_eq!(open(&session), []);
    assert_eq!(checklist(&session).told(), "ready to print");
    session.load(Draft::new(new_field(), Vec::new()), None);
    assert_eq!(open(&session), Task::ALL);
    assert_eq!(checklist(&session).told(), "0 of 11 done: next is place");
}

#[test]
fn what_is_taken_away_is_open_again_and_comes_back_when_it_is_done() {
    #[track_caller]
    fn check(task: Task, change: impl FnOnce(&mut ScenarioFile)) {
        let mut session = ready();
        edit(&mut session, change);
        sign(&mut session);
        if session.is_current() {
            judged(&mut session, Answer::Yes);
        }
        // Without a boundary or a jet nothing can be flown.
        let expected = if session.is_current() { vec![task] } else { vec![task, Task::Circle] };
        assert_eq!(open(&session), expected);
        let before = session.draft.file().clone();
        session.apply(AppCommand::Undo, Lens::default());
        session.apply(AppCommand::Undo, Lens::default());
        judged(&mut session, Answer::Yes);
        assert!(before != *session.draft.file() && open(&session).is_empty(), "{task:?}");
    }
    let field = |file: &mut ScenarioFile, change: fn(&mut FieldFile)| file.field.iter_mut().for_each(change);
    check(Task::Place, |file| file.name = " ".into());
    check(Task::Place, |file| field(file, |field| field.datum = NOWHERE));
    check(Task::Boundary, |file| field(file, |field| field.boundary.ring_m.clear()));
    check(Task::People, |file| {
        field(file, |field| field.areas.iter_mut().for_each(|area| area.rule = RuleName::NoFly));
    });
    check(Task::Jet, |file| file.jet.mass.origin = Origin::Default);
    check(Task::Jet, |file| file.jet.maximum_bank.value = crate::units::Angle::new(3.0));
    check(Task::Wind, |file| file.wind = new_field().wind);
    check(Task::Contacts, |file| file.brief.emergency.call.clear());
    check(Task::Signatures, |file| file.brief.signed.truncate(1));
}

#[test]
fn any_change_lets_names_lapse_and_asks_the_trials_anew() {
    let mut session = ready();
    edit(&mut session, |file| file.wind.mean = Speed::new(1.0));
    assert_eq!(open(&session), [Task::Circle, Task::Signatures]);
    judged(&mut session, Answer::No);
    assert_eq!(open(&session), [Task::Circle, Task::Signatures]);
    judged(&mut session, Answer::Yes);
    sign(&mut session);
    // Names change nothing of the plan, so what its trials said stands.
    assert_eq!(open(&session), []);
    edit(&mut session, |file| file.recovery.authorised_by.clear());
    assert_eq!(open(&session), [Task::FailsafeAction, Task::Signatures]);
}

#[test]
fn a_plan_past_its_day_is_not_ready_however_much_is_done() {
    let mut session = ready();
    session.today = "2099-01-01".into();
    assert_eq!(open(&session), []);
    let told = checklist(&session).told();
    assert!(told.contains("EXPIRED"), "{told}");
}

#[test]
fn pressing_a_line_opens_what_does_it() {
    let mut session = ready();
    session.load(Draft::new(new_field(), Vec::new()), None);
    for task in Task::ALL {
        session.board = Board::Field;
        session.apply(AppCommand::Field(FieldCommand::Tool(Tool::Choose)), Lens::default());
        for command in task.opens(&session) {
            session.apply(command, Lens::default());
        }
        let found = (session.board, session.sheet, session.field_board.tool);
        let expected = match task {
            Task::Place => (Board::Field, FieldSheet::Field, Tool::Choose),
            Task::Boundary => (Board::Field, FieldSheet::Field, Tool::Draw(Kind::Boundary)),
            Task::Areas | Task::People => (Board::Field, FieldSheet::Field, Tool::Draw(Kind::Area)),
            Task::Jet => (Board::Field, FieldSheet::Jet, Tool::Choose),
            Task::Wind => (Board::Field, FieldSheet::Wind, Tool::Choose),
            Task::Circuit => (Board::Field, FieldSheet::Field, Tool::Draw(Kind::Circuit)),
            Task::FailsafeAction | Task::Signatures => (Board::Field, FieldSheet::Loss, Tool::Choose),
            Task::Circle => (Board::Circle, FieldSheet::Loss, Tool::Choose),
            Task::Contacts => (Board::Field, FieldSheet::Brief, Tool::Choose),
        };
        assert_eq!(found, expected, "{task:?}");
    }
    // What is drawn already is chosen, so that it can be looked at.
    let session = ready();
    let chosen = |task: Task| match &task.opens(&session)[..] {
        [_, AppCommand::Field(FieldCommand::Choose(Some(chosen)))] => Some(chosen.part),
        _ => None,
    };
    assert_eq!(chosen(Task::Boundary), Some(Part::Boundary));
    assert_eq!(chosen(Task::People), Some(Part::Area(1)));
}
