//! Whether one place is inside: trials lost there, looked at as planned.

use std::f64::consts::FRAC_PI_2;

use glam::DVec2;

use super::{Headings, KeepAsk, Pace};
use crate::field::{Loop, Way, Where};
use crate::jet::turn;
use crate::margins::{LimitInfo, MarginUnit, Score, Scorer};
use crate::recovery::Guidance;
use crate::run::{Loss, Scenario, Trial, WindChoice, draw};
use crate::study::stats::{Decision, Looks, Share};
use crate::study::work::Work;
use crate::units::{Angle, Bearing, Length, Speed};

/// Headings that the plan as entered is tried on, under every law that no log has ruled out.
const TRIED: u32 = 16;
/// The worst of them, that trials take.
const WORST: usize = 4;
/// Flights given to the scorer between looks at whether to go on.
const BATCH: u64 = 128;
/// How far to either side of a course the circuit is flown, degrees. Judgement.
const OFF_COURSE_DEG: f64 = 10.0;

/// A place, and what its trials came to so far.
#[derive(Debug, Clone)]
pub(super) struct Place {
    at: DVec2,
    /// Keeps its trials apart from those of places in other directions.
    stream: u64,
    /// Courses that trials take, degrees, and how far off them to either side.
    courses: Vec<f64>,
    off_deg: f64,
    /// Whether fewer than the share allowed cross a limit, or more, or it is not known.
    pub(super) decision: Decision,
    /// Whether more trials are hopeless.
    hopeless: bool,
    /// Trials that crossed a limit.
    pub(super) crossed: Share,
    /// How often each limit was.
    pub(super) by_limit: Vec<u64>,
}

/// Flies losses from places.
pub(super) struct Prober<'a> {
    pub(super) scenario: &'a Scenario,
    pub(super) ask: &'a KeepAsk,
    pub(super) headings: Headings,
    pub(super) pace: Pace,
    pub(super) speed_mps: f64,
    scorer: Scorer<'a>,
    plan: Trial,
}

/// How far along a line its nearest place to another lies, metres.
fn along_m(line: &Loop, at: DVec2) -> f64 {
    let next = line.corners.iter().cycle().skip(1);
    let (mut start, mut best) = (0.0, (f64::INFINITY, 0.0));
    for (&from, &to) in line.corners.iter().zip(next) {
        let way = to - from;
        let share = ((at - from).dot(way) / way.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        let away = at.distance_squared(from + way * share);
        if away < best.0 {
            best = (away, start + share * way.length());
        }
        start += way.length();
    }
    best.1
}

impl<'a> Prober<'a> {
    pub(super) fn new(
        scenario: &'a Scenario,
        ask: &'a KeepAsk,
        headings: Headings,
        pace: Pace,
        speed_mps: f64,
    ) -> Self {
        let plan = draw(scenario, 0, WindChoice::Mean);
        Self { scenario, ask, headings, pace, speed_mps, scorer: Scorer::new(scenario), plan }
    }

    pub(super) fn limits(&self) -> &[LimitInfo] {
        self.scorer.limits()
    }

    /// A place at which nothing is flown yet. None where the work is stopped.
    pub(super) fn place(&self, at: DVec2, stream: u64, work: &Work) -> Option<Place> {
        let (courses, off_deg) = self.courses(at, work)?;
        let by_limit = vec![0; self.limits().len()];
        let (decision, crossed) = (Decision::GoesOn, Share::default());
        Some(Place { at, stream, courses, off_deg, decision, hopeless: false, crossed, by_limit })
    }

    /// Goes on at a place until it is decided, or so many trials are flown. None where the work is stopped.
    pub(super) fn look(&self, place: &mut Place, most: u64, work: &Work) -> Option<()> {
        let looks = Looks::new(self.ask.most, self.ask.confidence);
        let flown = place.crossed.of;
        for of in looks.at().skip_while(|of| *of <= flown).take_while(|of| *of <= most) {
            if place.hopeless || place.decision != Decision::GoesOn {
                break;
            }
            while place.crossed.of < of {
                let more = (of - place.crossed.of).min(BATCH);
                let trials = place.crossed.of..place.crossed.of + more;
                let scores = self.fly(trials.map(|trial| self.lost(place, trial)).collect(), work)?;
                self.count(&scores, place);
            }
            let (kept, asked) = (place.crossed.others(), 1.0 - self.ask.crossed_at_most);
            place.decision = looks.at_least(kept, asked, 1);
            place.hopeless = looks.is_hopeless(kept, asked);
        }
        Some(())
    }

    fn fly(&self, trials: Vec<Trial>, work: &Work) -> Option<Vec<Score>> {
        work.go_on().then(|| {
            work.expect(trials.len() as u64);
            let scores = self.scorer.score(&trials);
            work.add(trials.len() as u64);
            scores
        })
    }

    fn count(&self, scores: &[Score], place: &mut Place) {
        for score in scores {
            place.crossed = place.crossed.and(Share { count: u64::from(score.crossed), of: 1 });
            let gaps = self.limits().iter().zip(&score.gaps).zip(&mut place.by_limit);
            for ((_, _), count) in gaps.filter(|((info, gap), _)| info.crosses && gap.margin < 0.0) {
                *count += 1;
            }
        }
    }

    /// A trial lost at a place, on one of its courses or off it to a side.
    #[allow(clippy::cast_possible_truncation, reason = "a few courses")]
    fn lost(&self, place: &Place, nth: u64) -> Trial {
        let trial = draw(self.scenario, 1 + place.stream * self.ask.most + nth, WindChoice::Mean);
        let course = place.courses[nth as usize % place.courses.len()];
        // The golden ratio spreads them evenly, however many there are.
        let aside = (nth as f64 * 0.618_033_988_749_895).fract() * 2.0 - 1.0;
        let speed = if self.pace == Pace::Return { trial.jet.return_speed } else { self.speed_mps };
        self.level(trial, place.at, course + aside * place.off_deg, speed)
    }

    /// The same draws lost level at a place, as high and with as much energy as they were.
    fn level(&self, trial: Trial, at: DVec2, heading_deg: f64, speed_mps: f64) -> Trial {
        let written = &self.scenario.file.loss;
        let loss = Loss {
            kind: written.kind,
            at_m: at.to_array(),
            height: Length::new(trial.start.height),
            speed: Speed::new(speed_mps),
            heading: Bearing::from_deg(heading_deg),
            climb: Angle::new(0.0),
            bank: Angle::new(0.0),
            charge: written.charge,
        };
        Trial { energy_j: trial.energy_j, ..trial.lost(&loss) }
    }

    /// The courses that trials take at a place, degrees, and how far off them to either side.
    fn courses(&self, at: DVec2, work: &Work) -> Option<(Vec<f64>, f64)> {
        if let Some(courses) = self.flown_courses(at) {
            return Some((courses, OFF_COURSE_DEG));
        }
        let each = 360.0 / f64::from(TRIED);
        let tried: Vec<f64> = (0..TRIED).map(|index| f64::from(index) * each).collect();
        // What is worst for one law another turns back from at once: a heading is as bad as the worst law makes it.
        let recovery = &self.scenario.file.recovery;
        let laws: Vec<Guidance> =
            Guidance::ALL.into_iter().filter(|law| !recovery.laws_ruled_out.contains(law)).collect();
        let under =
            |law: Guidance, heading: f64| self.level(self.plan.under(law, recovery.gain), at, heading, self.speed_mps);
        let plans = tried.iter().flat_map(|&heading| laws.iter().map(move |&law| under(law, heading))).collect();
        let scores = self.fly(plans, work)?;
        let least = |scores: &[Score]| scores.iter().map(|score| self.left_m(score)).fold(f64::INFINITY, f64::min);
        let mut left: Vec<(f64, f64)> = scores.chunks(laws.len().max(1)).map(least).zip(tried).collect();
        left.sort_by(|a, b| a.0.total_cmp(&b.0));
        Some((left.into_iter().take(WORST).map(|(_, heading)| heading).collect(), each / 2.0))
    }

    /// The courses of the circuit beside a place, degrees; none where any heading is asked about.
    fn flown_courses(&self, at: DVec2) -> Option<Vec<f64>> {
        let circuit = self.scenario.field.circuit.as_ref().filter(|_| self.headings == Headings::Circuit)?;
        let Where::Line(line) = &circuit.place else { return None };
        // A jet rounds a corner, over a quarter of its turn where that is square.
        let rounded_m = FRAC_PI_2 * turn::radius(self.speed_mps, self.plan.jet.maximum_bank);
        let course = line.course(along_m(line, at), rounded_m);
        let deg = course.x.atan2(course.y).to_degrees();
        Some(match circuit.way {
            Way::Drawn => vec![deg],
            Way::Reversed => vec![deg + 180.0],
            Way::Both => vec![deg, deg + 180.0],
        })
    }

    /// The least left of the limits in metres that can be crossed.
    fn left_m(&self, score: &Score) -> f64 {
        let metric =
            self.limits().iter().zip(&score.gaps).filter(|(info, _)| info.crosses && info.unit == MarginUnit::Metres);
        metric.map(|(_, gap)| gap.margin).fold(f64::INFINITY, f64::min)
    }
}
