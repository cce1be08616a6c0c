//! The sun by those who keep its tables: positions, and rise and set.

use time::{Date, Month};

use crate::sun::{Place, Sun, sun_at};
use crate::verify::line::Lines;

/// Most that it may be off, degrees: near the horizon the air alone makes that much.
const WITHIN_DEG: f64 = 0.1;

/// A moment, UTC: year, month, day, hours, minutes.
type Moment = (i32, u8, u8, u16, f64);

/// Latitude, longitude, moment, azimuth and elevation, degrees.
type Position = (f64, f64, Moment, f64, f64);

/// Latitude, longitude, month and day of 2020, and the hours and minutes of rise and set in one number.
type Day = (f64, f64, u8, u8, u16, u16);

const NREL: [Position; 4] = [
    (39.742_476, -105.178_6, (2003, 10, 17, 19, 30.5), 194.340_24, 39.888_38),
    (-36.840_556, 174.74, (2010, 3, 15, 6, 30.0), 268.277_401, 1.631_186),
    (78.22, 15.65, (2010, 6, 15, 9, 30.0), 155.483_089, 34.166_946),
    (1.283_333, 103.833_333, (2010, 6, 15, 6, 30.0), 318.535_156, 59.859_969),
];

const JPL: [Position; 8] = [
    (29.0, -81.0, (2020, 5, 11, 0, 0.0), 290.4130, 0.7905),
    (29.0, -81.0, (2021, 6, 5, 0, 0.0), 294.1390, 3.3245),
    (29.0, -81.0, (2025, 8, 13, 0, 0.0), 286.5351, 0.8906),
    (0.0, 0.0, (2019, 3, 19, 6, 6.0), 90.6564, 0.0731),
    (0.0, 0.0, (2019, 3, 19, 7, 15.0), 90.6658, 16.8212),
    (0.0, 0.0, (2019, 3, 19, 9, 0.0), 90.8325, 43.0384),
    (0.0, 0.0, (2019, 3, 19, 12, 8.0), 183.5641, 89.4420),
    (0.0, 0.0, (2019, 3, 19, 17, 29.0), 269.5243, 9.7888),
];

const USNO: [Day; 6] = [
    (61.0 + 13.0 / 60.0, -149.0 - 52.0 / 60.0, 6, 25, 1222, 742),
    (-36.0 - 50.0 / 60.0, 174.0 + 48.0 / 60.0, 1, 1, 1705, 743),
    (-15.0 - 48.0 / 60.0, -47.0 - 51.0 / 60.0, 7, 31, 935, 2100),
    (78.0 + 13.0 / 60.0, 15.0 + 38.0 / 60.0, 9, 25, 453, 1642),
    (-77.0 - 51.0 / 60.0, 166.0 + 40.0 / 60.0, 4, 15, 2213, 342),
    (1.0 + 17.0 / 60.0, 103.0 + 50.0 / 60.0, 11, 25, 2250, 1053),
];

pub(super) fn lines(lines: &mut Lines) {
    for (who, positions, source) in [
        (
            "the authors of the algorithm",
            &NREL[..],
            "Reda and Andreas, NREL/TP-560-34302, worked example, and NREL's spa.c of 2014 as kept by a public repository",
        ),
        (
            "the Jet Propulsion Laboratory",
            &JPL,
            "NASA JPL Horizons, DE431, printed 2019-04-12 and 13, as kept by a public repository",
        ),
    ] {
        let most = positions.iter().map(off_deg).fold(0.0, worst);
        let name = format!("most that the sun is off in {} places of {who}", positions.len());
        lines.at_most(&name, most, WITHIN_DEG, "deg", source);
    }
    let most = USNO.iter().flat_map(horizon_deg).fold(0.0, worst);
    let name = "most that the sun is off the horizon at 12 times of rise and set by the Naval Observatory";
    let source = "USNO, Rise and Set for the Sun for 2020, to the minute, as kept by a public repository";
    lines.at_most(name, most, WITHIN_DEG, "deg", source);
}

/// The larger; what is not a number stays, whichever it is.
fn worst(one: f64, other: f64) -> f64 {
    if one > other || one.is_nan() { one } else { other }
}

fn seen(latitude_deg: f64, longitude_deg: f64, (year, month, day, hour, minutes): Moment) -> Option<Sun> {
    let day = Date::from_calendar_date(year, Month::try_from(month).ok()?, day).ok()?;
    sun_at(Place { latitude_deg, longitude_deg }, day, f64::from(hour) * 60.0 + minutes)
}

/// How far off along the sky, degrees: close to the zenith an azimuth says little.
fn off_deg(&(latitude, longitude, when, azimuth_deg, elevation_deg): &Position) -> f64 {
    let there = Sun { azimuth_deg, elevation_deg }.direction();
    seen(latitude, longitude, when).map_or(f64::NAN, |found| found.direction().angle_between(there).to_degrees())
}

/// How far the middle of the sun is from 16 minutes of arc below the horizon, degrees, at the best moment of the minute
/// printed for its rise and its set: 50' without the air, and 34' for the air, by the observatory's convention.
fn horizon_deg(&(latitude, longitude, month, day, rise, set): &Day) -> [f64; 2] {
    [(rise, 1.0), (set, -1.0)].map(|(time, way)| {
        let elevation = |half: f64| {
            let minutes = f64::from(time % 100) + half;
            seen(latitude, longitude, (2020, month, day, time / 100, minutes)).map_or(f64::NAN, |sun| sun.elevation_deg)
        };
        let (before, after, middle) = (elevation(-0.5 * way), elevation(0.5 * way), -16.0 / 60.0);
        if before < after { (before - middle).max(middle - after).max(0.0) } else { f64::NAN }
    })
}
