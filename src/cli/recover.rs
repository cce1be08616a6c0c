//! `peewit recover`: one recovery, flown and judged.

use std::path::{Path, PathBuf};

use super::args::RecoverArgs;
use super::{Outcome, print, say};
use crate::error::{Fault, Faults};
use crate::ledger::{Verdict, judge};
use crate::recovery::Turn;
use crate::report::{Format, Recovery, WholeFile};
use crate::run::{Scenario, WindChoice, fly};
use crate::{Error, Result};

/// What is to be done: the words typed, checked, with every file it takes already found and opened.
struct Job {
    scenario: Scenario,
    warnings: Vec<Fault>,
    changes: Vec<String>,
    case: u64,
    wind: WindChoice,
    screen: Format,
    files: Vec<(Format, WholeFile)>,
    strict: bool,
}

pub(super) fn recover(args: &RecoverArgs) -> Result<Outcome> {
    let (scenario, warnings) = Scenario::load(&args.file)?;
    let (scenario, changes) = changed(scenario, args)?;
    Job {
        scenario,
        warnings,
        changes,
        case: args.case,
        wind: if args.gust { WindChoice::Gust } else { WindChoice::Mean },
        screen: if args.json { Format::Json } else { Format::Text },
        files: open(&args.out, &args.file)?,
        strict: args.strict,
    }
    .carry_out()
}

/// The recovery of a scenario as it stands, on the screen.
pub(super) fn plain(scenario: Scenario, warnings: Vec<Fault>) -> Result<Outcome> {
    let wind = WindChoice::Mean;
    let (changes, files) = (Vec::new(), Vec::new());
    Job { scenario, warnings, changes, case: 0, wind, screen: Format::Text, files, strict: false }.carry_out()
}

impl Job {
    fn carry_out(self) -> Result<Outcome> {
        for warning in &self.warnings {
            say(&format!("{}: {warning}", self.scenario.file.name));
        }
        let run = fly(&self.scenario, self.case, self.wind);
        let ledger = judge(&self.scenario, &run);
        let recovery = Recovery {
            scenario: &self.scenario,
            run: &run,
            wind: self.wind,
            ledger: &ledger,
            warnings: &self.warnings,
            changes: &self.changes,
        };
        // Everything is put into words before the first file is put in place, so that a failure leaves none behind.
        let answer = recovery.render(self.screen)?;
        let texts = self.files.iter().map(|(format, _)| recovery.render(*format)).collect::<Result<Vec<_>>>()?;
        for ((_, file), text) in self.files.into_iter().zip(texts) {
            let name = file.path().display().to_string();
            file.write(&text)?;
            say(&format!("wrote {name}"));
        }
        print(&answer)?;
        let breached = recovery.verdict() == Verdict::Breached;
        Ok(if self.strict && breached { Outcome::Breached } else { Outcome::Done })
    }
}

/// The scenario with what was typed instead of what its file says, and those changes in words.
fn changed(scenario: Scenario, args: &RecoverArgs) -> Result<(Scenario, Vec<String>)> {
    let mut file = scenario.file.clone();
    let plan = &mut file.recovery;
    let mut changes = Vec::new();
    if let Some(radius) = args.radius {
        changes.push(format!("radius {radius} instead of {}", plan.radius));
        plan.radius = radius;
    }
    if let Some(height) = args.height {
        changes.push(format!("height {height} instead of {}", plan.height));
        plan.height = height;
    }
    if let Some(turn) = args.turn {
        let name = if turn == Turn::Clockwise { "clockwise" } else { "anticlockwise" };
        changes.push(format!("turning {name}"));
        plan.turn = turn;
    }
    if let (Some(hub), Some(field)) = (args.hub, file.field.as_mut()) {
        let was = scenario.field.hub;
        changes.push(format!("hub at ({}, {}) m instead of ({}, {}) m", hub.x, hub.y, was.x, was.y));
        field.hub_m = Some(hub.into());
    }
    if let Some(seed) = args.seed {
        changes.push(format!("seed {seed} instead of {}", file.seed));
        file.seed = seed;
    }
    if changes.is_empty() {
        return Ok((scenario, changes));
    }
    let refused = |faults| Error::Input(Faults { file: "what was typed".into(), faults });
    Ok((Scenario::from_file(file).map_err(refused)?, changes))
}

/// Opens every file that is to be written, before any work.
fn open(paths: &[PathBuf], scenario: &Path) -> Result<Vec<(Format, WholeFile)>> {
    let scenario = scenario.canonicalize().unwrap_or_else(|_| scenario.into());
    let mut files: Vec<(Format, WholeFile)> = Vec::new();
    for path in paths {
        let format = Format::of(path)?;
        let file = WholeFile::open(path)?;
        if file.path() == scenario {
            let told = format!("{} is the scenario itself: write the report somewhere else", path.display());
            return Err(Error::Asked(told));
        }
        if files.iter().any(|(_, other)| other.path() == file.path()) {
            return Err(Error::Asked(format!("{} is named twice: give each --out a file of its own", path.display())));
        }
        files.push((format, file));
    }
    Ok(files)
}
