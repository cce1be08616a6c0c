//! What a scenario file says, and everything wrong with it.

use std::path::Path;

use super::{Scenario, ScenarioFile};
use crate::error::{Error, Fault, Faults, Result, Severity, json};
use crate::field::{Field, Month};

/// Largest file read, bytes.
const LARGEST: u64 = 16 << 20;

/// A scenario file, read.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The scenario, where nothing worse than a warning was found.
    pub scenario: Option<Scenario>,
    /// Everything wrong, in the order of the file.
    pub faults: Vec<Fault>,
}

/// Reads a file. Only a file that can't be read at all is an error; what is wrong inside it is in the reading.
pub fn read(path: &Path) -> Result<Reading> {
    let told = |source| Error::Read { path: path.into(), source };
    let length = std::fs::metadata(path).map_err(told)?.len();
    if length > LARGEST {
        let problem = format!("the file is {} MiB large", length >> 20);
        let fault = Fault::error("", problem, "A scenario has a few kilobytes; thin out the corners of the field");
        return Ok(Reading { scenario: None, faults: vec![fault] });
    }
    let bytes = std::fs::read(path).map_err(told)?;
    Ok(read_text(&String::from_utf8_lossy(&bytes), path.parent()))
}

/// Reads the text of a file that stands in `folder`, which is where its `field_file` is looked for.
pub fn read_text(text: &str, _folder: Option<&Path>) -> Reading {
    let refuse = |faults| Reading { scenario: None, faults };
    let value = match json::parse(text) {
        Ok(value) => value,
        Err(faults) => return refuse(faults),
    };
    match serde_json::from_value::<ScenarioFile>(value) {
        Ok(file) => match Scenario::from_file(file) {
            Ok(scenario) => Reading { scenario: Some(scenario), faults: vec![] },
            Err(faults) => refuse(faults),
        },
        Err(error) => refuse(vec![Fault::error("", error.to_string(), "Mend that value")]),
    }
}

impl Scenario {
    /// The scenario of a file, with its warnings.
    pub fn load(path: &Path) -> Result<(Self, Vec<Fault>)> {
        let Reading { scenario, faults } = read(path)?;
        match scenario {
            Some(scenario) => Ok((scenario, faults)),
            None => Err(Error::Input(Faults { file: path.into(), faults })),
        }
    }

    /// The scenario that ships with the program.
    #[allow(clippy::expect_used, reason = "the text is part of the program and read by its tests")]
    pub fn demo() -> Self {
        let text = include_str!("../../scenarios/goatwillow-strip.json");
        read_text(text, None).scenario.expect("the built-in scenario has no fault")
    }

    /// The scenario of a file in memory, such as one that has been edited. Its field must be inline.
    pub fn from_file(file: ScenarioFile) -> Result<Self, Vec<Fault>> {
        let Some(field) = &file.field else { return Err(vec![]) };
        let (field, faults) = Field::build(field, "/field", Month::Apr);
        match field {
            Some(field) if faults.iter().all(|fault| fault.severity < Severity::Error) => Ok(Self { file, field }),
            _ => Err(faults),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_built_in_scenario_reads() {
        let demo = Scenario::demo();
        assert_eq!(demo.field.patches.len(), 2);
        let again = read_text(&demo.to_text(), None).scenario.unwrap();
        assert_eq!(again.file, demo.file);
    }
}
