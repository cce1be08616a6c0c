//! What is known of both plans from the longer questions: usable radii, shares of trials, wind limits, the map of
//! losses.

use crate::app::look::words::number;
use crate::app::session::{Answer, Flown, Grade, Kept, View};
use crate::margins::Outcome;
use crate::study::losses::LossStudy;
use crate::study::radius::{RadiusRange, RadiusStudy};
use crate::study::stats::{Interval, Share};
use crate::study::verdict::{Answer as Says, Verdict};
use crate::study::wind_limit::WindLimitStudy;
use crate::units::Bearing;
use crate::words::{Measure, Units, counted};

use super::line::{Judged, Line, Wanted};

/// Where something is not known.
const OPEN: &str = "not worked out";
/// Where no wind holds.
const CALM: &str = "not even a calm";

/// One line an answer: those about the radius, and the others. What is known of an earlier edition of a plan is not shown
/// as this plan's, and a first look is never compared.
pub(super) fn lines(view: &View<'_>, now: &Flown, kept: &Kept) -> [Vec<Line>; 2] {
    let session = view.session;
    let (edition, units) = (session.edition, view.units());
    let own_circle = [known(&session.answers.own_circle, edition), known(&kept.answers.own_circle, kept.edition)];
    let radius = [known(&session.answers.radius, edition), known(&kept.answers.radius, kept.edition)];
    let wind_limit = [known(&session.answers.wind_limit, edition), known(&kept.answers.wind_limit, kept.edition)];
    let losses = [known(&session.answers.losses, edition), known(&kept.answers.losses, kept.edition)];
    let flown = [now, &kept.flown];
    [
        vec![
            range("usable radii, mean wind", radius, flown, units, |study| &study.usable.mean),
            range("usable radii, gust wind", radius, flown, units, |study| &study.usable.gust),
        ],
        vec![
            answer(own_circle),
            share("trials that stay inside", own_circle, |verdict| verdict.crossed.others()),
            share("trials that keep the buffers", own_circle, |verdict| verdict.kept),
            worst_direction(wind_limit, units),
            cells(losses),
        ],
    ]
}

fn known<T>(answer: &Option<Answer<T>>, edition: u64) -> Option<&T> {
    let answer = answer.as_ref().filter(|answer| answer.edition == edition && answer.grade == Grade::Refined)?;
    Some(&answer.found)
}

fn range(
    name: &str,
    studies: [Option<&RadiusStudy>; 2],
    flown: [&Flown; 2],
    units: &Units,
    of: impl Fn(&RadiusStudy) -> &Vec<RadiusRange>,
) -> Line {
    let found = [0, 1].map(|index| {
        let turn = flown[index].scenario.file.recovery.turn;
        let study = studies[index]?;
        let ends = of(study).iter().filter(|range| range.turn == turn);
        Some(ends.map(|range| [range.low.radius_m, range.high.radius_m]).collect::<Vec<_>>())
    });
    let words = |usable: &Option<Vec<[f64; 2]>>| match usable.as_deref() {
        None => OPEN.to_owned(),
        Some([]) => "no radius".to_owned(),
        Some(usable) => {
            let span = |[low, high]: &[f64; 2]| {
                let low = number(units.first(Measure::Distance, *low));
                format!("{low} to {}", units.short(Measure::Distance, *high))
            };
            usable.iter().map(span).collect::<Vec<_>>().join("; ")
        }
    };
    let mut line = Line::words(name, words(&found[0]), words(&found[1]));
    if let [Some(now), Some(kept)] = &found
        && now.is_empty() != kept.is_empty()
    {
        line.judged = Judged::more(kept.is_empty().cmp(&now.is_empty()));
    }
    known_both(line, found.iter().all(Option::is_some))
}

/// Words that are alike only because nothing is known are not the same.
fn known_both(line: Line, both: bool) -> Line {
    if both { line } else { Line { judged: Judged::Open, ..line } }
}

/// What the trials of each plan say.
fn answer(studies: [Option<&RadiusStudy>; 2]) -> Line {
    let found = studies.map(|study| study?.plan);
    let words = |verdict: Option<Verdict>| verdict.map_or(OPEN, |verdict| verdict.answer.name()).to_owned();
    let mut line = Line::words("verdict by trials", words(found[0]), words(found[1]));
    line.judged = match found.map(|verdict| verdict.map(|verdict| verdict.answer)) {
        [Some(Says::Yes), Some(Says::No)] => Judged::Better,
        [Some(Says::No), Some(Says::Yes)] => Judged::Worse,
        [Some(now), Some(kept)] if now == kept && now != Says::Undecided => Judged::Same,
        _ => Judged::Open,
    };
    line
}

/// How many trials of each plan's own circle do something.
fn share(name: &str, studies: [Option<&RadiusStudy>; 2], of: impl Fn(&Verdict) -> Share) -> Line {
    let found = studies.map(|study| {
        let (verdict, sure) = (study?.plan?, study?.ask.confidence);
        Some((of(&verdict), sure)).filter(|_| verdict.trials > 0)
    });
    let words = |found: Option<(Share, f64)>| {
        found.map_or_else(|| OPEN.to_owned(), |(share, confidence)| counted(share.count, share.of, confidence))
    };
    let mut line = Line::words(name, words(found[0]), words(found[1]));
    line.judged = Judged::Open;
    if let [Some((now, sure)), Some((kept, other))] = found {
        line.judged = apart(now.wilson(sure), kept.wilson(other));
        line.difference =
            if line.judged == Judged::Open { "too near to tell".into() } else { "intervals apart".into() };
    }
    line
}

/// Shares differ where their intervals do not meet.
fn apart(now: Interval, kept: Interval) -> Judged {
    match (now.low > kept.high, now.high < kept.low) {
        (true, _) => Judged::Better,
        (_, true) => Judged::Worse,
        _ => Judged::Open,
    }
}

fn worst_direction(studies: [Option<&WindLimitStudy>; 2], units: &Units) -> Line {
    let worst = studies.map(|study| study.and_then(|study| study.directions.get(study.worst?)));
    let values = worst.map(|worst| worst.and_then(|direction| direction.wind_limit_mps));
    let mut line =
        Line::numbers("wind limit, worst way", values, CALM, Wanted::More, |mps| units.short(Measure::Wind, mps));
    for (words, direction) in [(&mut line.now, worst[0]), (&mut line.kept, worst[1])] {
        match direction {
            Some(direction) => {
                if let Some(gust) = direction.gust_mps {
                    *words += &format!(", gusts {}", units.short(Measure::Wind, gust));
                }
                *words += &format!(" from {}", Bearing::from_deg(direction.from_deg).point());
            }
            None => OPEN.clone_into(words),
        }
        if direction.is_some_and(|found| found.wind_limit_mps.is_none() && found.answer(0.0) == Says::Undecided) {
            *words = words.replace(CALM, "undecided even in a calm");
        }
    }
    known_both(line, worst.iter().all(Option::is_some))
}

fn cells(studies: [Option<&LossStudy>; 2]) -> Line {
    let found = studies.map(|study| {
        let study = study?;
        let held = study.cells.iter().filter(|cell| cell.plan_worst == Outcome::Recovered).count() as u64;
        Some(Share { count: held, of: study.cells.len() as u64 })
    });
    let words =
        |share: Option<Share>| share.map_or_else(|| OPEN.to_owned(), |Share { count, of }| format!("{count} of {of}"));
    let mut line = Line::words("cells recovered as entered", words(found[0]), words(found[1]));
    line.judged = Judged::Open;
    let asked = studies.map(|study| study.map(|study| (study.ask.cells, study.ask.headings)));
    if let [Some(now), Some(kept)] = found
        // A finer map flies more headings, and so finds more that fail.
        && asked[0] == asked[1]
    {
        line.judged = Judged::more((now.count * kept.of).cmp(&(kept.count * now.of)));
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_apart_only_where_their_intervals_are() {
        let share = |count| Share { count, of: 1000 }.wilson(0.95);
        assert_eq!(apart(share(950), share(700)), Judged::Better);
        assert_eq!(apart(share(700), share(950)), Judged::Worse);
        assert_eq!(apart(share(950), share(955)), Judged::Open);
    }
}
