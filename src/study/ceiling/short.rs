//! Which limit a wind fails by.

use crate::ledger::{Limit, LimitInfo, Score, Verdict};
use crate::run::Scenario;
use crate::study::Tally;

/// The limit that most flights don't meet, the plan's among them: those that cross it where too many cross, else those
/// that use its buffer as well; the first of several alike.
pub(super) fn fails_most(plan: Option<&Score>, cases: &Tally, crossing: bool) -> Option<usize> {
    let short = |index: usize| {
        let gap = plan.and_then(|plan| plan.gaps.get(index));
        let planned = gap.is_some_and(|gap| matches!(gap.verdict, Verdict::Thin | Verdict::Breached));
        let limit = &cases.limits[index];
        limit.breached + if crossing { 0 } else { limit.thin } + u64::from(planned)
    };
    let most = (0..cases.limits.len()).rev().max_by_key(|&index| short(index))?;
    (short(most) > 0).then_some(most)
}

/// The first limit that the loss itself lies nearer to than is asked for: no wind helps there.
pub(super) fn loss_too_near(scenario: &Scenario, limits: &[LimitInfo]) -> Option<usize> {
    let (file, field) = (&scenario.file, &scenario.field);
    let (at, height) = (glam::DVec2::from_array(file.loss.at_m), file.loss.height.m());
    let (aside, above) = (file.limits.standoff.m(), file.limits.height_standoff.m());
    let near = |limit: Limit| match limit {
        Limit::Outline => field.outline.signed_distance(at) < aside,
        Limit::Patch(index) => {
            let patch = &field.patches[index];
            patch.rule == crate::field::Rule::Never && -patch.region.signed_distance(at) < aside
        }
        Limit::FlightLine => field.flight_line.is_some_and(|line| line.signed_distance(at) < aside),
        Limit::Obstacle(index) => {
            let obstacle = &field.obstacles[index];
            let rise = height + field.ground.height_m(field.home) - obstacle.top_m;
            -obstacle.region.signed_distance(at) < aside && rise < above
        }
        _ => false,
    };
    limits.iter().position(|info| near(info.limit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::Scorer;
    use crate::run::{WindChoice, draw};
    use crate::study::LimitTally;
    use crate::units::Length;

    #[test]
    fn the_limit_named_is_the_one_most_flights_fall_short_of() {
        let scenario = Scenario::tight_strip();
        let scorer = Scorer::new(&scenario);
        let mut plan = scorer.score(&[draw(&scenario, 0, WindChoice::Mean)]).remove(0);
        plan.gaps.iter_mut().for_each(|gap| gap.verdict = Verdict::Clear);
        let tally = |breached: [u64; 3], thin: [u64; 3]| {
            let limit =
                |index: usize| LimitTally { breached: breached[index], thin: thin[index], least: 0.0, least_case: 1 };
            Tally { limits: [0, 1, 2].map(limit).to_vec(), ..Tally::new(0) }
        };
        assert_eq!(fails_most(Some(&plan), &tally([0; 3], [0; 3]), false), None);
        assert_eq!(fails_most(Some(&plan), &tally([1, 3, 2], [0; 3]), true), Some(1));
        assert_eq!(fails_most(None, &tally([1, 3, 2], [9, 0, 2]), true), Some(1), "what is crossed comes first");
        assert_eq!(fails_most(None, &tally([1, 3, 2], [9, 0, 2]), false), Some(0), "then what is used");
        assert_eq!(fails_most(Some(&plan), &tally([2, 1, 2], [0; 3]), true), Some(0), "the first of two alike");
        plan.gaps[2].verdict = Verdict::Thin;
        assert_eq!(fails_most(Some(&plan), &tally([2, 1, 2], [0; 3]), true), Some(2), "the plan counts too");
    }

    #[track_caller]
    fn check_near(edit: impl FnOnce(&mut Scenario), named: Option<&str>) {
        let mut scenario = Scenario::tight_strip();
        edit(&mut scenario);
        let scorer = Scorer::new(&scenario);
        let found = loss_too_near(&scenario, scorer.limits());
        assert_eq!(found.map(|limit| scorer.limits()[limit].name.as_str()), named);
    }

    #[test]
    fn a_loss_too_near_to_a_limit_is_seen_before_the_flight() {
        check_near(|_| (), None);
        check_near(|scenario| scenario.file.loss.at_m = [239.0, 30.0], None);
        check_near(|scenario| scenario.file.loss.at_m = [241.0, 30.0], Some("outline"));
        check_near(|scenario| scenario.file.loss.at_m = [81.0, 150.0], None);
        check_near(|scenario| scenario.file.loss.at_m = [79.0, 150.0], Some("never: goat paddock"));
        // The oak is 14 m tall; 10 m over it are asked for.
        let by_the_oak = |height: f64| {
            move |scenario: &mut Scenario| {
                scenario.file.loss.at_m = [210.0, -220.0];
                scenario.file.loss.height = Length::new(height);
            }
        };
        check_near(by_the_oak(25.0), None);
        check_near(by_the_oak(23.0), Some("obstacle: lone oak"));
    }
}
