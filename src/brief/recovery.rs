//! One recovery, flown and judged, and what is said of it first.

use super::FiveLines;
use crate::error::{Fault, Severity};
use crate::margins::{Margins, People, Verdict, people};
use crate::run::{REVIEW_BY, Run, Scenario, WindChoice};
use crate::study::remedy::Found;
use crate::study::verdict::PlanVerdict;
use crate::{VERSION, words};

/// One recovery, flown and judged: what the reports of this room are about.
#[derive(Debug, Clone, Copy)]
pub struct Recovery<'a> {
    /// What was flown.
    pub scenario: &'a Scenario,
    /// How it was flown.
    pub run: &'a Run,
    /// The wind it was flown in.
    pub wind: WindChoice,
    /// Its margins.
    pub margins: &'a Margins,
    /// What the plan's trials say, without which one run says little; none where they were not asked for.
    pub trials: Option<&'a PlanVerdict>,
    /// What would make a plan hold that does not; none where it was not looked for.
    pub remedy: Option<&'a Found>,
    /// What is odd about the scenario's file.
    pub warnings: &'a [Fault],
    /// What was asked for differently than the file says, in words.
    pub changes: &'a [String],
}

impl Recovery<'_> {
    /// What came of it: the verdict of the trials where they were asked for, then one sentence that claims no more than one run
    /// can.
    pub fn headline(&self) -> String {
        format!("{}{}", self.plan_told(), self.one_run())
    }

    /// What came of this one run.
    pub fn one_run(&self) -> String {
        let (margins, wind) = (self.margins, words::wind(self.wind));
        let forbidden = format!("{}{}", not_permitted(self.scenario), expired(self.warnings));
        let named = |verdict: Verdict| {
            let rows = margins.rows.iter().filter(|row| row.verdict == verdict);
            rows.map(|row| format!("{} ({})", row.name, words::margin(row))).collect::<Vec<_>>().join("; ")
        };
        let answer = match (margins.verdict(), margins.worst_margin()) {
            (Verdict::Crossed, Verdict::Crossed) => {
                format!("Crossed in this one run, in the {wind}: {}.", named(Verdict::Crossed))
            }
            (Verdict::Crossed, _) => {
                format!("Crossed in this one run, in the {wind}: {}.", words::ending(margins.ending))
            }
            (Verdict::InsideBuffer, _) => {
                let inside_buffer = named(Verdict::InsideBuffer);
                format!("Nothing crossed in this one run, in the {wind}, but inside the buffer: {inside_buffer}.")
            }
            (Verdict::Clear | Verdict::Counted, _) => {
                format!("Met the margins asked for in this one run, in the {wind}, in this model.")
            }
        };
        // Without a circuit the trials are about that same one loss.
        let told = match (self.trials, &self.scenario.field.circuit) {
            (Some(_), None) => String::new(),
            _ => self.scenario.loss_told(self.run.trial) + " ",
        };
        format!("{told}{answer}{forbidden}")
    }

    /// The answer in five lines; none where no trials were asked for.
    pub fn five_lines(&self) -> Option<FiveLines> {
        self.trials.map(|trials| FiveLines::of(self.scenario, trials, self.remedy))
    }

    /// How near people it passes.
    pub fn people(&self) -> People {
        people(self.scenario, self.run, self.margins)
    }

    /// What the plan's trials say, before anything is said of one run.
    fn plan_told(&self) -> String {
        self.trials.map_or_else(String::new, |trials| {
            let stopped = if trials.partial { " (stopped before it was decided)" } else { "" };
            format!("{} {}{stopped}. ", self.scenario.losses_told(), trials.in_words())
        })
    }

    /// What the answer can be repeated from: version, scenario, hash, seed and trial.
    pub fn stamp(&self) -> String {
        let file = &self.scenario.file;
        format!(
            "Peewit {VERSION}, scenario {} ({}), seed {}, trial {}, {}",
            file.name,
            self.scenario.hash(),
            file.seed,
            self.run.trial,
            words::wind(self.wind)
        )
    }
}

/// What follows every answer about a return where none is permitted; nothing elsewhere.
pub(super) fn not_permitted(scenario: &Scenario) -> &'static str {
    if scenario.return_not_permitted() { " BUT AN AUTOMATIC RETURN IS NOT PERMITTED HERE." } else { "" }
}

/// What follows every answer about a plan that has expired; nothing else.
pub(super) fn expired(warnings: &[Fault]) -> String {
    let warned = warnings.iter().find(|fault| fault.severity == Severity::Warning && fault.place == REVIEW_BY);
    warned.map_or_else(String::new, |fault| format!(" {}.", fault.problem))
}

#[cfg(test)]
mod tests {
    use glam::DVec2;

    use super::*;
    use crate::margins::{Limit, MarginRow, MarginUnit, judge};
    use crate::run::{Ending, Stretch, fly};

    fn row(name: &str, verdict: Verdict, margin: f64) -> MarginRow {
        MarginRow {
            limit: Limit::Boundary,
            name: name.into(),
            unit: MarginUnit::Metres,
            margin,
            buffer: 20.0,
            verdict,
            at_s: 1.0,
            at: DVec2::ZERO,
            height_m: 70.0,
            stretch: Some(Stretch::Circling),
        }
    }

    #[track_caller]
    fn says(rows: &[MarginRow], ending: Ending, verdict: Verdict, expected: &str) {
        let scenario = Scenario::tight_strip();
        let run = fly(&scenario, 0, WindChoice::Mean);
        let margins = Margins { rows: rows.to_vec(), ending, ..judge(&scenario, &run) };
        let (warnings, changes) = (&[], &[]);
        let recovery = Recovery {
            scenario: &scenario,
            run: &run,
            wind: WindChoice::Mean,
            margins: &margins,
            trials: None,
            remedy: None,
            warnings,
            changes,
        };
        let told = format!("{} {expected}", scenario.loss_told(0));
        assert_eq!((margins.verdict(), recovery.headline()), (verdict, told));
    }

    #[test]
    fn the_headline_claims_no_more_than_one_run_can() {
        use Ending::{Empty, TakenOver};
        use Verdict::{Clear, Counted, Crossed, InsideBuffer};
        let (clear, seconds) = (row("boundary", Clear, 31.2), row("lane, caution", Counted, 4.0));
        let (inside_buffer, crossed) = (row("mast", InsideBuffer, 5.0), row("goats", Crossed, -12.34));
        let met = "Met the margins asked for in this one run, in the mean wind, in this model.";
        says(std::slice::from_ref(&clear), TakenOver, Clear, met);
        says(&[clear.clone(), seconds], TakenOver, Counted, met);
        let nearer = "Nothing crossed in this one run, in the mean wind, but inside the buffer: \
                      mast (5.0 of 20 m asked for).";
        says(&[clear.clone(), inside_buffer.clone()], TakenOver, InsideBuffer, nearer);
        let said = "Crossed in this one run, in the mean wind: goats (by 12.3 m).";
        says(&[clear.clone(), inside_buffer, crossed], TakenOver, Crossed, said);
        // A jet that never came home breaks nothing that has a margin, and is no success.
        let said = "Crossed in this one run, in the mean wind: the battery was empty in the air.";
        says(&[clear], Empty, Crossed, said);
    }

    #[test]
    fn the_headline_says_that_a_return_is_not_permitted() {
        let mut file = Scenario::tight_strip().file;
        file.limits.no_automatic_return = true;
        let scenario = Scenario::from_file(file).unwrap();
        let run = fly(&scenario, 0, WindChoice::Mean);
        let (margins, warnings, changes) = (&judge(&scenario, &run), &[], &[]);
        let said = Recovery {
            scenario: &scenario,
            run: &run,
            wind: WindChoice::Mean,
            margins,
            trials: None,
            remedy: None,
            warnings,
            changes,
        }
        .headline();
        assert!(said.ends_with("in this model. BUT AN AUTOMATIC RETURN IS NOT PERMITTED HERE."), "{said}");
        assert!(margins.remarks.iter().any(|remark| remark.contains("not permitted here")), "{:?}", margins.remarks);
    }
}
