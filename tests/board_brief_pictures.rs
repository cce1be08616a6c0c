//! Is the board that tells others drawn as it should be? Every picture is left in a folder for people to look at.

use peewit::app::{AppCommand, Board, BriefCommand, BriefView, FieldSheet, Session, Theme};
use peewit::brief::{Live, Plan, Studies};
use peewit::report::prints::Print;

use crate::board_brief::{first_look, obey, refined};
use crate::pictures::{check_not_blank, draw};

/// A small light screen and a large dark one show whatever goes wrong at any size.
fn drawn(session: &Session, name: &str) -> bool {
    for (size, theme) in [([1366, 768], Theme::Light), ([1920, 1080], Theme::Dark)] {
        let file = format!("brief-{name}-{}-{theme:?}.png", size[0]).to_lowercase();
        let Some(png) = draw(session.clone(), size, theme, &file) else { return false };
        check_not_blank(&png, size);
    }
    true
}

#[test]
fn every_step_is_drawn() {
    let scenario = crate::support::tight_strip();
    let lives: Vec<Live> =
        Plan::new(&scenario, "2026-04-18", Studies::default(), &[], &[]).steps().iter().map(|step| step.live).collect();
    for (number, live) in lives.into_iter().enumerate() {
        let mut session = refined();
        obey(&mut session, [AppCommand::Brief(BriefCommand::Step(number, live))]);
        if live == Live::Flight {
            obey(&mut session, [AppCommand::Scrub(12.0), AppCommand::PlayOrPause]);
        }
        if !drawn(&session, &format!("step-{}", number + 1)) {
            return;
        }
    }
}

#[test]
fn the_prints_are_drawn() {
    for print in Print::ALL {
        let mut session = if print == Print::Card { first_look() } else { refined() };
        let page = usize::from(print == Print::Lesson) * 2;
        let commands = [BriefCommand::View(BriefView::Prints), BriefCommand::Print(print), BriefCommand::Page(page)];
        obey(&mut session, commands.map(AppCommand::Brief));
        if print == Print::Phrases {
            session.today = "2099-01-01".into();
        }
        if print == Print::Lesson {
            obey(&mut session, [AppCommand::Brief(BriefCommand::Wide(true))]);
        }
        if !drawn(&session, &format!("print-{}", print.name())) {
            return;
        }
    }
}

#[test]
fn its_sheet_of_the_field_board_is_drawn() {
    let mut session = first_look();
    obey(&mut session, [AppCommand::Board(Board::Field), AppCommand::Sheet(FieldSheet::Brief)]);
    drawn(&session, "sheet");
}
