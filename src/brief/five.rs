//! The answer in five lines: does the plan hold, what limits it, what it would take, how near people, and where the jet may
//! be flown. Whoever tells a plan's answer tells these, in these words.

use crate::margins::{MarginRow, Margins, Verdict, judge, people};
use crate::run::{Run, Scenario, WindChoice, fly};
use crate::study::keep_inside::KeepInside;
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

/// What the five lines say of the plan as entered, in the mean wind: all of them that needs no trials.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entered {
    /// What it comes nearest to; none where nothing was flown.
    pub nearest: Option<String>,
    /// How near it passes to people.
    pub people: String,
    /// Which losses the answer is about.
    pub flown: String,
}

impl Entered {
    /// Flies the plan as entered.
    pub fn of(scenario: &Scenario) -> Self {
        let run = fly(scenario, 0, WindChoice::Mean);
        Self::judged(scenario, &run, &judge(scenario, &run))
    }

    /// Of the plan as entered where it was flown already.
    pub fn judged(scenario: &Scenario, run: &Run, margins: &Margins) -> Self {
        Self {
            nearest: nearest_row(margins)
                .map(|row| format!("As entered, nearest to {}: {}.", row.name, words::left(row))),
            people: words::people(&people(scenario, run, margins)),
            flown: scenario.losses_told(),
        }
    }
}

/// What is said of a remedy that nobody looked for.
const NOT_LOOKED_FOR: &str = "Not looked for here; peewit radius looks for it.";

impl FiveLines {
    /// Of a plan's trials and of what a search for changes came to, beside the plan as entered in the mean wind.
    pub fn of(scenario: &Scenario, trials: &PlanVerdict, found: Option<&Found>) -> Self {
        Self::beside(&Entered::of(scenario), trials, found)
    }

    /// The same beside what is known of the plan as entered.
    pub fn beside(entered: &Entered, trials: &PlanVerdict, found: Option<&Found>) -> Self {
        let stopped = if trials.partial { ", stopped before it was decided" } else { "" };
        let found = found.or((trials.verdict.answer == Answer::Yes).then_some(&Found::Holds));
        Self {
            verdict: format!("{}{stopped}.", trials.verdict.in_words()),
            limited_by: limited_by(trials, entered.nearest.as_deref()),
            remedy: found.map(words::remedy),
            ..Self::untried(entered, String::new())
        }
    }

    /// While no trials tell, which `why` says in a sentence.
    pub fn untried(entered: &Entered, why: String) -> Self {
        let limited_by = entered.nearest.clone().unwrap_or_else(|| NOTHING_FLOWN.into());
        let Entered { people, flown, .. } = entered.clone();
        Self { verdict: why, limited_by, remedy: None, people, flown }
    }

    /// With the line that the jet is to be kept inside, where it is known.
    #[must_use]
    pub fn kept(mut self, keep: Option<&KeepInside>) -> Self {
        if let Some(keep) = keep {
            self.flown = format!("{} {}", self.flown, words::keep_inside(keep));
        }
        self
    }

    /// The lines in order, each under its name.
    pub fn rows(&self) -> [(&'static str, &str); 5] {
        self.rows_or(NOT_LOOKED_FOR)
    }

    /// The same with other words where no remedy is known.
    pub fn rows_or<'a>(&'a self, unknown: &'a str) -> [(&'static str, &'a str); 5] {
        let remedy = self.remedy.as_deref().unwrap_or(unknown);
        [
            ("Does it hold", &self.verdict),
            ("What limits it", &self.limited_by),
            ("What it would take", remedy),
            ("People", &self.people),
            ("Where it is flown", &self.flown),
        ]
    }
}

/// What limits a plan of which nothing was flown.
const NOTHING_FLOWN: &str = "Nothing that was flown.";

fn limited_by(trials: &PlanVerdict, nearest: Option<&str>) -> String {
    let reason = trials.reason_told().map(|reason| format!("{} of its trials.", words::capital(&reason)));
    match (trials.verdict.answer, reason, nearest) {
        (Answer::Yes, None, Some(nearest)) => format!("No trial was inside a buffer. {nearest}"),
        (_, Some(reason), Some(nearest)) => format!("{reason} {nearest}"),
        (_, reason, nearest) => reason.or(nearest.map(Into::into)).unwrap_or_else(|| NOTHING_FLOWN.into()),
    }
}

/// The row with the least left for what is asked of it; what is counted in seconds asks for nothing.
pub fn nearest_row(margins: &Margins) -> Option<&MarginRow> {
    let rows = margins.rows.iter().filter(|row| row.verdict != Verdict::Counted && row.buffer > 0.0);
    let share = |row: &MarginRow| row.margin / row.buffer;
    rows.min_by(|a, b| b.verdict.cmp(&a.verdict).then(share(a).total_cmp(&share(b))))
}
