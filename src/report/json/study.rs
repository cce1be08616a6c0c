//! A study for other programs: what every study says, about its own part.

use serde::Serialize;

use super::answer::{Answer as Lines, Remedy};
use super::blocks::{Head, Plan, Point, Tail, WindSheet};
use super::losses::Losses;
use super::radius::Radius;
use super::wind_limit::WindLimit;
use super::written;
use crate::Result;
use crate::brief::{self, StudyReport};

#[derive(Serialize)]
struct Report<'a> {
    #[serde(flatten)]
    head: Head<'a>,
    partial: bool,
    about: String,
    headline: String,
    five_lines: Option<Lines>,
    remedy: Option<Remedy>,
    plan: Plan<'a, Point>,
    wind_sheet: WindSheet,
    #[serde(flatten)]
    answer: Answer<'a>,
    #[serde(flatten)]
    tail: Tail<'a>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Answer<'a> {
    Radius(Box<Radius<'a>>),
    WindLimit(WindLimit<'a>),
    Losses(Box<Losses<'a>>),
}

/// The whole report.
pub(in crate::report) fn study(report: &StudyReport) -> Result<String> {
    let scenario = report.scenario;
    let (kind, answer) = match report.answer {
        brief::Answer::Radius(study) => ("radius", Answer::Radius(Box::new(study.into()))),
        brief::Answer::WindLimit(study) => ("wind-limit", Answer::WindLimit(WindLimit::new(scenario, study))),
        brief::Answer::Losses(study) => ("losses", Answer::Losses(Box::new(study.into()))),
    };
    written(&Report {
        head: Head::new(kind, scenario),
        partial: report.partial(),
        about: scenario.losses_told(),
        headline: report.headline(),
        five_lines: report.five_lines().map(Into::into),
        remedy: Remedy::of(report.remedy),
        plan: Plan::new(scenario, scenario.field.centre.into()),
        wind_sheet: WindSheet::new(scenario),
        answer,
        tail: Tail::new(scenario, report.changes, report.warnings),
    })
}
