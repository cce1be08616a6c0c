//! Which limit a wind fails by.

use crate::margins::{Score, Verdict};
use crate::study::Tally;

/// The limit that most flights don't meet, the plan's among them: those that cross it where too many cross, else those
/// that use its buffer as well; the first of several alike.
pub(super) fn fails_most(plan: Option<&Score>, trials: &Tally, crossing: bool) -> Option<usize> {
    let short = |index: usize| {
        let gap = plan.and_then(|plan| plan.gaps.get(index));
        let planned = gap.is_some_and(|gap| matches!(gap.verdict, Verdict::InsideBuffer | Verdict::Crossed));
        let limit = &trials.limits[index];
        limit.crossed + if crossing { 0 } else { limit.inside_buffer } + u64::from(planned)
    };
    let most = (0..trials.limits.len()).rev().max_by_key(|&index| short(index))?;
    (short(most) > 0).then_some(most)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::margins::Scorer;
    use crate::run::{Scenario, WindChoice, draw};
    use crate::study::LimitTally;

    #[test]
    fn the_limit_named_is_the_one_most_flights_fall_short_of() {
        let scenario = Scenario::tight_strip();
        let scorer = Scorer::new(&scenario);
        let mut plan = scorer.score(&[draw(&scenario, 0, WindChoice::Mean)]).remove(0);
        plan.gaps.iter_mut().for_each(|gap| gap.verdict = Verdict::Clear);
        let tally = |crossed: [u64; 3], inside_buffer: [u64; 3]| {
            let limit = |index: usize| LimitTally {
                crossed: crossed[index],
                inside_buffer: inside_buffer[index],
                least: 0.0,
                least_trial: 1,
            };
            Tally { limits: [0, 1, 2].map(limit).to_vec(), ..Tally::new(0) }
        };
        assert_eq!(fails_most(Some(&plan), &tally([0; 3], [0; 3]), false), None);
        assert_eq!(fails_most(Some(&plan), &tally([1, 3, 2], [0; 3]), true), Some(1));
        assert_eq!(fails_most(None, &tally([1, 3, 2], [9, 0, 2]), true), Some(1), "what is crossed comes first");
        assert_eq!(fails_most(None, &tally([1, 3, 2], [9, 0, 2]), false), Some(0), "then what is used");
        assert_eq!(fails_most(Some(&plan), &tally([2, 1, 2], [0; 3]), true), Some(0), "the first of two alike");
        plan.gaps[2].verdict = Verdict::InsideBuffer;
        assert_eq!(fails_most(Some(&plan), &tally([2, 1, 2], [0; 3]), true), Some(2), "the plan counts too");
    }
}
