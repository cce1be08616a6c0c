//! Up to what wind does the chosen circle hold, from each direction: the go or no-go table a pilot carries.

mod near;
mod plan;
mod search;
mod short;
mod winds;

use crate::jet::turn;
use crate::margins::{LimitInfo, Scorer};
use crate::recovery::Turn;
use crate::run::{Limits, Scenario};
use crate::study::Tally;
use crate::study::verdict::{Answer, Demand};
use crate::study::work::{Work, in_order};
use crate::units::Bearing;
use near::loss_too_near;
use plan::{TOGETHER, WindPlan, plans};
use search::{Nearby, Search};
use winds::{HALVINGS, parts, whole_winds};

/// Between what holds and what is undecided or fails lies such a step, m/s.
pub const STEP_MPS: f64 = 1.0 / (1 << HALVINGS) as f64;

/// Of so many directions side by side one is searched by itself, and the others from where it ended.
const ONE_OF: u64 = 4;

/// What is asked of a wind limit.
#[derive(Debug, Clone, PartialEq)]
pub struct WindLimitAsk {
    /// Radius, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// Number of directions, the first from north.
    pub directions: u32,
    /// Most trials a wind: where the demand of the limits is decided sooner, no more are flown. With none the plan as
    /// entered is all that is asked, and no verdict is made.
    pub trials: u64,
    /// Confidence of every answer and interval.
    pub confidence: f64,
}

/// The wind limit from one direction.
#[derive(Debug, Clone, PartialEq)]
pub struct Direction {
    /// Direction the wind comes from, degrees.
    pub from_deg: f64,
    /// Highest mean wind at circle height whose trials say yes, m/s, with a no in none of the whole winds below it;
    /// none where not even a calm is known to hold.
    pub wind_limit_mps: Option<f64>,
    /// The gusts at circle height that go with it, in the plan's proportion to the mean, m/s.
    pub gust_mps: Option<f64>,
    /// The highest in which the plan as entered, nothing drawn, keeps every buffer, m/s; the wind limit itself where no
    /// trials are asked for.
    pub plan_mps: Option<f64>,
    /// What a hand-held meter at 2 m then reads, low and high over the range of wind profiles, m/s.
    pub at_2m_mps: Option<[f64; 2]>,
    /// The least wind whose trials say no, m/s; none where the search ended at the return speed.
    pub fails_mps: Option<f64>,
    /// Lowest and highest wind between the two, in which the most trials don't tell or more would hardly, m/s; none where
    /// there is none.
    pub undecided_mps: Option<[f64; 2]>,
    /// The limit that fails most where it fails, as a number into the limits.
    pub limit: Option<usize>,
    /// Trials at the wind limit; none where none are asked for.
    pub held: Option<Tally>,
    /// Trials at the wind that fails.
    pub failed: Option<Tally>,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct WindLimitStudy {
    /// What was asked.
    pub ask: WindLimitAsk,
    /// What the trials have to meet.
    pub demand: Demand,
    /// The limits, in the order of every tally's.
    pub limits: Vec<LimitInfo>,
    /// Every direction; those not done before a stop are left out.
    pub directions: Vec<Direction>,
    /// The direction with the lowest wind limit, as a number into the directions.
    pub worst: Option<usize>,
    /// Closed form: most wind in which the maximum bank holds the radius, m/s.
    pub bank_mps: f64,
    /// The limit that the loss itself lies nearer to than is asked for, as a number into the limits: then no wind meets
    /// the demand, and none is flown. None where trials are lost along a circuit.
    pub loss_too_near: Option<usize>,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}

impl WindLimitAsk {
    /// The circle of the scenario, 36 directions, up to 512 trials a wind, at 95 % confidence.
    pub fn usual(scenario: &Scenario) -> Self {
        Self {
            radius_m: scenario.file.recovery.radius.m(),
            turn: scenario.file.recovery.turn,
            directions: 36,
            trials: 512,
            confidence: 0.95,
        }
    }

    /// What the limits ask of the trials, in as many as are asked for here.
    pub fn demand(&self, limits: &Limits) -> Demand {
        Demand { most: self.trials, confidence: self.confidence, ..Demand::of(limits) }
    }

    /// The plan as entered, without errors: at once, to be followed by the usual one.
    pub fn coarse(scenario: &Scenario) -> Self {
        Self { trials: 0, ..Self::usual(scenario) }
    }
}

/// The wind limits of a scenario's circle.
///
/// Each wind flown is answered by its trials, flown until they decide. The ends are looked for a step at a time from where
/// those of a direction nearby lie, which takes it that more wind is never easier; so every whole wind below the wind limit
/// is flown too, in 32 trials, and where one of them says no the wind limit is looked for below it. The trials are the same
/// in every direction and wind, so that what differs is the wind alone, and those that fall short in one wind are flown
/// first in the next. The work counts winds to try.
pub fn wind_limit(scenario: &Scenario, ask: &WindLimitAsk, work: &Work) -> WindLimitStudy {
    let scorer = Scorer::new(scenario);
    let limits = scorer.limits().to_vec();
    let loss_too_near = loss_too_near(scenario, &limits);
    let count = u64::from(ask.directions);
    let each = parts(scenario);
    work.expect(count * each);
    let search = |index: u64| Search::new(scenario, ask, &scorer, work, 360.0 * index as f64 / count as f64);
    let directions: Vec<Direction> = if loss_too_near.is_some() {
        work.add(count * each);
        let told = if work.go_on() { 0..count } else { 0..0 };
        told.map(|index| Direction::none(search(index).from_deg, loss_too_near)).collect()
    } else {
        let winds = whole_winds(scenario);
        let flown = in_order(work, 0..count.div_ceil(TOGETHER), |group| {
            let those = group * TOGETHER..count.min((group + 1) * TOGETHER);
            plans(work, &mut those.map(search).collect::<Vec<_>>(), &winds)
        });
        let plans: Vec<WindPlan> = flown.results.into_iter().map_while(|plans| plans).flatten().collect();
        let one = |index: u64, nearby: Option<Nearby>| {
            let (search, plan) = (search(index), &plans[index as usize]);
            if ask.trials > 0 {
                return search.run(plan.held_mps, nearby);
            }
            work.add(each);
            Some(plan.direction(&search))
        };
        // One of a few first, from which its neighbours begin.
        let flown = plans.len() as u64;
        let first = in_order(work, 0..flown.div_ceil(ONE_OF), |index| one(index * ONE_OF, None)).results;
        let others: Vec<u64> = (0..flown).filter(|index| index % ONE_OF != 0).collect();
        let then = in_order(work, 0..others.len() as u64, |index| {
            let index = others[index as usize];
            let nearest = (index + ONE_OF / 2) / ONE_OF % first.len().max(1) as u64;
            let nearby = first.get(nearest as usize)?.as_ref().map(Nearby::of);
            one(index, nearby)
        });
        let mut all: Vec<Direction> = first.into_iter().chain(then.results).flatten().collect();
        all.sort_by(|a, b| a.from_deg.total_cmp(&b.from_deg));
        all
    };
    let height = |mps: Option<f64>, none: f64| mps.unwrap_or(none);
    let worst = (0..directions.len()).min_by(|&a, &b| {
        let (a, b) = (&directions[a], &directions[b]);
        let held = height(a.wind_limit_mps, -1.0).total_cmp(&height(b.wind_limit_mps, -1.0));
        held.then(height(a.fails_mps, f64::INFINITY).total_cmp(&height(b.fails_mps, f64::INFINITY)))
    });
    let jet = &scenario.file.jet;
    WindLimitStudy {
        ask: ask.clone(),
        demand: ask.demand(&scenario.file.limits),
        limits,
        worst,
        bank_mps: turn::wind_limit(jet.return_speed.value.mps(), ask.radius_m, jet.maximum_bank.value.rad()),
        loss_too_near,
        partial: (directions.len() as u64) < count,
        directions,
    }
}

impl Direction {
    /// Whether the circle holds in a wind, m/s. Between the wind limit and the least wind that fails it is undecided
    /// where winds between them stayed so, and else no: a step is the finest that is told.
    pub fn answer(&self, wind_mps: f64) -> Answer {
        match (self.wind_limit_mps, self.fails_mps) {
            (Some(wind_limit), _) if wind_mps <= wind_limit => Answer::Yes,
            (_, Some(fails)) if wind_mps >= fails => Answer::No,
            _ if self.undecided_mps.is_some() => Answer::Undecided,
            _ => Answer::No,
        }
    }

    /// No wind meets the demand, for a limit known beforehand.
    fn none(from_deg: f64, limit: Option<usize>) -> Self {
        Self {
            from_deg,
            wind_limit_mps: None,
            gust_mps: None,
            plan_mps: None,
            at_2m_mps: None,
            fails_mps: Some(0.0),
            undecided_mps: None,
            limit,
            held: None,
            failed: None,
        }
    }
}

/// The direction studied that is nearest to another.
pub fn here(study: &WindLimitStudy, from: Bearing) -> Option<&Direction> {
    let away = |direction: &&Direction| {
        let turned = (direction.from_deg - from.deg()).rem_euclid(360.0);
        turned.min(360.0 - turned)
    };
    study.directions.iter().min_by(|a, b| away(a).total_cmp(&away(b)))
}
