//! Downhill among designs: from the plan and from where there is most room, by how badly trials fail.

use glam::DVec2;
use rayon::prelude::*;

use super::Design;
use crate::jet::turn;
use crate::margins::{LimitInfo, Score, Scorer};
use crate::recovery::Turn;
use crate::run::{HeightAbove, Scenario, Trial, WindChoice, draw};
use crate::study::radius::{PENETRATION, room, scale, stall_floor};
use crate::study::verdict::Answer;
use crate::study::work::Work;

/// Radii are proposed in steps of this, metres.
pub(super) const STEP_M: f64 = 5.0;
/// Numbers of trials, fewer first: what fails badly is told by few.
const TRIALS: [u64; 3] = [16, 64, 256];
/// Trials flown between looks at whether a design is no better than the best one.
const PART: usize = 8;
/// Most rounds of neighbours a number of trials.
const ROUNDS: usize = 16;
/// A search that ends at more than this many times what is asked gives up: more trials don't make it better.
const HOPELESS: f64 = 4.0;
/// How much worse a crossing is than a buffer used: ten times as few are allowed.
const CROSSED: f64 = 10.0;
/// What a circle that the gusts blow wide costs: as much as if one trial in ten used a buffer.
const BLOWN: f64 = 0.1;
/// What a trial costs that keeps its buffers and does not hold the circle: nothing asks for it, and it is no good.
const NOT_HELD: f64 = 0.1;
/// Places inside the boundary that a search starts from, besides the plan's own centre.
const STARTS: usize = 2;
/// Cells of the grid on which they are looked for, along the longer side of the boundary.
const CELLS: f64 = 16.0;
/// Steepest maximum bank tried, deg: beyond it the load is twice the weight.
const STEEPEST: f64 = 60.0;
/// Lowest circle and lowest circuit tried, metres over home.
const LOWEST: f64 = 20.0;
/// Most of its top speed that a jet is proposed to return at: less is left to climb with and to make up for a gust
/// (judgement).
const MOST_OF_TOP: f64 = 0.8;
/// Radii tried, metres.
const RADII: [f64; 2] = [30.0, 400.0];

/// How far each number of a design is moved at once: metres, and m/s of the speed.
#[derive(Debug, Clone, Copy)]
struct Reach {
    radius: f64,
    centre: f64,
    speed: f64,
    height: f64,
}

const FAR: Reach = Reach { radius: 20.0, centre: 60.0, speed: 2.0, height: 20.0 };
const NEAR: Reach = Reach { radius: STEP_M, centre: 10.0, speed: 0.5, height: 5.0 };

/// The search of one scenario.
pub(super) struct Search<'a> {
    pub(super) scenario: &'a Scenario,
    pub(super) own: Design,
    work: &'a Work,
    limits: Vec<LimitInfo>,
    fastest_mps: f64,
}

impl<'a> Search<'a> {
    pub(super) fn new(scenario: &'a Scenario, work: &'a Work) -> Self {
        let jet = draw(scenario, 0, WindChoice::Mean).jet;
        let limits = Scorer::new(scenario).limits().to_vec();
        let fastest_mps = MOST_OF_TOP * jet.top_speed();
        Self { scenario, own: Design::of(scenario), work, limits, fastest_mps }
    }

    /// Designs in which few of some trials fail, the first found first; the next one looks at more trials.
    pub(super) fn run(&self) -> impl Iterator<Item = Design> + '_ {
        let mut from = self.starts();
        TRIALS.into_iter().filter_map(move |trials| {
            let ends = from.iter().map(|&start| self.down(start, trials));
            let mut ends: Vec<(Design, f64)> = ends.collect();
            ends.sort_by(|a, b| a.1.total_cmp(&b.1));
            from = ends.iter().filter(|end| end.1 < HOPELESS * self.allowed()).map(|end| end.0).take(1).collect();
            let &(design, badness) = ends.first()?;
            (self.work.go_on() && badness < self.allowed()).then_some(design)
        })
    }

    /// How bad a plan may be that still meets what is asked.
    fn allowed(&self) -> f64 {
        let limits = &self.scenario.file.limits;
        CROSSED * limits.crossed_at_most.share() + (1.0 - limits.kept_at_least.share())
    }

    /// The plan, and circles about the roomiest places.
    fn starts(&self) -> Vec<Design> {
        let boundary = &self.scenario.field.boundary;
        let (low, high) = boundary.bounds();
        let cell = (high - low).max_element() / CELLS;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a handful of cells")]
        let [across, up] = [(high.x - low.x) / cell, (high.y - low.y) / cell].map(|cells| cells.ceil() as u32);
        let places =
            (0..up).flat_map(|row| (0..across).map(move |column| DVec2::new(f64::from(column), f64::from(row))));
        let centres = places.map(|place| ((low + (place + 0.5) * cell) / STEP_M).round() * STEP_M);
        let mut roomy: Vec<(DVec2, f64)> =
            centres.filter(|&at| boundary.contains(at)).map(|at| (at, self.room(at))).collect();
        roomy.sort_by(|a, b| b.1.total_cmp(&a.1));
        let mut starts = vec![self.own];
        for (centre, room) in roomy {
            if starts.len() > STARTS {
                break;
            }
            if starts.iter().all(|start| start.centre.distance(centre) > 2.0 * cell) {
                let radius = (room / STEP_M).floor() * STEP_M;
                let smallest = (self.smallest(&self.own) / STEP_M).ceil() * STEP_M;
                starts.push(Design { centre, radius_m: radius.min(smallest + 2.0 * STEP_M).max(RADII[0]), ..self.own });
            }
        }
        starts
    }

    fn room(&self, centre: DVec2) -> f64 {
        room(self.scenario, centre, self.scenario.file.limits.buffer.m()).0
    }

    /// Smallest radius that the maximum bank holds in the gusts, closed form, metres.
    fn smallest(&self, design: &Design) -> f64 {
        let gust = self.scenario.file.wind.aloft(design.height_m)[1];
        turn::smallest_radius(design.return_mps, gust, design.bank_deg.to_radians())
    }

    /// Down from a design as far as the trials go, and how badly they fail there.
    fn down(&self, start: Design, trials: u64) -> (Design, f64) {
        let (mut best, mut badness) = (start, self.badness(&start, trials, f64::INFINITY));
        let mut reach = FAR;
        for _ in 0..ROUNDS {
            if badness <= 0.0 || !self.work.go_on() {
                break;
            }
            let near: Vec<Design> = self.around(&best, reach).into_iter().filter(|design| self.may(design)).collect();
            self.work.expect(near.len() as u64 * trials);
            let found: Vec<f64> = near.par_iter().map(|design| self.badness(design, trials, badness)).collect();
            let least = near.iter().zip(found).min_by(|a, b| a.1.total_cmp(&b.1));
            match least {
                Some((&design, found)) if found < badness => (best, badness) = (design, found),
                _ if reach.radius <= NEAR.radius => break,
                _ => {
                    reach = Reach {
                        radius: (reach.radius / 2.0).max(NEAR.radius),
                        centre: (reach.centre / 2.0).max(NEAR.centre),
                        speed: (reach.speed / 2.0).max(NEAR.speed),
                        height: (reach.height / 2.0).max(NEAR.height),
                    };
                }
            }
        }
        (best, badness)
    }

    /// Designs one move away, or two that go well together: a circle moved and made smaller, a slower return on a
    /// smaller circle.
    fn around(&self, design: &Design, reach: Reach) -> Vec<Design> {
        let d = *design;
        let other = match d.turn {
            Turn::Anticlockwise => Turn::Clockwise,
            Turn::Clockwise => Turn::Anticlockwise,
        };
        let mut near = vec![Design { turn: other, ..d }];
        for sign in [-1.0, 1.0] {
            let radius_m = on(d.radius_m + sign * reach.radius, STEP_M);
            let return_mps = on(d.return_mps + sign * reach.speed, NEAR.speed);
            let height_m = on(d.height_m + sign * reach.height, NEAR.height);
            near.extend([
                Design { radius_m, ..d },
                Design { return_mps, ..d },
                Design { radius_m, return_mps, ..d },
                Design { height_m, ..d },
                Design { loss_m: d.loss_m + sign * reach.height, ..d },
            ]);
        }
        if self.own.bank_deg < STEEPEST {
            near.extend([5.0, 10.0].map(|more| Design { bank_deg: (self.own.bank_deg + more).min(STEEPEST), ..d }));
        }
        for eighth in 0..8 {
            let way = DVec2::from_angle(f64::from(eighth) * std::f64::consts::FRAC_PI_4);
            let centre = ((d.centre + way * reach.centre) / STEP_M).round() * STEP_M;
            near.extend([0.0, -reach.radius].map(|by| Design { centre, radius_m: on(d.radius_m + by, STEP_M), ..d }));
        }
        near.retain(|other| other != design);
        near
    }

    /// Whether a design may be proposed at all: within reason, faster than the wind, above the stall, and about a place
    /// inside the boundary.
    pub(super) fn may(&self, design: &Design) -> bool {
        let (file, field) = (&self.scenario.file, &self.scenario.field);
        let limit = file.limits.height_limit;
        let top = limit.map_or(f64::INFINITY, |limit| limit.height.m() - file.limits.height_buffer.m());
        // A limit over the ground is one over home only where the ground is flat; the trials say the rest.
        let top = if limit.is_some_and(|limit| limit.above == HeightAbove::Home) || field.ground.is_flat() {
            top
        } else {
            f64::INFINITY
        };
        let lowest_loss = field.circuit.as_ref().map_or(design.loss_m, |circuit| {
            circuit.heights_m[0].min(self.own.loss_m) + design.loss_m - self.own.loss_m
        });
        let same = |a: f64, b: f64| (a - b).abs() < 1e-9;
        (RADII[0]..=RADII[1]).contains(&design.radius_m)
            && (same(design.return_mps, self.own.return_mps)
                || (self.slowest(design)..=self.fastest_mps).contains(&design.return_mps))
            && (same(design.height_m, self.own.height_m) || (LOWEST..=top).contains(&design.height_m))
            && (same(design.loss_m, self.own.loss_m) || lowest_loss >= LOWEST)
            && (design.centre == self.own.centre || field.boundary.contains(design.centre))
    }

    /// Slowest return that keeps off the stall in its turns and makes headway against the gusts, m/s.
    fn slowest(&self, design: &Design) -> f64 {
        let gust = self.scenario.file.wind.aloft(design.height_m)[1];
        stall_floor(self.scenario, design.bank_deg.to_radians()).max(gust + PENETRATION)
    }

    /// Whether a design comes home against the gusts: the search may begin at a speed that does not, and not end there.
    pub(super) fn makes_headway(&self, design: &Design) -> bool {
        design.return_mps >= self.slowest(design)
    }

    /// How badly a design fails: the mean over trials, a crossing ten times as bad as a buffer used, and either the worse
    /// the more is missing; more where the gusts blow the circle wide. Nothing where all keep their buffers. The worst of
    /// its radius and the next ones, where more than a few trials are flown: no edge is looked for. Infinite once it is no
    /// less than `most`.
    fn badness(&self, design: &Design, trials: u64, most: f64) -> f64 {
        let beside = if trials <= TRIALS[0] { &[0.0][..] } else { &[0.0, -STEP_M, STEP_M] };
        let changed = design.take(self.scenario);
        let scorer = Scorer::new(&changed);
        let drawn: Vec<Trial> = (1..=trials).map(|trial| draw(&changed, trial, WindChoice::Mean)).collect();
        let gust = draw(&changed, 0, WindChoice::Gust);
        #[allow(clippy::cast_precision_loss, reason = "some hundred trials")]
        let share = 1.0 / trials as f64;
        let mut worst = 0.0_f64;
        for by in beside {
            let circling = |trial: &Trial| trial.circling(design.radius_m + by, design.turn);
            let held = scorer.score(&[circling(&gust)]).iter().all(|score| score.held);
            let mut badness = if held { 0.0 } else { BLOWN };
            for part in drawn.chunks(PART) {
                if badness >= most || !self.work.go_on() {
                    return f64::INFINITY;
                }
                let part: Vec<Trial> = part.iter().map(circling).collect();
                badness += scorer.score(&part).iter().map(|score| self.lack(score)).sum::<f64>() * share;
            }
            worst = worst.max(badness);
        }
        self.work.add(trials);
        if worst < most { worst } else { f64::INFINITY }
    }

    /// Whether the circle is held in the gust wind as well, the plan as entered.
    pub(super) fn lasts(&self, design: &Design) -> bool {
        let changed = design.take(self.scenario);
        let gust = draw(&changed, 0, WindChoice::Gust);
        Scorer::new(&changed).score(&[gust]).iter().all(|score| score.held)
    }

    /// How badly one trial fails.
    fn lack(&self, score: &Score) -> f64 {
        if score.kept {
            return if score.held { 0.0 } else { NOT_HELD };
        }
        let missing = |below: fn(&crate::margins::Gap) -> f64, counts: fn(&LimitInfo) -> bool| {
            let gaps = self.limits.iter().zip(&score.gaps).filter(move |(info, _)| counts(info));
            let scaled = gaps.filter_map(|(info, gap)| Some(below(gap) / scale(self.scenario, info)?));
            let most = scaled.filter(|missing| missing.is_finite()).fold(0.0, f64::max);
            // More and more, but never as much as one more trial.
            most / (1.0 + most)
        };
        if score.crossed {
            CROSSED * (1.0 + missing(|gap| -gap.margin, |info| info.crosses))
        } else {
            1.0 + missing(|gap| gap.buffer - gap.margin, |_| true)
        }
    }

    /// Whether what is asked is met at radii beside a design's, step by step outwards, one way: how far.
    pub(super) fn reach(&self, design: &Design, way: f64, most: i32, answer: impl Fn(&Design) -> Answer) -> f64 {
        let radii = (1..=most).map(|step| design.radius_m + way * f64::from(step) * STEP_M);
        let holding = radii.take_while(|&radius_m| {
            let beside = Design { radius_m, ..*design };
            self.may(&beside) && self.work.go_on() && answer(&beside) == Answer::Yes
        });
        holding.last().unwrap_or(design.radius_m)
    }
}

/// To the nearest number on a grid.
fn on(value: f64, grid: f64) -> f64 {
    (value / grid).round() * grid
}
