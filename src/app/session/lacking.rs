//! What a print rests on that is not worked out yet, and how far it is.

use super::{Answer, Grade, Question, Session};
use crate::report::prints::Print;

/// How an answer stands that a print can't do without.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lack {
    /// There is none for the plan on the screen.
    Missing,
    /// It rests on few trials.
    FirstLook,
    /// It was stopped half-way.
    Stopped,
}

impl Lack {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Missing => "not worked out yet",
            Self::FirstLook => "a first look",
            Self::Stopped => "stopped half-way",
        }
    }
}

/// What a print lacks, in the order in which it is worked out; nothing where it can go out.
pub fn lacking(session: &Session, print: Print) -> Vec<(Question, Lack)> {
    let known = &session.answers;
    // The map of losses is told before the keep-inside line is flown.
    let no_line = known.losses.as_ref().is_some_and(|answer| answer.found.keep_inside.is_none());
    let losses = lack(session, &known.losses, |found| found.partial).or(no_line.then_some(Lack::Missing));
    let all = [
        (Question::OwnCircle, true, lack(session, &known.own_circle, |found| found.partial)),
        (Question::Envelope, true, lack(session, &known.envelope, |found| found.partial)),
        (Question::WindLimit, true, lack(session, &known.wind_limit, |found| found.partial)),
        (Question::Radius, print.needs_radius(), lack(session, &known.radius, |found| found.partial)),
        (Question::Losses, print.needs_losses(), losses),
    ];
    all.into_iter().filter(|(_, needed, _)| *needed).filter_map(|(question, _, lack)| Some((question, lack?))).collect()
}

fn lack<T>(session: &Session, answer: &Option<Answer<T>>, partial: impl Fn(&T) -> bool) -> Option<Lack> {
    match answer {
        Some(answer) if answer.edition == session.edition && session.is_current() => match answer.grade {
            _ if partial(&answer.found) => Some(Lack::Stopped),
            Grade::Coarse => Some(Lack::FirstLook),
            Grade::Refined => None,
        },
        _ => Some(Lack::Missing),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::beside::answer_now;
    use crate::run::Scenario;

    #[track_caller]
    fn check(session: &Session, print: Print, expected: &[(Question, Lack)]) {
        assert_eq!(lacking(session, print), expected);
    }

    #[test]
    fn a_print_lacks_what_is_missing_coarse_stopped_or_of_another_plan() {
        use Question::{Envelope, OwnCircle, Radius, WindLimit};
        let mut session = Session::new(Scenario::tight_strip(), Vec::new(), None);
        let missing = [OwnCircle, Envelope, WindLimit].map(|question| (question, Lack::Missing));
        check(&session, Print::Card, &missing);
        answer_now(&mut session, Grade::Coarse);
        let coarse = [OwnCircle, Envelope, WindLimit, Radius].map(|question| (question, Lack::FirstLook));
        check(&session, Print::Card, &coarse[..3]);
        check(&session, Print::Lesson, &coarse);
        for answer in [&mut session.answers.own_circle, &mut session.answers.radius] {
            answer.as_mut().unwrap().grade = Grade::Refined;
        }
        check(&session, Print::Lesson, &coarse[1..3]);
        let radius = session.answers.radius.as_mut().unwrap();
        let mut stopped = (*radius.found).clone();
        stopped.partial = true;
        radius.found = std::sync::Arc::new(stopped);
        session.answers.own_circle.as_mut().unwrap().edition += 1;
        let expected = [(OwnCircle, Lack::Missing), coarse[1], coarse[2], (Radius, Lack::Stopped)];
        check(&session, Print::Lesson, &expected);
    }
}
