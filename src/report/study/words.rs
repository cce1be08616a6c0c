//! The sentences about studies that more than one format carries.

use super::{Answer, StudyReport, counted};
use crate::ledger::{LimitInfo, Outcome, Score, Verdict};
use crate::recovery::Turn;
use crate::report::text::number;
use crate::report::words;
use crate::run::Scenario;
use crate::study::ceiling::{CeilingStudy, Direction};
use crate::study::losses::LossStudy;
use crate::study::radius::{Band, End, RadiusStudy};
use crate::study::stats::percent;
use crate::study::verdict::{self, Demand};
use crate::units::Bearing;

pub(super) fn headline(report: &StudyReport) -> String {
    let answer = match report.answer {
        Answer::Radius(study) => radius(study),
        Answer::Ceiling(study) => ceiling(study, report.scenario),
        Answer::Losses(study) => losses(study),
    };
    let told = match report.answer {
        // A loss map flies losses from everywhere.
        Answer::Losses(_) => String::new(),
        Answer::Radius(_) | Answer::Ceiling(_) => report.scenario.losses_told() + " ",
    };
    told + &answer + words::not_permitted(report.scenario) + &words::expired(report.warnings)
}

fn radius(study: &RadiusStudy) -> String {
    let limits = &study.limits;
    let plan = study.plan.map_or_else(String::new, |verdict| format!(" The plan's own circle: {}.", verdict.told()));
    if let Some(choice) = &study.choice {
        let circle = way(choice.radius_m, choice.turn);
        let gust = match met(limits, &choice.gust) {
            None => "Without errors it keeps its buffers in the gust wind all the time as well.".into(),
            Some(missed) => format!("Without errors, in the gust wind all the time: {missed}."),
        };
        let answer = match choice.verdict {
            Some(verdict) => format!("{circle} is recommended. {}.", verdict.told()),
            None => format!(
                "{circle} keeps its buffers without errors in the mean wind; no trial has said what that is worth."
            ),
        };
        return format!("{answer} {gust}{plan}");
    }
    let flown = match (study.ask.radii_m.first(), study.ask.radii_m.last()) {
        (Some(first), Some(last)) => format!("No radius flown, from {} to {} m,", number(*first), number(*last)),
        _ => "No radius".into(),
    };
    let found = match study.bands.undecided.as_slice() {
        _ if !study.ask.judges() => "keeps its buffers without errors in the mean wind".into(),
        [] => "holds".into(),
        open => format!("is known to hold; undecided are {}", bands(open, None)),
    };
    let nearest = study.least_bad.as_ref().map_or_else(String::new, |choice| {
        let circle = way(choice.radius_m, choice.turn);
        let missed = met(limits, &choice.mean).map_or_else(String::new, |missed| format!(" Without errors: {missed}."));
        let told = choice.verdict.map_or_else(String::new, |verdict| format!(" {}.", verdict.told()));
        format!(" Nearest is {circle}.{told}{missed}")
    });
    let already = match study.already.as_slice() {
        [] => String::new(),
        missed => {
            format!(" Not met before the jet even acts on the loss, which no circle mends: {}.", missed.join("; "))
        }
    };
    format!("{flown} {found}.{already}{nearest}{plan}")
}

/// What is asked of the trials: "at most 1 % may cross a limit, at least 90 % have to keep every buffer".
pub fn asks(demand: &Demand) -> String {
    let [most, least] = [demand.crossed_at_most, demand.kept_at_least].map(percent);
    format!("at most {most} may cross a limit, at least {least} have to keep every buffer")
}

fn ceiling(study: &CeilingStudy, scenario: &Scenario) -> String {
    let circle = way(study.ask.radius_m, study.ask.turn);
    let circle = if study.ask.cases == 0 { format!("{circle}, the plan as written alone,") } else { circle };
    if let Some(near) = study.loss_too_near.and_then(|index| study.limits.get(index)) {
        return format!(
            "No wind was flown for {circle}: the loss itself lies nearer to {} than is asked for.",
            near.name
        );
    }
    let Some(worst) = study.worst.and_then(|index| study.directions.get(index)) else {
        return format!("No direction was flown to its end for {circle}.");
    };
    let (name, beyond) = (direction(worst.from_deg), limit(study, worst));
    let today = scenario.file.wind.from;
    let today = match here(study, today) {
        Some(here) => format!(" {}", go(here, at_circle(scenario), today)),
        None => String::new(),
    };
    if study.directions.iter().all(|found| found.ceiling_mps.is_none()) {
        let plan = alone(study);
        let open = study.directions.iter().any(|found| found.answer(0.0) == verdict::Answer::Undecided);
        return if open {
            format!("{circle} is not known to hold from any direction, not even in a calm: undecided.{plan}{today}")
        } else {
            format!("Do not fly {circle} in any wind: it holds from no direction, not even in a calm ({beyond}).{plan}")
        };
    }
    let Some(mps) = worst.ceiling_mps else {
        let found = match worst.answer(0.0) {
            verdict::Answer::Undecided => "it is undecided even in a calm".into(),
            _ => format!("it does not hold even in a calm ({beyond})"),
        };
        return format!("{circle}: with the wind from {name} {found}.{today}");
    };
    let open =
        worst.undecided_mps.map_or_else(String::new, |[low, high]| format!("; undecided from {low} to {high} m/s"));
    let beyond = worst.fails_mps.map_or_else(String::new, |fails| format!("; from {fails} m/s on {beyond}"));
    let hand = worst.at_2m_mps.map_or_else(String::new, |[low, high]| {
        format!(" A hand-held meter at 2 m then reads {low:.1} to {high:.1} m/s.")
    });
    format!("{circle} holds in {mps} m/s at circle height from the worst direction, {name}{open}{beyond}.{hand}{today}")
}

/// What the plan as written holds in where the cases hold in nothing.
fn alone(study: &CeilingStudy) -> String {
    let least = study.directions.iter().map(|found| found.plan_mps).min_by(|a, b| {
        let height = |mps: &Option<f64>| mps.unwrap_or(-1.0);
        height(a).total_cmp(&height(b))
    });
    match least.flatten() {
        Some(mps) => format!(" The plan as written alone holds in {mps:.1} m/s from its worst direction."),
        None => String::new(),
    }
}

/// Whether the circle holds in the wind of the file.
fn go(here: &Direction, wind_mps: f64, from: Bearing) -> String {
    let (deg, name) = (number(from.deg()), direction(here.from_deg));
    let ceiling = here.ceiling_mps.map_or_else(|| "none is known to hold".into(), |mps| format!("{mps} m/s"));
    let stands = match here.answer(wind_mps) {
        verdict::Answer::Yes => "is under",
        verdict::Answer::No => "is OVER",
        verdict::Answer::Undecided => "is over what is known to hold, and UNDECIDED: beyond",
    };
    format!(
        "The file's {wind_mps:.1} m/s at circle height from {deg} deg {stands} the wind limit from {name}: {ceiling}."
    )
}

/// The direction studied that is nearest to another.
pub fn here(study: &CeilingStudy, from: Bearing) -> Option<&Direction> {
    let away = |direction: &&Direction| {
        let turned = (direction.from_deg - from.deg()).rem_euclid(360.0);
        turned.min(360.0 - turned)
    };
    study.directions.iter().min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// The file's mean wind at circle height, m/s.
pub fn at_circle(scenario: &Scenario) -> f64 {
    scenario.wind_at_circle()[0]
}

/// The wind that a bank limit holds a radius in; below nothing where not even a calm will do.
pub fn up_to(wind_mps: f64) -> String {
    if wind_mps < 0.0 { "in no wind, not even a calm".into() } else { format!("in up to {wind_mps:.1} m/s") }
}

/// The limit that fails beyond a ceiling.
pub fn limit<'a>(study: &'a CeilingStudy, direction: &Direction) -> &'a str {
    let info = direction.limit.and_then(|index| study.limits.get(index));
    info.map_or("no single limit", |info| info.name.as_str())
}

fn losses(study: &LossStudy) -> String {
    let cells = study.cells.len();
    let held = study.cells.iter().filter(|cell| cell.plan_worst == Outcome::Recovered).count();
    let worse = study.cells.iter().filter(|cell| cell.worst < cell.plan_worst).count();
    let worse = match worse {
        0 => String::new(),
        _ => format!(" In {worse} cells a trial came to something worse than the plan as written."),
    };
    let trials = study.trials();
    let drawn = match trials.flown {
        0 => " No trial was flown: no cell was looked at closely.".into(),
        flown => format!(" {} trials crossed a limit.", counted(trials.crossed, flown, study.ask.confidence)),
    };
    let keep = study.keep_inside.as_ref().map_or_else(String::new, |keep| format!(" {}", super::keep::headline(keep)));
    format!(
        "The plan as written recovers a loss on every one of {} headings from {held} of {cells} cells of {} m, in this \
         model.{worse}{drawn}{keep}",
        study.ask.headings,
        number(study.cell_m)
    )
}

/// What was flown, in short: the numbers behind the answer.
pub(super) fn asked(report: &StudyReport) -> String {
    match report.answer {
        Answer::Radius(study) => format!(
            "{} radii, {} round, N = {} drawn cases each at most, of which {}, {} confidence",
            study.ask.radii_m.len(),
            if study.ask.turns.len() > 1 { "both ways" } else { "one way" },
            study.ask.cases,
            asks(&study.demand),
            percent(study.ask.confidence)
        ),
        Answer::Ceiling(study) if study.ask.cases == 0 => format!(
            "{} directions, the plan as written alone: N = 0 drawn cases, {} confidence",
            study.ask.directions,
            percent(study.ask.confidence)
        ),
        Answer::Ceiling(study) => format!(
            "{} directions, N = {} drawn cases a wind at most, of which {}, {} confidence",
            study.ask.directions,
            study.ask.cases,
            asks(&study.demand),
            percent(study.ask.confidence)
        ),
        Answer::Losses(study) => format!(
            "{} cells, {} headings, N = {} flights, {} confidence",
            study.cells.len(),
            study.ask.headings,
            study.count().flown + study.keep_inside.as_ref().map_or(0, |keep| keep.trials()),
            percent(study.ask.confidence)
        ),
    }
}

/// A direction of the wind, such as "180 deg (S)".
pub fn direction(deg: f64) -> String {
    format!("{} deg ({})", number(deg), Bearing::from_deg(deg).point())
}

/// A radius and way round.
pub fn way(radius_m: f64, turn: Turn) -> String {
    format!("{} m {}", number(radius_m), words::turn(turn))
}

/// A band in words: "110 to 135 m".
pub fn bands(bands: &[Band], turn: Option<Turn>) -> String {
    let those = bands.iter().filter(|band| turn.is_none_or(|turn| band.turn == turn));
    let words = those.map(|band| {
        let span = format!("{} to {} m", number(band.low.radius_m), number(band.high.radius_m));
        if turn.is_none() { format!("{span} {}", words::turn(band.turn)) } else { span }
    });
    let words: Vec<_> = words.collect();
    if words.is_empty() { "none".into() } else { words.join("; ") }
}

/// Whether a circle is in one of the bands.
pub fn holds(bands: &[Band], radius_m: f64, turn: Turn) -> bool {
    let around = |band: &&Band| (band.low.radius_m..=band.high.radius_m).contains(&radius_m);
    bands.iter().filter(|band| band.turn == turn).any(|band| around(&band))
}

/// Why a band ends.
pub fn end(end: &End) -> String {
    if end.reason.is_empty() { "the radii flown end".into() } else { end.reason.clone() }
}

/// What a score missed most, in words; none where it met everything.
pub fn met(limits: &[LimitInfo], score: &Score) -> Option<String> {
    if score.kept {
        return None;
    }
    let missed =
        limits.iter().zip(&score.gaps).filter(|(_, gap)| matches!(gap.verdict, Verdict::Thin | Verdict::Breached));
    // Limits have different units, so that the share of the standoff says which is missed most.
    let share = |gap: &crate::ledger::Gap| gap.margin / gap.standoff.max(1e-9);
    let most = missed.max_by(|(_, a), (_, b)| a.verdict.cmp(&b.verdict).then(share(b).total_cmp(&share(a))));
    Some(most.map_or_else(
        || words::ending(score.ending).to_owned(),
        |(info, gap)| match gap.verdict {
            Verdict::Breached => format!("{} breached {}", info.name, words::gap(info, gap)),
            _ => format!("{} {}", info.name, words::gap(info, gap)),
        },
    ))
}
