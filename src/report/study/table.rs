//! The studies as tables: RFC 4180, a row for a radius and way round, a direction, or a cell; units in the header.

use crate::brief::{Answer, StudyReport};
use crate::error::letters::cell;
use crate::margins::{Outcome, Score};
use crate::report::values::tidy;
use crate::study::Tally;
use crate::study::losses::LossStudy;
use crate::study::radius::RadiusStudy;
use crate::study::wind_limit::WindLimitStudy;
use crate::words::outcome_key;
use crate::{Error, Result, words};

/// The table.
pub(super) fn study(report: &StudyReport) -> Result<String> {
    let rows = match report.answer {
        Answer::Radius(study) => radius(study),
        Answer::WindLimit(study) => wind_limit(study),
        Answer::Losses(study) => losses(study),
    };
    let mut table = ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(Vec::new());
    rows.iter().try_for_each(|row| table.write_record(row)).map_err(refused)?;
    String::from_utf8(table.into_inner().map_err(refused)?).map_err(refused)
}

fn refused(why: impl std::fmt::Display) -> Error {
    Error::Asked(format!("can't write the study as CSV: {why}"))
}

fn number(value: f64) -> String {
    if value.is_finite() { tidy(value).to_string() } else { String::new() }
}

fn perhaps(value: Option<f64>) -> String {
    value.map(number).unwrap_or_default()
}

fn radius(study: &RadiusStudy) -> Vec<Vec<String>> {
    let winds = ["mean", "gust"];
    let limit = |wind: &str, info: &crate::margins::LimitInfo| {
        cell(&format!("{wind} {} margin_{}", info.name, info.unit.ending()))
    };
    let head = ["radius_m", "turn"]
        .map(String::from)
        .into_iter()
        .chain(winds.iter().flat_map(|wind| {
            [
                format!("{wind}_furthest_m"),
                format!("{wind}_outcome"),
                format!("{wind}_crossed"),
                format!("{wind}_kept"),
                format!("{wind}_held"),
            ]
        }))
        .chain(["answer", "trials", "trials_crossed", "trials_kept", "trials_held"].map(String::from))
        .chain(Outcome::ALL.map(|outcome| format!("trials_{}", outcome_key(outcome))))
        .chain(winds.iter().flat_map(|wind| study.limits.iter().map(move |info| limit(wind, info))));
    let mut rows = vec![head.collect()];
    rows.extend(study.points.iter().map(|point| {
        let scores = [&point.mean, &point.gust];
        let flown = |score: &Score| {
            let flags = [score.crossed, score.kept, score.held].map(|flag| flag.to_string());
            [perhaps(score.furthest_m), score.outcome.name().into()].into_iter().chain(flags)
        };
        [number(point.radius_m), words::turn(point.turn).into()]
            .into_iter()
            .chain(scores.into_iter().flat_map(flown))
            .chain([point.verdict.map_or("", |verdict| verdict.answer.name()).to_owned()])
            .chain(tally(Some(&point.trials)))
            .chain(scores.into_iter().flat_map(|score| score.gaps.iter().map(|gap| number(gap.margin))))
            .collect()
    }));
    rows
}

/// Trials, those that crossed a limit, kept every buffer and held the circle, and one column an outcome; empty where
/// nothing was flown.
fn tally(tally: Option<&Tally>) -> Vec<String> {
    match tally {
        Some(tally) => {
            let counts = [tally.trials, tally.crossed, tally.kept, tally.held];
            counts.into_iter().chain(tally.outcomes).map(|count| count.to_string()).collect()
        }
        None => vec![String::new(); 4 + Outcome::ALL.len()],
    }
}

fn wind_limit(study: &WindLimitStudy) -> Vec<Vec<String>> {
    let parts = ["held", "failed"];
    let head = [
        "wind_from_deg",
        "wind_limit_mps",
        "plan_mps",
        "hand_meter_low_mps",
        "hand_meter_high_mps",
        "fails_mps",
        "undecided_low_mps",
        "undecided_high_mps",
        "limit",
        "worst",
    ]
    .map(String::from)
    .into_iter()
    .chain(parts.iter().flat_map(|part| {
        let counts = ["trials", "trials_crossed", "trials_kept", "trials_held"].map(|name| format!("{part}_{name}"));
        counts.into_iter().chain(Outcome::ALL.map(move |outcome| format!("{part}_trials_{}", outcome_key(outcome))))
    }));
    let mut rows = vec![head.collect()];
    rows.extend(study.directions.iter().enumerate().map(|(index, found)| {
        let [low, high] = found.at_2m_mps.map_or([None, None], |ends| ends.map(Some));
        let unknown = found.undecided_mps.map_or([None, None], |ends| ends.map(Some));
        let name = found.limit.and_then(|index| study.limits.get(index)).map(|info| info.name.clone());
        [
            number(found.from_deg),
            perhaps(found.wind_limit_mps),
            perhaps(found.plan_mps),
            perhaps(low),
            perhaps(high),
            perhaps(found.fails_mps),
            perhaps(unknown[0]),
            perhaps(unknown[1]),
            name.map(|name| cell(&name)).unwrap_or_default(),
            (study.worst == Some(index)).to_string(),
        ]
        .into_iter()
        .chain(tally(found.held.as_ref()))
        .chain(tally(found.failed.as_ref()))
        .collect()
    }));
    rows
}

fn losses(study: &LossStudy) -> Vec<Vec<String>> {
    let head =
        ["column", "row", "x_m", "y_m", "as_entered", "worst", "flown", "trials", "trials_crossed", "trials_kept"]
            .map(String::from)
            .into_iter()
            .chain(Outcome::ALL.map(outcome_key))
            .chain(
                [
                    "home_middle_s",
                    "home_longest_s",
                    "energy_middle_wh",
                    "energy_most_wh",
                    "replay_x_m",
                    "replay_y_m",
                    "replay_height_m",
                    "replay_speed_mps",
                    "replay_heading_deg",
                    "replay_trial",
                ]
                .map(String::from),
            );
    let mut rows = vec![head.collect()];
    rows.extend(study.cells.iter().map(|cell| {
        let pair = |pair: Option<[f64; 2]>| pair.map_or([None, None], |ends| ends.map(Some)).map(perhaps);
        let replay = cell.replay;
        let again = [replay.at.x, replay.at.y, replay.height_m, replay.speed_mps, replay.heading_deg].map(number);
        [
            cell.at[0].to_string(),
            cell.at[1].to_string(),
            number(cell.middle.x),
            number(cell.middle.y),
            cell.plan_worst.name().into(),
            cell.worst.name().into(),
            cell.count.flown.to_string(),
            cell.trials.flown.to_string(),
            cell.trials.crossed.to_string(),
            cell.trials.kept.to_string(),
        ]
        .into_iter()
        .chain(cell.outcomes.iter().map(ToString::to_string))
        .chain(pair(cell.home_s))
        .chain(pair(cell.energy_wh))
        .chain(again)
        .chain([replay.trial.to_string()])
        .collect()
    }));
    rows
}
