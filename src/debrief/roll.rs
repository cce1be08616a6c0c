//! How steeply does the jet bank at most, and how soon is it there, as the turn home tells?

use glam::DVec2;

use super::Marks;
use super::estimate::{ENDS, Estimate, Told, deviation, mean};
use super::motion::Motion;
use crate::run::Track;

/// Half the time over which the bank of a turn is taken from places alone, s.
const HALF_S: f64 = 1.5;
/// A bank that is held stays within this of its highest, rad: as logged, and from places alone.
const HELD_RAD: [f64; 2] = [0.03, 0.1];
/// As long as it has to be held, s, and how far the way turns meanwhile, rad (judgement).
const HELD_S: f64 = 2.0;
const TURNED_RAD: f64 = 0.5;
/// So many times what is given has to be asked for (judgement: a law that is flown again under the wrong gain asks for up to
/// 1.27 times as much).
const MORE: f64 = 1.3;
/// Error of a bank that was logged, rad (judgement: a stabiliser in a long turn).
const LOGGED_RAD: f64 = 0.01;
/// Between these shares of the bank still to come its lag is read off: before, the roll may be at its fastest; after,
/// the bank is nearly there.
const TO_COME: [f64; 2] = [0.65, 0.08];
/// Least error of a lag, as a share of it (judgement).
const LEAST_SHARE: f64 = 0.08;

/// The bank at which the turn home stands still, where what steers it asked for more.
pub(super) fn bank_limit(track: &Track, marks: &Marks, wind: DVec2, asks_rad: Option<f64>) -> Told {
    let held = held_bank(track, marks, wind)?;
    let asks_rad = asks_rad.ok_or("what steered it is not known, nor what bank it asked for")?;
    if asks_rad < MORE * held.value {
        return Err("nothing asked for more bank than was flown");
    }
    Ok(held)
}

/// The bank at which the turn home stands still, whatever holds it there.
pub(super) fn held_bank(track: &Track, marks: &Marks, wind: DVec2) -> Told {
    let home = marks.turned_home.ok_or("it never turned home")?;
    // Where it joins a law asks for the bank of the circle, whatever it is.
    let end = marks.joined.unwrap_or(marks.taken_over).min(track.time_s().len());
    let logged = track.channels().bank_rad.is_some();
    let held_rad = HELD_RAD[usize::from(!logged)];
    let bank = |at: usize| match &track.channels().bank_rad {
        Some(bank) => Some(bank[at]),
        None => Motion::at(track, at, HALF_S).map(|motion| motion.bank(wind)),
    };
    let banks: Vec<(f64, f64)> = (home..end).filter_map(|at| Some((track.time_s()[at], bank(at)?.abs()))).collect();
    let highest = banks.iter().map(|one| one.1).fold(0.0, f64::max);
    let held = banks.split(|one| one.1 < highest - held_rad);
    let lasting = |run: &[(f64, f64)]| run.last().map_or(0.0, |last| last.0 - run[0].0);
    let longest = held.max_by(|a, b| lasting(a).total_cmp(&lasting(b))).unwrap_or_default();
    // What is taken over some time is less at either end of a turn than the turn is.
    let edge_s = if logged { 0.0 } else { HALF_S.min(lasting(longest) / 3.0) };
    let inner = |time: f64| longest[0].0 + edge_s <= time && time <= longest[longest.len() - 1].0 - edge_s;
    let list: Vec<f64> = longest.iter().filter(|one| inner(one.0)).map(|one| one.1).collect();
    let (Some(value), Some(noise)) = (mean(&list), deviation(&list)) else {
        return Err("the track has too few samples");
    };
    let turned = || {
        let at = |time: f64| track.time_s().partition_point(|&one| one < time);
        let way = |time: f64| Motion::at(track, at(time), HALF_S).map(|motion| motion.through(wind));
        let (first, last) = (longest.first()?, longest.last()?);
        Some(way(first.0)?.angle_to(way(last.0)?).abs())
    };
    if lasting(longest) < HELD_S || turned().is_none_or(|angle| angle < TURNED_RAD) {
        return Err("the turn home never stood at the steepest bank");
    }
    let off = if logged {
        noise.max(LOGGED_RAD)
    } else {
        // One bank in every second half is news; what is left smooths the highest away as often as it adds to it.
        noise.hypot(held_rad / 2.0) / (lasting(longest) / (2.0 * HALF_S)).max(1.0).sqrt()
    };
    Ok(Estimate::within(value, off))
}

/// The lag with which the bank comes to its limit: what is still to come falls by a factor of e in it.
pub(super) fn roll_lag(track: &Track, marks: &Marks, limit_rad: f64) -> Told {
    let bank =
        track.channels().bank_rad.as_ref().ok_or("no bank was logged: places alone don't tell lag from delay")?;
    let home = marks.turned_home.ok_or("it never turned home")?;
    let start = home.saturating_sub(3);
    let to_come = |at: usize| 1.0 - bank[at].abs() / limit_rad;
    let [first, last] = TO_COME;
    let there = (start..bank.len()).find(|&at| to_come(at) < last).ok_or("it never came to its steepest bank")?;
    let from = (start..there).rev().find(|&at| to_come(at) > first).ok_or("it was banked when it turned home")? + 1;
    let points: Vec<[f64; 2]> = (from..there).map(|at| [track.time_s()[at], to_come(at).ln()]).collect();
    if points.len() < 3 {
        return Err("the bank was logged too seldom");
    }
    let [mid_time, mid_log] = [0, 1].map(|which| mean(&points.iter().map(|point| point[which]).collect::<Vec<_>>()));
    let (mid_time, mid_log) = (mid_time.unwrap_or_default(), mid_log.unwrap_or_default());
    let (mut squares, mut cross) = (0.0, 0.0);
    for [time, log] in &points {
        squares += (time - mid_time).powi(2);
        cross += (time - mid_time) * (log - mid_log);
    }
    let slope = cross / squares;
    if slope >= -0.1 {
        return Err("the bank does not settle");
    }
    let value = -1.0 / slope;
    let off = points.iter().map(|[time, log]| (log - mid_log - slope * (time - mid_time)).powi(2)).sum::<f64>();
    #[allow(clippy::cast_precision_loss, reason = "a few samples")]
    let off = (off / (points.len() - 2) as f64 / squares).sqrt() * value * value;
    // What the limit is off by bends the end of the line.
    let bent = LOGGED_RAD / (limit_rad * last) / ENDS * value * 0.5;
    Ok(Estimate::within(value, off.hypot(LEAST_SHARE * value).hypot(bent)))
}
