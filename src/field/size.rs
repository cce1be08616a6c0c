//! Whether a boundary is of the size of a field.

use geo::{Area as _, BoundingRect as _, Polygon};

use crate::error::Fault;

/// A boundary of less land than this is none, m^2.
const LEAST_AREA: f64 = 100.0;
/// A field wider than this is worth a look, metres.
const FURTHEST_ACROSS: f64 = 5000.0;

/// A boundary that is too small or too large to be a field.
pub(super) fn check(boundary: &Polygon, place: &str, faults: &mut Vec<Fault>) {
    let area = boundary.unsigned_area();
    if area < LEAST_AREA {
        let problem = format!("the boundary encloses {area:.1} m2");
        faults.push(Fault::error(place, problem, "Check that its corners are metres about the datum, not degrees"));
    }
    let across = boundary.bounding_rect().map_or(0.0, |room| room.width().max(room.height()));
    if across > FURTHEST_ACROSS {
        let problem = format!("the field is {:.1} km across", across / 1000.0);
        faults.push(Fault::warning(place, problem, "Check the units of its corners; nobody sees a jet that far off"));
    }
}

#[cfg(test)]
mod tests {
    use crate::error::Severity;
    use crate::field::tight_strip;

    #[track_caller]
    fn says(half: f64, expected: Option<(Severity, &str)>) {
        let mut file = tight_strip();
        (file.areas, file.obstacles, file.flight_line_m, file.runway) = (vec![], vec![], None, None);
        (file.pilot_m, file.home_m, file.centre_m) = ([0.0, 1.0], [0.0, 0.0], None);
        file.boundary.ring_m = vec![[-half, -half], [half, -half], [half, half], [-half, half]];
        // Who stands about it is another question.
        let mut faults = crate::field::check::check(&file, "");
        faults.retain(|fault| fault.place != "/pilot_m");
        match expected {
            None => assert_eq!(faults, []),
            Some((severity, said)) => {
                assert_eq!(faults.len(), 1, "{faults:?}");
                assert!(faults[0].severity == severity && faults[0].problem.contains(said), "{faults:?}");
            }
        }
    }

    #[test]
    fn a_field_is_neither_a_garden_nor_a_county() {
        // Degrees taken for metres: a square of 0.004 by 0.004 is narrower than anything.
        says(0.03, Some((Severity::Error, "encloses 0.0 m2")));
        says(4.0, Some((Severity::Error, "encloses 64.0 m2")));
        says(6.0, None);
        says(250.0, None);
        says(2500.0, None);
        says(2600.0, Some((Severity::Warning, "5.2 km across")));
    }
}
