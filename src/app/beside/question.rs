//! The answers to the questions that take longer than a flight, each in a coarse and in a refined form.

use std::sync::Arc;

use crate::app::session::{Answer, Grade, News, Question};
use crate::run::Scenario;
use crate::study::envelope::{EnvelopeAsk, envelope};
use crate::study::keep_inside::{KeepAsk, keep_inside};
use crate::study::losses::{LossAsk, LossStudy, first, refine};
use crate::study::radius::{RadiusAsk, study, study_briefly};
use crate::study::remedy::search;
use crate::study::verdict::{Demand, plan};
use crate::study::wind_limit::{WindLimitAsk, wind_limit};
use crate::study::work::Work;

/// Trials of the plan's own circle at a first look.
const FEW: u64 = 32;

impl Question {
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
                    Grade::Coarse => study_briefly(scenario, &RadiusAsk::coarse(scenario), work),
                    Grade::Refined => study(scenario, &RadiusAsk::usual(), work),
                };
                News::Radius(answer(found, edition, grade))
            }
            Self::Envelope => {
                let ask = if grade == Grade::Coarse { EnvelopeAsk::coarse() } else { EnvelopeAsk::usual() };
                News::Envelope(answer(envelope(scenario, &ask, work), edition, grade))
            }
            Self::WindLimit => {
                let ask = match grade {
                    Grade::Coarse => WindLimitAsk::coarse(scenario),
                    Grade::Refined => WindLimitAsk::usual(scenario),
                };
                News::WindLimit(answer(wind_limit(scenario, &ask, work), edition, grade))
            }
            Self::Losses => {
                let found = match grade {
                    Grade::Coarse => first(scenario, &LossAsk::coarse(scenario), work),
                    Grade::Refined => {
                        let plan = first(scenario, &LossAsk::usual(scenario), work);
                        if work.go_on() {
                            // All of the field as entered: worth a look while trials are flown.
                            tell(News::Losses(answer(plan.clone(), edition, Grade::Coarse)));
                        }
                        let found = refine(scenario, plan, work);
                        if work.go_on() {
                            // Whole once it has the keep-inside line as well.
                            tell(News::Losses(answer(found.clone(), edition, Grade::Refined)));
                        }
                        let keep = keep_inside(scenario, &KeepAsk::usual(scenario), work);
                        LossStudy { partial: found.partial || keep.partial, keep_inside: Some(keep), ..found }
                    }
                };
                News::Losses(answer(found, edition, grade))
            }
            Self::OwnCircle => {
                let usual = RadiusAsk::own_circle(scenario);
                let ask =
                    if grade == Grade::Coarse { RadiusAsk { trials: FEW, first_look: true, ..usual } } else { usual };
                News::OwnCircle(answer(study_briefly(scenario, &ask, work), edition, grade))
            }
            Self::Remedy => {
                let own = plan(scenario, &Demand::of(&scenario.file.limits), work).verdict.answer;
                News::Remedy(answer(search(scenario, own, work), edition, grade))
            }
        }
    }
}

fn answer<T>(found: T, edition: u64, grade: Grade) -> Answer<T> {
    Answer { found: Arc::new(found), edition, grade }
}
