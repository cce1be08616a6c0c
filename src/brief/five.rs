//! The answer in five lines: does the plan hold, what limits it, what it would take, how near people, and where the jet may
//! be flown. Whoever tells a plan's answer tells these, in these words.

use crate::margins::{MarginRow, Margins, Verdict, judge, people};
use crate::run::{Scenario, WindChoice, fly};
use crate::study::remedy::Found;
use crate::study::verdict::{Answer, PlanVerdict};
use crate::words;

/// The five lines, each a sentence or two.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FiveLines {
    /// Yes, no or undecided, with the shares it rests on.
    pub verdict: String,
    /// What most trials fail by; of a plan that holds, what it comes nearest to.
    pub limited_by: String,
    /// The one set of changes that makes it hold; none where it was not looked for.
    pub remedy: Option<String>,
    /// How near it passes to people.
    pub people: String,
    /// Which losses the answer is about.
    pub flown: String,
}

/// What is said of a remedy that nobody looked for.
const NOT_LOOKED_FOR: &str = "Not looked for here; peewit radius looks for it.";

impl FiveLines {
    /// Of a plan's trials and of what a search for changes came to, beside the plan as entered in the mean wind.
    pub fn of(scenario: &Scenario, trials: &PlanVerdict, found: Option<&Found>) -> Self {
        let run = fly(scenario, 0, WindChoice::Mean);
        let margins = judge(scenario, &run);
        let stopped = if trials.partial { ", stopped before it was decided" } else { "" };
        let found = found.or((trials.verdict.answer == Answer::Yes).then_some(&Found::Holds));
        Self {
            verdict: format!("{}{stopped}.", trials.verdict.in_words()),
            limited_by: limited_by(trials, &margins),
            remedy: found.map(words::remedy),
            people: words::people(&people(scenario, &run, &margins)),
            flown: scenario.losses_told(),
        }
    }

    /// The lines in order, each under its name.
    pub fn rows(&self) -> [(&'static str, &str); 5] {
        let remedy = self.remedy.as_deref().unwrap_or(NOT_LOOKED_FOR);
        [
            ("Does it hold", &self.verdict),
            ("What limits it", &self.limited_by),
            ("What it would take", remedy),
            ("People", &self.people),
            ("Where it is flown", &self.flown),
        ]
    }
}

fn limited_by(trials: &PlanVerdict, margins: &Margins) -> String {
    let reason = trials.reason_told().map(|reason| format!("{} of its trials.", words::capital(&reason)));
    let nearest = nearest(margins).map(|row| format!("As entered, nearest to {}: {}.", row.name, words::left(row)));
    match (trials.verdict.answer, reason, nearest) {
        (Answer::Yes, None, Some(nearest)) => format!("No trial was inside a buffer. {nearest}"),
        (_, Some(reason), Some(nearest)) => format!("{reason} {nearest}"),
        (_, reason, nearest) => reason.or(nearest).unwrap_or_else(|| "Nothing that was flown.".into()),
    }
}

/// The row with the least left for what is asked of it; what is counted in seconds asks for nothing.
fn nearest(margins: &Margins) -> Option<&MarginRow> {
    let rows = margins.rows.iter().filter(|row| row.verdict != Verdict::Counted && row.buffer > 0.0);
    let share = |row: &MarginRow| row.margin / row.buffer;
    rows.min_by(|a, b| b.verdict.cmp(&a.verdict).then(share(a).total_cmp(&share(b))))
}
