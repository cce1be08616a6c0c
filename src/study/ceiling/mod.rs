//! Up to what wind does the chosen circle hold, from each direction: the go or no-go table a pilot carries.

mod plan;
mod search;

use crate::jet::turn;
use crate::ledger::{LimitInfo, Scorer};
use crate::recovery::Turn;
use crate::run::Scenario;
use crate::study::Tally;
use crate::study::work::{Work, in_order};
use plan::{Plan, TOGETHER, plans};
use search::{Search, loss_too_near, parts, whole_winds};

/// What is asked of a wind ceiling.
#[derive(Debug, Clone, PartialEq)]
pub struct CeilingAsk {
    /// Radius, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// Number of directions, the first from north.
    pub directions: u32,
    /// Most drawn cases a wind; with none the plan as written is all that is asked.
    pub cases: u64,
    /// Share of cases that has to meet every margin.
    pub share: f64,
    /// Confidence of every interval.
    pub confidence: f64,
}

/// The ceiling from one direction.
#[derive(Debug, Clone, PartialEq)]
pub struct Direction {
    /// Direction the wind comes from, degrees.
    pub from_deg: f64,
    /// Highest mean wind at circle height that meets the demand, with everything below it meeting it too, m/s; none
    /// where not even a calm does.
    pub ceiling_mps: Option<f64>,
    /// The gusts at circle height that go with it, in the plan's proportion to the mean, m/s.
    pub gust_mps: Option<f64>,
    /// The highest mean wind of the plan as written alone, m/s: never less, and the same where no cases are asked for.
    pub plan_mps: Option<f64>,
    /// What a hand-held meter at 2 m then reads, low and high over the range of wind profiles, m/s.
    pub at_2m_mps: Option<[f64; 2]>,
    /// The least wind flown that does not meet it, m/s; none where the search ended at the return speed.
    pub fails_mps: Option<f64>,
    /// The limit that fails most there, as a number into the limits.
    pub limit: Option<usize>,
    /// Cases at the ceiling; none where none are asked for.
    pub held: Option<Tally>,
    /// Cases at the wind that fails: only a few where the plan as written already fails there.
    pub failed: Option<Tally>,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct CeilingStudy {
    /// What was asked.
    pub ask: CeilingAsk,
    /// The limits, in the order of every tally's.
    pub limits: Vec<LimitInfo>,
    /// Every direction; those not done before a stop are left out.
    pub directions: Vec<Direction>,
    /// The direction with the lowest ceiling, as a number into the directions.
    pub worst: Option<usize>,
    /// Closed form: most wind in which the bank limit holds the radius, m/s.
    pub bank_mps: f64,
    /// The limit that the loss itself lies nearer to than is asked for, as a number into the limits: then no wind meets
    /// the demand, and none is flown.
    pub loss_too_near: Option<usize>,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}

impl CeilingAsk {
    /// The circle of the scenario, 36 directions, 1,000 cases, 90 % of them, at 95 % confidence.
    pub fn usual(scenario: &Scenario) -> Self {
        Self {
            radius_m: scenario.file.recovery.radius.m(),
            turn: scenario.file.recovery.turn,
            directions: 36,
            cases: 1000,
            share: 0.9,
            confidence: 0.95,
        }
    }

    /// The plan as written alone: at once, to be followed by the usual one.
    pub fn coarse(scenario: &Scenario) -> Self {
        Self { cases: 0, ..Self::usual(scenario) }
    }
}

/// The wind ceilings of a scenario's circle.
///
/// A wind meets the demand where the plan as written meets every margin in it, and the share of drawn cases that do
/// reaches the share asked for by its interval. The cases are the same in every direction and wind, so that what differs
/// is the wind alone. The work counts winds to try.
pub fn ceiling(scenario: &Scenario, ask: &CeilingAsk, work: &Work) -> CeilingStudy {
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
        let plans: Vec<Plan> = flown.results.into_iter().map_while(|plans| plans).flatten().collect();
        let found = in_order(work, 0..plans.len() as u64, |index| {
            let (search, plan) = (search(index), &plans[index as usize]);
            if ask.cases > 0 {
                return search.run(plan);
            }
            work.add(each);
            Some(plan.direction(&search))
        });
        found.results.into_iter().map_while(|direction| direction).collect()
    };
    let height = |direction: &Direction| direction.ceiling_mps.unwrap_or(-1.0);
    let worst = (0..directions.len()).min_by(|&a, &b| height(&directions[a]).total_cmp(&height(&directions[b])));
    let jet = &scenario.file.jet;
    CeilingStudy {
        ask: ask.clone(),
        limits,
        worst,
        bank_mps: turn::wind_ceiling(jet.return_speed.value.mps(), ask.radius_m, jet.bank_limit.value.rad()),
        loss_too_near,
        partial: (directions.len() as u64) < count,
        directions,
    }
}

impl Direction {
    /// No wind meets the demand, for a limit known beforehand.
    fn none(from_deg: f64, limit: Option<usize>) -> Self {
        Self {
            from_deg,
            ceiling_mps: None,
            gust_mps: None,
            plan_mps: None,
            at_2m_mps: None,
            fails_mps: Some(0.0),
            limit,
            held: None,
            failed: None,
        }
    }
}
