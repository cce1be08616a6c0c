//! What stands between what is missing? Short gaps in a column are filled by a straight line between their neighbours; what
//! lacks more is left out.

use glam::DVec2;

use super::fix::{EXTRAS, Fix, Raw};
use super::notes::{Kind, Notes};
use crate::run::{Channels, Stretch};

/// Longest gap that is filled, seconds (judgement): a jet is some 50 m on.
pub(super) const SHORT_S: f64 = 2.0;

const PLACES: Kind = Kind {
    many: "samples without a place",
    way_out: "Across up to 2 s the place is taken from the neighbours; the rest is left out",
};
const HEIGHTS: Kind = Kind {
    many: "samples without a height",
    way_out: "Between neighbours the height is taken from them; the rest is left out",
};
const CHANNELS: Kind = Kind {
    many: "gaps in what else was logged",
    way_out: "Across up to 2 s it is taken from the neighbours; a column that lacks more is not used",
};
const GAPS: Kind = Kind {
    many: "gaps in the log",
    way_out: "Nothing is known of what was flown in them; judge the parts by themselves",
};
const NOTHING: Kind = Kind {
    many: "reasons why nothing is left",
    way_out: "Export the log with times, places and heights; what is said beside tells what was left out",
};

/// Leaves only samples with a place and a height; false where they are too few.
pub(super) fn whole(raw: &mut Raw, notes: &mut Notes) -> bool {
    let fixes = &mut raw.fixes;
    fill(
        fixes,
        SHORT_S,
        |fix| fix.place.is_none(),
        put_place,
        |fix, filled| {
            notes.warn(&PLACES, Some(fix.line), || format!("the place is missing and {}", done(filled)));
        },
    );
    if !fixes.is_empty() && fixes.iter().all(|fix| fix.height_m.is_none()) {
        notes.error(&HEIGHTS, None, || "there is no height in the whole log".into());
        return false;
    }
    fill(
        fixes,
        raw.height_gap_s,
        |fix| fix.height_m.is_none(),
        put_height,
        |fix, filled| {
            notes.warn(&HEIGHTS, Some(fix.line), || format!("the height is missing and {}", done(filled)));
        },
    );
    for pair in fixes.windows(2) {
        let gap_s = pair[1].time_s - pair[0].time_s;
        if gap_s > SHORT_S {
            notes.warn(&GAPS, Some(pair[1].line), || format!("the log has a gap of {gap_s:.1} s before this"));
        }
    }
    if fixes.len() < 2 {
        let count = fixes.len();
        notes.error(&NOTHING, None, || match count {
            0 => "there is no sample with a time, a place and a height".into(),
            _ => "there is only one sample with a time, a place and a height".into(),
        });
    }
    fixes.len() >= 2
}

fn done(filled: bool) -> &'static str {
    if filled { "taken from its neighbours" } else { "too far from a neighbour; the sample is left out" }
}

/// Fills each run of samples that lack something from the samples to either side, and leaves out what can't be filled.
fn fill(
    fixes: &mut Vec<Fix>,
    longest_s: f64,
    lacks: impl Fn(&Fix) -> bool,
    put: impl Fn(&mut Fix, &Fix, &Fix, f64),
    mut tell: impl FnMut(&Fix, bool),
) {
    let mut index = 0;
    while index < fixes.len() {
        if !lacks(&fixes[index]) {
            index += 1;
            continue;
        }
        let end = (index..fixes.len()).find(|&at| !lacks(&fixes[at])).unwrap_or(fixes.len());
        let before = index.checked_sub(1).map(|at| fixes[at].clone());
        let after = fixes.get(end).cloned();
        for fix in &mut fixes[index..end] {
            let gap = |other: &&Fix| (other.time_s - fix.time_s).abs() <= SHORT_S;
            let filled = match (&before, &after) {
                (Some(before), Some(after)) if after.time_s - before.time_s <= longest_s => {
                    let share = (fix.time_s - before.time_s) / (after.time_s - before.time_s);
                    Some((before, after, share))
                }
                // At either end the nearest is held.
                (before, after) => {
                    let alone = before.is_none() || after.is_none();
                    let nearest = before.as_ref().or(after.as_ref()).filter(gap).filter(|_| alone);
                    nearest.map(|nearest| (nearest, nearest, 0.0))
                }
            };
            tell(fix, filled.is_some());
            if let Some((from, to, share)) = filled {
                put(fix, from, to, share);
            }
        }
        index = end;
    }
    fixes.retain(|fix| !lacks(fix));
}

fn between(from: f64, to: f64, share: f64) -> f64 {
    from + (to - from) * share
}

fn put_place(fix: &mut Fix, from: &Fix, to: &Fix, share: f64) {
    fix.place = from.place.zip(to.place).map(|(from, to): (DVec2, DVec2)| from.lerp(to, share));
}

fn put_height(fix: &mut Fix, from: &Fix, to: &Fix, share: f64) {
    fix.height_m = from.height_m.zip(to.height_m).map(|(from, to)| between(from, to, share));
}

/// What else was logged, as far as it has no long gaps.
pub(super) fn channels(raw: &Raw, notes: &mut Notes) -> Channels {
    let mut lists = [0, 1, 2, 3].map(|which| raw.extras[which].then(|| channel(&raw.fixes, which, notes)).flatten());
    Channels {
        airspeed_mps: lists[super::fix::AIRSPEED].take(),
        load: lists[super::fix::LOAD].take(),
        bank_rad: lists[super::fix::BANK].take(),
        energy_left_j: lists[super::fix::ENERGY].take(),
        stretch: raw.stretch.then(|| stretches(&raw.fixes, notes)).flatten(),
    }
}

fn channel(fixes: &[Fix], which: usize, notes: &mut Notes) -> Option<Vec<f64>> {
    let name = EXTRAS[which];
    let mut list: Vec<f64> = fixes.iter().map(|fix| fix.extra[which]).collect();
    let mut index = 0;
    while index < list.len() {
        if list[index].is_finite() {
            index += 1;
            continue;
        }
        let end = (index..list.len()).find(|&at| list[at].is_finite()).unwrap_or(list.len());
        let line = Some(fixes[index].line);
        let before = index.checked_sub(1);
        let after = (end < list.len()).then_some(end);
        let (Some(from), Some(to)) = (before.or(after), after.or(before)) else {
            notes.warn(&CHANNELS, line, || format!("the column of the {name} is empty and not used"));
            return None;
        };
        let start_s = fixes[before.unwrap_or(index)].time_s;
        let gap_s = fixes[after.unwrap_or(end - 1)].time_s - start_s;
        if gap_s > SHORT_S {
            notes.warn(&CHANNELS, line, || format!("the {name} is missing for {gap_s:.1} s and not used"));
            return None;
        }
        notes.warn(&CHANNELS, line, || format!("the {name} is missing for {gap_s:.1} s and taken from its neighbours"));
        let (from_s, to_s) = (fixes[from].time_s, fixes[to].time_s);
        for at in index..end {
            let share = if to == from { 0.0 } else { (fixes[at].time_s - from_s) / (to_s - from_s) };
            list[at] = between(list[from], list[to], share);
        }
        index = end;
    }
    Some(list)
}

/// A stretch goes on until the next is named.
fn stretches(fixes: &[Fix], notes: &mut Notes) -> Option<Vec<Stretch>> {
    let mut last = fixes.first().and_then(|fix| fix.stretch);
    if last.is_none() {
        let line = fixes.first().map(|fix| fix.line);
        notes.warn(&CHANNELS, line, || "the first sample names no stretch; the column is not used".into());
    }
    let mut list = Vec::with_capacity(fixes.len());
    for fix in fixes {
        if last.is_some() && fix.stretch.is_none() {
            notes.warn(&CHANNELS, Some(fix.line), || "the stretch is missing and taken from the sample before".into());
        }
        last = fix.stretch.or(last);
        list.push(last?);
    }
    Some(list)
}
