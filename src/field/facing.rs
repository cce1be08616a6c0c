//! Which way people look from the pilot position, from which every hour of the clock is counted.

use glam::DVec2;

use super::corners::point;
use super::{FieldFile, Metres};
use crate::units::Bearing;

/// A line this near to the pilot position has no side that is away from it, metres.
const ON_IT_M: f64 = 0.5;

/// Which way people look from the pilot position, and what that follows from: what the field says, else square across
/// the flight line or the runway, from the pilot position over it. Where the pilot position is on the line, it is the
/// side of the centre.
pub fn facing(file: &FieldFile) -> (Bearing, &'static str) {
    let pilot = point(file.pilot_m);
    let centre = point(file.centre_m.unwrap_or(file.home_m)) - pilot;
    let across = |[from, to]: [Metres; 2]| {
        let (from, along) = (point(from), (point(to) - point(from)).try_normalize()?);
        let square = along.perp();
        let over = square.dot(from - pilot);
        let wanted = if over.abs() > ON_IT_M { over } else { square.dot(centre) };
        Some(Bearing::of(if wanted < 0.0 { -square } else { square }))
    };
    let strip = file.runway.map(|strip| [strip.from_m, strip.to_m]);
    match (file.facing, file.flight_line_m.and_then(across), strip.and_then(across)) {
        (Some(facing), ..) => (facing, "as the field says"),
        (None, Some(facing), _) => (facing, "square across the flight line"),
        (None, None, Some(facing)) => (facing, "square across the runway"),
        (None, None, None) if centre == DVec2::ZERO => (Bearing::default(), "north, for want of anything else"),
        (None, None, None) => (Bearing::of(centre), "towards the centre"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::{Month, RunwayFile, tight_strip};
    use crate::units::Length;

    /// A pilot position 12 m south of a runway from west to east, a circle still further south. By hand: over the
    /// runway is north.
    fn strip(edit: impl FnOnce(&mut FieldFile)) -> (f64, &'static str) {
        let mut file = tight_strip();
        let runway = RunwayFile { from_m: [-85.0, 0.0], to_m: [85.0, 0.0], width: Length::new(12.0) };
        (file.runway, file.flight_line_m, file.facing) = (Some(runway), None, None);
        (file.pilot_m, file.home_m, file.centre_m) = ([0.0, -12.0], [0.0, 0.0], Some([0.0, -80.0]));
        edit(&mut file);
        let field = crate::field::Field::build(&file, "", Month::Apr).0.unwrap();
        (field.facing.deg(), field.facing_from)
    }

    #[test]
    fn people_look_over_the_runway_wherever_the_circle_is() {
        assert_eq!(strip(|_| {}), (0.0, "square across the runway"));
        assert_eq!(strip(|file| file.pilot_m = [0.0, 12.0]).0, 180.0);
        // The ends may be written in either order.
        let turned = |file: &mut FieldFile| {
            let strip = file.runway.as_mut().unwrap();
            std::mem::swap(&mut strip.from_m, &mut strip.to_m);
        };
        assert_eq!(strip(turned).0, 0.0);
    }

    #[test]
    fn what_is_said_goes_before_the_flight_line_and_that_before_the_runway() {
        let line = |file: &mut FieldFile| file.flight_line_m = Some([[20.0, -100.0], [20.0, 100.0]]);
        assert_eq!(strip(line), (90.0, "square across the flight line"));
        let said = |file: &mut FieldFile| {
            line(file);
            file.facing = Some("NW".parse().unwrap());
        };
        assert_eq!(strip(said), (315.0, "as the field says"));
        assert_eq!(strip(|file| file.runway = None), (180.0, "towards the centre"));
        // On the centre line no side is away from the pilot position; the circle decides.
        assert_eq!(strip(|file| file.pilot_m = [0.0, 0.0]).0, 180.0);
    }
}
