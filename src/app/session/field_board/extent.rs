//! How long a line is and how large a ring, in metres and in the user's units.

use glam::DVec2;

use crate::app::look::words;
use crate::geometry::Region;
use crate::words::{Measure, Units};

/// One acre in square metres: 4840 square yards of 0.9144 m, exactly.
const ACRE: f64 = 4840.0 * 0.9144 * 0.9144;
/// One hectare in square metres.
const HECTARE: f64 = 10_000.0;

/// An area in square metres: hectares or acres from one of them on, smaller ones by the square of the unit of distance.
pub fn area(units: &Units, m2: f64) -> String {
    let pair = units.of(Measure::Distance);
    let one = |unit: &str| match unit {
        "m" if m2 < HECTARE => format!("{} m\u{b2}", words::number(m2)),
        "m" => format!("{:.2} ha", m2 / HECTARE),
        _ if m2 >= ACRE => format!("{:.2} acres", m2 / ACRE),
        unit => {
            let times = units.first(Measure::Distance, 1.0);
            format!("{} {unit}\u{b2}", words::number(m2 * times * times))
        }
    };
    if pair.second.is_empty() || (pair.first == "m") == (pair.second == "m") {
        one(&pair.first)
    } else {
        // Of the second unit only the large one says more.
        let second =
            if pair.second == "m" { format!("{:.2} ha", m2 / HECTARE) } else { format!("{:.2} acres", m2 / ACRE) };
        format!("{} ({second})", one(&pair.first))
    }
}

/// Length along corners, back to the first where they are closed, metres.
pub fn length(corners: &[DVec2], closed: bool) -> f64 {
    let open: f64 = corners.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
    match corners {
        [first, .., last] if closed => open + first.distance(*last),
        _ => open,
    }
}

/// Area of the ring through corners, square metres.
pub fn ring_area(corners: &[DVec2]) -> f64 {
    if corners.len() < 3 { 0.0 } else { Region::new(corners, &[]).area_m2() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Pair;

    fn units(first: &str, second: &str) -> Units {
        Units { distance: Pair { first: first.into(), second: second.into() }, ..Units::default() }
    }

    #[test]
    fn areas_are_read_in_the_users_units() {
        // One acre is 4046.856 422 4 m2 and one hectare 10 000 m2 (BIPM SI brochure, 9th edition, table 8, and the
        // international yard of 1959).
        assert!((ACRE - 4_046.856_422_4).abs() < 1e-9);
        assert_eq!(area(&units("m", ""), 8_400.0), "8400 m\u{b2}");
        assert_eq!(area(&units("m", ""), 42_000.0), "4.20 ha");
        assert_eq!(area(&units("m", "ft"), 42_000.0), "4.20 ha (10.38 acres)");
        assert_eq!(area(&units("yd", ""), ACRE * 2.0), "2.00 acres");
        assert_eq!(area(&units("ft", ""), 0.3048 * 0.3048 * 50.0), "50.0 ft\u{b2}");
    }
}
