//! `peewit new` and `peewit schema`: a scenario to start from, and what a scenario may hold.

use std::path::Path;

use super::{Outcome, print, say};
use crate::error::Faults;
use crate::field::Datum;
use crate::jet::JetSheet;
use crate::run::{Scenario, WholeFile, schema as shape, template_for, today};
use crate::{Error, Result};

pub(super) fn new(path: &Path, jet: &JetSheet, force: bool) -> Result<Outcome> {
    if path.extension().is_none_or(|ending| !ending.eq_ignore_ascii_case("json")) {
        let name = path.with_extension("json");
        return Err(Error::Asked(format!("a scenario is a JSON file: call it {}", name.display())));
    }
    if path.exists() && !force {
        let told = format!("{} is there already: choose another name, or replace it with --force", path.display());
        return Err(Error::Asked(told));
    }
    WholeFile::open(path)?.write(start(path, jet)?.as_bytes())?;
    say(&format!(
        "wrote {}: a plain field and a jet not measured yet. Fill in what its notes ask for, then run: peewit check {0}",
        path.display()
    ));
    Ok(Outcome::Done)
}

/// A scenario named after its file, on today's date, at a datum in mid-ocean that nobody can take for their field.
fn start(path: &Path, jet: &JetSheet) -> Result<String> {
    let name = path.file_stem().unwrap_or_default().to_string_lossy().replace(['-', '_'], " ");
    let datum = Datum { latitude_deg: 44.0, longitude_deg: -30.0 };
    let refused = |faults| Error::Input(Faults { file: path.into(), faults });
    Ok(Scenario::from_file(template_for(&name, &today(), datum, jet.clone())).map_err(refused)?.to_text())
}

pub(super) fn schema() -> Result<Outcome> {
    print(format!("{:#}\n", shape()))?;
    Ok(Outcome::Done)
}
