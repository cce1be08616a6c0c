//! A recovery for other programs.

use serde::Serialize;
use serde_json::{Map, Value};

use super::answer::{Answer, People, Remedy};
use super::blocks::{Head, Place, Plan, Tail, WindSheet, amounts};
use super::{trials, written};
use crate::brief::{Recovery, spans};
use crate::margins::{Figures, Verdict};
use crate::run::{LossKind, Stretch};
use crate::{Result, words};

#[derive(Serialize)]
struct Report<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    trial: u64,
    wind: &'static str,
    verdict: &'static str,
    crossed: bool,
    buffer_used: bool,
    plan_verdict: Option<trials::Verdict>,
    about: String,
    headline: String,
    ending: &'static str,
    end_s: f64,
    loss: Loss,
    plan: Plan<'a, Place>,
    wind_sheet: WindSheet,
    five_lines: Option<Answer>,
    remedy: Option<Remedy>,
    people: People,
    margins: Vec<Margin<'a>>,
    stretches: Vec<Part>,
    figures: Numbers,
    remarks: &'a [String],
    #[serde(flatten)]
    tail: Tail<'a>,
}

#[derive(Serialize)]
struct Loss {
    kind: LossKind,
    at: Place,
    height_m: f64,
    airspeed_mps: f64,
    heading_deg: f64,
}

#[derive(Serialize)]
struct Margin<'a> {
    limit: &'a str,
    verdict: &'static str,
    #[serde(flatten)]
    amounts: Map<String, Value>,
    at_s: f64,
    at: Place,
    height_m: f64,
    stretch: Option<&'static str>,
}

#[derive(Serialize)]
struct Part {
    stretch: &'static str,
    from_s: f64,
    to_s: f64,
    along_m: f64,
}

#[derive(Serialize)]
struct Numbers {
    turn_back_m: f64,
    furthest_m: Option<f64>,
    joining_overshoot_m: Option<f64>,
    drift_m: f64,
    smallest_radius_still_m: f64,
    smallest_radius_mean_m: f64,
    smallest_radius_gust_m: f64,
    home_s: Option<f64>,
    lap_s: Option<f64>,
    saturated_share: Option<f64>,
    lap_energy_wh: Option<f64>,
    energy_left_wh: f64,
    laps_to_reserve: Option<f64>,
    glide_footprint_m: f64,
    fall_footprint_m: f64,
}

/// The whole report.
pub(in crate::report) fn recovery(recovery: &Recovery) -> Result<String> {
    let (scenario, margins, trace) = (recovery.scenario, recovery.margins, &recovery.run.trace);
    let (loss, place) = (&scenario.file.loss, |at| Place::new(scenario, at));
    let rows = margins.rows.iter().map(|row| Margin {
        limit: &row.name,
        verdict: row.verdict.name(),
        amounts: amounts(row.unit, row.verdict, [row.margin, row.buffer]),
        at_s: row.at_s,
        at: place(row.at),
        height_m: row.height_m,
        stretch: row.stretch.map(Stretch::name),
    });
    let stretches = spans(trace).into_iter().map(|span| Part {
        stretch: span.stretch.name(),
        from_s: trace.time_s(span.from),
        to_s: trace.time_s(span.to),
        along_m: span.along_m(trace),
    });
    written(&Report {
        head: Head::new("recovery", scenario),
        trial: recovery.run.trial,
        wind: words::wind_key(recovery.wind),
        verdict: margins.verdict().name(),
        crossed: margins.verdict() == Verdict::Crossed,
        buffer_used: margins.verdict() >= Verdict::InsideBuffer,
        plan_verdict: recovery.trials.map(|trials| (&trials.verdict).into()),
        about: scenario.loss_told(recovery.run.trial),
        headline: recovery.headline(),
        ending: words::ending_key(margins.ending),
        end_s: margins.end_s,
        loss: Loss {
            kind: loss.kind,
            at: place(loss.at_m.into()),
            height_m: loss.height.m(),
            airspeed_mps: loss.speed.mps(),
            heading_deg: loss.heading.deg(),
        },
        plan: Plan::new(scenario, place(scenario.field.centre)),
        wind_sheet: WindSheet::new(scenario),
        five_lines: recovery.five_lines().map(Into::into),
        remedy: Remedy::of(recovery.remedy),
        people: recovery.people().into(),
        margins: rows.collect(),
        stretches: stretches.collect(),
        figures: numbers(&margins.figures),
        remarks: &margins.remarks,
        tail: Tail::new(scenario, recovery.changes, recovery.warnings),
    })
}

fn numbers(figures: &Figures) -> Numbers {
    let [smallest_radius_still_m, smallest_radius_mean_m, smallest_radius_gust_m] = figures.smallest_radius_m;
    Numbers {
        turn_back_m: figures.turn_back_m,
        furthest_m: figures.furthest_m,
        joining_overshoot_m: figures.joining_overshoot_m,
        drift_m: figures.drift_m,
        smallest_radius_still_m,
        smallest_radius_mean_m,
        smallest_radius_gust_m,
        home_s: figures.home_s,
        lap_s: figures.lap_s,
        saturated_share: figures.saturated_share,
        lap_energy_wh: figures.lap_energy_j.map(|joules| joules / 3600.0),
        energy_left_wh: figures.energy_left_j / 3600.0,
        laps_to_reserve: figures.laps_to_reserve,
        glide_footprint_m: figures.glide_footprint_m,
        fall_footprint_m: figures.fall_footprint_m,
    }
}
