//! What is said of a file: everything repaired or left out, ten times a kind and then a count.

use crate::error::{Fault, Severity, at_most};

/// Most of a kind that are told one by one.
const MOST_OF_A_KIND: usize = 10;

/// A kind of thing that may be odd in a log.
pub(super) struct Kind {
    /// What they are called, several of them.
    pub(super) many: &'static str,
    /// What to do about it.
    pub(super) way_out: &'static str,
}

/// All that is said of one kind.
struct Said {
    many: &'static str,
    way_out: &'static str,
    severity: Severity,
    told: Vec<Fault>,
    count: usize,
}

/// All that is said of a file.
#[derive(Default)]
pub(super) struct Notes(Vec<Said>);

impl Notes {
    /// Says what was repaired, left out or taken for granted.
    pub(super) fn warn(&mut self, kind: &Kind, line: Option<usize>, problem: impl FnOnce() -> String) {
        self.say(kind, Severity::Warning, line, problem);
    }

    /// Says why the file can't be used.
    pub(super) fn error(&mut self, kind: &Kind, line: Option<usize>, problem: impl FnOnce() -> String) {
        self.say(kind, Severity::Error, line, problem);
    }

    /// Says what another reader found.
    pub(super) fn pass_on(&mut self, fault: Fault) {
        let (severity, told) = (fault.severity, vec![fault]);
        self.0.push(Said { many: "", way_out: "", severity, told, count: 1 });
    }

    fn say(&mut self, kind: &Kind, severity: Severity, line: Option<usize>, problem: impl FnOnce() -> String) {
        let known = self.0.iter().position(|said| said.many == kind.many && said.severity == severity);
        let index = known.unwrap_or_else(|| {
            self.0.push(Said { many: kind.many, way_out: kind.way_out, severity, told: Vec::new(), count: 0 });
            self.0.len() - 1
        });
        let said = &mut self.0[index];
        said.count += 1;
        if said.told.len() < MOST_OF_A_KIND {
            said.told.push(Fault { severity, line, ..Fault::error("", problem(), kind.way_out) });
        }
    }

    /// Whether something was said that keeps the file from being used.
    pub(super) fn failed(&self) -> bool {
        self.0.iter().any(|said| said.severity == Severity::Error)
    }

    /// Everything said: what keeps the file from being used first, each kind by itself, in the order it was met.
    pub(super) fn faults(mut self) -> Vec<Fault> {
        self.0.sort_by_key(|said| std::cmp::Reverse(said.severity));
        let mut all = Vec::new();
        for said in self.0 {
            let (told, severity) = (said.told.len(), said.severity);
            all.extend(said.told);
            if said.count > told {
                let problem = format!("{} more {}, {} in all", said.count - told, said.many, said.count);
                all.push(Fault { severity, ..Fault::error("", problem, said.way_out) });
            }
        }
        at_most(all)
    }
}
