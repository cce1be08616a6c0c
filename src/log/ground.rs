//! How high is home's ground in a log, and until when did the jet stand on it?

use glam::DVec2;

use super::fix::{Fix, Heights, Raw};
use super::notes::{Kind, Notes};
use crate::run::Scenario;

/// Slower than this over a second it has not taken off, m/s (judgement: faster than somebody who carries it).
const ON_GROUND_MPS: f64 = 3.0;
/// How near home the ground is home's, metres (judgement).
const NEAR_M: f64 = 30.0;
/// How long the log may have begun when it still stands there, seconds.
const FIRST_S: f64 = 60.0;

const STANDS: Kind = Kind { many: "waits on the ground", way_out: "Nothing to do: what wanders there is the receiver" };
const HOME: Kind = Kind {
    many: "heights of home",
    way_out: "Nothing to do if that is right; else start the log on the ground at home, or enter the field's height",
};

/// Turns the heights into those above home's ground.
pub(super) fn above_home(raw: &mut Raw, scenario: &Scenario, notes: &mut Notes) {
    let standing = standing(&raw.fixes);
    if let (Some(first), Some(last)) = (raw.fixes.first(), standing.checked_sub(1).and_then(|at| raw.fixes.get(at))) {
        let until_s = last.time_s - first.time_s;
        let all = standing == raw.fixes.len();
        notes.warn(&STANDS, Some(last.line), || {
            let end = if all { ", the end of the log" } else { "" };
            format!("the jet is on the ground until {until_s:.1} s{end}; the fixes there are kept")
        });
    }
    if raw.heights == Heights::Home {
        return;
    }
    let home_m = at_home(&raw.fixes[..standing], scenario.field.home).inspect(|home_m| {
        notes.warn(&HOME, None, || {
            format!("home's ground is at {home_m:.1} m in the log, as it stood there before take-off")
        });
    });
    let elevation_m = scenario.file.air.elevation.m();
    let home_m = home_m.unwrap_or_else(|| {
        if elevation_m != 0.0 {
            notes.warn(&HOME, None, || {
                format!("the log does not begin on the ground near home; the field's {elevation_m:.1} m above the sea are taken for home's ground")
            });
            return elevation_m;
        }
        let lowest_m = raw.fixes.iter().filter_map(|fix| fix.height_m).fold(f64::INFINITY, f64::min);
        notes.warn(&HOME, None, || {
            format!("the log does not begin on the ground near home; its lowest height, {lowest_m:.1} m, is taken for home's ground")
        });
        lowest_m
    });
    for fix in &mut raw.fixes {
        fix.height_m = fix.height_m.map(|height_m| height_m - home_m);
    }
}

/// How many samples at the start are on the ground: as long as it is slow, each over the second that follows it.
fn standing(fixes: &[Fix]) -> usize {
    let mut ahead = 0;
    for (index, fix) in fixes.iter().enumerate() {
        while ahead + 1 < fixes.len() && (ahead <= index || fixes[ahead].time_s < fix.time_s + 1.0) {
            ahead += 1;
        }
        let seconds = fixes[ahead].time_s - fix.time_s;
        let way_m = fixes[ahead].place.zip(fix.place).map_or(0.0, |(to, from)| to.distance(from));
        if seconds > 0.0 && way_m >= ON_GROUND_MPS * seconds {
            return index;
        }
    }
    fixes.len()
}

/// The median height of what stands near home in the first minute.
fn at_home(standing: &[Fix], home: DVec2) -> Option<f64> {
    let end_s = standing.first()?.time_s + FIRST_S;
    let near = standing.iter().take_while(|fix| fix.time_s <= end_s);
    let near = near.filter(|fix| fix.place.is_some_and(|place| place.distance(home) <= NEAR_M));
    let mut heights: Vec<f64> = near.filter_map(|fix| fix.height_m).collect();
    heights.sort_by(f64::total_cmp);
    let middle = heights.len() / 2;
    if heights.len() % 2 == 1 {
        heights.get(middle).copied()
    } else {
        Some((heights.get(middle.checked_sub(1)?)? + heights[middle]) / 2.0)
    }
}
