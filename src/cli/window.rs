//! `peewit [FILE]`: the window, or the radius study in words where there can be none.

use std::path::PathBuf;

use super::{Outcome, say, studies};
use crate::error::Faults;
use crate::run::{Reading, Scenario, read};
use crate::{Error, Result};

pub(super) fn open(path: Option<PathBuf>) -> Result<Outcome> {
    let reading = match &path {
        Some(path) => read(path)?,
        None => {
            let demo = Scenario::demo();
            Reading { file: Some(demo.file.clone()), scenario: Some(demo), faults: Vec::new() }
        }
    };
    let why = match show(reading.clone(), path.clone()) {
        Ok(()) => return Ok(Outcome::Done),
        Err(crash @ Error::Crash(_)) => return Err(crash),
        Err(why) => why,
    };
    say(&format!("No window: {why}."));
    let Reading { scenario, faults, .. } = reading;
    let Some(scenario) = scenario else {
        return Err(Error::Input(Faults { file: path.unwrap_or_default(), faults }));
    };
    let name = path.map_or("the built-in scenario".into(), |path| path.display().to_string());
    say(&format!("Here is the radius study of {name} in words instead."));
    studies::plain_radius(scenario, faults)
}

/// Shows the scenario, or its faults where it can't be used, until the window is closed.
#[cfg(feature = "app")]
fn show(reading: Reading, path: Option<PathBuf>) -> Result<()> {
    crate::app::open(reading, path)
}

#[cfg(not(feature = "app"))]
fn show(_: Reading, _: Option<PathBuf>) -> Result<()> {
    Err(Error::Asked("this program was built without one (the feature \"app\" is off)".into()))
}
