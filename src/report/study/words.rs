//! The sentences about studies that more than one format carries.

use super::{Answer, StudyReport, counted};
use crate::ledger::{LimitInfo, Outcome, Score, Verdict};
use crate::recovery::Turn;
use crate::report::text::number;
use crate::report::words;
use crate::run::Scenario;
use crate::study::ceiling::{CeilingStudy, Direction};
use crate::study::losses::LossStudy;
use crate::study::radius::{Band, Choice, End, RadiusStudy};
use crate::study::stats::{Share, percent};
use crate::units::Bearing;

pub(super) fn headline(report: &StudyReport) -> String {
    let answer = match report.answer {
        Answer::Radius(study) => radius(study),
        Answer::Ceiling(study) => ceiling(study, report.scenario),
        Answer::Losses(study) => losses(study),
    };
    answer + words::not_permitted(report.scenario) + &words::expired(report.warnings)
}

fn radius(study: &RadiusStudy) -> String {
    let limits = &study.limits;
    let cases = |choice: &Choice| {
        let (met, all) = (choice.cases.met, choice.cases.cases);
        let drawn = counted(met, all, study.ask.confidence);
        let share = Share { count: met, of: all }.wilson_lower_one_sided(study.ask.confidence);
        let enough = share >= study.ask.share;
        let asked =
            if enough { String::new() } else { format!(", short of the {} asked for", percent(study.ask.share)) };
        if all == 0 { String::new() } else { format!(" Every margin was met in {drawn} drawn cases{asked}.") }
    };
    if let Some(choice) = &study.choice {
        let gust = match met(limits, &choice.gust) {
            None => "the gust wind".into(),
            Some(missed) => format!("not in the gust wind ({missed})"),
        };
        let (size, turn, mean) = (number(choice.radius_m), words::turn(choice.turn), "the mean wind");
        let joint = if choice.gust.met { " and in " } else { ", " };
        return format!(
            "{size} m {turn}: meets every margin asked for in {mean}{joint}{gust}, in this model.{}",
            cases(choice)
        );
    }
    let flown = match (study.ask.radii_m.first(), study.ask.radii_m.last()) {
        (Some(first), Some(last)) => format!("No radius flown, from {} to {} m,", number(*first), number(*last)),
        _ => "No radius".into(),
    };
    let nearest = study.least_bad.as_ref().map_or_else(String::new, |choice| {
        let missed = met(limits, &choice.mean).unwrap_or_default();
        let (size, turn) = (number(choice.radius_m), words::turn(choice.turn));
        format!(" {size} m {turn} fails by least: {missed}.{}", cases(choice))
    });
    let already = match study.already.as_slice() {
        [] => String::new(),
        missed => {
            format!(" Not met before the jet even acts on the loss, which no circle mends: {}.", missed.join("; "))
        }
    };
    format!("{flown} meets every margin asked for in the mean wind.{already}{nearest}")
}

fn ceiling(study: &CeilingStudy, scenario: &Scenario) -> String {
    let circle = format!("{} m {}", number(study.ask.radius_m), words::turn(study.ask.turn));
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
    if study.directions.iter().all(|found| found.ceiling_mps.is_none()) {
        let plan = alone(study);
        return format!("{circle} meets the demand from no direction, not even in a calm ({beyond}).{plan}");
    }
    let today = scenario.file.wind.from;
    let today = match here(study, today) {
        Some(here) => format!(" {}", go(here, at_circle(scenario), today)),
        None => String::new(),
    };
    let Some(mps) = worst.ceiling_mps else {
        return format!("{circle}: with the wind from {name} it does not hold even in a calm ({beyond}).{today}");
    };
    let beyond = if worst.fails_mps.is_some() { format!("; beyond that {beyond}") } else { String::new() };
    let hand = worst.at_2m_mps.map_or_else(String::new, |[low, high]| {
        format!(" A hand-held meter at 2 m then reads {low:.1} to {high:.1} m/s.")
    });
    format!("{circle} holds in {mps:.1} m/s at circle height from the worst direction, {name}{beyond}.{hand}{today}")
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

/// Whether the wind of the file is under the ceiling.
fn go(here: &Direction, wind_mps: f64, from: Bearing) -> String {
    let (deg, name) = (number(from.deg()), direction(here.from_deg));
    match here.ceiling_mps {
        Some(ceiling) if wind_mps <= ceiling => format!(
            "The file's {wind_mps:.1} m/s at circle height from {deg} deg is under the ceiling of {ceiling:.1} m/s from {name}."
        ),
        Some(ceiling) => format!(
            "The file's {wind_mps:.1} m/s at circle height from {deg} deg is OVER the ceiling of {ceiling:.1} m/s from {name}."
        ),
        None => format!("The file's wind from {deg} deg is OVER the ceiling from {name}: there is none."),
    }
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
        _ => format!(" In {worse} cells a drawn case came to something worse than the plan as written."),
    };
    format!(
        "The plan as written recovers a loss on every one of {} headings from {held} of {cells} cells of {} m, in this \
         model.{worse}",
        study.ask.headings,
        number(study.cell_m)
    )
}

/// What was flown, in short: the numbers behind the answer.
pub(super) fn asked(report: &StudyReport) -> String {
    match report.answer {
        Answer::Radius(study) => format!(
            "{} radii, {} round, N = {} drawn cases each, {} confidence",
            study.ask.radii_m.len(),
            if study.ask.turns.len() > 1 { "both ways" } else { "one way" },
            study.ask.cases,
            percent(study.ask.confidence)
        ),
        Answer::Ceiling(study) if study.ask.cases == 0 => format!(
            "{} directions, the plan as written alone: N = 0 drawn cases, {} confidence",
            study.ask.directions,
            percent(study.ask.confidence)
        ),
        Answer::Ceiling(study) => format!(
            "{} directions, N = {} drawn cases a wind at most, of which {} must hold, {} confidence",
            study.ask.directions,
            study.ask.cases,
            percent(study.ask.share),
            percent(study.ask.confidence)
        ),
        Answer::Losses(study) => format!(
            "{} cells, {} headings, N = {} flights, {} confidence",
            study.cells.len(),
            study.ask.headings,
            study.cells.iter().map(|cell| cell.flown).sum::<u64>(),
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
    if score.met {
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
