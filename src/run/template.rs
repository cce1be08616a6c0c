//! What a new scenario starts from: a plain square field, and the demo's jet with every number marked as nobody's.

use std::time::SystemTime;

use serde_json::Value;
use time::OffsetDateTime;

use super::{Scenario, ScenarioFile};
use crate::field::{CircuitFile, Datum, FieldFile, OutlineFile};
use crate::jet::JetNumbers;
use crate::units::Speed;
use crate::wind::isa_density;

/// Half the side of the square field, metres.
const HALF: f64 = 250.0;

/// A whole scenario for a person to edit: name, date (year-month-day) and datum as given, the rest to be replaced.
pub fn template(name: &str, date: &str, datum: Datum) -> ScenarioFile {
    let demo = Scenario::demo().file;
    let square = vec![[-HALF, -HALF], [HALF, -HALF], [HALF, HALF], [-HALF, HALF]];
    let mut file = ScenarioFile {
        name: name.into(),
        notes: vec!["Replace field, jet, wind and limits by your own.".into()],
        date: date.into(),
        field: Some(FieldFile {
            datum,
            outline: OutlineFile { ring_m: square, holes_m: vec![] },
            patches: vec![],
            obstacles: vec![],
            flight_line_m: None,
            runway: None,
            stand_m: [0.0, -15.0],
            home_m: [0.0, 0.0],
            hub_m: None,
            circuit: Some(CircuitFile::along([[-60.0, 0.0], [60.0, 0.0]], [0.0, -15.0], circuit_speeds(&demo))),
            ground: vec![],
        }),
        ..demo
    };
    file.recovery.authorised_by = String::new();
    // Nobody has measured the reader's jet yet.
    let mut jet = serde_json::to_value(&file.jet).unwrap_or_default();
    for entry in jet.as_object_mut().into_iter().flat_map(|jet| jet.values_mut()) {
        if let Some(origin) = entry.get_mut("origin") {
            *origin = Value::from("default");
        }
    }
    if let Ok(jet) = serde_json::from_value(jet) {
        file.jet = jet;
    }
    file
}

/// From the speed held on the way home to the fastest level flight of a jet.
fn circuit_speeds(file: &ScenarioFile) -> [Speed; 2] {
    let jet = JetNumbers::new(&file.jet, isa_density(0.0));
    // To a whole metre a second, as people write, and never the wrong way round.
    let slowest = file.jet.return_speed.value;
    [slowest, Speed::new(jet.top_speed().floor().max(slowest.mps()))]
}

/// Today in UTC, year-month-day.
pub fn today() -> String {
    #[allow(clippy::disallowed_methods, reason = "a new scenario starts on the day it is made")]
    let now = SystemTime::now();
    OffsetDateTime::from(now).date().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::error::Severity;
    use crate::jet::Origin;

    #[test]
    fn a_new_scenario_runs_and_owns_up() {
        let file = template("Our strip", "2026-05-01", Datum { latitude_deg: 44.0, longitude_deg: -30.0 });
        assert_eq!(file.jet.mass.origin, Origin::Default);
        let scenario = Scenario::from_file(file).unwrap();
        let warnings = scenario.warnings();
        assert!(warnings.iter().all(|fault| fault.severity == Severity::Warning));
        assert!(warnings.iter().any(|fault| fault.place == "/recovery/authorised_by"), "{warnings:?}");
    }
}
