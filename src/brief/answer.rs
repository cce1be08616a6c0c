//! What a study came to, in one or two sentences, and what was flown for it.

use super::recovery::{expired, not_permitted};
use super::{Answer, StudyReport};
use crate::margins::Outcome;
use crate::run::Scenario;
use crate::study::losses::LossStudy;
use crate::study::radius::RadiusStudy;
use crate::study::stats::percent;
use crate::study::verdict;
use crate::study::wind_limit::{Direction, WindLimitStudy, here};
use crate::units::Bearing;
use crate::words::{
    asks, counted, direction, hand_held, keep_inside, limit, met, number, shortfalls, stands, usable, way,
};

impl StudyReport<'_> {
    /// What came of it, in one or two sentences that claim no more than was flown.
    pub fn headline(&self) -> String {
        headline(self)
    }

    /// What was flown, in short: the numbers behind the answer.
    pub fn asked(&self) -> String {
        asked(self)
    }
}

fn headline(report: &StudyReport) -> String {
    let answer = match report.answer {
        Answer::Radius(study) => radius(study),
        Answer::WindLimit(study) => wind_limit(study, report.scenario),
        Answer::Losses(study) => losses(study),
    };
    let told = match report.answer {
        // A loss map flies losses from everywhere.
        Answer::Losses(_) => String::new(),
        Answer::Radius(_) | Answer::WindLimit(_) => report.scenario.losses_told() + " ",
    };
    told + &answer + not_permitted(report.scenario) + &expired(report.warnings)
}

fn radius(study: &RadiusStudy) -> String {
    let limits = &study.limits;
    let plan =
        study.plan.map_or_else(String::new, |verdict| format!(" The plan's own circle: {}.", verdict.in_words()));
    if let Some(choice) = &study.choice {
        let circle = way(choice.radius_m, choice.turn);
        let gust = match met(limits, &choice.gust) {
            None => "Without errors it keeps its buffers in the gust wind all the time as well.".into(),
            Some(missed) => format!("Without errors, in the gust wind all the time: {missed}."),
        };
        let answer = match choice.verdict {
            Some(verdict) => {
                format!("{circle} {}. {}.", stands(study.standing(choice.radius_m, choice.turn)), verdict.in_words())
            }
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
    let found = match study.usable.undecided.as_slice() {
        _ if !study.ask.judges() => "keeps its buffers without errors in the mean wind".into(),
        [] => "holds".into(),
        open => format!("is known to hold; undecided are {}", usable(open, None)),
    };
    let nearest = study.least_bad.as_ref().map_or_else(String::new, |choice| {
        let circle = way(choice.radius_m, choice.turn);
        let missed = met(limits, &choice.mean).map_or_else(String::new, |missed| format!(" Without errors: {missed}."));
        let told = choice.verdict.map_or_else(String::new, |verdict| format!(" {}.", verdict.in_words()));
        format!(" Nearest is {circle}.{told}{missed}")
    });
    let already = match study.already.as_slice() {
        [] => String::new(),
        missed => {
            format!(" Not met before the jet even acts on the loss, which no circle fixes: {}.", shortfalls(missed))
        }
    };
    format!("{flown} {found}.{already}{nearest}{plan}")
}

fn wind_limit(study: &WindLimitStudy, scenario: &Scenario) -> String {
    let circle = way(study.ask.radius_m, study.ask.turn);
    let circle = if study.ask.trials == 0 { format!("{circle}, the plan as entered, without errors,") } else { circle };
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
        Some(here) => format!(" {}", go(here, scenario.wind_at_circle()[0], today)),
        None => String::new(),
    };
    if study.directions.iter().all(|found| found.wind_limit_mps.is_none()) {
        let plan = without_errors(study);
        let open = study.directions.iter().any(|found| found.answer(0.0) == verdict::Answer::Undecided);
        return if open {
            format!("{circle} is not known to hold from any direction, not even in a calm: undecided.{plan}{today}")
        } else {
            format!("Do not fly {circle} in any wind: it holds from no direction, not even in a calm ({beyond}).{plan}")
        };
    }
    let Some(mps) = worst.wind_limit_mps else {
        let found = match worst.answer(0.0) {
            verdict::Answer::Undecided => "it is undecided even in a calm".into(),
            _ => format!("it does not hold even in a calm ({beyond})"),
        };
        return format!("{circle}: with the wind from {name} {found}.{today}");
    };
    let open =
        worst.undecided_mps.map_or_else(String::new, |[low, high]| format!("; undecided from {low} to {high} m/s"));
    let beyond = worst.fails_mps.map_or_else(String::new, |fails| format!("; from {fails} m/s on {beyond}"));
    let hand = worst
        .at_2m_mps
        .map_or_else(String::new, |read| format!(" A hand-held meter at 2 m then reads {}.", hand_held(read)));
    format!("{circle} holds in {mps} m/s at circle height from the worst direction, {name}{open}{beyond}.{hand}{today}")
}

/// What the plan as entered holds in where the trials hold in nothing.
fn without_errors(study: &WindLimitStudy) -> String {
    let least = study.directions.iter().map(|found| found.plan_mps).min_by(|a, b| {
        let height = |mps: &Option<f64>| mps.unwrap_or(-1.0);
        height(a).total_cmp(&height(b))
    });
    match least.flatten() {
        Some(mps) => format!(" The plan as entered, without errors, holds in {mps:.1} m/s from its worst direction."),
        None => String::new(),
    }
}

/// Whether the circle holds in the wind of the file.
fn go(here: &Direction, wind_mps: f64, from: Bearing) -> String {
    let (deg, name) = (number(from.deg()), direction(here.from_deg));
    let wind_limit = here.wind_limit_mps.map_or_else(|| "none is known to hold".into(), |mps| format!("{mps} m/s"));
    let stands = match here.answer(wind_mps) {
        verdict::Answer::Yes => "is under",
        verdict::Answer::No => "is OVER",
        verdict::Answer::Undecided => "is over what is known to hold, and UNDECIDED: beyond",
    };
    format!(
        "The file's {wind_mps:.1} m/s at circle height from {deg} deg {stands} the wind limit from {name}: {wind_limit}."
    )
}

fn losses(study: &LossStudy) -> String {
    let cells = study.cells.len();
    let held = study.cells_as_entered(Outcome::Recovered);
    let worse = match study.worse().count() {
        0 => String::new(),
        worse => format!(" In {worse} cells a trial came to something worse than the plan as entered."),
    };
    let trials = study.trials();
    let drawn = match trials.flown {
        0 => " No trial was flown: no cell was checked closely.".into(),
        flown => format!(" {} trials crossed a limit.", counted(trials.crossed, flown, study.ask.confidence)),
    };
    let keep = study.keep_inside.as_ref().map_or_else(String::new, |keep| format!(" {}", keep_inside(keep)));
    format!(
        "The plan as entered recovers a loss on every one of {} headings from {held} of {cells} cells of {} m, in this \
         model.{worse}{drawn}{keep}",
        study.ask.headings,
        number(study.cell_m)
    )
}

fn asked(report: &StudyReport) -> String {
    match report.answer {
        Answer::Radius(study) => format!(
            "{} radii, {} round, N = {} trials each at most, of which {}, {} confidence",
            study.ask.radii_m.len(),
            if study.ask.turns.len() > 1 { "both ways" } else { "one way" },
            study.ask.trials,
            asks(&study.demand),
            percent(study.ask.confidence)
        ),
        Answer::WindLimit(study) if study.ask.trials == 0 => format!(
            "{} directions, the plan as entered, without errors: N = 0 trials, {} confidence",
            study.ask.directions,
            percent(study.ask.confidence)
        ),
        Answer::WindLimit(study) => format!(
            "{} directions, N = {} trials a wind at most, of which {}, {} confidence",
            study.ask.directions,
            study.ask.trials,
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
