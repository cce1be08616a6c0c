//! Studies made up for the tests of the reports: quick, and with everything in them that a report must show.

mod losses;

pub(crate) use losses::losses;

use glam::DVec2;

use crate::margins::{Gap, Limit, LimitInfo, MarginUnit, Outcome, Score, Scorer, Verdict, held_within_m};
use crate::recovery::{Gain, Guidance, Turn};
use crate::run::{Ending, Scenario};
use crate::study::Tally;
use crate::study::radius::{
    BestCentre, BudgetLine, Choice, ClosedForm, End, Family, RadiusAsk, RadiusPoint, RadiusRange, RadiusStudy, Reason,
    Remedy, Sensitivity, Shortfall, Step, UsableRadii,
};
use crate::study::verdict::Answer;
use crate::study::wind_limit::{Direction, WindLimitAsk, WindLimitStudy};
use crate::units::Speed;

const TURNS: [Turn; 2] = [Turn::Anticlockwise, Turn::Clockwise];

/// A U about the radius the maximum bank holds in a wind, in a field with 150 m of room.
fn score(limits: &[LimitInfo], radius_m: f64, smallest_m: f64, drift_m: f64) -> Score {
    let furthest = if radius_m < smallest_m { radius_m + 1.6 * (smallest_m - radius_m) } else { radius_m };
    let settled = radius_m > 45.0;
    let spare = 150.0 - furthest - drift_m;
    let gap = |margin: f64, buffer: f64| Gap {
        margin,
        buffer,
        verdict: if margin < 0.0 {
            Verdict::Crossed
        } else if margin < buffer {
            Verdict::InsideBuffer
        } else {
            Verdict::Clear
        },
        at_s: 30.0,
    };
    let gaps: Vec<Gap> = limits
        .iter()
        .map(|info| match info.limit {
            Limit::Boundary => gap(spare, 20.0),
            Limit::Area(1) => Gap { verdict: Verdict::Counted, ..gap(3.0, 0.0) },
            Limit::Bank => gap((radius_m - smallest_m) / 10.0 + 5.0, 0.0),
            _ => gap(40.0, 10.0),
        })
        .collect();
    let outcome = match (settled, spare < 0.0) {
        (false, _) => Outcome::NeverSettled,
        (true, true) => Outcome::LeftBoundary,
        (true, false) => Outcome::Recovered,
    };
    let worst = gaps.iter().map(|gap| gap.verdict).max().unwrap_or(Verdict::Clear);
    let crossed = !settled || worst == Verdict::Crossed;
    Score {
        gaps,
        outcome,
        crossed,
        kept: !crossed && worst < Verdict::InsideBuffer,
        held: settled && furthest - radius_m <= held_within_m(radius_m),
        guidance: Guidance::FieldOfDirections,
        ending: if settled { Ending::TakenOver } else { Ending::OutOfTime },
        end_s: 120.0,
        furthest_m: settled.then_some(furthest),
        joining_overshoot_m: Some(drift_m),
        turn_back_m: 80.0,
        lap_s: settled.then_some(34.0),
        saturated_share: Some(0.2),
        home_s: settled.then_some(21.0),
        energy_home_j: 40_000.0,
        laps_to_reserve: settled.then_some(5.0),
    }
}

/// A tally of so many trials of which so many met everything.
fn tally(limits: usize, trials: u64, met: u64) -> Tally {
    let mut tally = Tally::new(limits);
    (tally.trials, tally.kept, tally.held) = (trials, met, met);
    tally.crossed = trials - met;
    tally.outcomes[Outcome::Recovered as usize] = met;
    tally.outcomes[Outcome::LeftBoundary as usize] = trials - met;
    if let Some(boundary) = tally.limits.first_mut() {
        (boundary.crossed, boundary.least, boundary.least_trial) = (trials - met, -12.5, 17);
    }
    tally
}

/// Gives its trials furthest distances from the centre about a U; on small circles some never fly a whole lap.
fn spread_out(mut tally: Tally, radius_m: f64, smallest_m: f64) -> Tally {
    let middle = radius_m.max(2.6 * smallest_m - 1.6 * radius_m);
    for trial in 1..=tally.trials {
        let off = trial as f64 / tally.trials as f64 - 0.3;
        let settles = radius_m > 75.0 || !trial.is_multiple_of(8);
        tally.furthest_m.add(trial, settles.then_some(middle + 0.25 * middle * off));
    }
    tally
}

fn range(turn: Turn, low: f64, high: f64) -> RadiusRange {
    let limit = LimitInfo { limit: Limit::Boundary, name: "boundary".into(), unit: MarginUnit::Metres, crosses: true };
    let below = End { radius_m: low, reason: Reason::BlownWide(12.0) };
    let above = End { radius_m: high, reason: Reason::Short(Shortfall { limit, margin: 14.0, buffer: 20.0 }) };
    RadiusRange { turn, low: below, high: above }
}

/// A radius study: with usable radii, or without one.
pub(crate) fn radius(scenario: &Scenario, open: bool) -> RadiusStudy {
    let limits = Scorer::new(scenario).limits().to_vec();
    let ask = RadiusAsk { trials: 512, ..RadiusAsk::usual() };
    let demand = ask.demand(&scenario.file.limits);
    let [mean, gust] = if open { [95.0, 118.0] } else { [140.0, 170.0] };
    let drift = |turn| if turn == Turn::Clockwise { 9.0 } else { 0.0 };
    let flown = |radius_m: f64, turn, smallest| score(&limits, radius_m, smallest, drift(turn));
    let trials = |radius_m: f64| {
        let share = (1.0 - ((radius_m - 112.0) / 60.0).powi(2)).clamp(0.0, 1.0);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 512")]
        let met = (share * if open { 512.0 } else { 90.0 }) as u64;
        spread_out(tally(limits.len(), 512, met), radius_m, if open { 100.0 } else { 150.0 })
    };
    let points = TURNS.into_iter().flat_map(|turn| {
        let (flown, trials) = (&flown, &trials);
        ask.radii_m.iter().map(move |&radius_m| RadiusPoint {
            radius_m,
            turn,
            mean: flown(radius_m, turn, mean),
            gust: flown(radius_m, turn, gust),
            trials: trials(radius_m),
            verdict: Some(demand.judge(&trials(radius_m))),
        })
    });
    let choice = |radius_m: f64, turn| Choice {
        radius_m,
        turn,
        mean: flown(radius_m, turn, mean),
        gust: flown(radius_m, turn, gust),
        trials: trials(radius_m),
        verdict: Some(demand.judge(&trials(radius_m))),
        closest: vec![0, 1, 3],
    };
    let usable = UsableRadii {
        mean: vec![range(TURNS[0], 92.5, 130.0), range(TURNS[1], 92.5, 120.0)],
        gust: vec![range(TURNS[0], 115.0, 130.0)],
        trials: vec![range(TURNS[0], 110.0, 120.0)],
        undecided: vec![range(TURNS[1], 105.0, 110.0)],
    };
    let best_centre = BestCentre {
        centre: DVec2::new(20.0, -60.0),
        radius_m: 120.0,
        turn: TURNS[1],
        usable: vec![range(TURNS[1], 95.0, 140.0)],
        mean: flown(120.0, TURNS[1], 95.0),
    };
    let remedies = [("return at 19 m/s instead of 22 m/s", true), ("maximum bank 40 deg instead of 35 deg", false)];
    let remedies = remedies.map(|(change, opens)| Remedy {
        step: Step::ReturnSpeed(Speed::new(19.0)),
        change: change.into(),
        usable: if opens { vec![range(TURNS[0], 105.0, 125.0)] } else { vec![] },
        gust: vec![],
    });
    RadiusStudy {
        points: points.collect(),
        usable: if open { usable } else { UsableRadii::default() },
        already: Vec::new(),
        choice: open.then(|| choice(117.5, TURNS[0])),
        least_bad: (!open).then(|| choice(130.0, TURNS[1])),
        closed: ClosedForm {
            smallest_m: [70.5, mean, gust],
            largest_m: 130.0,
            largest_reason: "boundary".into(),
            speed_window_mps: if open { [17.7, 24.1] } else { [21.0, 18.2] },
            wind_limit_mps: 6.9,
        },
        budget: vec![
            BudgetLine { name: "survey", metres: 2.0, origin: "a club's tape, value judged".into() },
            BudgetLine { name: "buffer", metres: 20.0, origin: "asked for in the scenario".into() },
        ],
        free_m: 150.0,
        free_to: "boundary".into(),
        falls_m: 84.0,
        looked_at: (117.5, TURNS[0]),
        sensitivity: vec![Sensitivity {
            input: "wind",
            values: ["5.1 m/s".into(), "6.9 m/s".into()],
            furthest_m: [Some(117.5), None],
            spare_m: [32.0, -4.0],
            smallest_m: [90.0, 101.0],
        }],
        family: vec![Family { guidance: Guidance::LookAhead, gain: Gain::Soft, mean: flown(117.5, TURNS[0], mean) }],
        remedies: if open { vec![] } else { remedies.into() },
        best_centre: Some(best_centre),
        partial: false,
        plan: Some(demand.judge(&trials(115.0))),
        demand,
        limits,
        ask,
    }
}

/// The trials of the plan's own circle, so many and of such a kind that they say so.
pub(crate) fn own_circle(scenario: &Scenario, answer: Answer) -> RadiusStudy {
    let mut study = radius(scenario, true);
    let (trials, met) = match answer {
        Answer::Yes => (2048, 2048),
        Answer::No => (512, 90),
        Answer::Undecided => (16, 16),
    };
    study.points.truncate(1);
    study.ask.trials = 2048;
    study.demand = study.ask.demand(&scenario.file.limits);
    study.points[0].trials = spread_out(tally(study.limits.len(), trials, met), 115.0, 100.0);
    study.plan = Some(study.demand.judge(&study.points[0].trials));
    assert_eq!(study.plan.map(|verdict| verdict.answer), Some(answer));
    study
}

/// Wind limits: lowest from the south, none to be found from the north.
pub(crate) fn wind_limit(scenario: &Scenario) -> WindLimitStudy {
    let limits = Scorer::new(scenario).limits().to_vec();
    let ask = WindLimitAsk { radius_m: 115.0, turn: TURNS[0], directions: 36, trials: 512, confidence: 0.95 };
    let directions: Vec<Direction> = (0..36)
        .map(|index: u32| {
            let from_deg = f64::from(index) * 10.0;
            let wind_limit = 6.5 + 3.0 * from_deg.to_radians().cos();
            let ends = index == 0;
            Direction {
                from_deg,
                wind_limit_mps: Some(if ends { 22.0 } else { wind_limit }),
                gust_mps: Some(1.5 * if ends { 22.0 } else { wind_limit }),
                plan_mps: Some(if ends { 22.0 } else { wind_limit + 1.5 }),
                at_2m_mps: Some([wind_limit / 2.1, wind_limit / 1.7]),
                fails_mps: (!ends).then_some(wind_limit + 0.5),
                undecided_mps: index.is_multiple_of(3).then_some([wind_limit + 0.25, wind_limit + 0.25]),
                limit: (!ends).then_some(if (9..27).contains(&index) { 1 } else { 0 }),
                held: Some(tally(limits.len(), 512, 511)),
                failed: Some(tally(limits.len(), 512, 360)),
            }
        })
        .collect();
    let demand = ask.demand(&scenario.file.limits);
    WindLimitStudy {
        ask,
        demand,
        limits,
        directions,
        worst: Some(18),
        bank_mps: 6.9,
        loss_too_near: None,
        partial: false,
    }
}
