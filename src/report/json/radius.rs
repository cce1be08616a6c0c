//! The radius study's own part of the JSON.

use serde::Serialize;

use super::blocks::Point;
use super::trials::{Demand, Score, Tally, Verdict};
use crate::margins::{self, LimitInfo};
use crate::recovery::{Gain, Guidance, Turn};
use crate::study::radius::{self, RadiusRange, RadiusStudy};
use crate::study::{self, verdict};
use crate::words;

#[derive(Serialize)]
pub(super) struct Radius<'a> {
    trials: u64,
    confidence: f64,
    first_look: bool,
    demand: Demand,
    plan_verdict: Option<Verdict>,
    choice: Option<Choice<'a>>,
    least_bad: Option<Choice<'a>>,
    not_met_before_it_acts: Vec<String>,
    usable_radii: UsableRadii<'a>,
    points: Vec<Flown<'a>>,
    closed_form: ClosedForm<'a>,
    room: Room<'a>,
    looked_at: Circle,
    sensitivity: Vec<Sensitivity<'a>>,
    family: Vec<Law<'a>>,
    what_would_help: Vec<Remedy<'a>>,
    best_centre: Option<BestCentre<'a>>,
}

#[derive(Serialize)]
struct Circle {
    radius_m: f64,
    turn: Turn,
}

/// A circle, flown without errors in both winds and in trials.
#[derive(Serialize)]
struct Flown<'a> {
    #[serde(flatten)]
    circle: Circle,
    mean: Score<'a>,
    gust: Score<'a>,
    trials: Tally<'a>,
    verdict: Option<Verdict>,
}

#[derive(Serialize)]
struct Choice<'a> {
    #[serde(flatten)]
    flown: Flown<'a>,
    closest: Vec<&'a str>,
}

#[derive(Serialize)]
struct UsableRadii<'a> {
    mean: Vec<Range<'a>>,
    gust: Vec<Range<'a>>,
    trials: Vec<Range<'a>>,
    undecided: Vec<Range<'a>>,
}

#[derive(Serialize)]
struct Range<'a> {
    turn: Turn,
    low_m: f64,
    low_limit: Option<&'a str>,
    low_reason: String,
    high_m: f64,
    high_limit: Option<&'a str>,
    high_reason: String,
}

#[derive(Serialize)]
struct ClosedForm<'a> {
    smallest_still_m: f64,
    smallest_mean_m: f64,
    smallest_gust_m: f64,
    largest_m: f64,
    largest_reason: &'a str,
    slowest_mps: f64,
    fastest_mps: f64,
    wind_limit_mps: f64,
}

#[derive(Serialize)]
struct Room<'a> {
    free_m: f64,
    free_to: &'a str,
    falls_m: f64,
    lines: Vec<Takes<'a>>,
}

#[derive(Serialize)]
struct Takes<'a> {
    name: &'static str,
    takes_m: f64,
    origin: &'a str,
}

#[derive(Serialize)]
struct Sensitivity<'a> {
    input: &'static str,
    values: &'a [String; 2],
    furthest_m: [Option<f64>; 2],
    spare_m: [f64; 2],
    smallest_m: [f64; 2],
}

#[derive(Serialize)]
struct Law<'a> {
    guidance: Guidance,
    gain: Gain,
    mean: Score<'a>,
}

#[derive(Serialize)]
struct Remedy<'a> {
    change: &'a str,
    mean: Vec<Range<'a>>,
    gust: Vec<Range<'a>>,
}

#[derive(Serialize)]
struct BestCentre<'a> {
    centre: Point,
    #[serde(flatten)]
    circle: Circle,
    usable_radii: Vec<Range<'a>>,
    mean: Score<'a>,
}

impl<'a> From<&'a RadiusStudy> for Radius<'a> {
    fn from(study: &'a RadiusStudy) -> Self {
        let (ask, limits, closed) = (&study.ask, study.limits.as_slice(), &study.closed);
        let [smallest_still_m, smallest_mean_m, smallest_gust_m] = closed.smallest_m;
        let [slowest_mps, fastest_mps] = closed.speed_window_mps;
        let ranges = |usable: &'a [RadiusRange]| usable.iter().map(|range| Range::new(range, limits)).collect();
        let score = |score: &margins::Score| Score::new(score, limits);
        let perhaps = |found: &Option<verdict::Verdict>| found.as_ref().map(Into::into);
        let flown = |radius_m, turn, winds: [&margins::Score; 2], trials: &study::Tally, judged: &Option<_>| Flown {
            circle: Circle { radius_m, turn },
            mean: score(winds[0]),
            gust: score(winds[1]),
            trials: Tally::new(trials, limits, ask.confidence),
            verdict: perhaps(judged),
        };
        let choice = |one: &radius::Choice| Choice {
            flown: flown(one.radius_m, one.turn, [&one.mean, &one.gust], &one.trials, &one.verdict),
            closest: one.closest.iter().filter_map(|&index| Some(limits.get(index)?.name.as_str())).collect(),
        };
        let points = study
            .points
            .iter()
            .map(|one| flown(one.radius_m, one.turn, [&one.mean, &one.gust], &one.trials, &one.verdict));
        let takes =
            |part: &'a radius::BudgetLine| Takes { name: part.name, takes_m: part.metres, origin: &part.origin };
        let moves = study.sensitivity.iter().map(|moved| Sensitivity {
            input: moved.input,
            values: &moved.values,
            furthest_m: moved.furthest_m,
            spare_m: moved.spare_m,
            smallest_m: moved.smallest_m,
        });
        let laws =
            study.family.iter().map(|law| Law { guidance: law.guidance, gain: law.gain, mean: score(&law.mean) });
        let helps = study.remedies.iter().map(|remedy| Remedy {
            change: &remedy.change,
            mean: ranges(&remedy.usable),
            gust: ranges(&remedy.gust),
        });
        Self {
            trials: ask.trials,
            confidence: ask.confidence,
            first_look: ask.first_look,
            demand: (&study.demand).into(),
            plan_verdict: perhaps(&study.plan),
            choice: study.choice.as_ref().map(choice),
            least_bad: study.least_bad.as_ref().map(choice),
            not_met_before_it_acts: study.already.iter().map(words::shortfall).collect(),
            usable_radii: UsableRadii {
                mean: ranges(&study.usable.mean),
                gust: ranges(&study.usable.gust),
                trials: ranges(&study.usable.trials),
                undecided: ranges(&study.usable.undecided),
            },
            points: points.collect(),
            closed_form: ClosedForm {
                smallest_still_m,
                smallest_mean_m,
                smallest_gust_m,
                largest_m: closed.largest_m,
                largest_reason: &closed.largest_reason,
                slowest_mps,
                fastest_mps,
                wind_limit_mps: closed.wind_limit_mps,
            },
            room: Room {
                free_m: study.free_m,
                free_to: &study.free_to,
                falls_m: study.falls_m,
                lines: study.budget.iter().map(takes).collect(),
            },
            looked_at: Circle { radius_m: study.looked_at.0, turn: study.looked_at.1 },
            sensitivity: moves.collect(),
            family: laws.collect(),
            what_would_help: helps.collect(),
            best_centre: study.best_centre.as_ref().map(|best| BestCentre {
                centre: best.centre.into(),
                circle: Circle { radius_m: best.radius_m, turn: best.turn },
                usable_radii: ranges(&best.usable),
                mean: score(&best.mean),
            }),
        }
    }
}

impl<'a> Range<'a> {
    fn new(range: &RadiusRange, limits: &'a [LimitInfo]) -> Self {
        let limit = |limit| limits.iter().find(|info| Some(info.limit) == limit).map(|info| info.name.as_str());
        Self {
            turn: range.turn,
            low_m: range.low.radius_m,
            low_limit: limit(range.low.reason.limit()),
            low_reason: words::end(&range.low),
            high_m: range.high.radius_m,
            high_limit: limit(range.high.reason.limit()),
            high_reason: words::end(&range.high),
        }
    }
}
