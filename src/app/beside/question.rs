//! The questions that take longer than a flight, each in a coarse and in a refined form.

use std::sync::Arc;

use crate::app::{Answer, Board, Grade, News};
use crate::run::Scenario;
use crate::study::ceiling::{CeilingAsk, ceiling};
use crate::study::losses::{LossAsk, first, refine};
use crate::study::radius::{RadiusAsk, study, study_briefly};
use crate::study::work::Work;

/// A question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Which radius.
    Radius,
    /// Up to what wind.
    Ceiling,
    /// From where.
    Losses,
}

impl Question {
    /// All of them, that of a board first.
    pub const fn order(board: Board) -> [Self; 3] {
        match board {
            Board::Survey | Board::Circle => [Self::Radius, Self::Losses, Self::Ceiling],
            Board::Losses => [Self::Losses, Self::Radius, Self::Ceiling],
        }
    }

    /// What is being worked out, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Radius => "which radius",
            Self::Ceiling => "up to what wind",
            Self::Losses => "from where",
        }
    }

    /// Works it out, and tells what is known on the way. Where `work` is stopped the answer is what was found by then,
    /// and says so.
    pub fn answer(
        self,
        scenario: &Scenario,
        edition: u64,
        grade: Grade,
        work: &Work,
        tell: &(dyn Fn(News) + Sync),
    ) -> News {
        match self {
            Self::Radius => {
                let found = match grade {
                    Grade::Coarse => {
                        let usual = RadiusAsk::usual();
                        let radii_m = usual.radii_m.iter().copied().step_by(2).collect();
                        study_briefly(scenario, &RadiusAsk { radii_m, cases: 0, ..usual }, work)
                    }
                    Grade::Refined => study(scenario, &RadiusAsk::usual(), work),
                };
                News::Radius(answer(found, edition, grade))
            }
            Self::Ceiling => {
                let cases = if grade == Grade::Coarse { 0 } else { 400 };
                let found = ceiling(scenario, &CeilingAsk { cases, ..CeilingAsk::usual(scenario) }, work);
                News::Ceiling(answer(found, edition, grade))
            }
            Self::Losses => {
                let usual = LossAsk::usual(scenario);
                let found = match grade {
                    Grade::Coarse => first(scenario, &LossAsk { cells: 16, headings: 4, ..usual }, work),
                    Grade::Refined => {
                        let plan = first(scenario, &usual, work);
                        if work.go_on() {
                            // All of the field as written: worth a look while drawn cases are flown.
                            tell(News::Losses(answer(plan.clone(), edition, Grade::Coarse)));
                        }
                        refine(scenario, plan, work)
                    }
                };
                News::Losses(answer(found, edition, grade))
            }
        }
    }
}

fn answer<T>(found: T, edition: u64, grade: Grade) -> Answer<T> {
    Answer { found: Arc::new(found), edition, grade }
}
