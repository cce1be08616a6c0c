//! Do the sheets of the survey take what is typed, refuse what can't be, and ask for the edits they should?

mod drawn;

use peewit::app::{AppCommand, Board, Session, Sheet, Shown};
use peewit::run::Scenario;

/// The demo with a sheet open.
fn open(sheet: Sheet) -> Session {
    let mut session = Session::new(Scenario::demo(), Vec::new(), Some("goatwillow-strip.json".into()));
    let lens = Shown::default().lens;
    session.apply(AppCommand::Board(Board::Survey), lens);
    session.apply(AppCommand::Sheet(sheet), lens);
    session
}
