//! Where recoveries are really flown: rings about the centre of the circle that hold a share of whole recoveries, way home
//! included, and how far out and in the circle itself is flown at any one bearing.

mod around;
mod flown;
mod levels;

use std::f64::consts::TAU;

use glam::DVec2;

use crate::run::Scenario;
use crate::study::work::Work;
use levels::Levels;

pub use flown::{Reach, reach_of, reaches};

/// What is asked of an envelope.
#[derive(Debug, Clone, PartialEq)]
pub struct EnvelopeAsk {
    /// Trials: half lay down the shape of the rings, the others say how large they are.
    pub trials: u64,
    /// Shares of the trials, ascending: each gets a ring.
    pub shares: Vec<f64>,
    /// Number of bearings from the centre, the first north; 3 at least.
    pub bearings: u32,
}

/// A ring that whole recoveries stay inside, from when the jet acts on the loss to the end.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// How likely a fresh trial is to stay inside all the way.
    pub share: f64,
    /// Whether too few trials flew for the share: the ring then holds all of them, and fewer fresh ones than the share.
    pub short: bool,
    /// Distance from the centre, metres a bearing.
    pub outer_m: Vec<f64>,
    /// The same as places, metres; one a bearing, clockwise from north.
    pub corners: Vec<DVec2>,
}

/// How far from the centre the circle is flown, from when the jet is on it: at any one bearing, not all the way round.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// How likely a fresh trial is to stay inside at one bearing.
    pub share: f64,
    /// Whether at some bearing too few trials flew for the share: there it is the furthest of all of them.
    pub short: bool,
    /// No nearer to the centre than this does the share come, metres a bearing; 0 where none flew.
    pub inner_m: Vec<f64>,
    /// No further from the centre than this does the share go, metres a bearing; 0 where none flew.
    pub outer_m: Vec<f64>,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Envelope {
    /// Centre of the circle as planned, metres. What the jet takes for home may lie elsewhere.
    pub centre: DVec2,
    /// One a share asked for, each around the one before; none where nothing was flown.
    pub rings: Vec<Ring>,
    /// The circle alone, one a share asked for; none where no trial reached it.
    pub bands: Vec<Band>,
    /// Trials flown.
    pub trials: u64,
    /// Trials that reached the circle; the bands are theirs alone.
    pub circling: u64,
    /// Number of bearings, the first north, clockwise.
    pub bearings: u32,
    /// Trials that flew on the circle at each bearing: fewer than those circling where some are taken over before they
    /// are round.
    pub flown: Vec<u64>,
    /// Whether it was stopped before it was complete.
    pub partial: bool,
}

impl EnvelopeAsk {
    /// 400 trials; half, 90 % and 99 % of them; every 5 degrees.
    pub fn usual() -> Self {
        Self { trials: 400, shares: vec![0.5, 0.9, 0.99], bearings: 72 }
    }

    /// 128 trials, the same rings: at once, to be followed by the usual one.
    pub fn coarse() -> Self {
        Self { trials: 128, ..Self::usual() }
    }
}

impl Envelope {
    /// Trials that never reached the circle.
    pub fn never(&self) -> u64 {
        self.trials - self.circling
    }
}

impl Ring {
    /// Whether a trial stays inside all the way.
    pub fn holds(&self, trial: &Reach) -> bool {
        trial.whole_m.iter().zip(&self.outer_m).all(|(reach, outer)| reach <= outer)
    }
}

/// Where recoveries of a scenario are flown, whole and along the swept path, from when the jet acts on the loss to the
/// end. The work counts recoveries.
///
/// A ring holds a fresh trial with the probability asked for, or more by less than one in the trials of a half. It has a
/// bulge towards where losses are likely, since the way home counts. The bands are about one bearing at a time.
pub fn envelope(scenario: &Scenario, ask: &EnvelopeAsk, work: &Work) -> Envelope {
    let bearings = ask.bearings.max(3);
    let sectors = bearings as usize;
    let flown = reaches(scenario, 1..ask.trials + 1, bearings, work);
    let partial = flown.is_partial();
    let trials = flown.results;
    let centre = scenario.field.centre;
    let on_circle: Vec<Reaches> = (0..sectors).map(|sector| Reaches::of(&trials, sector)).collect();
    let circling = trials.iter().filter(|trial| trial.circle_m.is_some()).count();
    let asked = |there: usize| if there > 0 { &ask.shares[..] } else { &[] };
    Envelope {
        centre,
        rings: rings(&trials, asked(trials.len()), sectors, scenario.file.recovery.radius.m(), centre),
        bands: asked(circling).iter().map(|&share| Band::of(share, &on_circle)).collect(),
        trials: trials.len() as u64,
        circling: circling as u64,
        bearings,
        flown: on_circle.iter().map(|all| all.far_m.len() as u64).collect(),
        partial,
    }
}

fn rings(trials: &[Reach], shares: &[f64], sectors: usize, radius_m: f64, centre: DVec2) -> Vec<Ring> {
    let (shape, size) = trials.split_at(trials.len() / 2);
    let levels = Levels::of(shape, sectors, radius_m);
    let mut scores: Vec<f64> = size.iter().map(|trial| levels.score(trial)).collect();
    scores.sort_by(f64::total_cmp);
    let ring = |&share: &f64| {
        let outer_m = levels.ring_m(scores[rank(scores.len(), share)? - 1]);
        let place = |(index, &distance): (usize, &f64)| centre + ray(index as f64 / sectors as f64) * distance;
        let corners = outer_m.iter().enumerate().map(place).collect();
        Some(Ring { share, short: short(scores.len(), share), outer_m, corners })
    };
    shares.iter().filter_map(ring).collect()
}

/// What all trials came to on the circle in one sector, metres, ascending.
struct Reaches {
    near_m: Vec<f64>,
    far_m: Vec<f64>,
}

impl Reaches {
    fn of(trials: &[Reach], sector: usize) -> Self {
        let there = trials.iter().filter_map(|trial| trial.circle_m.as_ref()?[sector]);
        let (mut near_m, mut far_m): (Vec<f64>, Vec<f64>) = there.map(|[near, far]| (near, far)).unzip();
        near_m.sort_by(f64::total_cmp);
        far_m.sort_by(f64::total_cmp);
        Self { near_m, far_m }
    }

    /// Nearest and furthest of a share.
    fn share(&self, share: f64) -> [f64; 2] {
        let count = self.far_m.len();
        rank(count, share).map_or([0.0; 2], |rank| [self.near_m[count - rank], self.far_m[rank - 1]])
    }
}

impl Band {
    fn of(share: f64, on_circle: &[Reaches]) -> Self {
        let (inner_m, outer_m) = on_circle.iter().map(|all| all.share(share)).map(|[near, far]| (near, far)).unzip();
        Self { share, short: on_circle.iter().any(|all| short(all.far_m.len(), share)), inner_m, outer_m }
    }
}

/// Whether `count` values are too few for a share.
fn short(count: usize, share: f64) -> bool {
    (count as f64 + 1.0) * share > count as f64 + 1e-9
}

/// Which of `count` values in order a fresh one stays below with a probability, the last at most; none without a value.
///
/// Of `count + 1` values drawn alike each is as likely to be the fresh one, so that `rank / (count + 1)` is how likely it
/// is to be no more than the value of that rank (H. A. David and H. N. Nagaraja, Order Statistics, 3rd ed., section 2.5).
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 1 and the number of values")]
fn rank(count: usize, share: f64) -> Option<usize> {
    (count > 0).then(|| ((share * (count + 1) as f64 - 1e-9).ceil() as usize).clamp(1, count))
}

/// The direction of a bearing in whole turns clockwise from north.
fn ray(turns: f64) -> DVec2 {
    let (east, north) = (TAU * turns).sin_cos();
    DVec2::new(east, north)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranks_in_small_numbers_by_hand() {
        let check = |count, share, wanted| assert_eq!(rank(count, share), wanted, "{share} of {count}");
        check(0, 0.5, None);
        check(1, 0.9, Some(1));
        // One fresh value among nine: below the ninth with nine tenths.
        check(9, 0.9, Some(9));
        check(9, 0.5, Some(5));
        check(19, 0.9, Some(18));
        check(8, 0.9, Some(8));
        check(99, 0.99, Some(99));
    }
}
