//! What is known of the questions that take longer than a flight, and of which edition of the plan.

use std::sync::Arc;

use crate::study::envelope::Envelope;
use crate::study::losses::LossStudy;
use crate::study::radius::RadiusStudy;
use crate::study::remedy::Found;
use crate::study::wind_limit::WindLimitStudy;

/// How much went into an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// The plan as entered and few trials: there within a tenth of a second.
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
    pub wind_limit: Option<Answer<WindLimitStudy>>,
    /// From where.
    pub losses: Option<Answer<LossStudy>>,
    /// How often the plan's own circle holds: one radius, one way round.
    pub own_circle: Option<Answer<RadiusStudy>>,
    /// What would make it hold where it does not; only ever refined.
    pub remedy: Option<Answer<Found>>,
}

/// An answer that has come.
#[derive(Debug, Clone)]
pub enum News {
    /// Which radius.
    Radius(Answer<RadiusStudy>),
    /// Where it circles.
    Envelope(Answer<Envelope>),
    /// Up to what wind.
    WindLimit(Answer<WindLimitStudy>),
    /// From where.
    Losses(Answer<LossStudy>),
    /// How often the plan's own circle holds.
    OwnCircle(Answer<RadiusStudy>),
    /// What would make it hold.
    Remedy(Answer<Found>),
}

impl Answers {
    /// Takes news, unless something newer or finer is known.
    pub fn take(&mut self, news: News) {
        match news {
            News::Radius(answer) => replace(&mut self.radius, answer),
            News::Envelope(answer) => replace(&mut self.envelope, answer),
            News::WindLimit(answer) => replace(&mut self.wind_limit, answer),
            News::Losses(answer) => replace(&mut self.losses, answer),
            News::OwnCircle(answer) => replace(&mut self.own_circle, answer),
            News::Remedy(answer) => replace(&mut self.remedy, answer),
        }
    }

    /// What is known of one edition, as of another of the same plan; what is of neither is left out.
    #[must_use]
    pub fn carried(&self, from: u64, to: u64) -> Self {
        Self {
            radius: still(&self.radius, from, to),
            envelope: still(&self.envelope, from, to),
            wind_limit: still(&self.wind_limit, from, to),
            losses: still(&self.losses, from, to),
            own_circle: still(&self.own_circle, from, to),
            remedy: still(&self.remedy, from, to),
        }
    }

    /// Whether everything about an edition is worked out.
    pub fn are_whole(&self, edition: u64) -> bool {
        whole(&self.radius, edition, |found| found.partial)
            && whole(&self.envelope, edition, |found| found.partial)
            && whole(&self.wind_limit, edition, |found| found.partial)
            && whole(&self.losses, edition, |found| found.partial || found.keep_inside.is_none())
            && whole(&self.own_circle, edition, |found| found.partial)
            && whole(&self.remedy, edition, |found| *found == Found::Stopped)
    }

    /// Whether these are the very same answers, and not only equal ones.
    pub fn is(&self, other: &Self) -> bool {
        same(&self.radius, &other.radius)
            && same(&self.envelope, &other.envelope)
            && same(&self.wind_limit, &other.wind_limit)
            && same(&self.losses, &other.losses)
            && same(&self.own_circle, &other.own_circle)
            && same(&self.remedy, &other.remedy)
    }
}

fn still<T>(answer: &Option<Answer<T>>, from: u64, to: u64) -> Option<Answer<T>> {
    let answer = answer.as_ref().filter(|answer| answer.edition == from)?;
    Some(Answer { found: Arc::clone(&answer.found), edition: to, grade: answer.grade })
}

fn whole<T>(answer: &Option<Answer<T>>, edition: u64, partial: impl Fn(&T) -> bool) -> bool {
    answer
        .as_ref()
        .is_some_and(|answer| answer.edition == edition && answer.grade == Grade::Refined && !partial(&answer.found))
}

fn same<T>(one: &Option<Answer<T>>, other: &Option<Answer<T>>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => one.grade == other.grade && Arc::ptr_eq(&one.found, &other.found),
        (one, other) => one.is_none() && other.is_none(),
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
