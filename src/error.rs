//! What went wrong, in which file and at which place, and what to do about it.
//!
//! Bad input is never one error at a time: a [`Faults`] carries every fault found, each with its place and the way
//! out. Everything else that can fail is one variant of [`Error`].

pub mod json;
pub mod letters;
pub mod old_words;

use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// How bad a fault is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth a look; the file can be used.
    Warning,
    /// The file can't be used until this is fixed.
    Error,
}

/// One thing wrong with an input file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Whether the file can be used all the same.
    pub severity: Severity,
    /// JSON pointer to the value, such as `/field/areas/0/ring_m/3`; empty for the whole file.
    pub place: String,
    /// Line of that value, counted from 1, where it is known.
    pub line: Option<usize>,
    /// What is wrong, with the value found.
    pub problem: String,
    /// What to do about it.
    pub way_out: String,
}

impl Fault {
    /// A fault that makes the file unusable.
    pub fn error(place: impl Into<String>, problem: impl Into<String>, way_out: impl Into<String>) -> Self {
        Self {
            severity: Severity::Error,
            place: place.into(),
            line: None,
            problem: problem.into(),
            way_out: way_out.into(),
        }
    }

    /// A fault that the file can be used with.
    pub fn warning(place: impl Into<String>, problem: impl Into<String>, way_out: impl Into<String>) -> Self {
        Self { severity: Severity::Warning, ..Self::error(place, problem, way_out) }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = match self.severity {
            Severity::Warning => "warning",
            Severity::Error => "error",
        };
        let line = self.line.map_or_else(String::new, |line| format!(", line {line}"));
        let place = if self.place.is_empty() { String::new() } else { format!(", {}", self.place) };
        let told = format!("{word}{line}{place}: {}. {}", self.problem, self.way_out);
        // A name with a line break in it makes no line of its own.
        f.write_str(&letters::on_one_line(&told))
    }
}

/// Most faults that are told one by one: who mends the first hundred has mended the cause of the others.
pub const MOST_TOLD: usize = 100;

/// The first faults of many, what keeps the file from being used before the rest, and at the end how many others there are.
pub fn at_most(faults: Vec<Fault>) -> Vec<Fault> {
    // What was only counted before is counted on.
    let (counted, mut told): (Vec<_>, Vec<_>) = faults.into_iter().partition(|fault| left(fault).is_some());
    let before: usize = counted.iter().filter_map(left).sum();
    if told.len() > MOST_TOLD {
        told.sort_by_key(|fault| std::cmp::Reverse(fault.severity));
    }
    let others = told.split_off(told.len().min(MOST_TOLD));
    let severity = others.iter().chain(&counted).map(|fault| fault.severity).max();
    told.extend(severity.map(|severity| Fault { severity, ..others_left(before + others.len()) }));
    told
}

const NOT_LISTED: &str = " more faults are not listed";

/// What stands for faults that are not told.
pub fn others_left(count: usize) -> Fault {
    Fault::error("", format!("{count}{NOT_LISTED}"), "Mend the first ones first; the others may go with them")
}

/// For how many a fault stands that are not told.
fn left(fault: &Fault) -> Option<usize> {
    fault.problem.strip_suffix(NOT_LISTED)?.parse().ok()
}

/// Every fault of one input file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Faults {
    /// The file, or a name for it where it has none on disk.
    pub file: PathBuf,
    /// The faults, in the order of the file.
    pub faults: Vec<Fault>,
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let errors = self.faults.iter().filter(|fault| fault.severity == Severity::Error).count();
        write!(f, "{}: {errors} {}", self.file.display(), if errors == 1 { "error" } else { "errors" })?;
        // What keeps the file from being used stands first, however much else there is to say.
        let (stops, others): (Vec<_>, Vec<_>) = self.faults.iter().partition(|fault| fault.severity == Severity::Error);
        let (told, left) = (MOST_TOLD + 1, self.faults.len().saturating_sub(MOST_TOLD + 1));
        stops.into_iter().chain(others).take(told).try_for_each(|fault| write!(f, "\n  {fault}"))?;
        if left > 0 { write!(f, "\n  {}", others_left(left)) } else { Ok(()) }
    }
}

/// Why a file can't be read, and what to do about it.
pub fn unread(path: &Path, source: &io::Error) -> (String, String) {
    let shown = path.display();
    match source.kind() {
        ErrorKind::NotFound => (format!("there is no file {shown}"), "Check its name and the folder it is in".into()),
        ErrorKind::IsADirectory => (
            format!("{shown} is a folder, not a file"),
            "Name a file in it, with the folder in front of its name".into(),
        ),
        _ => (format!("can't read {shown}: {source}"), "Check that you may read it".into()),
    }
}

/// Why a file can't be written, with what to do about it.
fn unwritten(path: &Path, source: &io::Error) -> String {
    let shown = path.display();
    match (source.kind(), path.parent()) {
        (ErrorKind::NotFound, Some(folder)) if !folder.as_os_str().is_empty() => {
            format!("can't write {shown}: there is no folder {}. Make it first, or write elsewhere", folder.display())
        }
        (ErrorKind::StorageFull | ErrorKind::QuotaExceeded, _) => {
            format!("can't write {shown}: there is no room left. Make room there, or write elsewhere")
        }
        _ => format!("can't write {shown}: {source}. Check that you may write there"),
    }
}

/// Anything that stops a command.
#[derive(Debug, thiserror::Error)]
pub enum Error {
    /// The input can't be used; every fault is listed.
    #[error("{0}")]
    Input(Faults),
    /// A file could not be read.
    #[error("{}. {}", unread(path, source).0, unread(path, source).1)]
    Read {
        /// The file.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// A file could not be written.
    #[error("{}", unwritten(path, source))]
    Write {
        /// The file.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// What was asked for can't be done, and why.
    #[error("{0}")]
    Asked(String),
    /// The program broke off where it never should, with what it was that failed and where in the source.
    #[error(
        "the window crashed, which is a fault of this program: {0}. What you had not saved is kept aside and comes back at the next start"
    )]
    Crash(String),
}

/// The result of anything that can stop a command.
pub type Result<T, E = Error> = std::result::Result<T, E>;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_is_not_one_is_told_in_words() {
        let folder = tempfile::tempdir().unwrap();
        for (name, says) in [("gone.json", "there is no file"), ("", "is a folder, not a file")] {
            let path = folder.path().join(name);
            let source = std::fs::read(&path).unwrap_err();
            let said = Error::Read { path, source }.to_string();
            assert!(said.contains(says) && !said.contains("os error"), "{said}");
        }
        let path = folder.path().join("none/report.txt");
        let source = std::fs::write(&path, "").unwrap_err();
        let said = Error::Write { path, source }.to_string();
        assert!(said.contains("there is no folder") && said.contains("Make it first"), "{said}");
        let full = Error::Write { path: "report.txt".into(), source: ErrorKind::StorageFull.into() };
        assert_eq!(
            full.to_string(),
            "can't write report.txt: there is no room left. Make room there, or write elsewhere"
        );
    }

    #[test]
    fn of_many_faults_the_first_hundred_are_told_and_the_others_counted() {
        let many = |count: usize| -> Vec<Fault> {
            let warnings = (0..count).map(|index| Fault::warning("", format!("odd {index}"), "Look"));
            warnings.chain([Fault::error("/jet", "wrong", "Mend it")]).collect()
        };
        assert_eq!(at_most(many(99)), many(99));
        let told = at_most(many(1_000_000));
        assert_eq!((told.len(), &*told[0].problem, &*told[99].problem), (101, "wrong", "odd 98"));
        assert_eq!((&*told[100].problem, told[100].severity), ("999901 more faults are not listed", Severity::Warning));
        assert_eq!(
            at_most(told.iter().cloned().chain([others_left(7)]).collect())[100].problem,
            "999908 more faults are not listed"
        );
        for (faults, lines) in [(told, 102), (many(1_000_000), 103)] {
            let said = Faults { file: "a.json".into(), faults }.to_string();
            assert_eq!(said.lines().count(), lines, "{said}");
            assert!(said.starts_with("a.json: 1 error\n") && said.contains("more faults are not listed"), "{said}");
        }
    }

    #[test]
    fn a_fault_is_one_line_whatever_it_quotes() {
        let fault = Fault::error("/a\n", "\u{1b}[2J\nFine", "Go\ron");
        assert_eq!(fault.to_string(), "error, /a :  [2J Fine. Go on");
    }

    #[test]
    fn errors_stand_before_warnings() {
        let faults = vec![Fault::warning("/notes", "odd", "Look"), Fault::error("/jet", "wrong", "Mend it")];
        let said = Faults { file: "a.json".into(), faults }.to_string();
        assert!(said.find("wrong") < said.find("odd"), "{said}");
    }
}
