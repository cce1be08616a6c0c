//! What studies ask and find, in the words of every report: circles, usable radii, directions, and what a flight misses
//! most.

use super::number;
use crate::margins::{Gap, LimitInfo, Score, Verdict};
use crate::recovery::Turn;
use crate::study::radius::{End, RadiusRange};
use crate::study::stats::percent;
use crate::study::verdict::Demand;
use crate::study::wind_limit::{Direction, WindLimitStudy};
use crate::units::Bearing;
use crate::words;

/// What is asked of the trials: "at most 1 % may cross a limit, at least 90 % have to keep every buffer".
pub fn asks(demand: &Demand) -> String {
    let [most, least] = [demand.crossed_at_most, demand.kept_at_least].map(percent);
    format!("at most {most} may cross a limit, at least {least} have to keep every buffer")
}

/// The wind that a maximum bank holds a radius in; below nothing where not even a calm will do.
pub fn up_to(wind_mps: f64) -> String {
    if wind_mps < 0.0 { "in no wind, not even a calm".into() } else { format!("in up to {wind_mps:.1} m/s") }
}

/// The limit that fails beyond a wind limit.
pub fn limit<'a>(study: &'a WindLimitStudy, direction: &Direction) -> &'a str {
    let info = direction.limit.and_then(|index| study.limits.get(index));
    info.map_or("no single limit", |info| info.name.as_str())
}

/// A direction of the wind, such as "180 deg (S)".
pub fn direction(deg: f64) -> String {
    format!("{} deg ({})", number(deg), Bearing::from_deg(deg).point())
}

/// A radius and way round.
pub fn way(radius_m: f64, turn: Turn) -> String {
    format!("{} m {}", number(radius_m), words::turn(turn))
}

/// Usable radii in words: "110 to 135 m".
pub fn usable(usable: &[RadiusRange], turn: Option<Turn>) -> String {
    let those = usable.iter().filter(|range| turn.is_none_or(|turn| range.turn == turn));
    let words = those.map(|range| {
        let span = format!("{} to {} m", number(range.low.radius_m), number(range.high.radius_m));
        if turn.is_none() { format!("{span} {}", words::turn(range.turn)) } else { span }
    });
    let words: Vec<_> = words.collect();
    if words.is_empty() { "none".into() } else { words.join("; ") }
}

/// Why usable radii end.
pub fn end(end: &End) -> String {
    if end.reason.is_empty() { "the radii flown end".into() } else { end.reason.clone() }
}

/// What a score missed most, in words; none where it met everything.
pub fn met(limits: &[LimitInfo], score: &Score) -> Option<String> {
    if score.kept {
        return None;
    }
    let missed = limits
        .iter()
        .zip(&score.gaps)
        .filter(|(_, gap)| matches!(gap.verdict, Verdict::InsideBuffer | Verdict::Crossed));
    // Limits have different units, so that the share of the buffer says which is missed most.
    let share = |gap: &Gap| gap.margin / gap.buffer.max(1e-9);
    let most = missed.max_by(|(_, a), (_, b)| a.verdict.cmp(&b.verdict).then(share(b).total_cmp(&share(a))));
    Some(most.map_or_else(
        || words::ending(score.ending).to_owned(),
        |(info, gap)| match gap.verdict {
            Verdict::Crossed => format!("{} crossed {}", info.name, words::gap(info, gap)),
            _ => format!("{} {}", info.name, words::gap(info, gap)),
        },
    ))
}
