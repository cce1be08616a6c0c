//! Can it have flown there? A fix that no jet gets to and that comes back is left out.

use super::fix::Fix;
use super::notes::{Kind, Notes};

/// Faster than any model jet, m/s (judgement).
const FASTEST_MPS: f64 = 150.0;
/// What a fix may be off by from one sample to the next, metres (judgement).
const NOISE_M: f64 = 3.0;
/// How long a receiver may be wrong before it is right again, seconds (judgement).
const LONGEST_S: f64 = 10.0;
/// Most samples that are looked at.
const MOST: usize = 200;

const JUMP: Kind = Kind {
    many: "fixes too far away to fly to, which come back",
    way_out: "They are left out; where many are, the receiver saw too little of the sky",
};
const STAYS: Kind = Kind {
    many: "jumps of the place that stay",
    way_out: "Both sides are kept; cut the log there if it is of two flights",
};

/// Leaves out what jumps away and comes back. Times go forward already.
pub(super) fn without_jumps(fixes: &mut Vec<Fix>, notes: &mut Notes) {
    let all = std::mem::take(fixes);
    let mut last: Option<usize> = None;
    let mut left_out = vec![false; all.len()];
    let mut index = 0;
    while index < all.len() {
        if all[index].place.is_none() {
            index += 1;
            continue;
        }
        let Some(before) = last.filter(|&before| !reaches(&all[before], &all[index])) else {
            last = Some(index);
            index += 1;
            continue;
        };
        let (from, next) = (&all[before], &all[index]);
        let away = || apart_m(from, next);
        let back = (index + 1..all.len().min(index + MOST))
            .take_while(|&at| all[at].time_s - next.time_s <= LONGEST_S)
            .find(|&at| all[at].place.is_some() && reaches(from, &all[at]));
        if let Some(back) = back {
            for (fix, out) in all[index..back].iter().zip(&mut left_out[index..back]) {
                if fix.place.is_some() {
                    notes.warn(&JUMP, Some(fix.line), || format!("the fix jumps {:.0} m away and comes back", away()));
                    *out = true;
                }
            }
            index = back;
        } else if left_out[..before].iter().all(|out| *out) || all[..before].iter().all(|fix| fix.place.is_none()) {
            // The first of all is the one that is wrong.
            notes.warn(&JUMP, Some(from.line), || format!("the first fix is {:.0} m from the next", away()));
            left_out[before] = true;
            (last, index) = (Some(index), index + 1);
        } else {
            notes.warn(&STAYS, Some(next.line), || format!("the place jumps by {:.0} m and stays there", away()));
            (last, index) = (Some(index), index + 1);
        }
    }
    fixes.extend(all.into_iter().zip(left_out).filter(|(_, out)| !out).map(|(fix, _)| fix));
}

fn reaches(from: &Fix, to: &Fix) -> bool {
    apart_m(from, to) <= FASTEST_MPS * (to.time_s - from.time_s) + NOISE_M
}

/// As far as both are known.
fn apart_m(from: &Fix, to: &Fix) -> f64 {
    let climbed_m = from.height_m.zip(to.height_m).map_or(0.0, |(from, to)| to - from);
    from.place.zip(to.place).map_or(0.0, |(one, other)| one.distance(other)).hypot(climbed_m)
}
