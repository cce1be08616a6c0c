//! Flies and judges circles of one scenario, many at a time: does each meet what was asked for, and by how much.

use glam::DVec2;
use rayon::prelude::*;

use super::{Reason, Shortfall};
use crate::margins::{Gap, Limit, LimitInfo, MarginUnit, Score, Scorer, held_within_m};
use crate::recovery::Turn;
use crate::run::{Ending, Scenario, Trial, WindChoice, draw};
use crate::study::work::Work;

/// Recoveries that are flown together, between looks at whether to go on: where none comes home, they take 10 ms.
pub(super) const BATCH: usize = 32;
/// What a circle that is never flown a whole lap of falls short by, in scales: worse than any that still settles.
const UNSETTLED: f64 = -100.0;

/// A commanded circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Circle {
    pub(super) radius_m: f64,
    pub(super) turn: Turn,
}

/// A circle flown as the plan is written.
#[derive(Debug, Clone)]
pub(super) struct Flight {
    pub(super) circle: Circle,
    pub(super) score: Score,
}

/// The recoveries of one scenario about one centre.
#[derive(Debug, Clone)]
pub(super) struct CircleFlyer<'a> {
    pub(super) scenario: &'a Scenario,
    pub(super) centre: DVec2,
    pub(super) work: &'a Work,
    /// Whether a stop ends the flying, so that fewer come back than were sent.
    heeds: bool,
    scorer: Scorer<'a>,
    plain: [Trial; 2],
}

impl Circle {
    /// The circle of the plan as entered.
    pub(super) fn planned(scenario: &Scenario) -> Self {
        let plan = &scenario.file.recovery;
        Self { radius_m: plan.radius.m(), turn: plan.turn }
    }

    /// How far it was blown wide, metres; none where no whole lap was flown.
    pub(super) fn blown_wide(self, score: &Score) -> Option<f64> {
        score.furthest_m.map(|furthest| furthest - self.radius_m)
    }
}

impl<'a> CircleFlyer<'a> {
    pub(super) fn new(scenario: &'a Scenario, work: &'a Work) -> Self {
        let plain = [WindChoice::Mean, WindChoice::Gust].map(|wind| draw(scenario, 0, wind));
        Self { scenario, centre: scenario.field.centre, work, heeds: true, scorer: Scorer::new(scenario), plain }
    }

    /// The same about another centre.
    pub(super) fn about(&self, centre: DVec2) -> Self {
        Self { centre, plain: self.plain.map(|trial| trial.about(centre)), ..self.clone() }
    }

    /// The same, flown to the end whether stopped or not.
    pub(super) fn regardless(&self) -> Self {
        Self { heeds: false, ..self.clone() }
    }

    pub(super) fn limits(&self) -> &[LimitInfo] {
        self.scorer.limits()
    }

    /// The plan as entered, nothing drawn.
    pub(super) fn plain(&self, wind: WindChoice) -> &Trial {
        &self.plain[wind as usize]
    }

    /// Flies and judges trials, on every thread: the first of them where the work is stopped on the way.
    pub(super) fn score(&self, trials: &[Trial]) -> Vec<Score> {
        let go_on = || !self.heeds || self.work.go_on();
        let parts = trials.par_chunks(BATCH).map(|some| go_on().then(|| self.score_here(some)));
        let parts: Vec<Option<Vec<Score>>> = parts.collect();
        parts.into_iter().map_while(|part| part).flatten().collect()
    }

    /// The same on this thread.
    pub(super) fn score_here(&self, trials: &[Trial]) -> Vec<Score> {
        self.work.add(trials.len() as u64);
        self.scorer.score(trials)
    }

    /// Flies circles as the plan is written; the first of them where the work is stopped on the way.
    pub(super) fn fly(&self, circles: &[Circle], wind: WindChoice) -> Vec<Flight> {
        self.work.expect(circles.len() as u64);
        let trials: Vec<Trial> =
            circles.iter().map(|circle| self.plain(wind).circling(circle.radius_m, circle.turn)).collect();
        let scores = self.score(&trials);
        circles.iter().zip(scores).map(|(&circle, score)| Flight { circle, score }).collect()
    }

    /// Whether there is a circle to hold at all: a glide and a flight without a position have none.
    pub(super) fn circles(&self) -> bool {
        let setting = self.scorer.setting();
        setting.standing.has_position && !setting.cuts()
    }

    /// Number, spare beyond the buffer in scales, and margin of every limit that ranks circles.
    fn weighed<'b>(&'b self, score: &'b Score) -> impl Iterator<Item = (usize, f64, &'b Gap)> + use<'a, 'b> {
        let gaps = self.limits().iter().zip(&score.gaps).enumerate();
        gaps.filter_map(|(index, (info, gap))| {
            let scale = scale(self.scenario, info).filter(|_| gap.margin.is_finite())?;
            Some((index, (gap.margin - gap.buffer) / scale, gap))
        })
    }

    /// Whether a margin is not met before the jet acts on the loss: no circle fixes that.
    fn already(&self, gap: &Gap) -> bool {
        gap.margin < gap.buffer && gap.at_s <= self.plain(WindChoice::Mean).plan.failsafe_delay
    }

    /// What is not met, whatever the circle, before the jet acts on the loss.
    pub(super) fn already_short(&self, flights: &[Flight]) -> Vec<Shortfall> {
        let gaps = |index: usize| flights.iter().map(move |flight| &flight.score.gaps[index]);
        let all = self.limits().iter().enumerate().filter(|(index, info)| {
            scale(self.scenario, info).is_some() && !flights.is_empty() && gaps(*index).all(|gap| self.already(gap))
        });
        all.filter_map(|(index, info)| gaps(index).next().map(|gap| shortfall(info, gap))).collect()
    }

    /// Spare beyond the buffer of every limit that a circle may change, in scales.
    pub(super) fn spares<'b>(&'b self, score: &'b Score) -> impl Iterator<Item = (usize, f64)> + use<'a, 'b> {
        self.weighed(score).filter(|(_, _, gap)| !self.already(gap)).map(|(index, spare, _)| (index, spare))
    }

    /// Least spare beyond any buffer, in scales. A circle that is not held has less than none.
    pub(super) fn least_spare(&self, circle: Circle, score: &Score) -> f64 {
        let least = self.spares(score).map(|(_, spare)| spare).fold(f64::INFINITY, f64::min);
        if score.held {
            return least;
        }
        least.min(
            circle
                .blown_wide(score)
                .map_or(UNSETTLED, |blown_wide| (held_within_m(circle.radius_m) - blown_wide) / 20.0),
        )
    }

    /// Least spare beyond the buffer of what is measured in metres, metres.
    pub(super) fn least_spare_m(&self, score: &Score) -> f64 {
        let gaps = self.limits().iter().zip(&score.gaps).filter(|(info, _)| info.unit == MarginUnit::Metres);
        gaps.map(|(_, gap)| gap.margin - gap.buffer).fold(f64::INFINITY, f64::min)
    }

    /// Why a circle does not do; none where it meets every limit.
    pub(super) fn lacks(&self, circle: Circle, score: &Score) -> Option<Reason> {
        if !score.held {
            return Some(circle.blown_wide(score).map_or(Reason::NeverSettles, Reason::BlownWide));
        }
        if score.kept {
            return None;
        }
        // What another circle may change is named before what none does.
        let short = self.weighed(score).filter(|&(_, spare, _)| spare < 0.0);
        let most = short.min_by(|a, b| self.already(a.2).cmp(&self.already(b.2)).then(a.1.total_cmp(&b.1)));
        Some(match most {
            Some((index, _, gap)) if self.already(gap) => Reason::AlreadyShort(shortfall(&self.limits()[index], gap)),
            Some((index, _, gap)) => Reason::Short(shortfall(&self.limits()[index], gap)),
            None if score.ending == Ending::Empty => Reason::Empty,
            None => Reason::NeverHome,
        })
    }
}

/// What a margin of a limit is weighed by (judgement); none where it does not rank circles: the maximum bank is kept by the
/// autopilot, and seconds over a caution area are no margin.
pub(in crate::study) fn scale(scenario: &Scenario, info: &LimitInfo) -> Option<f64> {
    match (info.limit, info.unit) {
        (Limit::Bank, _) | (Limit::Area(_), MarginUnit::Seconds) => None,
        (Limit::SightAngle, _) => Some(scenario.file.limits.smallest_angle.rad().to_degrees()),
        (_, MarginUnit::Metres) => Some(20.0),
        (_, MarginUnit::Seconds) => Some(60.0),
        (_, MarginUnit::MetresASecond) => Some(3.0),
        _ => Some(5.0),
    }
}

fn shortfall(info: &LimitInfo, gap: &Gap) -> Shortfall {
    Shortfall { limit: info.clone(), margin: gap.margin, buffer: gap.buffer }
}
