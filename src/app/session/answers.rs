//! What is known of the questions that take longer than a flight, and of which edition of the plan.

use std::sync::Arc;

use crate::study::ceiling::CeilingStudy;
use crate::study::envelope::Envelope;
use crate::study::losses::LossStudy;
use crate::study::radius::RadiusStudy;

/// How much went into an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// The plan as written and few cases: there within a tenth of a second.
    Coarse,
    /// Everything asked for.
    Refined,
}

/// One answer.
#[derive(Debug, Clone)]
pub struct Answer<T> {
    /// The answer.
    pub found: Arc<T>,
    /// Edition of the plan that it is about.
    pub edition: u64,
    /// How much went into it.
    pub grade: Grade,
}

/// All of them; one that is not there yet is none.
#[derive(Debug, Clone, Default)]
pub struct Answers {
    /// Which radius.
    pub radius: Option<Answer<RadiusStudy>>,
    /// Where it circles.
    pub envelope: Option<Answer<Envelope>>,
    /// Up to what wind.
    pub ceiling: Option<Answer<CeilingStudy>>,
    /// From where.
    pub losses: Option<Answer<LossStudy>>,
}

/// An answer that has come.
#[derive(Debug, Clone)]
pub enum News {
    /// Which radius.
    Radius(Answer<RadiusStudy>),
    /// Where it circles.
    Envelope(Answer<Envelope>),
    /// Up to what wind.
    Ceiling(Answer<CeilingStudy>),
    /// From where.
    Losses(Answer<LossStudy>),
}

impl Answers {
    /// Takes news, unless something newer or finer is known.
    pub fn take(&mut self, news: News) {
        match news {
            News::Radius(answer) => replace(&mut self.radius, answer),
            News::Envelope(answer) => replace(&mut self.envelope, answer),
            News::Ceiling(answer) => replace(&mut self.ceiling, answer),
            News::Losses(answer) => replace(&mut self.losses, answer),
        }
    }
}

fn replace<T>(known: &mut Option<Answer<T>>, news: Answer<T>) {
    let older = known.as_ref().is_none_or(|known| (known.edition, known.grade) <= (news.edition, news.grade));
    if older {
        *known = Some(news);
    }
}

/// What is being worked out beside the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Doing {
    /// Nothing is left to do.
    #[default]
    Resting,
    /// Something is worked out.
    Working {
        /// What, in words.
        what: &'static str,
        /// Parts done.
        done: u64,
        /// Parts in all, as far as known.
        of: u64,
    },
    /// A person has stopped it; what was found so far stands.
    Stopped,
}
