//! What trials and single flights of a study came to, for other programs.

use serde::Serialize;
use serde_json::{Map, Value};

use super::blocks::{amounts, in_unit};
use crate::margins::{LimitInfo, Outcome};
use crate::study::stats::Share;
use crate::study::{self, verdict};
use crate::{margins, words};

#[derive(Serialize)]
struct Interval {
    low_share: f64,
    high_share: f64,
}

/// Those that crossed a limit, and those that kept every buffer.
#[derive(Serialize)]
pub(super) struct Counts {
    crossed: u64,
    crossed_interval: Option<Interval>,
    kept: u64,
    kept_interval: Option<Interval>,
}

/// What is asked of trials.
#[derive(Serialize)]
pub(super) struct Demand {
    crossed_at_most_share: f64,
    kept_at_least_share: f64,
    confidence: f64,
    most_trials: u64,
}

/// A verdict in all its parts.
#[derive(Serialize)]
pub(in crate::report) struct Verdict {
    answer: &'static str,
    not_crossing: &'static str,
    keeping: &'static str,
    trials: u64,
    #[serde(flatten)]
    counts: Counts,
    held: u64,
    held_interval: Option<Interval>,
    demand: Demand,
    told: String,
}

#[derive(Serialize)]
pub(super) struct Tally<'a> {
    trials: u64,
    #[serde(flatten)]
    counts: Counts,
    held: u64,
    held_interval: Option<Interval>,
    outcomes: Map<String, Value>,
    limits: Vec<LimitTally<'a>>,
}

#[derive(Serialize)]
struct LimitTally<'a> {
    limit: &'a str,
    crossed: u64,
    crossed_interval: Option<Interval>,
    inside_buffer: u64,
    #[serde(flatten)]
    least: Map<String, Value>,
    least_trial: u64,
}

#[derive(Serialize)]
pub(super) struct Score<'a> {
    outcome: &'static str,
    crossed: bool,
    kept: bool,
    held: bool,
    ending: &'static str,
    end_s: f64,
    furthest_m: Option<f64>,
    joining_overshoot_m: Option<f64>,
    turn_back_m: f64,
    lap_s: Option<f64>,
    saturated_share: Option<f64>,
    home_s: Option<f64>,
    energy_home_wh: f64,
    laps_to_reserve: Option<f64>,
    margins: Vec<Gap<'a>>,
}

#[derive(Serialize)]
struct Gap<'a> {
    limit: &'a str,
    verdict: &'static str,
    #[serde(flatten)]
    amounts: Map<String, Value>,
    at_s: f64,
}

/// Counts of every outcome.
pub(in crate::report) fn outcomes(counts: &[u64; Outcome::ALL.len()]) -> Map<String, Value> {
    let pairs = Outcome::ALL.iter().zip(counts);
    pairs.map(|(outcome, count)| (words::outcome_key(*outcome), (*count).into())).collect()
}

/// The interval of a share by Wilson, as if the number of trials had been fixed beforehand; none of no trials.
fn wilson(count: u64, of: u64, confidence: f64) -> Option<Interval> {
    (of > 0).then(|| Share { count, of }.wilson(confidence).into())
}

impl From<study::stats::Interval> for Interval {
    fn from(interval: study::stats::Interval) -> Self {
        Self { low_share: interval.low, high_share: interval.high }
    }
}

impl Counts {
    pub(super) fn new([crossed, kept]: [u64; 2], of: u64, confidence: f64) -> Self {
        let [crossed_interval, kept_interval] = [crossed, kept].map(|count| wilson(count, of, confidence));
        Self { crossed, crossed_interval, kept, kept_interval }
    }
}

impl From<&verdict::Demand> for Demand {
    fn from(demand: &verdict::Demand) -> Self {
        Self {
            crossed_at_most_share: demand.crossed_at_most,
            kept_at_least_share: demand.kept_at_least,
            confidence: demand.confidence,
            most_trials: demand.most,
        }
    }
}

impl From<&verdict::Verdict> for Verdict {
    fn from(verdict: &verdict::Verdict) -> Self {
        let interval = |share: Share| Some(verdict.demand.interval(share).into());
        Self {
            answer: verdict.answer.name(),
            not_crossing: verdict.not_crossing.name(),
            keeping: verdict.keeping.name(),
            trials: verdict.trials,
            counts: Counts {
                crossed: verdict.crossed.count,
                crossed_interval: interval(verdict.crossed),
                kept: verdict.kept.count,
                kept_interval: interval(verdict.kept),
            },
            held: verdict.held.count,
            held_interval: interval(verdict.held),
            demand: (&verdict.demand).into(),
            told: verdict.in_words(),
        }
    }
}

impl<'a> Tally<'a> {
    pub(super) fn new(tally: &study::Tally, limits: &'a [LimitInfo], confidence: f64) -> Self {
        let limits = limits.iter().zip(&tally.limits).map(|(info, limit)| LimitTally {
            limit: &info.name,
            crossed: limit.crossed,
            crossed_interval: wilson(limit.crossed, tally.trials, confidence),
            inside_buffer: limit.inside_buffer,
            least: [(in_unit("least", info.unit), limit.least.into())].into_iter().collect(),
            least_trial: limit.least_trial,
        });
        Self {
            trials: tally.trials,
            counts: Counts::new([tally.crossed, tally.kept], tally.trials, confidence),
            held: tally.held,
            held_interval: wilson(tally.held, tally.trials, confidence),
            outcomes: outcomes(&tally.outcomes),
            limits: limits.collect(),
        }
    }
}

impl<'a> Score<'a> {
    pub(super) fn new(score: &margins::Score, limits: &'a [LimitInfo]) -> Self {
        let margins = limits.iter().zip(&score.gaps).map(|(info, gap)| Gap {
            limit: &info.name,
            verdict: gap.verdict.name(),
            amounts: amounts(info.unit, gap.verdict, [gap.margin, gap.buffer]),
            at_s: gap.at_s,
        });
        Self {
            outcome: score.outcome.name(),
            crossed: score.crossed,
            kept: score.kept,
            held: score.held,
            ending: words::ending_key(score.ending),
            end_s: score.end_s,
            furthest_m: score.furthest_m,
            joining_overshoot_m: score.joining_overshoot_m,
            turn_back_m: score.turn_back_m,
            lap_s: score.lap_s,
            saturated_share: score.saturated_share,
            home_s: score.home_s,
            energy_home_wh: score.energy_home_j / 3600.0,
            laps_to_reserve: score.laps_to_reserve,
            margins: margins.collect(),
        }
    }
}
