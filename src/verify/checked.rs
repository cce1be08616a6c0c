//! A run of the checks as it is kept: when, on which machine, by which version, and every line.

use std::path::Path;
use std::thread::available_parallelism;
use std::time::SystemTime;

use serde::{Deserialize, Serialize};
use time::OffsetDateTime;

use super::line::Line;
use crate::lane::{Lane, LaneWork, widest};
use crate::{Error, Result, VERSION};

/// The whole table, with where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Checked {
    /// When it began, UTC, year-month-day and time.
    pub at: String,
    /// How long it took, s.
    pub took_s: f64,
    /// What the fresh cases were drawn from.
    pub seed: u64,
    /// Where it ran.
    pub machine: Machine,
    /// Whether it was stopped before every check was made.
    pub partial: bool,
    /// Every check, group by group.
    pub lines: Vec<Line>,
}

/// A machine, and the program on it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Machine {
    /// Operating system.
    pub os: String,
    /// Processor's kind.
    pub arch: String,
    /// Threads that run side by side.
    pub threads: usize,
    /// Trials that fly side by side in one register.
    pub lanes: usize,
    /// Version of the program.
    pub version: String,
}

impl Machine {
    /// This one.
    pub fn this() -> Self {
        Self {
            os: std::env::consts::OS.into(),
            arch: std::env::consts::ARCH.into(),
            threads: available_parallelism().map_or(1, usize::from),
            lanes: widest(Width),
            version: VERSION.into(),
        }
    }
}

/// How many numbers stand side by side at the widest.
struct Width;

impl LaneWork for Width {
    type Output = usize;

    #[inline(always)]
    fn run<L: Lane>(self) -> usize {
        L::WIDTH
    }
}

impl Checked {
    /// The lines that did not hold.
    pub fn missed(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(|line| !line.held())
    }

    /// Whether every check was made, and held.
    pub fn holds(&self) -> bool {
        !self.partial && self.missed().next().is_none()
    }

    /// Reads a run that was kept as JSON.
    ///
    /// # Errors
    ///
    /// Where the file can't be read, or is not such a run.
    pub fn read(path: &Path) -> Result<Self> {
        let text = std::fs::read_to_string(path).map_err(|source| Error::Read { path: path.into(), source })?;
        serde_json::from_str(&text).map_err(|why| {
            let shown = path.display();
            Error::Asked(format!("{shown} is not what `peewit verify --out {shown}` writes: {why}"))
        })
    }
}

/// A seed from the clock, short enough to be typed again.
pub fn fresh_seed() -> u64 {
    #[allow(clippy::disallowed_methods, reason = "fresh cases are what it is for; the seed is told")]
    let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
    u64::from(since.subsec_nanos()) ^ (since.as_secs() & 0xFFFF_FFFF)
}

/// Now, UTC, such as "2026-04-18 09:41:07".
pub(super) fn moment() -> String {
    #[allow(clippy::disallowed_methods, reason = "a run of the checks says when it was made")]
    let now = OffsetDateTime::from(SystemTime::now());
    let (hour, minute, second) = now.to_hms();
    format!("{} {hour:02}:{minute:02}:{second:02}", now.date())
}
