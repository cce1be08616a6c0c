//! Do the times go forward? What comes again or goes back is left out, a clock that was set back is set right, and the day
//! goes on after midnight.

use super::clock::DAY_S;
use super::fix::{Clock, Fix, Raw};
use super::notes::{Kind, Notes};

/// Times nearer than this are the same, seconds.
const SAME_S: f64 = 2e-6;
/// Places nearer than this are the same, metres.
const SAME_M: f64 = 0.01;
/// How many samples may run ahead and come back (judgement).
const AHEAD: usize = 5;
/// How many samples must follow a clock that was set back for good (judgement).
const FOLLOWING: usize = 5;
/// How many are looked at.
const LOOKED_AT: usize = 50;

const AGAIN: Kind =
    Kind { many: "samples whose time comes again", way_out: "Nothing to do: the first of them is kept" };
const BACK: Kind = Kind {
    many: "samples whose time goes back",
    way_out: "They are left out; where many are, export the log again in the order of its times",
};
const SET_BACK: Kind = Kind {
    many: "times at which the clock was set back",
    way_out: "What follows is taken as later by that much, as if nothing had been missed; cut the log there if it was",
};
const RAN_AHEAD: Kind =
    Kind { many: "samples whose time runs ahead and comes back", way_out: "Nothing to do: they are left out" };
const MIDNIGHT: Kind = Kind { many: "midnights", way_out: "Nothing to do: the next day is counted on" };

/// Puts the samples of a file in the order of time, each later than the one before.
pub(super) fn in_order(raw: &mut Raw, notes: &mut Notes) {
    let fixes = std::mem::take(&mut raw.fixes);
    let step_s = step_s(&fixes);
    let mut kept: Vec<Fix> = Vec::with_capacity(fixes.len());
    let mut offset_s = 0.0;
    for (index, fix) in fixes.iter().enumerate() {
        let mut time_s = fix.time_s + offset_s;
        let line = Some(fix.line);
        if let Some(ahead) = ran_ahead(&kept, time_s, step_s) {
            for fix in kept.drain(ahead..) {
                notes.warn(&RAN_AHEAD, Some(fix.line), || "the time runs ahead and comes back".into());
            }
        }
        if let Some(last) = kept.last() {
            let mut back_s = last.time_s - time_s;
            if raw.clock == Clock::Midnight && back_s > DAY_S / 2.0 {
                notes.warn(&MIDNIGHT, line, || "the log passes midnight".into());
                offset_s += DAY_S;
                time_s += DAY_S;
                back_s -= DAY_S;
            }
            let again = back_s.abs() < SAME_S;
            if again || back_s > 0.0 && is_repeated(&kept, time_s, fix) {
                notes.warn(&AGAIN, line, || "the time comes again".into());
                continue;
            }
            if back_s > 0.0 {
                if !(raw.one_clock && for_good(&fixes[index..], last.time_s - offset_s, step_s)) {
                    notes.warn(&BACK, line, || format!("the time goes back by {back_s:.3} s"));
                    continue;
                }
                let mut shift_s = (back_s + step_s).round();
                if shift_s <= back_s + SAME_S {
                    shift_s += 1.0;
                }
                notes.warn(&SET_BACK, line, || format!("the clock was set back; later by {shift_s:.0} s from here"));
                offset_s += shift_s;
                time_s += shift_s;
            }
        }
        kept.push(Fix { time_s, ..fix.clone() });
    }
    raw.fixes = kept;
}

/// The usual time between samples, seconds: the median of the steps forward.
fn step_s(fixes: &[Fix]) -> f64 {
    let mut steps: Vec<f64> =
        fixes.windows(2).map(|pair| pair[1].time_s - pair[0].time_s).filter(|step| *step > SAME_S).collect();
    let middle = steps.len() / 2;
    if steps.is_empty() { 1.0 } else { *steps.select_nth_unstable_by(middle, f64::total_cmp).1 }
}

/// From where on the last few samples were ahead of their time, if this one follows upon what is before them.
fn ran_ahead(kept: &[Fix], time_s: f64, step_s: f64) -> Option<usize> {
    let far_s = (10.0 * step_s).max(2.0);
    let last = kept.last()?;
    if last.time_s <= time_s + SAME_S {
        return None;
    }
    (kept.len().saturating_sub(AHEAD).max(1)..kept.len()).find(|&at| {
        let before_s = kept[at - 1].time_s;
        kept[at].time_s - before_s > far_s && before_s < time_s - SAME_S && time_s - before_s <= far_s
    })
}

/// Whether the same sample is there already.
fn is_repeated(kept: &[Fix], time_s: f64, fix: &Fix) -> bool {
    let at = kept.partition_point(|known| known.time_s < time_s - SAME_S);
    let Some(known) = kept.get(at).filter(|known| (known.time_s - time_s).abs() < SAME_S) else { return false };
    known.place.zip(fix.place).is_some_and(|(one, other)| one.distance(other) < SAME_M)
}

/// Whether the clock goes on from a step back, either evenly or without ever coming to where it was.
fn for_good(fixes: &[Fix], last_s: f64, step_s: f64) -> bool {
    let next = &fixes[..fixes.len().min(LOOKED_AT)];
    let even = |pair: &[Fix]| (SAME_S..1.4 * step_s).contains(&(pair[1].time_s - pair[0].time_s));
    let evenly = next.len() > FOLLOWING && next[..=FOLLOWING].windows(2).all(even);
    evenly || next.len() > FOLLOWING && next.iter().all(|fix| fix.time_s < last_s)
}
