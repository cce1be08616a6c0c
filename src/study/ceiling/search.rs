//! The walk up from a calm in one direction: whole metres a second until the demand is not met, then halving.

use crate::ledger::{Limit, LimitInfo, Score, Scorer, Verdict};
use crate::run::{Case, Scenario, WindChoice, draw};
use crate::study::Tally;
use crate::study::ceiling::plan::Plan;
use crate::study::ceiling::{CeilingAsk, Direction};
use crate::study::stats::{Decision, Looks, Share};
use crate::study::work::Work;
use crate::units::{Bearing, Length, Speed};
use crate::wind::WindSheet;

/// Times the last metre a second is halved: down to 0.25 m/s.
pub(super) const HALVINGS: u32 = 2;
/// Fewest cases flown in a wind.
const FEWEST: u64 = 64;
/// Cases scored between looks at whether to go on.
const BATCH: usize = 32;
/// Height of a hand-held meter, metres.
const HAND_M: f64 = 2.0;

/// The search in one direction.
pub(super) struct Search<'a> {
    ask: &'a CeilingAsk,
    pub(super) scorer: &'a Scorer<'a>,
    work: &'a Work,
    /// The scenario in the wind of the moment.
    scenario: Scenario,
    /// Its wind as written.
    sheet: WindSheet,
    pub(super) from_deg: f64,
}

/// One wind tried.
#[derive(Clone)]
struct Trial {
    wind_mps: f64,
    held: bool,
    plan: Score,
    cases: Tally,
}

impl<'a> Search<'a> {
    pub(super) fn new(
        scenario: &Scenario,
        ask: &'a CeilingAsk,
        scorer: &'a Scorer<'a>,
        work: &'a Work,
        from_deg: f64,
    ) -> Self {
        Self { ask, scorer, work, scenario: scenario.clone(), sheet: scenario.file.wind, from_deg }
    }

    /// The ceiling, under that of the plan; none where the work was stopped before it was found.
    pub(super) fn run(mut self, plan: &Plan) -> Option<Direction> {
        let whole = whole_winds(&self.scenario);
        let mut left = parts(&self.scenario);
        let (mut held, mut failed) = (None, None);
        for (&wind, score) in whole.iter().zip(&plan.whole) {
            let trial = self.trial(wind, score.clone())?;
            self.work.add(1);
            left -= 1;
            if !trial.held {
                failed = Some(trial);
                break;
            }
            held = Some(trial);
        }
        for _ in 0..HALVINGS {
            let (Some(low), Some(high)) = (&held, &failed) else { break };
            let wind = f64::midpoint(low.wind_mps, high.wind_mps);
            let plain = self.plain(&[wind]);
            let score = self.scorer.score(&plain).pop()?;
            let trial = self.trial(wind, score)?;
            let end = if trial.held { &mut held } else { &mut failed };
            *end = Some(trial);
        }
        self.work.add(left);
        Some(Direction { plan_mps: plan.held_mps, ..self.direction(held, failed) })
    }

    fn direction(&self, held: Option<Trial>, failed: Option<Trial>) -> Direction {
        let ceiling_mps = held.as_ref().map(|trial| trial.wind_mps);
        Direction {
            from_deg: self.from_deg,
            ceiling_mps,
            gust_mps: ceiling_mps.map(|wind| self.gust(wind)),
            plan_mps: None,
            at_2m_mps: ceiling_mps.map(|wind| self.at_2m(wind)),
            fails_mps: failed.as_ref().map(|trial| trial.wind_mps),
            limit: failed.as_ref().and_then(|trial| fails_most(&trial.plan, &trial.cases)),
            held: held.map(|trial| trial.cases),
            failed: failed.map(|trial| trial.cases),
        }
    }

    /// What a meter in the hand reads in a wind at circle height, over the range of profiles.
    pub(super) fn at_2m(&self, wind_mps: f64) -> [f64; 2] {
        let [low, _, high] = self.blowing(wind_mps).growth(HAND_M);
        [wind_mps * low, wind_mps * high]
    }

    /// What the gusts of a wind at circle height reach there, m/s.
    pub(super) fn gust(&self, wind_mps: f64) -> f64 {
        self.blowing(wind_mps).gust().mps()
    }

    /// The sheet with a wind at circle height.
    fn blowing(&self, wind_mps: f64) -> WindSheet {
        blowing(&self.sheet, self.scenario.file.recovery.height, self.from_deg, wind_mps)
    }

    /// Cases in a wind at circle height, about the circle asked for. The numbers drawn are the same in every wind.
    fn cases(&mut self, wind_mps: f64, cases: impl Iterator<Item = u64>) -> Vec<Case> {
        self.scenario.file.wind = self.blowing(wind_mps);
        let drawn = cases.map(|case| draw(&self.scenario, case, WindChoice::Mean));
        drawn.map(|case| case.circling(self.ask.radius_m, self.ask.turn)).collect()
    }

    /// The plan as written in each of some winds.
    pub(super) fn plain(&mut self, winds_mps: &[f64]) -> Vec<Case> {
        winds_mps.iter().flat_map(|&wind| self.cases(wind, 0..1)).collect()
    }

    /// Whether a wind meets the demand: more and more cases, until that is known. Where the plan as written already
    /// doesn't, the first few say what else fails.
    fn trial(&mut self, wind_mps: f64, plan: Score) -> Option<Trial> {
        let mut tally = Tally::new(self.scorer.limits().len());
        let (most, asked) = (self.ask.cases, self.ask.share);
        let looks = Looks::new(most, self.ask.confidence);
        // A look may be left out; fewer cases than this fill no lanes.
        for until in looks.at().filter(|&cases| cases >= FEWEST.min(most)) {
            let cases = self.cases(wind_mps, tally.cases + 1..until + 1);
            for some in cases.chunks(BATCH) {
                if !self.work.go_on() {
                    return None;
                }
                for score in self.scorer.score(some) {
                    tally.add(tally.cases + 1, &score);
                }
            }
            let seen = looks.decide(Share { count: tally.met, of: tally.cases }, asked);
            if !plan.met || seen != Decision::GoesOn {
                return Some(Trial { wind_mps, held: plan.met && seen == Decision::Meets, plan, cases: tally });
            }
        }
        Some(Trial { wind_mps, held: false, plan, cases: tally })
    }
}

/// Whole metres a second from a calm up to the return speed: against more no jet comes home.
pub(super) fn whole_winds(scenario: &Scenario) -> Vec<f64> {
    let fastest = scenario.file.jet.return_speed.value.mps();
    (0_u32..).map(f64::from).take_while(|&wind| wind <= fastest).collect()
}

/// What a direction counts for in the work: the winds there may be to try.
pub(super) fn parts(scenario: &Scenario) -> u64 {
    whole_winds(scenario).len() as u64 + u64::from(HALVINGS)
}

/// The sheet with another wind at a height: its gust in the proportion to the mean that it has there, the spreads as
/// they are. In the plan's own wind that is the plan's own air.
fn blowing(sheet: &WindSheet, height: Length, from_deg: f64, wind_mps: f64) -> WindSheet {
    let [mean, gust] = sheet.aloft(height.m()).map(Speed::new);
    // A calm without a reported gust has no proportion but the one assumed.
    let gust = (mean.mps() > 0.0 || !sheet.gust_is_assumed()).then_some(gust);
    let there = WindSheet { mean, gust, from: Bearing::from_deg(from_deg), measured_at: height, ..*sheet };
    there.with_mean(Speed::new(wind_mps))
}

/// The limit that most flights don't meet, the plan's among them; the first of several alike.
pub(super) fn fails_most(plan: &Score, cases: &Tally) -> Option<usize> {
    let short = |index: usize| {
        let planned = plan.gaps.get(index).is_some_and(|gap| matches!(gap.verdict, Verdict::Thin | Verdict::Breached));
        cases.limits[index].breached + cases.limits[index].thin + u64::from(planned)
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
    use crate::study::LimitTally;

    #[track_caller]
    fn check_wind(mean: f64, gust: Option<f64>, measured_at: f64, wind: f64, expected_gust: f64) {
        let sheet = WindSheet { measured_at: Length::new(measured_at), ..Scenario::demo().file.wind };
        let sheet = WindSheet { mean: Speed::new(mean), gust: gust.map(Speed::new), ..sheet };
        let found = blowing(&sheet, Length::new(80.0), 123.0, wind);
        assert_eq!((found.mean.mps(), found.measured_at.m(), found.from.deg()), (wind, 80.0, 123.0));
        assert_eq!((found.from_spread, found.turbulence), (sheet.from_spread, sheet.turbulence));
        assert!((found.gust().mps() - expected_gust).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn gusts_keep_their_proportion() {
        check_wind(6.0, Some(9.0), 80.0, 4.0, 6.0);
        check_wind(6.0, Some(9.0), 80.0, 0.0, 0.0);
        check_wind(0.0, Some(2.0), 80.0, 3.0, 5.0);
        // Nobody reported one: half more than the mean.
        check_wind(6.0, None, 80.0, 4.0, 6.0);
        check_wind(0.0, None, 80.0, 4.0, 6.0);
        // In the hand at 2 m: aloft the mean is 40^0.17 times as much, and the gust still 2 m/s over it.
        let aloft = 4.0 * 40.0_f64.powf(0.17);
        check_wind(4.0, Some(6.0), 2.0, aloft, aloft + 2.0);
        check_wind(4.0, None, 2.0, aloft / 2.0, (aloft + 2.0) / 2.0);
    }

    #[test]
    fn the_limit_named_is_the_one_most_flights_fall_short_of() {
        let scenario = Scenario::demo();
        let scorer = Scorer::new(&scenario);
        let mut plan = scorer.score(&[draw(&scenario, 0, WindChoice::Mean)]).remove(0);
        plan.gaps.iter_mut().for_each(|gap| gap.verdict = Verdict::Clear);
        let tally = |short: [u64; 3]| {
            let limit = |breached| LimitTally { breached, thin: breached, least: 0.0, least_case: 1 };
            Tally { limits: short.map(limit).to_vec(), ..Tally::new(0) }
        };
        assert_eq!(fails_most(&plan, &tally([0, 0, 0])), None);
        assert_eq!(fails_most(&plan, &tally([1, 3, 2])), Some(1));
        assert_eq!(fails_most(&plan, &tally([2, 1, 2])), Some(0), "the first of two alike");
        plan.gaps[2].verdict = Verdict::Thin;
        assert_eq!(fails_most(&plan, &tally([2, 1, 2])), Some(2), "the plan counts too");
    }

    #[test]
    fn whole_winds_end_at_the_return_speed() {
        let scenario = Scenario::demo();
        assert_eq!((whole_winds(&scenario).last(), parts(&scenario)), (Some(&22.0), 23 + 2));
    }

    #[track_caller]
    fn check_near(edit: impl FnOnce(&mut Scenario), named: Option<&str>) {
        let mut scenario = Scenario::demo();
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
