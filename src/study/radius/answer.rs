//! What is asked of a radius study, and what it answers.

use glam::DVec2;

use super::{Reason, Shortfall, Step};
use crate::margins::{LimitInfo, Score};
use crate::recovery::{Gain, Guidance, Turn};
use crate::run::{Limits, Scenario};
use crate::study::verdict::{Answer, Demand, PlanVerdict, Verdict};
use crate::study::{Tally, costliness};

/// What is asked of a radius study.
#[derive(Debug, Clone, PartialEq)]
pub struct RadiusAsk {
    /// Radii, metres, ascending.
    pub radii_m: Vec<f64>,
    /// Ways round.
    pub turns: Vec<Turn>,
    /// Spacing of the radii between them at which the plan as entered is flown, metres: a range narrower than this may
    /// be missed.
    pub finest_m: f64,
    /// Most trials a radius and way round: where the demand of the limits is decided sooner, no more are flown.
    pub trials: u64,
    /// Confidence of every answer and interval.
    pub confidence: f64,
    /// Whether this is a first look, to be followed by a longer one: its few trials are shown, and no verdict is made
    /// of them.
    pub first_look: bool,
}

/// One radius, one way round.
#[derive(Debug, Clone, PartialEq)]
pub struct RadiusPoint {
    /// Commanded radius, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// The plan as entered, in the mean wind.
    pub mean: Score,
    /// The plan as entered, in the gust wind all the time.
    pub gust: Score,
    /// Every uncertain input drawn.
    pub trials: Tally,
    /// What they say; none at a first look and where none were asked for.
    pub verdict: Option<Verdict>,
}

/// One end of a range of usable radii.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// Radius, metres, found by halving between the radii flown.
    pub radius_m: f64,
    /// Why it ends.
    pub reason: Reason,
}

/// Radii that meet every margin.
#[derive(Debug, Clone, PartialEq)]
pub struct RadiusRange {
    /// Way round.
    pub turn: Turn,
    /// Lower end.
    pub low: End,
    /// Upper end.
    pub high: End,
}

/// The usable radii of one demand; empty where no radius meets it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct UsableRadii {
    /// In the mean wind.
    pub mean: Vec<RadiusRange>,
    /// In the gust wind.
    pub gust: Vec<RadiusRange>,
    /// Usable: neighbouring radii whose trials say yes.
    pub trials: Vec<RadiusRange>,
    /// Neighbouring radii whose trials leave it undecided: neither usable nor ruled out.
    pub undecided: Vec<RadiusRange>,
}

/// The radius and way round recommended.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// Radius, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// Its score in the mean wind.
    pub mean: Score,
    /// Its score in the gust wind.
    pub gust: Score,
    /// Its trials.
    pub trials: Tally,
    /// What they say; none where none were asked for.
    pub verdict: Option<Verdict>,
    /// The limits it comes closest to, as numbers into the study's limits, closest first.
    pub closest: Vec<usize>,
}

/// How a circle whose trials say yes stands among those flown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// The next ones on both sides say yes too: it is recommended.
    Inside,
    /// At the edge of what holds, which is known no better than the spacing.
    Edge,
    /// None but this one holds.
    Alone,
}

/// Bounds in closed form, beside the flown ones.
#[derive(Debug, Clone, PartialEq)]
pub struct ClosedForm {
    /// Smallest radius the maximum bank holds in still air, mean wind and gust wind, metres.
    pub smallest_m: [f64; 3],
    /// Largest circle drawn about the centre that keeps its buffer, metres; 0 or less where the centre itself is too
    /// near.
    pub largest_m: f64,
    /// What it then comes near to.
    pub largest_reason: String,
    /// Slowest and fastest airspeed at which the plan's radius is held, m/s: stall and penetration below, bank above.
    pub speed_window_mps: [f64; 2],
    /// Most wind in which the maximum bank holds the plan's radius, m/s.
    pub wind_limit_mps: f64,
}

/// One line of the room budget between circle and limit.
#[derive(Debug, Clone, PartialEq)]
pub struct BudgetLine {
    /// What it is.
    pub name: &'static str,
    /// How much, metres.
    pub metres: f64,
    /// Where the number comes from.
    pub origin: String,
}

/// How the answer moves with one input.
#[derive(Debug, Clone, PartialEq)]
pub struct Sensitivity {
    /// The input.
    pub input: &'static str,
    /// Its low and high value in print, one standard deviation (or the end of its range) off the middle.
    pub values: [String; 2],
    /// Furthest distance from the centre at the low and the high value, metres; none where it does not settle.
    pub furthest_m: [Option<f64>; 2],
    /// Least spare of any margin in metres, at the low and the high value.
    pub spare_m: [f64; 2],
    /// Smallest radius that the maximum bank holds, in closed form, at the low and the high value, metres.
    pub smallest_m: [f64; 2],
}

/// One of the representative guidance laws.
#[derive(Debug, Clone, PartialEq)]
pub struct Family {
    /// Law.
    pub guidance: Guidance,
    /// How firm.
    pub gain: Gain,
    /// Score in the mean wind at the radius looked at.
    pub mean: Score,
}

/// A change and the usable radii it gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// The change itself.
    pub step: Step,
    /// The change in words, such as "return at 19 m/s instead of 22 m/s".
    pub change: String,
    /// The usable radii then (mean wind), empty where it does not help.
    pub usable: Vec<RadiusRange>,
    /// The usable radii then in the gust wind; not looked for where the mean wind has none.
    pub gust: Vec<RadiusRange>,
}

/// The best centre found inside the boundary.
#[derive(Debug, Clone, PartialEq)]
pub struct BestCentre {
    /// Where, metres.
    pub centre: DVec2,
    /// Radius there, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// The usable radii in the mean wind.
    pub usable: Vec<RadiusRange>,
    /// Its score in the mean wind.
    pub mean: Score,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct RadiusStudy {
    /// What was asked.
    pub ask: RadiusAsk,
    /// What the trials have to meet.
    pub demand: Demand,
    /// The verdict of the plan's own circle; none at a first look and where no trials were asked for.
    pub plan: Option<Verdict>,
    /// The limits, in the order of every score's gaps.
    pub limits: Vec<LimitInfo>,
    /// Every radius flown, by way round and then by radius.
    pub points: Vec<RadiusPoint>,
    /// The usable radii.
    pub usable: UsableRadii,
    /// What is not met before the jet acts on the loss: no circle fixes that.
    pub already: Vec<Shortfall>,
    /// What is recommended: a circle whose trials say yes. At a first look, and without trials, the one that keeps its
    /// buffers in the mean wind with the most to spare.
    pub choice: Option<Choice>,
    /// Where there is none: the radius and way round that is nearest to it.
    pub least_bad: Option<Choice>,
    /// In closed form.
    pub closed: ClosedForm,
    /// The room budget, and the free distance it is compared with, metres.
    pub budget: Vec<BudgetLine>,
    /// Distance from the centre to the nearest limit in the plane, metres.
    pub free_m: f64,
    /// What it is to, by name.
    pub free_to: String,
    /// The falls-from-here buffer, beside the others and not one of them: how far what falls from the circle may land,
    /// thrown as it flies, and no less than its height, metres.
    pub falls_m: f64,
    /// The radius and way round at which sensitivity, family and buffers are looked at: the plan's where its trials say
    /// yes, else the one recommended, else the plan's.
    pub looked_at: (f64, Turn),
    /// How the answer moves with each input, the largest first: the furthest that smallest radius, furthest distance
    /// from the centre or spare move between its low and its high value.
    pub sensitivity: Vec<Sensitivity>,
    /// The guidance family.
    pub family: Vec<Family>,
    /// What would help where no radius is usable.
    pub remedies: Vec<Remedy>,
    /// The best centre.
    pub best_centre: Option<BestCentre>,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}

impl RadiusStudy {
    /// How a circle flown stands among the others.
    pub fn standing(&self, radius_m: f64, turn: Turn) -> Standing {
        let yes = |point: &&RadiusPoint| point.verdict.is_some_and(|verdict| verdict.answer == Answer::Yes);
        let same: Vec<&RadiusPoint> = self.points.iter().filter(|point| point.turn == turn).collect();
        let at = same.iter().position(|point| point.radius_m == radius_m);
        let holds = |index: Option<usize>| index.and_then(|index| same.get(index)).is_some_and(yes);
        if at.is_some_and(|at| holds(at.checked_sub(1)) && holds(Some(at + 1))) {
            Standing::Inside
        } else if self.points.iter().filter(yes).count() <= 1 {
            Standing::Alone
        } else {
            Standing::Edge
        }
    }

    /// The verdict of the plan's own circle and what it rests on, its trials being those of a point of this study; none
    /// where it was not judged.
    pub fn plan_on(&self, point: &RadiusPoint) -> Option<PlanVerdict> {
        let (limits, tally) = (self.limits.clone(), point.trials.clone());
        Some(PlanVerdict { verdict: self.plan?, tally, limits, partial: self.partial })
    }
}

impl RadiusAsk {
    /// 40 to 260 m in 10 m steps, both ways round, up to 4,096 trials, at 95 % confidence.
    pub fn usual() -> Self {
        Self {
            radii_m: (4..=26).map(|ten| f64::from(ten) * 10.0).collect(),
            turns: vec![Turn::Anticlockwise, Turn::Clockwise],
            finest_m: 2.5,
            trials: 4096,
            confidence: 0.95,
            first_look: false,
        }
    }

    /// The circle of the plan without errors, in as many trials.
    pub fn own_circle(scenario: &Scenario) -> Self {
        let plan = &scenario.file.recovery;
        Self { radii_m: vec![plan.radius.m()], turns: vec![plan.turn], ..Self::usual() }
    }

    /// The same radii, fewer between them and 8 trials (4 where flights are long): at once, to be followed by the usual
    /// one.
    pub fn coarse(scenario: &Scenario) -> Self {
        let trials = if costliness(scenario) > 2.0 { 4 } else { 8 };
        Self { finest_m: 5.0, trials, first_look: true, ..Self::usual() }
    }

    /// What the limits ask of the trials, in as many as are asked for here.
    pub fn demand(&self, limits: &Limits) -> Demand {
        Demand { most: self.trials, confidence: self.confidence, ..Demand::of(limits) }
    }

    /// Whether a verdict is made of the trials.
    pub fn judges(&self) -> bool {
        self.trials > 0 && !self.first_look
    }
}

/// Whether a circle is among the usable radii.
pub fn holds(usable: &[RadiusRange], radius_m: f64, turn: Turn) -> bool {
    let around = |range: &&RadiusRange| (range.low.radius_m..=range.high.radius_m).contains(&radius_m);
    usable.iter().filter(|range| range.turn == turn).any(|range| around(&range))
}
