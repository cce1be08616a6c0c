//! `peewit debrief`: logs of flown recoveries against the plan, and the plan corrected by them where that is asked for.

use std::path::{Path, PathBuf};

use super::args::DebriefArgs;
use super::desk::Desk;
use super::{Outcome, say};
use crate::debrief::{Debriefed, corrected};
use crate::error::Faults;
use crate::log::{Columns, bytes, listed};
use crate::report::debrief::{DebriefReport, LogDebrief, together};
use crate::run::{Scenario, WholeFile, sources};
use crate::study::work::Work;
use crate::{Error, Result};

pub(super) fn debrief(args: &DebriefArgs) -> Result<Outcome> {
    let paths = listed(&args.logs)?;
    let mut others = paths.clone();
    others.extend(args.columns.clone());
    let desk = Desk::lay_beside(&args.file, &others, &args.output, DebriefReport::FORMATS)?;
    desk.warn();
    let read_from: Vec<PathBuf> = sources(&args.file).into_iter().chain(others).collect();
    let correct = args.correct.as_deref().map(|path| open(path, &read_from, args.output.force)).transpose()?;
    correct.iter().try_for_each(|file| desk.writes_elsewhere_than(file.path()))?;
    let columns = args.columns.as_deref().map(columns).transpose()?;
    let work = Work::default();
    let mut logs = Vec::new();
    let mut refused = false;
    for path in &paths {
        let read =
            bytes(path).and_then(|bytes| LogDebrief::read(path, &bytes, &desk.scenario, columns.as_ref(), &work));
        match read {
            Ok(log) => logs.push(log),
            // A folder may hold other things than logs.
            Err(error) if !args.logs.contains(path) => say(&format!("left out: {error}")),
            Err(error) => {
                refused = true;
                say(&error.to_string());
            }
        }
    }
    if refused || logs.is_empty() {
        return Ok(Outcome::BadInput);
    }
    let report = DebriefReport { scenario: &desk.scenario, logs: &logs, places: !args.no_places };
    let rendered = desk.render(|format| report.render(format))?;
    let left = |one: &Debriefed| one.predicted.as_ref().and_then(|predicted| predicted.holds) == Some(false);
    let recoveries = || logs.iter().flat_map(|log| &log.recoveries);
    let no = desk.strict && (recoveries().next().is_none() || recoveries().any(left));
    if let Some(file) = correct {
        write_corrected(&desk.scenario, &logs, file)?;
    }
    desk.put_out(&rendered)?;
    Ok(if no { Outcome::No } else { Outcome::Done })
}

/// Opens the file of the plan as corrected: another scenario is not written over unless that is asked for.
fn open(path: &Path, read: &[PathBuf], force: bool) -> Result<WholeFile> {
    let file = WholeFile::open_beside(path, read)?;
    if file.path().exists() && !force {
        let told = format!("{} is there already: choose another name, or replace it with --force", path.display());
        return Err(Error::Asked(told));
    }
    Ok(file)
}

fn columns(path: &Path) -> Result<Columns> {
    let text = std::fs::read_to_string(path).map_err(|source| Error::Read { path: path.into(), source })?;
    serde_json::from_str(&text)
        .map_err(|why| Error::Asked(format!("{}: the columns can't be read: {why}", path.display())))
}

fn write_corrected(scenario: &Scenario, logs: &[LogDebrief], file: WholeFile) -> Result<()> {
    let plan = corrected(&scenario.file, &together(&scenario.file, logs));
    let name = file.path().display().to_string();
    let whole =
        Scenario::from_file(plan).map_err(|faults| Error::Input(Faults { file: file.path().into(), faults }))?;
    file.write(whole.to_text().as_bytes())?;
    say(&format!(
        "wrote {name}: the plan with what the logs correct. Compare it before you use it: peewit check {name}"
    ));
    Ok(())
}
