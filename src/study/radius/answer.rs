//! What is asked of a radius study, and what it answers.

use glam::DVec2;

use super::Step;
use crate::ledger::{Limit, LimitInfo, Score};
use crate::recovery::{Firmness, Guidance, Turn};
use crate::run::{Limits, Scenario};
use crate::study::verdict::{Demand, Verdict};
use crate::study::{Tally, costliness};

/// What is asked of a radius study.
#[derive(Debug, Clone, PartialEq)]
pub struct RadiusAsk {
    /// Radii, metres, ascending.
    pub radii_m: Vec<f64>,
    /// Ways round.
    pub turns: Vec<Turn>,
    /// Spacing of the radii between them at which the plan as written is flown, metres: a band narrower than this may be
    /// missed.
    pub finest_m: f64,
    /// Most drawn cases a radius and way round: where the demand of the limits is decided sooner, no more are flown.
    pub cases: u64,
    /// Confidence of every answer and interval.
    pub confidence: f64,
    /// Whether this is a first look, to be followed by a longer one: its few cases are shown, and no verdict is made of
    /// them.
    pub first_look: bool,
}

/// One radius, one way round.
#[derive(Debug, Clone, PartialEq)]
pub struct RadiusPoint {
    /// Commanded radius, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// The plan as written, in the mean wind.
    pub mean: Score,
    /// The plan as written, in the gust wind all the time.
    pub gust: Score,
    /// Every uncertain input drawn.
    pub cases: Tally,
    /// What they say; none at a first look and where none were asked for.
    pub verdict: Option<Verdict>,
}

/// One end of a band.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// Radius, metres, found by halving between the radii flown.
    pub radius_m: f64,
    /// The limit that is not met beyond it; none where the radii flown end.
    pub limit: Option<Limit>,
    /// Why it ends, in words, such as "bank limit can't hold it: thrown 12 m outside" or "outline: 14 of 20 m asked for".
    pub reason: String,
}

/// Radii that meet every margin.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// Way round.
    pub turn: Turn,
    /// Lower end.
    pub low: End,
    /// Upper end.
    pub high: End,
}

/// The bands of one demand; empty where no radius meets it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bands {
    /// In the mean wind.
    pub mean: Vec<Band>,
    /// In the gust wind.
    pub gust: Vec<Band>,
    /// Usable: neighbouring radii whose drawn cases say yes.
    pub cases: Vec<Band>,
    /// Neighbouring radii whose drawn cases leave it undecided: neither usable nor ruled out.
    pub undecided: Vec<Band>,
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
    /// Its cases.
    pub cases: Tally,
    /// What they say; none where none were asked for.
    pub verdict: Option<Verdict>,
    /// The limits it comes closest to, as numbers into the study's limits, closest first.
    pub closest: Vec<usize>,
}

/// Bounds in closed form, beside the flown ones.
#[derive(Debug, Clone, PartialEq)]
pub struct ClosedForm {
    /// Smallest radius the bank limit holds in still air, mean wind and gust wind, metres.
    pub smallest_m: [f64; 3],
    /// Largest circle drawn about the hub that keeps its standoff, metres; 0 or less where the hub itself is too near.
    pub largest_m: f64,
    /// What it then comes near to.
    pub largest_reason: String,
    /// Slowest and fastest airspeed at which the plan's radius is held, m/s: stall and penetration below, bank above.
    pub speed_window_mps: [f64; 2],
    /// Most wind in which the bank limit holds the plan's radius, m/s.
    pub wind_ceiling_mps: f64,
}

/// One line of what eats the room between circle and limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Buffer {
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
    /// Outermost distance at the low and the high value, metres; none where it does not settle.
    pub outermost_m: [Option<f64>; 2],
    /// Least spare of any margin in metres, at the low and the high value.
    pub spare_m: [f64; 2],
    /// Smallest radius that the bank limit holds, in closed form, at the low and the high value, metres.
    pub smallest_m: [f64; 2],
}

/// One of the representative guidance laws.
#[derive(Debug, Clone, PartialEq)]
pub struct Family {
    /// Law.
    pub guidance: Guidance,
    /// How firm.
    pub firmness: Firmness,
    /// Score in the mean wind at the radius looked at.
    pub mean: Score,
}

/// A change and the band it gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Opener {
    /// The change itself.
    pub step: Step,
    /// The change in words, such as "return at 19 m/s instead of 22 m/s".
    pub change: String,
    /// The bands then (mean wind), empty where it opens nothing.
    pub bands: Vec<Band>,
    /// The bands then in the gust wind; not looked for where the mean wind has none.
    pub gust: Vec<Band>,
}

/// The best centre found inside the outline.
#[derive(Debug, Clone, PartialEq)]
pub struct BestHub {
    /// Where, metres.
    pub hub: DVec2,
    /// Radius there, metres.
    pub radius_m: f64,
    /// Way round.
    pub turn: Turn,
    /// Its bands in the mean wind.
    pub bands: Vec<Band>,
    /// Its score in the mean wind.
    pub mean: Score,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct RadiusStudy {
    /// What was asked.
    pub ask: RadiusAsk,
    /// What the cases have to meet.
    pub demand: Demand,
    /// The verdict of the plan's own circle; none at a first look and where no cases were asked for.
    pub plan: Option<Verdict>,
    /// The limits, in the order of every score's gaps.
    pub limits: Vec<LimitInfo>,
    /// Every radius flown, by way round and then by radius.
    pub points: Vec<RadiusPoint>,
    /// The bands.
    pub bands: Bands,
    /// What is not met before the jet acts on the loss, in words: no circle mends that.
    pub already: Vec<String>,
    /// What is recommended: a circle whose cases say yes. At a first look, and without cases, the one that keeps its
    /// buffers in the mean wind with the most to spare.
    pub choice: Option<Choice>,
    /// Where there is none: the radius and way round that is nearest to it.
    pub least_bad: Option<Choice>,
    /// In closed form.
    pub closed: ClosedForm,
    /// What eats the room, and the free distance it is compared with, metres.
    pub buffers: Vec<Buffer>,
    /// Distance from the hub to the nearest limit in the plane, metres.
    pub free_m: f64,
    /// What it is to, by name.
    pub free_to: String,
    /// The falls-from-here buffer, beside the others and not one of them: how far what falls from the circle may land,
    /// thrown as it flies, and no less than its height, metres.
    pub falls_m: f64,
    /// The radius and way round at which sensitivity, family and buffers are looked at: the one recommended, else the
    /// plan's.
    pub looked_at: (f64, Turn),
    /// How the answer moves with each input, the largest first: the furthest that smallest radius, outermost distance
    /// or spare move between its low and its high value.
    pub sensitivity: Vec<Sensitivity>,
    /// The guidance family.
    pub family: Vec<Family>,
    /// What would open an empty band.
    pub openers: Vec<Opener>,
    /// The best centre.
    pub best_hub: Option<BestHub>,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}

impl RadiusAsk {
    /// 40 to 260 m in 10 m steps, both ways round, up to 4,096 cases, at 95 % confidence.
    pub fn usual() -> Self {
        Self {
            radii_m: (4..=26).map(|ten| f64::from(ten) * 10.0).collect(),
            turns: vec![Turn::Anticlockwise, Turn::Clockwise],
            finest_m: 2.5,
            cases: 4096,
            confidence: 0.95,
            first_look: false,
        }
    }

    /// The circle of the plan alone, in as many cases.
    pub fn alone(scenario: &Scenario) -> Self {
        let plan = &scenario.file.recovery;
        Self { radii_m: vec![plan.radius.m()], turns: vec![plan.turn], ..Self::usual() }
    }

    /// The same radii, fewer between them and 8 cases (4 where flights are long): at once, to be followed by the usual
    /// one.
    pub fn coarse(scenario: &Scenario) -> Self {
        let cases = if costliness(scenario) > 2.0 { 4 } else { 8 };
        Self { finest_m: 5.0, cases, first_look: true, ..Self::usual() }
    }

    /// What the limits ask of the cases, in as many as are asked for here.
    pub fn demand(&self, limits: &Limits) -> Demand {
        Demand { most: self.cases, confidence: self.confidence, ..Demand::of(limits) }
    }

    /// Whether a verdict is made of the cases.
    pub fn judges(&self) -> bool {
        self.cases > 0 && !self.first_look
    }
}

/// Whether a circle is in one of the bands.
pub fn holds(bands: &[Band], radius_m: f64, turn: Turn) -> bool {
    let around = |band: &&Band| (band.low.radius_m..=band.high.radius_m).contains(&radius_m);
    bands.iter().filter(|band| band.turn == turn).any(|band| around(&band))
}
