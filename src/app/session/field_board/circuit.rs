//! Where the jet is flown, while it is drawn: a closed line or an area, beside the runway, how long and how soon round.

use super::extent::{area, length, ring_area};
use crate::app::session::Change;
use crate::field::CircuitFile;
use crate::run::{ScenarioFile, circuit_speeds};
use crate::words::{Measure, Units};
use glam::DVec2;

/// Whether a circuit is an area; one that is written as both is drawn as the line.
pub const fn is_area(flown: &CircuitFile) -> bool {
    flown.line_m.is_empty() && !flown.area_m.is_empty()
}

/// A circuit beside the runway, on the side away from the people, with the numbers of the one it takes the place of. None
/// without a runway.
pub fn beside_runway(file: &ScenarioFile) -> Option<Change> {
    let mut new = file.clone();
    let field = new.field.as_mut()?;
    let strip = field.runway?;
    let line = CircuitFile::along([strip.from_m, strip.to_m], field.pilot_m, circuit_speeds(file));
    field.circuit = Some(match field.circuit.take() {
        Some(known) => CircuitFile { line_m: line.line_m, area_m: vec![], ..known },
        None => line,
    });
    Some(Change { what: "lay a circuit beside the runway".into(), file: new })
}

/// Makes an area of a circuit that is a line, or the other way round, with the same corners.
pub fn shaped(file: &ScenarioFile, as_area: bool) -> Option<Change> {
    let mut new = file.clone();
    let flown = new.field.as_mut()?.circuit.as_mut()?;
    if is_area(flown) == as_area {
        return None;
    }
    std::mem::swap(&mut flown.line_m, &mut flown.area_m);
    let what = if as_area { "make the circuit an area" } else { "make the circuit a line" };
    Some(Change { what: what.into(), file: new })
}

/// How long it is and how soon a jet is round, in still air; of an area how large it is.
pub fn figures(units: &Units, flown: &CircuitFile) -> Vec<String> {
    let corners = |ring: &[[f64; 2]]| ring.iter().copied().map(DVec2::from_array).collect::<Vec<_>>();
    if is_area(flown) {
        return vec![format!("area {}", area(units, ring_area(&corners(&flown.area_m))))];
    }
    let metres = length(&corners(&flown.line_m), true);
    let mut lines = vec![format!("once round {}", units.text(Measure::Distance, metres))];
    let [soonest, latest] = [flown.fastest, flown.slowest].map(|speed| metres / speed.mps());
    if soonest > 0.0 && latest.is_finite() {
        let range = if soonest.round() < latest.round() {
            format!("{soonest:.0} to {latest:.0} s")
        } else {
            format!("{latest:.0} s")
        };
        lines.push(format!("in {range}, in still air"));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;
    use crate::units::Speed;

    fn with_circuit(line_m: Vec<[f64; 2]>) -> ScenarioFile {
        let mut file = Scenario::tight_strip().file;
        let flown = CircuitFile::of_line(line_m, [Speed::new(20.0), Speed::new(40.0)]);
        file.field.as_mut().unwrap().circuit = Some(flown);
        file
    }

    fn flown(file: &ScenarioFile) -> &CircuitFile {
        file.field.as_ref().unwrap().circuit.as_ref().unwrap()
    }

    #[test]
    fn length_and_duration_by_hand() {
        // A right triangle of 300, 400 and 500 m: 1200 m round, 60 s at 20 m/s and 30 s at 40; 60 000 m2.
        let file = with_circuit(vec![[0.0, 0.0], [300.0, 0.0], [300.0, 400.0]]);
        let units = Units::default();
        assert_eq!(figures(&units, flown(&file))[1], "in 30 to 60 s, in still air");
        assert!(figures(&units, flown(&file))[0].starts_with("once round 1200 m"));
        let area = shaped(&file, true).unwrap().file;
        assert!(figures(&units, flown(&area))[0].starts_with("area 6.00 ha"));
        assert_eq!(shaped(&area, false).unwrap().file, file);
        assert!(shaped(&area, true).is_none());
    }

    #[test]
    fn beside_the_runway_it_keeps_its_numbers_and_needs_a_runway() {
        let mut file = with_circuit(vec![[0.0, 0.0], [300.0, 0.0], [300.0, 400.0]]);
        let new = beside_runway(&file).unwrap().file;
        assert_eq!(flown(&new).fastest, Speed::new(40.0));
        assert!(flown(&new).line_m.len() > 4);
        file.field.as_mut().unwrap().runway = None;
        assert!(beside_runway(&file).is_none());
    }
}
