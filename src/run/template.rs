//! What a new scenario starts from: a plain field, a jet with every number marked as not measured yet, and a list of
//! what only its owner can fill in.

use std::time::SystemTime;

use time::OffsetDateTime;

use super::{AirframeClass, Brief, Loss, Scenario, ScenarioFile};
use crate::field::{AreaFile, BoundaryFile, CircuitFile, Datum, FieldFile, RuleName, RunwayFile, Way};
use crate::jet::{JetNumbers, JetSheet};
use crate::units::{Bearing, Length, Ratio, Speed};
use crate::wind::WindSheet;

/// How a note begins that asks for something; `check` warns as long as it stands in the file.
pub const TO_FILL_IN: &str = "TO FILL IN: ";

/// What only the owner knows.
const ASKED: [&str; 8] = [
    "the field: datum, boundary, runway, flight line with people on the pilot's side of it, what lies about it, and the heights of the ground. Pits, cars, spectators, road and path are areas with the rule `people`: one is drawn. The datum is a place in mid-ocean.",
    "home: where the jet takes its home; and the pilot position, with which way people look from there (`facing`).",
    "the clock: `hours` in the section `brief`, with how far the clock on the field is ahead of UTC.",
    "the jet: its mass from the scales, stall speed, top speed and minutes as flown, and the pack from its label. Every number is a default that nobody has measured, with a spread by judgement.",
    "the wind: as it is read in the raised hand, 2 m above the ground, or at the height where yours is measured.",
    "the loss: a place, a height and a speed at which you really fly.",
    "the circuit: where you really fly, which way round, how high, how fast and with how much charge left. Trials lose the jet on it, and the one in this file is invented.",
    "the limits: your law, association, club and landowner come first; a preset is no more than hearsay.",
];

/// How much faster than it returns a jet is flown on a circuit, at most, where nobody has said: judgement.
const FASTER: f64 = 1.5;

/// A whole scenario for a person to edit, with a sport jet: name, date (year-month-day) and datum as given, the rest to be
/// replaced.
pub fn template(name: &str, date: &str, datum: Datum) -> ScenarioFile {
    let usual = AirframeClass::usual();
    template_for(name, date, datum, usual.sheet(usual.mass()))
}

/// The same with a jet.
///
/// People stand south of the runway behind the flight line and look north over both; the circle lies before them.
pub fn template_for(name: &str, date: &str, datum: Datum, jet: JetSheet) -> ScenarioFile {
    let demo = ScenarioFile { jet, ..Scenario::demo().file };
    let mut file = ScenarioFile {
        name: name.into(),
        notes: ASKED.map(|asked| format!("{TO_FILL_IN}{asked}")).into(),
        date: date.into(),
        field: Some(field(datum, circuit_speeds(&demo))),
        // Hand-held, on a day when people fly.
        wind: WindSheet {
            mean: Speed::new(3.0),
            gust: Some(Speed::new(4.5)),
            from: Bearing::from_deg(270.0),
            measured_at: Length::new(2.0),
            ..demo.wind
        },
        loss: Loss { at_m: [80.0, 135.0], ..demo.loss },
        rules: vec![],
        brief: Brief::default(),
        ..demo
    };
    file.recovery.radius = Length::new(130.0);
    file.recovery.authorised_by.clear();
    file.recovery.authorised_for.clear();
    // Nobody has measured yet how fast the reader is.
    file.recovery.failsafe_delay.origin = crate::jet::Origin::Default;
    file
}

fn field(datum: Datum, speeds: [Speed; 2]) -> FieldFile {
    let (strip, pilot_m) = ([[-80.0, 0.0], [80.0, 0.0]], [0.0, -22.0]);
    FieldFile {
        datum,
        magnetic_declination: None,
        boundary: BoundaryFile {
            ring_m: vec![[-300.0, -60.0], [300.0, -60.0], [300.0, 520.0], [-300.0, 520.0]],
            holes_m: vec![],
        },
        areas: vec![AreaFile {
            name: "pits, cars and spectators".into(),
            rule: RuleName::People,
            height: None,
            months: vec![],
            otherwise: None,
            ring_m: vec![[-40.0, -50.0], [40.0, -50.0], [40.0, -30.0], [-40.0, -30.0]],
            holes_m: vec![],
        }],
        obstacles: vec![],
        flight_line_m: Some([[-300.0, -12.0], [300.0, -12.0]]),
        runway: Some(RunwayFile { from_m: strip[0], to_m: strip[1], width: Length::new(12.0) }),
        pilot_m,
        facing: Some(Bearing::default()),
        home_m: [0.0, 0.0],
        centre_m: Some([0.0, 240.0]),
        circuit: Some(CircuitFile {
            // Judgement: flown one way round, the circle's, and landed with a pack more than half full, the plan to
            // start from holds; other ways are for its owner to try.
            way: Way::Drawn,
            charge_low: Ratio::new(0.55),
            ..CircuitFile::along(strip, pilot_m, speeds)
        }),
        ground: vec![],
    }
}

/// What the airspeeds on a circuit that nobody has flown yet are taken for: from the speed held on the way home to half as
/// much again, or the fastest level flight of a jet that can't fly that fast.
pub fn circuit_speeds(file: &ScenarioFile) -> [Speed; 2] {
    let jet = JetNumbers::new(&file.jet, file.air.density());
    // To a whole metre a second, as people write, and never the wrong way round, nor nonsense from a sheet that is.
    let slowest = file.jet.return_speed.value;
    let fastest = (FASTER * slowest.mps()).round().min(jet.top_speed().floor());
    [slowest, Speed::new(fastest.max(slowest.mps()))]
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

    fn new() -> Scenario {
        let file = template("Our strip", "2026-05-01", Datum { latitude_deg: 44.0, longitude_deg: -30.0 });
        Scenario::from_file(file).unwrap()
    }

    #[test]
    fn a_new_scenario_runs_and_owns_up() {
        let warnings = new().warnings();
        assert!(warnings.iter().all(|fault| fault.severity == Severity::Warning));
        assert!(warnings.iter().any(|fault| fault.place == "/recovery/authorised_by"), "{warnings:?}");
        for (asked, what) in ["datum", "home", "clock", "jet", "wind", "loss", "circuit", "limits"].iter().enumerate() {
            let told = warnings.iter().find(|fault| fault.place == format!("/notes/{asked}")).unwrap();
            assert!(told.problem.contains(what), "{told}");
        }
    }

    #[test]
    fn a_new_scenario_says_nothing_that_is_somebody_elses() {
        let Scenario { file, .. } = new();
        assert!(file.brief.is_empty() && file.rules.is_empty());
        assert_eq!((&*file.recovery.authorised_by, &*file.recovery.authorised_for), ("", ""));
        let text = file.to_text();
        for (origin, times) in [("measured", 0), ("estimated", 0)] {
            assert_eq!(text.matches(&format!("\"origin\": \"{origin}\"")).count(), times, "{origin}");
        }
        assert!(file.jet.taken_as_exact().is_empty());
        assert_eq!(file.wind.measured_at.m(), 2.0);
    }

    #[test]
    fn people_look_over_the_flight_line_and_the_runway_at_the_circle() {
        let Scenario { field, file } = new();
        let (ahead, line) = (field.facing.unit(), field.flight_line.unwrap());
        let strip = field.runway.unwrap();
        assert!(ahead.dot(strip.from - field.pilot) > 0.0 && ahead.dot(field.centre - field.pilot) > 0.0);
        // The whole runway and the whole commanded circle with its buffer lie before the line.
        assert!([strip.from, strip.to].iter().all(|&end| line.signed_distance(end) > strip.width_m / 2.0));
        let room = file.recovery.radius.m() + file.limits.buffer.m();
        assert!(line.signed_distance(field.centre) > room && field.boundary.signed_distance(field.centre) > room);
        assert!(line.signed_distance(file.loss.at_m.into()) > 0.0);
    }
}
