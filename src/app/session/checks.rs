//! What is known of this copy of the program on this machine: its own checks, as they were made last. They belong to no plan,
//! so they stay when another is opened, and to no other start of the program, so they are in no file.

use std::sync::Arc;

use crate::study::work::Work;
use crate::verify::Checked;

/// The program's own checks.
#[derive(Debug, Clone, Default)]
pub struct Checks {
    /// The run made last, whole; none yet.
    pub made: Option<Arc<Checked>>,
    /// The run that is asked for and not made yet. Whoever makes it tells this how far it is.
    pub going: Option<Work>,
    /// Why the run asked for last came to nothing; empty where it did not.
    pub trouble: String,
}

impl Checks {
    /// Asks for a run, unless one goes on.
    pub fn ask(&mut self) {
        if self.going.is_none() {
            self.going = Some(Work::default());
            self.trouble.clear();
        }
    }

    /// Ends the run that goes on. It leaves nothing: one made earlier stands.
    pub fn stop(&mut self) {
        if let Some(work) = self.going.take() {
            work.stop();
        }
    }

    /// Takes what came of the run that went on: all of it, or why there is nothing.
    pub fn hear(&mut self, came: Result<Checked, String>) {
        self.going = None;
        match came {
            Ok(checked) => self.made = Some(Arc::new(checked)),
            Err(why) => self.trouble = why,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::look::lens::Lens;
    use crate::app::session::{AppCommand, BriefCommand, Draft, Session};
    use crate::run::Scenario;
    use crate::verify::{Depth, verify};

    /// A run that was stopped before its first check: there at once.
    fn nothing() -> Checked {
        let work = Work::default();
        work.stop();
        verify(7, &Depth::brief(), &work)
    }

    fn check(session: &mut Session, on: bool) {
        session.apply(AppCommand::Brief(BriefCommand::Check(on)), Lens::default());
    }

    #[test]
    fn a_run_is_asked_for_once_and_a_stop_leaves_the_earlier() {
        let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        check(&mut session, true);
        let first = session.checks.going.clone().unwrap();
        check(&mut session, true);
        assert!(first.go_on());
        session.checks.hear(Ok(nothing()));
        let made = session.checks.made.clone().unwrap();
        check(&mut session, true);
        let second = session.checks.going.clone().unwrap();
        check(&mut session, false);
        assert!(!second.go_on() && first.go_on() && session.checks.going.is_none());
        assert!(Arc::ptr_eq(&made, session.checks.made.as_ref().unwrap()));
        // What came to nothing leaves it as well, and is forgotten once a run is asked for again.
        check(&mut session, true);
        session.checks.hear(Err("no thread".into()));
        assert!(session.checks.trouble == "no thread" && session.checks.made.is_some());
        check(&mut session, true);
        assert!(session.checks.trouble.is_empty());
    }

    #[test]
    fn another_plan_and_a_file_that_cannot_be_read_leave_them() {
        let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        session.checks.hear(Ok(nothing()));
        check(&mut session, true);
        let draft = Draft::new(Scenario::demo().file, Vec::new());
        session.load(draft, None);
        assert!(session.checks.made.is_some() && session.checks.going.is_some());
        session.refuse(Vec::new(), None);
        assert!(session.checks.made.is_some() && session.checks.going.as_ref().is_some_and(Work::go_on));
    }
}
