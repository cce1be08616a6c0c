//! Flies and judges circles of one scenario, many at a time: does each meet what was asked for, and by how much.

use glam::DVec2;
use rayon::prelude::*;

use crate::ledger::{Gap, Limit, LimitInfo, MarginUnit, Score, Scorer, held_within_m};
use crate::recovery::Turn;
use crate::run::{Case, Ending, Scenario, WindChoice, draw};
use crate::study::work::Work;
use crate::units::{below, decimals};

/// Recoveries that are flown together, between looks at whether to go on: where none comes home, they take 10 ms.
pub(super) const BATCH: usize = 32;
/// What a circle that is never flown a whole lap of falls short by, in scales: worse than any throw that still settles.
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

/// The recoveries of one scenario about one hub.
#[derive(Debug, Clone)]
pub(super) struct Trials<'a> {
    pub(super) scenario: &'a Scenario,
    pub(super) hub: DVec2,
    pub(super) work: &'a Work,
    /// Whether a stop ends the flying, so that fewer come back than were sent.
    heeds: bool,
    scorer: Scorer<'a>,
    plain: [Case; 2],
}

impl Circle {
    /// The circle of the plan as written.
    pub(super) fn planned(scenario: &Scenario) -> Self {
        let plan = &scenario.file.recovery;
        Self { radius_m: plan.radius.m(), turn: plan.turn }
    }

    /// How far it was thrown outside, metres; none where no whole lap was flown.
    pub(super) fn thrown(self, score: &Score) -> Option<f64> {
        score.outermost_m.map(|outermost| outermost - self.radius_m)
    }
}

impl<'a> Trials<'a> {
    pub(super) fn new(scenario: &'a Scenario, work: &'a Work) -> Self {
        let plain = [WindChoice::Mean, WindChoice::Gust].map(|wind| draw(scenario, 0, wind));
        Self { scenario, hub: scenario.field.hub, work, heeds: true, scorer: Scorer::new(scenario), plain }
    }

    /// The same about another hub.
    pub(super) fn about(&self, hub: DVec2) -> Self {
        Self { hub, plain: self.plain.map(|case| case.about(hub)), ..self.clone() }
    }

    /// The same, flown to the end whether stopped or not.
    pub(super) fn regardless(&self) -> Self {
        Self { heeds: false, ..self.clone() }
    }

    pub(super) fn limits(&self) -> &[LimitInfo] {
        self.scorer.limits()
    }

    /// The plan as written, nothing drawn.
    pub(super) fn plain(&self, wind: WindChoice) -> &Case {
        &self.plain[wind as usize]
    }

    /// Flies and judges cases, on every thread: the first of them where the work is stopped on the way.
    pub(super) fn score(&self, cases: &[Case]) -> Vec<Score> {
        let go_on = || !self.heeds || self.work.go_on();
        let parts = cases.par_chunks(BATCH).map(|some| go_on().then(|| self.score_here(some)));
        let parts: Vec<Option<Vec<Score>>> = parts.collect();
        parts.into_iter().map_while(|part| part).flatten().collect()
    }

    /// The same on this thread.
    pub(super) fn score_here(&self, cases: &[Case]) -> Vec<Score> {
        self.work.add(cases.len() as u64);
        self.scorer.score(cases)
    }

    /// Flies circles as the plan is written; the first of them where the work is stopped on the way.
    pub(super) fn fly(&self, circles: &[Circle], wind: WindChoice) -> Vec<Flight> {
        self.work.expect(circles.len() as u64);
        let cases: Vec<Case> =
            circles.iter().map(|circle| self.plain(wind).circling(circle.radius_m, circle.turn)).collect();
        let scores = self.score(&cases);
        circles.iter().zip(scores).map(|(&circle, score)| Flight { circle, score }).collect()
    }

    /// Whether there is a circle to hold at all: a glide and a flight without a position have none.
    pub(super) fn circles(&self) -> bool {
        let setting = self.scorer.setting();
        setting.standing.has_fix && !setting.cuts()
    }

    /// What a margin of a limit is weighed by; none where it does not rank circles: the bank limit is kept by the
    /// autopilot, and seconds over ground that is better avoided are no margin.
    fn scale(&self, info: &LimitInfo) -> Option<f64> {
        match (info.limit, info.unit) {
            (Limit::Bank, _) | (Limit::Patch(_), MarginUnit::Seconds) => None,
            (Limit::SightAngle, _) => Some(self.scenario.file.limits.smallest_angle.rad().to_degrees()),
            (_, MarginUnit::Metres) => Some(20.0),
            (_, MarginUnit::Seconds) => Some(60.0),
            (_, MarginUnit::MetresASecond) => Some(3.0),
            _ => Some(5.0),
        }
    }

    /// Number, spare beyond the standoff in scales, and margin of every limit that ranks circles.
    fn weighed<'b>(&'b self, score: &'b Score) -> impl Iterator<Item = (usize, f64, &'b Gap)> + use<'a, 'b> {
        let gaps = self.limits().iter().zip(&score.gaps).enumerate();
        gaps.filter_map(|(index, (info, gap))| {
            let scale = self.scale(info).filter(|_| gap.margin.is_finite())?;
            Some((index, (gap.margin - gap.standoff) / scale, gap))
        })
    }

    /// Whether a margin is not met before the jet acts on the loss: no circle mends that.
    fn already(&self, gap: &Gap) -> bool {
        gap.margin < gap.standoff && gap.at_s <= self.plain(WindChoice::Mean).plan.recognition
    }

    /// What is not met, whatever the circle, before the jet acts on the loss, in words.
    pub(super) fn already_short(&self, flights: &[Flight]) -> Vec<String> {
        let gaps = |index: usize| flights.iter().map(move |flight| &flight.score.gaps[index]);
        let all = self.limits().iter().enumerate().filter(|(index, info)| {
            self.scale(info).is_some() && !flights.is_empty() && gaps(*index).all(|gap| self.already(gap))
        });
        all.filter_map(|(index, info)| gaps(index).next().map(|gap| shortfall(info, gap))).collect()
    }

    /// Spare beyond the standoff of every limit that a circle may change, in scales.
    pub(super) fn spares<'b>(&'b self, score: &'b Score) -> impl Iterator<Item = (usize, f64)> + use<'a, 'b> {
        self.weighed(score).filter(|(_, _, gap)| !self.already(gap)).map(|(index, spare, _)| (index, spare))
    }

    /// Least spare beyond any standoff, in scales. A circle that is not held has less than none.
    pub(super) fn least_spare(&self, circle: Circle, score: &Score) -> f64 {
        let least = self.spares(score).map(|(_, spare)| spare).fold(f64::INFINITY, f64::min);
        if score.held {
            return least;
        }
        least.min(circle.thrown(score).map_or(UNSETTLED, |thrown| (held_within_m(circle.radius_m) - thrown) / 20.0))
    }

    /// Least spare beyond the standoff of what is measured in metres, metres.
    pub(super) fn least_spare_m(&self, score: &Score) -> f64 {
        let gaps = self.limits().iter().zip(&score.gaps).filter(|(info, _)| info.unit == MarginUnit::Metres);
        gaps.map(|(_, gap)| gap.margin - gap.standoff).fold(f64::INFINITY, f64::min)
    }

    /// The limit that a circle does not meet, and why in words; none where it meets them all.
    pub(super) fn lacks(&self, circle: Circle, score: &Score) -> Option<(Option<Limit>, String)> {
        if !score.held {
            let words = circle.thrown(score).map_or_else(
                || "never settles on the circle".into(),
                |thrown| format!("bank limit can't hold it: thrown {thrown:.0} m outside"),
            );
            return Some((Some(Limit::Bank), words));
        }
        if score.kept {
            return None;
        }
        // What another circle may change is named before what none does.
        let short = self.weighed(score).filter(|&(_, spare, _)| spare < 0.0);
        let Some((index, _, gap)) =
            short.min_by(|a, b| self.already(a.2).cmp(&self.already(b.2)).then(a.1.total_cmp(&b.1)))
        else {
            let words = if score.ending == Ending::Empty { "the battery is empty in the air" } else { "never home" };
            return Some((None, words.into()));
        };
        let info = &self.limits()[index];
        let when = if self.already(gap) { ", before the jet acts on the loss" } else { "" };
        Some((Some(info.limit), format!("{}{when}", shortfall(info, gap))))
    }
}

/// A margin that is not met, in words, such as "outline: 14 of 20 m asked for".
fn shortfall(info: &LimitInfo, gap: &Gap) -> String {
    let (name, unit) = (&info.name, info.unit);
    // Whole numbers, unless that would hide what is missing.
    let missing = gap.standoff - gap.margin;
    let digits =
        if info.limit == Limit::SightAngle { 3 } else { usize::from(missing < 1.0 || unit == MarginUnit::WattHours) };
    let left = below(gap.margin, &[0.0, gap.standoff], digits);
    if gap.margin < 0.0 {
        let by = if info.crosses { "breached by" } else { "short by" };
        format!("{name}: {by} {} {unit}", left.trim_start_matches('-'))
    } else {
        let whole = if gap.standoff.fract().abs() < 1e-9 { 0 } else { digits.max(1) };
        format!("{name}: {left} of {} {unit} asked for", decimals(gap.standoff, whole))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::Verdict;

    #[track_caller]
    fn check(unit: MarginUnit, margin: f64, standoff: f64, words: &str) {
        let info = LimitInfo { limit: Limit::Outline, name: "outline".into(), unit, crosses: true };
        let gap = Gap { margin, standoff, verdict: Verdict::Thin, at_s: 0.0 };
        assert_eq!(shortfall(&info, &gap), words);
    }

    #[test]
    fn what_is_missing_is_never_rounded_away() {
        check(MarginUnit::Metres, 14.3, 20.0, "outline: 14 of 20 m asked for");
        check(MarginUnit::Metres, 19.97, 20.0, "outline: 19.97 of 20 m asked for");
        check(MarginUnit::Metres, -14.2, 20.0, "outline: breached by 14 m");
        check(MarginUnit::Metres, -0.02, 0.0, "outline: breached by 0.02 m");
        check(MarginUnit::WattHours, 3.26, 5.55, "outline: 3.3 of 5.5 Wh asked for");
        check(MarginUnit::MetresASecond, 3.21, 4.024, "outline: 3.2 of 4.0 m/s asked for");
    }
}
