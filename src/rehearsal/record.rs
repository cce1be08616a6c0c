//! How is a rehearsal kept? As lines of JSON: a head, then one thing done a line. Small, open, with units in the keys.
//!
//! A recording that was cut plays to the cut: a last line that is not whole is left out, and said. One without a whole head
//! is none.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::{Exercise, Rehearsal, Timed};
use crate::error::{Fault, Faults, MOST_TOLD, Severity};
use crate::run::{LONGEST_S, Scenario};
use crate::{Error, Result, VERSION};

/// Version of the recordings that this program writes and reads.
const FORMAT: u32 = 1;
/// Most letters of a name in the head: as many as one of a scenario may have.
const LONGEST_NAME: usize = 200;

/// What a recording begins with.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecordingHeader {
    /// Version of the format.
    pub peewit_rehearsal: u32,
    /// Version of the program that wrote it.
    pub version: String,
    /// What the scenario is called.
    pub scenario: String,
    /// Hash of the scenario.
    pub scenario_hash: String,
    /// Who flew it; empty where nobody is named.
    #[serde(default)]
    pub pilot: String,
    /// Seconds a step.
    pub step_s: f64,
    /// What was rehearsed.
    pub exercise: Exercise,
}

/// A recording.
#[derive(Debug, Clone, PartialEq)]
pub struct Recording {
    /// Its head.
    pub header: RecordingHeader,
    /// What was done, in order.
    pub deeds: Vec<Timed>,
    /// What is odd about it.
    pub warnings: Vec<Fault>,
}

impl Recording {
    /// What was done in a rehearsal so far, by somebody. It ends where the rehearsal has come to.
    pub fn of(rehearsal: &Rehearsal, pilot: &str) -> Self {
        let base = rehearsal.base();
        let mut deeds = rehearsal.deeds().to_vec();
        let ended = deeds.last().is_some_and(|last| last.deed == super::Deed::End);
        if !ended {
            deeds.push(Timed { at_step: rehearsal.index() as u64, deed: super::Deed::End });
        }
        let header = RecordingHeader {
            peewit_rehearsal: FORMAT,
            version: VERSION.into(),
            scenario: base.file.name.clone(),
            scenario_hash: base.hash(),
            pilot: pilot.into(),
            step_s: rehearsal.step_s(),
            exercise: rehearsal.exercise().clone(),
        };
        Self { header, deeds, warnings: Vec::new() }
    }

    /// As it stands in its file.
    pub fn to_text(&self) -> String {
        let head = serde_json::to_string(&self.header).unwrap_or_default();
        let lines = self.deeds.iter().filter_map(|deed| serde_json::to_string(deed).ok());
        std::iter::once(head).chain(lines).map(|line| line + "\n").collect()
    }

    /// Reads one.
    ///
    /// # Errors
    ///
    /// Where it has no head, or a whole line of it is wrong: every fault, with its line.
    pub fn read(text: &str, file: &Path) -> Result<Self> {
        let refused = |faults| Error::Input(Faults { file: file.into(), faults });
        let at = |line: usize, fault: Fault| Fault { line: Some(line), ..fault };
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut lines = text.split('\n').enumerate().filter(|(_, line)| !line.trim().is_empty()).peekable();
        let way_out = "Give a recording that was saved here: its first line says what was rehearsed";
        let Some((_, first)) = lines.next() else {
            return Err(refused(vec![Fault::error("", "there is nothing in it", way_out)]));
        };
        let header: RecordingHeader = serde_json::from_str(first)
            .map_err(|why| refused(vec![at(1, Fault::error("", format!("its head can't be read: {why}"), way_out))]))?;
        let mut faults = head_faults(&header);
        let (mut deeds, mut warnings): (Vec<Timed>, Vec<Fault>) = (Vec::new(), Vec::new());
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a positive count")]
        let most = (LONGEST_S / header.step_s.max(1e-3)).ceil() as u64;
        while let Some((index, line)) = lines.next() {
            let number = index + 1;
            match serde_json::from_str::<Timed>(line) {
                Ok(timed) if timed.at_step > most => faults.push(at(
                    number,
                    Fault::error(
                        "/at_step",
                        format!("step {} is after the longest flight", timed.at_step),
                        format!("The last step is {most}"),
                    ),
                )),
                Ok(timed) if deeds.last().is_some_and(|last| last.at_step > timed.at_step) => faults.push(at(
                    number,
                    Fault::error(
                        "/at_step",
                        format!("step {} comes after a later one", timed.at_step),
                        "Put the lines in the order of their steps",
                    ),
                )),
                Ok(timed) => deeds.push(timed),
                Err(_) if lines.peek().is_none() && !text.ends_with('\n') => warnings.push(at(
                    number,
                    Fault::warning("", "the recording was cut within its last line", "It is played as far as it goes"),
                )),
                Err(why) => faults.push(at(
                    number,
                    Fault::error("", format!("can't be read: {why}"), "Correct the line, or leave it out"),
                )),
            }
            if faults.len() >= MOST_TOLD {
                break;
            }
        }
        if !faults.is_empty() {
            return Err(refused(faults));
        }
        Ok(Self { header, deeds, warnings })
    }

    /// What stands in the way of playing it on a scenario, and what is odd about that.
    pub fn fits(&self, scenario: &Scenario) -> Vec<Fault> {
        let mut odd = Vec::new();
        if self.header.scenario_hash != scenario.hash() {
            let told = format!("it was flown on {} ({})", self.header.scenario, self.header.scenario_hash);
            odd.push(Fault::warning(
                "/scenario_hash",
                format!("{told}, and this is {} ({})", scenario.file.name, scenario.hash()),
                "What it comes to may be another flight than the one that was flown",
            ));
        }
        if self.header.version != VERSION {
            odd.push(Fault::warning(
                "/version",
                format!("it was flown with Peewit {}, and this is {VERSION}", self.header.version),
                "What it comes to may be another flight than the one that was flown",
            ));
        }
        let step_s = crate::run::setting(scenario).step_s;
        if (self.header.step_s - step_s).abs() > 1e-12 {
            let problem = format!(
                "it was flown in steps of {} s, and this plan flies in steps of {step_s} s",
                self.header.step_s
            );
            odd.push(Fault {
                severity: Severity::Error,
                ..Fault::warning("/step_s", problem, "Give the plan the fix rate that it was flown with")
            });
        }
        odd
    }

    /// Flies it again on a scenario, to its end.
    ///
    /// # Errors
    ///
    /// Where the scenario can't be flown so.
    pub fn play(&self, scenario: &Scenario) -> std::result::Result<Rehearsal, Vec<Fault>> {
        let mut rehearsal = Rehearsal::new(scenario, &self.header.exercise)?;
        let last = self.deeds.last().map_or(0, |last| last.at_step);
        let mut left = self.deeds.as_slice();
        let mut now = Vec::new();
        loop {
            let step = rehearsal.index() as u64;
            let due = left.partition_point(|timed| timed.at_step <= step);
            now.clear();
            now.extend(left[..due].iter().map(|timed| timed.deed));
            left = &left[due..];
            if !rehearsal.step(&now) || (left.is_empty() && rehearsal.index() as u64 > last) {
                return Ok(rehearsal);
            }
        }
    }
}

fn head_faults(header: &RecordingHeader) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut fault = |place: &str, problem: String, way_out: &str| {
        faults.push(Fault { line: Some(1), ..Fault::error(place, problem, way_out) });
    };
    if header.peewit_rehearsal != FORMAT {
        let problem = format!("it is of version {}", header.peewit_rehearsal);
        fault("/peewit_rehearsal", problem, &format!("This program reads version {FORMAT}"));
    }
    let words = [&header.version, &header.scenario, &header.scenario_hash, &header.pilot, &header.exercise.name];
    if words.into_iter().any(|words| words.chars().count() > LONGEST_NAME) {
        let problem = format!("a name in it has more than {LONGEST_NAME} letters");
        fault("", problem, "Write the name that people are called by");
    }
    if !(header.step_s > 0.0 && header.step_s <= 1.0) {
        fault("/step_s", format!("a step of {} s", header.step_s), "A step lasts more than 0 and at most 1 s");
    }
    for problem in header.exercise.faults() {
        fault("/exercise", problem, "Correct the head, or record it again");
    }
    faults
}
