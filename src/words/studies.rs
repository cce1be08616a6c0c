//! What studies ask and find, in the words of every report: circles, usable radii, directions, and what a flight misses
//! most.

use super::{left_of, number};
use crate::margins::{Gap, Limit, LimitInfo, Score, Verdict};
use crate::recovery::Turn;
use crate::study::radius::{End, RadiusRange, Reason, Shortfall, Standing};
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

/// Radii from the least to the most: "110 to 135 m", and of one alone "only 95 m".
pub fn span([least, most]: [f64; 2]) -> String {
    let [low, high] = [least, most].map(number);
    if low == high { format!("only {low} m") } else { format!("{low} to {high} m") }
}

/// Usable radii in words: "110 to 135 m".
pub fn usable(usable: &[RadiusRange], turn: Option<Turn>) -> String {
    let those = usable.iter().filter(|range| turn.is_none_or(|turn| range.turn == turn));
    let words = those.map(|range| {
        let span = span([range.low.radius_m, range.high.radius_m]);
        if turn.is_none() { format!("{span} {}", words::turn(range.turn)) } else { span }
    });
    let words: Vec<_> = words.collect();
    if words.is_empty() { "none".into() } else { words.join("; ") }
}

/// How a circle that holds stands among those flown, after its name: "is recommended".
pub const fn stands(standing: Standing) -> &'static str {
    match standing {
        Standing::Inside => "is recommended",
        Standing::Edge => "holds, at the edge of what does",
        Standing::Alone => "is the only one flown that holds",
    }
}

/// The same before its name: "recommended".
pub const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Inside => "recommended",
        Standing::Edge => "at the edge of what holds",
        Standing::Alone => "the only one that holds",
    }
}

/// Why usable radii end, such as "maximum bank can't hold it: blown 12 m wide" or "boundary: 14.3 of 20 m asked for".
pub fn end(end: &End) -> String {
    match &end.reason {
        Reason::NoneFlown => "the radii flown end here".into(),
        Reason::NeverSettles => "never settles on the circle".into(),
        Reason::BlownWide(wide_m) => format!("maximum bank can't hold it: blown {wide_m:.0} m wide"),
        Reason::Short(short) => shortfall(short),
        Reason::AlreadyShort(short) => format!("{}, before the jet acts on the loss", shortfall(short)),
        Reason::Empty => "the battery is empty in the air".into(),
        Reason::NeverHome => "never home".into(),
        Reason::Undecided(trials) => format!("undecided in {trials} trials"),
        Reason::Holds => "there it holds".into(),
        Reason::Crossed(info, share) => format!("{}: crossed in {} of {} trials", info.name, share.count, share.of),
        Reason::CrossedOrInside(info, share) => {
            format!("{}: crossed or inside its buffer in {} of {} trials", info.name, share.count, share.of)
        }
        Reason::CameTo(outcome, share) => format!("{} in {} of {} trials", outcome.name(), share.count, share.of),
    }
}

/// A margin that is missed, such as "boundary: 14.3 of 20 m asked for".
pub fn shortfall(short: &Shortfall) -> String {
    let Shortfall { limit: LimitInfo { limit, name, unit, crosses }, margin, buffer } = short;
    let [left, asked] = left_of(*margin, *buffer);
    let less = left.trim_start_matches('-');
    match limit {
        _ if *margin >= 0.0 => format!("{name}: {left} of {asked} {unit} asked for"),
        Limit::TimeHome => format!("{name}: {less} {unit} late"),
        _ if *crosses => format!("{name}: crossed by {less} {unit}"),
        _ => format!("{name}: short by {less} {unit}"),
    }
}

/// Margins that are missed, one after the other.
pub fn shortfalls(all: &[Shortfall]) -> String {
    all.iter().map(shortfall).collect::<Vec<_>>().join("; ")
}

/// The limit that a score missed most; none where it met everything, or failed by none of them.
pub fn missed<'a>(limits: &'a [LimitInfo], score: &'a Score) -> Option<(&'a LimitInfo, &'a Gap)> {
    if score.kept {
        return None;
    }
    let missed = limits
        .iter()
        .zip(&score.gaps)
        .filter(|(_, gap)| matches!(gap.verdict, Verdict::InsideBuffer | Verdict::Crossed));
    // Limits have different units, so that the share of the buffer says which is missed most.
    let share = |gap: &Gap| gap.margin / gap.buffer.max(1e-9);
    missed.max_by(|(_, a), (_, b)| a.verdict.cmp(&b.verdict).then(share(b).total_cmp(&share(a))))
}

/// What a score missed most, in words; none where it met everything.
pub fn met(limits: &[LimitInfo], score: &Score) -> Option<String> {
    if score.kept {
        return None;
    }
    Some(missed(limits, score).map_or_else(
        || words::ending(score.ending).to_owned(),
        |(info, gap)| match gap.verdict {
            Verdict::Crossed => format!("{} crossed {}", info.name, words::gap(info, gap)),
            _ => format!("{} {}", info.name, words::gap(info, gap)),
        },
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::margins::MarginUnit;

    #[track_caller]
    fn check(limit: Limit, unit: MarginUnit, margin: f64, buffer: f64, words: &str) {
        let crosses = limit == Limit::Boundary;
        let limit = LimitInfo { limit, name: "x".into(), unit, crosses };
        assert_eq!(shortfall(&Shortfall { limit, margin, buffer }), words);
    }

    #[test]
    fn one_radius_is_no_band() {
        assert_eq!([span([110.0, 135.0]), span([95.0, 95.0])], ["110 to 135 m", "only 95 m"]);
    }

    #[test]
    fn what_is_missing_is_never_rounded_away() {
        check(Limit::Boundary, MarginUnit::Metres, 14.3, 20.0, "x: 14.3 of 20 m asked for");
        check(Limit::Boundary, MarginUnit::Metres, 19.97, 20.0, "x: 19.97 of 20 m asked for");
        check(Limit::Boundary, MarginUnit::Metres, -14.2, 20.0, "x: crossed by 14.2 m");
        check(Limit::Boundary, MarginUnit::Metres, -0.02, 0.0, "x: crossed by 0.020 m");
        check(Limit::TimeHome, MarginUnit::Seconds, -3.0, 0.0, "x: 3.0 s late");
        check(Limit::SightDistance, MarginUnit::Metres, -3.0, 0.0, "x: short by 3.0 m");
        check(Limit::Energy, MarginUnit::WattHours, 5.52, 5.55, "x: 5.52 of 5.55 Wh asked for");
    }
}
