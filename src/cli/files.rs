//! `peewit new` and `peewit schema`: a scenario to start from, and what a scenario may hold.

use std::path::Path;

use super::{Outcome, print, say};
use crate::report::WholeFile;
use crate::run::Scenario;
use crate::{Error, Result};

pub(super) fn new(path: &Path, force: bool) -> Result<Outcome> {
    if path.extension().is_none_or(|ending| !ending.eq_ignore_ascii_case("json")) {
        let name = path.with_extension("json");
        return Err(Error::Asked(format!("a scenario is a JSON file: call it {}", name.display())));
    }
    if path.exists() && !force {
        let told = format!("{} is there already: choose another name, or replace it with --force", path.display());
        return Err(Error::Asked(told));
    }
    WholeFile::open(path)?.write(&Scenario::demo().to_text())?;
    say(&format!(
        "wrote {}: an invented field. Put in your own field, jet, wind and limits, then run: peewit check {0}",
        path.display()
    ));
    Ok(Outcome::Done)
}

pub(super) fn schema() -> Result<Outcome> {
    print(&format!("{:#}\n", crate::run::schema()))?;
    Ok(Outcome::Done)
}
