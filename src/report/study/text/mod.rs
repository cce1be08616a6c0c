//! A study for people: the answer first, then what it rests on, then what to remember.

mod losses;
mod radius;
mod wind_limit;

use crate::VERSION;
use crate::brief::{Answer, StudyReport};
use crate::report::layout::{headed, listed, named, paragraph};
use crate::report::text::{foot, origins, planned};

/// The whole report.
pub(super) fn study(report: &StudyReport) -> String {
    let (name, answer) = match report.answer {
        Answer::Radius(study) => ("which circle holds here", radius::sections(study)),
        Answer::WindLimit(study) => ("up to what wind the circle holds", wind_limit::sections(study)),
        Answer::Losses(study) => ("from where a loss is recovered", losses::sections(report, study)),
    };
    let partial = if report.partial() {
        paragraph("", "STOPPED BEFORE IT WAS COMPLETE: what follows rests on what was flown until then.") + "\n"
    } else {
        String::new()
    };
    let answer_first = match report.answer {
        Answer::Radius(_) => report.five_lines().map_or_else(String::new, |five| named(five.rows())),
        Answer::WindLimit(study) => paragraph("  ", &wind_limit::said(study)),
        Answer::Losses(study) => paragraph("  ", &losses::said(study)),
    };
    let answer_first = match answer_first.as_str() {
        "" => String::new(),
        told => headed("The answer", told) + "\n",
    };
    let head = format!("Peewit {VERSION}: {name}\n\n{partial}");
    let sections = [
        head + &answer_first + &headed("What came of it", &paragraph("  ", &report.headline())),
        headed("What was asked", &setting(report)),
    ];
    let rest = [
        listed("Not as in the file", report.changes),
        headed("Nobody has measured", &origins(&report.scenario.file)),
        listed("Warnings about the file", report.warnings),
        foot(),
    ];
    let all = sections.into_iter().chain(answer).chain(rest);
    all.filter(|section| !section.is_empty()).collect::<Vec<_>>().join("\n")
}

fn setting(report: &StudyReport) -> String {
    let seed = report.scenario.file.seed;
    planned(report.scenario, "Flown", format!("{}, seed {seed}", report.asked()))
}
