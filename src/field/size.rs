//! Whether a boundary is of the size of a field, and if not, whether its corners are in another unit than metres.

use geo::{Area as _, BoundingRect as _, Polygon};

use super::{Datum, Metres};
use crate::error::Fault;
use crate::geometry::TangentPlane;

/// A boundary of less land than this is none, m^2.
const LEAST_AREA: f64 = 100.0;
/// A field wider than this is worth a look, metres.
const FURTHEST_ACROSS: f64 = 5000.0;

/// A field of so many metres would be so many kilometres across if its corners were in kilometres.
const KILOMETRES_ACROSS: std::ops::RangeInclusive<f64> = 0.05..=5.0;
/// Corners in degrees lie no further apart than this, and no further from the datum's own.
const DEGREES: f64 = 0.2;

/// A ring whose corners are not metres: degrees near those of the datum, or kilometres. None where they may be metres.
pub(super) fn other_unit(ring: &[Metres], datum: Datum, place: &str) -> Option<Fault> {
    let &first = ring.first()?;
    let ends =
        |axis: usize| ring.iter().fold([first[axis]; 2], |[low, high], at| [low.min(at[axis]), high.max(at[axis])]);
    let [[west, east], [south, north]] = [ends(0), ends(1)];
    let across = (east - west).max(north - south);
    let near = |[longitude, latitude]: Metres| {
        (longitude - datum.longitude_deg).abs() <= DEGREES && (latitude - datum.latitude_deg).abs() <= DEGREES
    };
    let [x, y] = first;
    let about_zero = west <= 0.0 && east >= 0.0 && south <= 0.0 && north >= 0.0;
    if across <= DEGREES && !about_zero && (near([x, y]) || near([y, x])) {
        let [longitude, latitude] = if near([x, y]) { [x, y] } else { [y, x] };
        let at = TangentPlane::new(datum.latitude_deg, datum.longitude_deg).to_metres(latitude, longitude);
        let problem = format!("({x}, {y}) is a longitude and a latitude, where metres are wanted");
        let way_out = format!(
            "Write metres east and north of the datum: that corner is ({:.0}, {:.0}). Or put the field into a GeoJSON file, \
             which has degrees, and name it with \"field_file\"",
            at.x + 0.0,
            at.y + 0.0
        );
        return Some(Fault::error(place, problem, way_out));
    }
    if KILOMETRES_ACROSS.contains(&across) {
        let problem = format!("the boundary is {across:.2} m across: its corners look like kilometres");
        return Some(Fault::error(place, problem, "Write metres: a corner 0.6 km east of the datum is 600"));
    }
    None
}

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
    use super::*;
    use crate::error::Severity;
    use crate::field::tight_strip;

    #[track_caller]
    fn says(half: f64, expected: Option<(Severity, &str)>) {
        let mut file = tight_strip();
        let flight_line = Some([[-1.0, 0.5], [1.0, 0.5]]);
        (file.areas, file.obstacles, file.flight_line_m, file.runway) = (vec![], vec![], flight_line, None);
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
    fn degrees_are_told_from_metres() {
        let datum = Datum { latitude_deg: 44.0, longitude_deg: -30.0 };
        let ring = |[x, y]: [f64; 2]| [[x, y], [x + 0.006, y], [x + 0.006, y + 0.004], [x, y + 0.004]];
        for (at, says) in [
            // A degree of longitude at 44 N is 80.2 km, one of latitude 111.1 km (WGS84).
            ([-30.003, 43.999], Some("that corner is (-241, -111)")),
            ([43.999, -30.003], Some("that corner is (-241, -111)")),
            ([12.0, 51.0], None),
        ] {
            let fault = other_unit(&ring(at), datum, "/boundary/ring_m");
            assert_eq!(fault.is_some(), says.is_some(), "{fault:?}");
            assert!(says.is_none_or(|says| fault.is_some_and(|fault| fault.way_out.contains(says))), "{says:?}");
        }
        let metres = [[-30.0, 44.0], [30.0, 44.0], [30.0, 80.0]];
        assert_eq!(other_unit(&metres, datum, ""), None);
    }

    #[test]
    fn a_field_is_neither_a_garden_nor_a_county() {
        says(0.02, Some((Severity::Error, "encloses 0.0 m2")));
        says(0.03, Some((Severity::Error, "0.06 m across: its corners look like kilometres")));
        says(0.3, Some((Severity::Error, "0.60 m across: its corners look like kilometres")));
        says(4.0, Some((Severity::Error, "encloses 64.0 m2")));
        says(6.0, None);
        says(250.0, None);
        says(2500.0, None);
        says(2600.0, Some((Severity::Warning, "5.2 km across")));
    }
}
