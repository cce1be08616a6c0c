//! Which wind and which airspeed does the ground track of a turn tell, and how surely?
//!
//! The ground velocities of a jet that turns at one airspeed lie on a circle: its centre is the wind, its radius the
//! airspeed (its horizontal part). What is estimated is the wind's mean at the height flown, gusts about it averaging to
//! nothing. An airspeed that changes with the heading, round and round, can't be told from wind by anybody who has the
//! ground track alone; [`FLOOR`] stands for that.

mod chords;
mod gusts;
mod too_little;

use std::f64::consts::{PI, TAU};
use std::ops::Range;

use glam::{DMat2, DMat3, DVec2, DVec3};

use super::circle;
use super::estimate::ENDS;
use crate::run::Track;
use crate::study::stats::Interval;
use chords::{Chord, chords};
use gusts::{Off, Sure, sure};

pub use gusts::Gustiness;
pub use too_little::{LEAST_TIME_S, LEAST_TURN_DEG, TooLittle, WHOLE_ARC_DEG};

/// Standard deviation below which no wind or airspeed is believed, as a share of the airspeed: no autopilot holds it
/// better round a turn. Judgement.
pub const FLOOR: f64 = 0.007;

/// The largest residual, as a share of the airspeed. Judgement.
const LARGEST_RESIDUAL: f64 = 0.3;

/// The fewest velocities. Judgement.
const FEWEST: usize = 8;

/// The longest time between positions, seconds: from more, a tight turn might be taken for a wide one. Judgement.
const LONGEST_S: f64 = 2.5;

/// Half-width in which two normal errors lie together with 95 %, in standard deviations: chi-squared of two, 5.991.
const DEVIATE_OF_TWO: f64 = 2.447_747;

/// Wind and airspeed from a part of a track. Intervals are of 95 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindFit {
    /// Mean wind, m/s, x east, y north, where it blows to.
    pub wind: DVec2,
    /// Covariance of the wind, (m/s)^2, as of a normal distribution with the same 95 % intervals and ellipse.
    pub wind_cov: [[f64; 2]; 2],
    /// Strength of the mean wind, m/s.
    pub speed_within: Interval,
    /// Where it blows from lies within so many degrees either way; 180 where it may be calm.
    pub from_within_deg: f64,
    /// Airspeed, its horizontal part, m/s.
    pub airspeed_mps: f64,
    /// Where that lies.
    pub airspeed_within: Interval,
    /// How gusty it was.
    pub gust: Gustiness,
    /// The turn through the air between the extremes, degrees.
    pub turned_deg: f64,
    /// Root mean square distance of the velocities from the circle, m/s.
    pub residual_mps: f64,
    /// Velocities that were used.
    pub samples: usize,
    /// Mean height above home's ground, metres.
    pub height_m: f64,
}

impl WindFit {
    /// Whether a mean wind, m/s, lies in the 95 % ellipse.
    pub fn holds(&self, wind: DVec2) -> bool {
        let apart = wind - self.wind;
        apart.dot(covariance(self.wind_cov).inverse() * apart) <= DEVIATE_OF_TWO * DEVIATE_OF_TWO
    }

    /// The 95 % interval of the part of the wind that blows to the way of a unit vector, m/s.
    pub fn along(&self, way: DVec2) -> Interval {
        let off = ENDS * self.deviation_along(way);
        let middle = self.wind.dot(way);
        Interval { low: middle - off, high: middle + off }
    }

    /// Standard deviation of that part, m/s.
    pub fn deviation_along(&self, way: DVec2) -> f64 {
        way.dot(covariance(self.wind_cov) * way).max(0.0).sqrt()
    }

    /// What a short arc does to the numbers; none of a turn that is nearly whole.
    pub fn caution(&self) -> Option<&'static str> {
        (self.turned_deg < WHOLE_ARC_DEG).then_some(
            "A short arc: wind along the middle of the turn and airspeed can stand in for each other, so that an error of one \
             is an error of the other. Plain fits make the circle of a short arc too small.",
        )
    }
}

fn covariance([east, north]: [[f64; 2]; 2]) -> DMat2 {
    DMat2::from_cols_array_2d(&[east, north])
}

/// Wind and airspeed from some samples of a track.
///
/// # Errors
/// In plain words, why there is too little to tell.
pub fn wind(track: &Track, range: Range<usize>) -> Result<WindFit, TooLittle> {
    let (Some(time_s), Some(height_m)) = (track.time_s().get(range.clone()), track.height_m().get(range.clone()))
    else {
        return Err(TooLittle::Nothing);
    };
    let (Some(first_s), Some(last_s)) = (time_s.first(), time_s.last()) else { return Err(TooLittle::Nothing) };
    let seconds = last_s - first_s;
    if seconds < LEAST_TIME_S {
        return Err(TooLittle::Short { seconds });
    }
    let chords = chords(track, range);
    let missing = 1.0 - chords.iter().map(|chord| chord.took_s).sum::<f64>() / seconds;
    if missing > 0.4 {
        return Err(TooLittle::Gaps { missing_percent: 100.0 * missing });
    }
    let every_s = seconds / chords.len().max(1) as f64;
    if chords.len() < FEWEST || chords.iter().any(|chord| chord.took_s > LONGEST_S) {
        return Err(TooLittle::Seldom { every_s });
    }
    let (hodograph, sure) = Hodograph::of(&chords)?;
    let mean_height_m = height_m.iter().sum::<f64>() / height_m.len() as f64;
    Ok(hodograph.fit(&sure, mean_height_m))
}

/// The circle that the velocities lie on.
struct Hodograph {
    wind: DVec2,
    airspeed_mps: f64,
    offs: Vec<Off>,
    turned_deg: f64,
}

impl Hodograph {
    fn of(chords: &[Chord]) -> Result<(Self, Sure), TooLittle> {
        let velocities: Vec<DVec2> = chords.iter().map(|chord| chord.velocity).collect();
        let over_ground_deg = turn(&headings(chords, DVec2::ZERO)).to_degrees();
        let too_straight = TooLittle::Turned { turned_deg: over_ground_deg };
        let start = circle::geometric(&velocities).or_else(|| circle::taubin(&velocities)).ok_or(too_straight)?;
        let mut found = Self::about(chords, start.centre, start.radius);
        if start.rms > LARGEST_RESIDUAL * start.radius {
            let no_circle = TooLittle::NoCircle { residual_mps: start.rms };
            return Err(if over_ground_deg < LEAST_TURN_DEG { too_straight } else { no_circle });
        }
        found.refuse_short()?;
        // Each round starts from the last one's circle, as the noses turn with it.
        let mut answer = sure(&found.offs).ok_or(too_straight)?;
        for _ in 0..4 {
            found = Self::about(
                chords,
                found.wind + answer.correction.truncate(),
                found.airspeed_mps + answer.correction.z,
            );
            answer = sure(&found.offs).ok_or(too_straight)?;
        }
        found.refuse_short()?;
        Ok((found, answer))
    }

    fn about(chords: &[Chord], wind: DVec2, airspeed_mps: f64) -> Self {
        let headings = headings(chords, wind);
        let offs = chords.iter().enumerate().map(|(index, chord)| {
            let (before, after) = (index.saturating_sub(1), (index + 1).min(chords.len() - 1));
            let rate = (headings[after] - headings[before]) / (chords[after].at_s - chords[before].at_s);
            // A straight line over part of a turn is shorter than the way round: its chord over its arc.
            let half = 0.5 * rate * chord.took_s;
            let shown = if half.abs() < 1e-6 { 1.0 } else { half.sin() / half };
            let nose = (chord.velocity - wind).normalize_or_zero();
            let faster_mps = chord.velocity.distance(wind) - airspeed_mps * shown;
            Off { at_s: chord.at_s, took_s: chord.took_s, nose, shown, faster_mps }
        });
        Self { wind, airspeed_mps, offs: offs.collect(), turned_deg: turn(&headings).to_degrees() }
    }

    fn refuse_short(&self) -> Result<(), TooLittle> {
        if self.turned_deg < LEAST_TURN_DEG {
            return Err(TooLittle::Turned { turned_deg: self.turned_deg });
        }
        let mut ways: Vec<f64> = self.offs.iter().map(|off| off.nose.y.atan2(off.nose.x)).collect();
        ways.sort_by(f64::total_cmp);
        let around = ways.last().zip(ways.first()).map_or(0.0, |(last, first)| first + TAU - last);
        let widest = ways.windows(2).map(|two| two[1] - two[0]).fold(around, f64::max);
        let covered_deg = 360.0 - widest.to_degrees();
        if covered_deg < LEAST_TURN_DEG { Err(TooLittle::Covered { covered_deg }) } else { Ok(()) }
    }

    fn fit(&self, sure: &Sure, height_m: f64) -> WindFit {
        let floor = FLOOR * self.airspeed_mps;
        let all = sure.covariance + DMat3::from_diagonal(DVec3::splat(floor * floor));
        let (wind, airspeed_mps) = (self.wind + sure.correction.truncate(), self.airspeed_mps + sure.correction.z);
        let off = ENDS * all.z_axis.z.sqrt();
        let squares = self.offs.iter().map(|off| off.faster_mps * off.faster_mps).sum::<f64>();
        let mut fit = WindFit {
            wind,
            wind_cov: [[all.x_axis.x, all.x_axis.y], [all.x_axis.y, all.y_axis.y]],
            speed_within: Interval { low: 0.0, high: f64::INFINITY },
            from_within_deg: 180.0,
            airspeed_mps,
            airspeed_within: Interval { low: airspeed_mps - off, high: airspeed_mps + off },
            gust: sure.gust,
            turned_deg: self.turned_deg,
            residual_mps: (squares / self.offs.len() as f64).sqrt(),
            samples: self.offs.len(),
            height_m,
        };
        let along = fit.along(wind.normalize_or(DVec2::X));
        fit.speed_within = Interval { low: along.low.max(0.0), high: along.high };
        let across = ENDS * fit.deviation_along(wind.normalize_or(DVec2::X).perp());
        if !fit.holds(DVec2::ZERO) {
            fit.from_within_deg = across.atan2(along.low.max(0.0)).to_degrees();
        }
        fit
    }
}

/// Ways of the nose in a wind, radians from east to north, unwrapped; over a gap as the turn before it goes on.
fn headings(chords: &[Chord], wind: DVec2) -> Vec<f64> {
    let mut headings: Vec<f64> = Vec::with_capacity(chords.len());
    let mut rate = 0.0;
    for (index, chord) in chords.iter().enumerate() {
        let nose = chord.velocity - wind;
        let way = nose.y.atan2(nose.x);
        let Some((&last, before)) = headings.last().zip(index.checked_sub(1)) else {
            headings.push(way);
            continue;
        };
        let took_s = chord.at_s - chords[before].at_s;
        let gap = took_s > 1.5 * chord.took_s;
        let expected = if gap { last + rate * took_s } else { last };
        let next = expected + (way - expected + PI).rem_euclid(TAU) - PI;
        rate += 0.3 * ((next - last) / took_s - rate);
        headings.push(next);
    }
    headings
}

/// From the one extreme to the other, radians.
fn turn(headings: &[f64]) -> f64 {
    let low = headings.iter().copied().fold(f64::INFINITY, f64::min);
    headings.iter().copied().fold(f64::NEG_INFINITY, f64::max) - low
}

/// Lap by lap about a centre: from the range's first sample round to the same bearing, and on. What is left at the end
/// is no lap.
pub fn laps(track: &Track, range: Range<usize>, centre: DVec2) -> Vec<(Range<usize>, Result<WindFit, TooLittle>)> {
    let Some(places) = track.place().get(range.clone()) else { return Vec::new() };
    let (mut begins, mut round, mut laps) = (range.start, 0.0_f64, Vec::new());
    for (index, two) in places.windows(2).enumerate() {
        round += (two[0] - centre).angle_to(two[1] - centre);
        if round.abs() >= TAU {
            let lap = begins..range.start + index + 2;
            begins = range.start + index + 1;
            round -= TAU.copysign(round);
            laps.push((lap.clone(), wind(track, lap)));
        }
    }
    laps
}
