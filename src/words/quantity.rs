//! How a quantity is printed in a report, with its unit.

use glam::DVec2;

use crate::units::{Angle, Bearing, Length, Quantity as _, Speed, decimals, number};
use crate::wind::{ASSUMED_GUST, WindSheet};

/// A number with a true minus sign, as screens and pages have it; reports in plain text have the hyphen of a keyboard.
pub fn true_minus(number: &str) -> String {
    number.replace('-', "\u{2212}")
}

/// A place about the datum, such as "(12, -30) m".
pub fn place(at: DVec2) -> String {
    format!("{} m", pair(at))
}

/// The same without its unit, for a column that names it.
pub fn pair(at: DVec2) -> String {
    format!("({}, {})", decimals(at.x, 0), decimals(at.y, 0))
}

/// A height with the same in feet.
pub fn height(metres: f64) -> String {
    let feet = Length::new(metres).in_unit("ft").unwrap_or(f64::NAN);
    format!("{} m ({feet:.0} ft)", number(metres))
}

/// A speed with the same in knots.
pub fn speed(speed: Speed) -> String {
    let knots = speed.in_unit("kt").unwrap_or(f64::NAN);
    format!("{:.1} m/s ({knots:.0} kt)", speed.mps())
}

/// A direction with the point of the compass nearest to it.
pub fn bearing(bearing: Bearing) -> String {
    // A hair short of a whole turn is north, and nothing less than nothing.
    format!("{:.0} deg ({})", bearing.deg().round() % 360.0 + 0.0, bearing.point())
}

/// A direction from true north and as a compass reads it where magnetic north lies so far east of true north. In three
/// digits, north as 360: common practice, no source.
pub fn both_norths(true_deg: f64, declination: Angle) -> String {
    let three = |deg: f64| match deg.round().rem_euclid(360.0) {
        north if north < 0.5 => "360".to_owned(),
        other => format!("{other:03.0}"),
    };
    format!("{} deg true, {} deg magnetic", three(true_deg), three(true_deg - declination.rad().to_degrees()))
}

/// The gust where the mean was measured, and whether anybody reported it.
pub fn gusts(sky: &WindSheet) -> String {
    let gust = speed(sky.gust());
    if sky.gust_is_assumed() {
        format!("{gust} in gusts (nobody reported one: taken as {ASSUMED_GUST} times the mean)")
    } else {
        format!("{gust} in gusts")
    }
}

/// A height in the sky in fists at arm's length, such as "1 fist" or "2.5 fists".
pub fn fists(count: f64) -> String {
    format!("{} {}", number(count), if count > 1.0 { "fists" } else { "fist" })
}

/// What a meter in the hand may read at most, m/s: a meter shows tenths, and one tenth more is over the limit.
pub fn metered(mps: f64) -> f64 {
    (mps * 10.0 + 1e-9).floor() / 10.0
}

/// What a meter in the hand reads at a wind limit, from the least to the most, such as "3.4 to 4.8 m/s".
pub fn hand_held([low, high]: [f64; 2]) -> String {
    format!("{:.1} to {high:.1} m/s", metered(low))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_compass_reads_less_where_magnetic_north_lies_east() {
        let both = |true_deg: f64, off: f64| both_norths(true_deg, Angle::new(off.to_radians()));
        // By hand: 360 + 1.5 is 361.5, a degree and a half beyond north.
        assert_eq!(both(360.0, -1.5), "360 deg true, 002 deg magnetic");
        assert_eq!(both(90.0, 10.0), "090 deg true, 080 deg magnetic");
        assert_eq!(both(5.0, 5.2), "005 deg true, 360 deg magnetic");
        assert_eq!(both(359.7, 0.0), "360 deg true, 360 deg magnetic");
    }
}
