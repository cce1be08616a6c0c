//! The keep-inside line: from where a loss is recovered, found by flying trials, with an interval in every direction.
//!
//! A place is inside where no more than the share allowed of trials lost there cross a limit, outside where more do, each
//! by planned looks ([`crate::study::stats::Looks`]); between the two it is not known. In every direction from the centre
//! of the circle the line lies where the first place that is not inside comes. On the way there every second place is
//! glanced at, and decided where the glance is not clean: a place that few trials more than allowed cross from may be passed
//! by.

mod line;
mod place;

use std::f64::consts::TAU;

use glam::DVec2;

use crate::field::Where;
use crate::margins::LimitInfo;
use crate::run::{Scenario, WindChoice, draw, setting};
use crate::study::stats::Share;
use crate::study::work::{Work, in_order};
use place::Prober;

/// Which headings a loss may be on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Headings {
    /// Those that the circuit is flown on beside the place, both ways round where both are flown.
    Circuit,
    /// Any: trials take the quarter of all headings on which the plan as entered, under the law that does worst of
    /// those not ruled out, has least left there.
    Any,
}

/// How fast the jet flies at the loss.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Pace {
    /// At its return speed.
    Return,
    /// As fast as the circuit is flown; without one, as fast as the jet goes.
    Fastest,
}

/// What is asked of the line.
#[derive(Debug, Clone, PartialEq)]
pub struct KeepAsk {
    /// Directions from the centre, the first north.
    pub bearings: u32,
    /// Distances tried are whole multiples of it, metres.
    pub step_m: f64,
    /// Most trials from a place.
    pub most: u64,
    /// Largest share of trials that may cross a limit.
    pub crossed_at_most: f64,
    /// Confidence of every place's answer.
    pub confidence: f64,
}

/// How far it goes in one direction, metres from the centre.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bounds {
    /// The furthest place known to be inside.
    pub inside_m: f64,
    /// The nearest place known to be outside; where none was flown, where the boundary ends.
    pub outside_m: f64,
}

/// One line.
#[derive(Debug, Clone, PartialEq)]
pub struct KeepLine {
    /// On which headings.
    pub headings: Headings,
    /// At which speed.
    pub pace: Pace,
    /// That speed as entered, m/s.
    pub speed_mps: f64,
    /// One a bearing, clockwise from north; empty where not even the centre is known to be inside, or it was stopped.
    pub bounds: Vec<Bounds>,
    /// Trials lost over the centre that crossed a limit.
    pub centre: Share,
    /// The limit, by its number, that is crossed most often just outside; none where no trial crossed one.
    pub limit: Option<usize>,
    /// Trials flown for it.
    pub trials: u64,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct KeepInside {
    /// What was asked.
    pub ask: KeepAsk,
    /// The limits, in the order of a score's gaps.
    pub limits: Vec<LimitInfo>,
    /// Centre of the circle, from which it is told, metres.
    pub centre: DVec2,
    /// Any heading before the circuit's, the return speed before the fastest. None where the plan doesn't fly home.
    pub lines: Vec<KeepLine>,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}

impl KeepAsk {
    /// 24 directions, to 10 m, 512 trials a place at most, the share that the limits allow, at 95 % confidence.
    pub fn usual(scenario: &Scenario) -> Self {
        let crossed_at_most = scenario.file.limits.crossed_at_most.share();
        Self { bearings: 24, step_m: 10.0, most: 512, crossed_at_most, confidence: 0.95 }
    }
}

impl KeepLine {
    /// What is known to be inside as a ring of places, metres, one a bearing; empty where nothing is.
    pub fn ring(&self, centre: DVec2) -> Vec<DVec2> {
        self.corners(centre, |bounds| bounds.inside_m)
    }

    /// The ring beyond which it is known to be outside.
    pub fn outside(&self, centre: DVec2) -> Vec<DVec2> {
        self.corners(centre, |bounds| bounds.outside_m)
    }

    fn corners(&self, centre: DVec2, distance_m: fn(&Bounds) -> f64) -> Vec<DVec2> {
        let count = self.bounds.len() as f64;
        let corner = |(index, bounds)| centre + ray(index as f64 / count) * distance_m(bounds);
        self.bounds.iter().enumerate().map(corner).collect()
    }
}

impl KeepInside {
    /// A line; none where it was not asked for.
    pub fn line(&self, headings: Headings, pace: Pace) -> Option<&KeepLine> {
        self.lines.iter().find(|line| line.headings == headings && line.pace == pace)
    }

    /// The one to be drawn where there is room for one: at the fastest, on the circuit's headings where there is one.
    pub fn drawn(&self) -> Option<&KeepLine> {
        self.line(Headings::Circuit, Pace::Fastest).or_else(|| self.line(Headings::Any, Pace::Fastest))
    }

    /// Trials flown for all of it.
    pub fn trials(&self) -> u64 {
        self.lines.iter().map(|line| line.trials).sum()
    }
}

/// From where a loss is recovered: level, at the heights and with the charge that losses are drawn with. The work counts
/// recoveries; how many there are turns out as it goes.
pub fn keep_inside(scenario: &Scenario, ask: &KeepAsk, work: &Work) -> KeepInside {
    let setting = setting(scenario);
    let plan = draw(scenario, 0, WindChoice::Mean);
    let circuit = scenario.field.circuit.as_ref();
    let fastest = circuit.map_or_else(|| plan.jet.top_speed(), |circuit| circuit.speeds_mps[1]);
    let headings: &[Headings] = match circuit.map(|circuit| &circuit.place) {
        Some(Where::Line(_)) => &[Headings::Any, Headings::Circuit],
        Some(Where::Area(_)) | None => &[Headings::Any],
    };
    let asked = headings.iter().flat_map(|&headings| [Pace::Return, Pace::Fastest].map(|pace| (headings, pace)));
    let comes_home = !setting.cuts() && setting.standing.has_position;
    let probers: Vec<Prober<'_>> = asked
        .filter(|_| comes_home)
        .map(|(headings, pace)| {
            let speed_mps = if pace == Pace::Return { plan.jet.return_speed } else { fastest };
            Prober::new(scenario, ask, headings, pace, speed_mps)
        })
        .collect();
    let lines: Vec<KeepLine> = probers.iter().filter_map(|prober| line::line(prober, work)).collect();
    let centre = scenario.field.centre;
    let limits = probers.first().map_or_else(Vec::new, |prober| prober.limits().to_vec());
    KeepInside { ask: ask.clone(), limits, centre, partial: !work.go_on() || lines.len() < probers.len(), lines }
}

/// The direction of a bearing in whole turns clockwise from north.
fn ray(turns: f64) -> DVec2 {
    let (east, north) = (TAU * turns).sin_cos();
    DVec2::new(east, north)
}
