//! What every command that flies has on its desk: the scenario with what was typed instead, and the files for its answer,
//! found and opened before the work.

use std::fs::File;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};

use super::common::{Change, Output, asked_for};
use super::{print, say};
use crate::error::{Fault, Faults};
use crate::recovery::Turn;
use crate::report::Format;
use crate::run::{Scenario, WholeFile, sources, today};
use crate::units::Ratio;
use crate::{Error, Result};

/// Most bytes that are looked at to tell who wrote a file: more than any report has.
const MOST_LOOKED_AT: u64 = 256 << 20;

/// The desk.
pub(super) struct Desk {
    pub(super) scenario: Scenario,
    pub(super) warnings: Vec<Fault>,
    pub(super) changes: Vec<String>,
    pub(super) strict: bool,
    screen: Format,
    files: Vec<(Format, WholeFile)>,
}

impl Desk {
    /// For a scenario in a file; the answer can be written in the formats that fit.
    pub(super) fn lay(file: &Path, change: &Change, output: &Output, fitting: &[Format]) -> Result<Self> {
        Self::lay_on((&today(), &[]), file, change, output, fitting)
    }

    /// The same for a day, written year-month-day, beside other files that are read.
    pub(super) fn lay_on(
        (on, others): (&str, &[PathBuf]),
        file: &Path,
        change: &Change,
        output: &Output,
        fitting: &[Format],
    ) -> Result<Self> {
        let (scenario, mut warnings) = Scenario::load(file)?;
        warnings.extend(scenario.file.expiry(on));
        let (scenario, changes) = changed(scenario, change)?;
        Ok(Self {
            scenario,
            warnings,
            changes,
            strict: output.strict,
            screen: if output.json { Format::Json } else { Format::Text },
            files: open(&output.out, output.force, &read_from(file, others), fitting)?,
        })
    }

    /// For a scenario as its file has it, beside other files that were read.
    pub(super) fn lay_beside(file: &Path, others: &[PathBuf], output: &Output, fitting: &[Format]) -> Result<Self> {
        let (scenario, warnings) = Scenario::load(file)?;
        let files = open(&output.out, output.force, &read_from(file, others), fitting)?;
        let screen = if output.json { Format::Json } else { Format::Text };
        Ok(Self { scenario, warnings, changes: Vec::new(), strict: output.strict, screen, files })
    }

    /// For a scenario as it stands, answered on the screen alone.
    pub(super) fn plain(scenario: Scenario, warnings: Vec<Fault>) -> Self {
        let (changes, files) = (Vec::new(), Vec::new());
        Self { scenario, warnings, changes, strict: false, screen: Format::Text, files }
    }

    /// Whether a file of its own is written to by the answer as well.
    pub(super) fn writes_elsewhere_than(&self, path: &Path) -> Result<()> {
        once(path, self.files.iter().map(|(_, file)| file))
    }

    /// Says what is odd about the scenario.
    pub(super) fn warn(&self) {
        let name = &self.scenario.file.name;
        let (notes, others) = asked_for(&self.warnings);
        others.iter().for_each(|warning| say(&format!("{name}: {warning}")));
        if !notes.is_empty() {
            say(&format!(
                "{name}: {} notes ask for what is still to be filled in: `peewit check` lists them",
                notes.len()
            ));
        }
    }

    /// The answer in every format asked for: for the screen, and for each file.
    ///
    /// Everything is put into words before the first file is put in place, so that a failure leaves none behind.
    pub(super) fn render(&self, render: impl Fn(Format) -> Result<Vec<u8>>) -> Result<Rendered> {
        let files = self.files.iter().map(|(format, _)| render(*format)).collect::<Result<_>>()?;
        Ok(Rendered { screen: render(self.screen)?, files })
    }

    /// Writes the files and prints the answer.
    pub(super) fn put_out(self, rendered: &Rendered) -> Result<()> {
        for ((_, file), bytes) in self.files.into_iter().zip(&rendered.files) {
            let name = file.path().display().to_string();
            file.write(bytes)?;
            say(&format!("wrote {name}"));
        }
        print(&rendered.screen)
    }
}

/// An answer ready to be put out.
pub(super) struct Rendered {
    screen: Vec<u8>,
    files: Vec<Vec<u8>>,
}

/// The scenario with what was typed instead of what its file says, and those changes in words.
fn changed(scenario: Scenario, change: &Change) -> Result<(Scenario, Vec<String>)> {
    let mut file = scenario.file.clone();
    let plan = &mut file.recovery;
    let mut changes = Vec::new();
    if let Some(radius) = change.radius {
        changes.push(format!("radius {radius} instead of {}", plan.radius));
        plan.radius = radius;
    }
    if let Some(height) = change.height {
        changes.push(format!("height {height} instead of {}", plan.height));
        plan.height = height;
    }
    if let Some(turn) = change.turn {
        let name = if turn == Turn::Clockwise { "clockwise" } else { "anticlockwise" };
        changes.push(format!("turning {name}"));
        plan.turn = turn;
    }
    if let (Some(centre), Some(field)) = (change.centre, file.field.as_mut()) {
        let was = scenario.field.centre;
        changes.push(format!(
            "centre at ({}, {}) m instead of ({}, {}) m",
            centre.x + 0.0,
            centre.y + 0.0,
            was.x + 0.0,
            was.y + 0.0
        ));
        field.centre_m = Some(centre.into());
    }
    let limits = &mut file.limits;
    for (asked, share, what) in [
        (change.crossed_at_most, &mut limits.crossed_at_most, "may cross a limit"),
        (change.kept_at_least, &mut limits.kept_at_least, "have to keep every buffer"),
    ] {
        if let Some(asked) = asked.map(Ratio::new) {
            changes.push(format!("{asked} of the trials {what} instead of {share}"));
            *share = asked;
        }
    }
    if let Some(seed) = change.seed {
        changes.push(format!("seed {seed} instead of {}", file.seed));
        file.seed = seed;
    }
    if changes.is_empty() {
        return Ok((scenario, changes));
    }
    let refused = |faults| Error::Input(Faults { file: "what was typed".into(), faults });
    Ok((Scenario::from_file(file).map_err(refused)?, changes))
}

/// Every file that is read, so that none of them is written over.
fn read_from(file: &Path, others: &[PathBuf]) -> Vec<PathBuf> {
    sources(file).into_iter().chain(others.iter().cloned()).collect()
}

/// Opens every file that is to be written, before any work.
pub(super) fn open(
    paths: &[PathBuf],
    force: bool,
    read: &[PathBuf],
    fitting: &[Format],
) -> Result<Vec<(Format, WholeFile)>> {
    let mut files: Vec<(Format, WholeFile)> = Vec::new();
    for path in paths {
        let format = Format::of(path, fitting)?;
        let file = open_one(path, read, format, force)?;
        once(file.path(), files.iter().map(|(_, other)| other))?;
        files.push((format, file));
    }
    Ok(files)
}

/// Opens a file that is to be written. Neither what was read is written over nor, unless that is asked for, what this
/// program has not written itself.
pub(super) fn open_one(path: &Path, read: &[PathBuf], format: Format, force: bool) -> Result<WholeFile> {
    let file = WholeFile::open_beside(path, read)?;
    let found = || -> io::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        File::open(file.path())?.take(MOST_LOOKED_AT).read_to_end(&mut bytes)?;
        Ok(bytes)
    };
    // What can't be read may be anything.
    let strange = || file.path().exists() && !found().is_ok_and(|found| format.is_ours(&found));
    if !force && strange() {
        let (shown, ending) = (path.display(), format.ending());
        return Err(Error::Asked(format!(
            "{shown} is there already, and is no .{ending} that Peewit wrote: choose another name, or replace it with --force"
        )));
    }
    Ok(file)
}

/// Refuses a file that others of a command are written to as well.
pub(super) fn once<'a>(path: &Path, mut others: impl Iterator<Item = &'a WholeFile>) -> Result<()> {
    if others.any(|other| other.path() == path) {
        return Err(Error::Asked(format!("{} is named twice: give each its own file", path.display())));
    }
    Ok(())
}
