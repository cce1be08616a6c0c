//! The plan that was kept, to be compared with: kept, flown as the plan on the screen is flown, swapped with it.

use super::{Answers, Change, Flown, News, Session};
use crate::run::Scenario;

/// A plan that was kept.
#[derive(Debug, Clone)]
pub struct Kept {
    /// Its flight, of the same trial and in the same wind as that on the screen.
    pub flown: Flown,
    /// What was known of it.
    pub answers: Answers,
    /// Its edition.
    pub edition: u64,
}

impl Session {
    /// Takes news; what is about the kept plan too is kept with it.
    pub fn hear(&mut self, news: News) {
        if let Some(kept) = self.kept.as_mut().filter(|kept| kept.edition == self.edition) {
            kept.answers.take(news.clone());
        }
        self.answers.take(news);
    }

    pub(super) fn keep(&mut self, keep: bool) {
        self.kept = if keep { self.as_kept() } else { None };
    }

    /// The plan on the screen with its own loss, where it can be flown.
    fn as_kept(&self) -> Option<Kept> {
        let scenario = Scenario::from_file(self.draft.file().clone()).ok()?;
        let flown = Flown::new(scenario, None, self.trial, self.wind);
        Some(Kept { flown, answers: self.answers.clone(), edition: self.edition })
    }

    /// Flies the kept plan again, so that the two are always flown alike.
    pub(in crate::app) fn fly_kept(&mut self) {
        let (trial, wind) = (self.trial, self.wind);
        if let Some(kept) = &mut self.kept {
            kept.flown = Flown::new(kept.flown.scenario.clone(), None, trial, wind);
        }
    }

    /// Puts the kept plan in the draft's place, an edit like any other, and keeps the plan that was there.
    pub(super) fn swap(&mut self) {
        let Some(now) = self.as_kept() else { return };
        let Some(kept) = self.kept.replace(now) else {
            self.kept = None;
            return;
        };
        let file = kept.flown.scenario.file.clone();
        self.draft.settle();
        self.edit(Change { what: "swap with the kept plan".into(), file });
        self.draft.settle();
        // What was known of it is known still.
        self.answers = kept.answers.carried(kept.edition, self.edition);
        self.fit();
    }

    /// Side by side the two have the losses that they were planned for.
    pub(super) fn compare(&mut self, compared: bool) {
        self.compared = compared;
        if compared && self.lost.take().is_some() {
            self.fly();
        }
    }
}
