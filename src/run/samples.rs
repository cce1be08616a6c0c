//! The fields that come with the program: invented places, each of which teaches something.

use super::{Scenario, ScenarioFile, read_text};

/// A field that comes with the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SampleField {
    /// Its name.
    pub name: &'static str,
    text: &'static str,
}

macro_rules! sample {
    ($name:literal, $file:literal) => {
        SampleField { name: $name, text: include_str!(concat!("../../scenarios/", $file, ".json")) }
    };
}

/// The demo first, then by the alphabet. A scenario whose field lies in a file beside it is none of them.
static SAMPLES: [SampleField; 9] = [
    sample!("Goatwillow Strip", "goatwillow-strip"),
    sample!("Ashenhurl Clearing", "ashenhurl-clearing"),
    sample!("Brantop Hill", "brantop-hill"),
    sample!("Quillmead Aerodrome", "quillmead-aerodrome"),
    sample!("Sallowmouth Head", "sallowmouth-head"),
    sample!("Tansycroft Common", "tansycroft-common"),
    sample!("Twobarn Field", "twobarn-field"),
    sample!("Whinfarrow Moor", "whinfarrow-moor"),
    sample!("Withersedge Reach", "withersedge-reach"),
];

/// Every field that comes with the program, the demo first.
pub fn samples() -> &'static [SampleField] {
    &SAMPLES
}

impl Scenario {
    /// The scenario that ships with the program.
    pub fn demo() -> Self {
        SAMPLES[0].scenario()
    }
}

impl SampleField {
    /// It, ready to run.
    #[allow(clippy::expect_used, reason = "the text is part of the program and read by its tests")]
    pub fn scenario(&self) -> Scenario {
        read_text(self.text, None).scenario.expect("a built-in scenario has no fault")
    }

    /// What it teaches, in a sentence or two.
    pub fn about(&self) -> String {
        let file = serde_json::from_str::<ScenarioFile>(self.text).ok();
        file.and_then(|file| file.notes.into_iter().next()).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sample_has_no_fault_says_what_it_teaches_and_is_named_as_it_is_called() {
        for sample in samples() {
            assert_eq!(sample.scenario().file.name, sample.name);
            assert!(sample.about().starts_with("An invented"), "{}: {}", sample.name, sample.about());
        }
    }

    #[test]
    fn every_scenario_that_ships_in_one_file_is_a_sample() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
        let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
        let alone = files.filter(|path| path.extension().is_some_and(|ending| ending == "json"));
        let alone = alone.filter(|path| !path.with_extension("geojson").exists());
        assert_eq!(alone.count(), samples().len());
    }
}
