//! The sun against published positions, tables of sunrise and another library, and what any sky must do.

use time::Month;

use super::*;

/// Most that it may be off, degrees (V18).
const TOLERANCE_DEG: f64 = 0.1;

/// A moment, UTC: year, month, day, hours, minutes.
type Moment = (i32, u8, u8, u32, f64);

fn date(year: i32, month: u8, day: u8) -> Date {
    Date::from_calendar_date(year, Month::try_from(month).unwrap(), day).unwrap()
}

fn seen(latitude_deg: f64, longitude_deg: f64, (year, month, day, hours, minutes): Moment) -> Sun {
    let place = Place { latitude_deg, longitude_deg };
    sun_at(place, date(year, month, day), f64::from(hours) * 60.0 + minutes).unwrap()
}

/// How far from a place in the sky, degrees along the sky: close to the zenith an azimuth says little.
fn off_deg(found: Sun, azimuth_deg: f64, elevation_deg: f64) -> f64 {
    found.direction().angle_between(Sun { azimuth_deg, elevation_deg }.direction()).to_degrees()
}

/// Latitude, longitude, moment; published azimuth and elevation.
#[track_caller]
fn stands(latitude_deg: f64, longitude_deg: f64, when: Moment, azimuth_deg: f64, elevation_deg: f64) {
    let found = seen(latitude_deg, longitude_deg, when);
    let off = off_deg(found, azimuth_deg, elevation_deg);
    assert!(off <= TOLERANCE_DEG, "{when:?}: {found:?} is {off} off ({azimuth_deg}, {elevation_deg})");
}

#[test]
fn the_worked_example_of_the_algorithm() {
    // Reda and Andreas, NREL/TP-560-34302, example in the appendix: 2003-10-17 12:30:30 by UTC-7, 39.742476 N,
    // 105.1786 W, zenith 50.11162, azimuth 194.34024 degrees. Their air is that of 1830 m, 820 hPa and 11 C, which is
    // 0.004 degrees.
    stands(39.742476, -105.1786, (2003, 10, 17, 19, 30.5), 194.34024, 90.0 - 50.11162);
}

#[test]
fn positions_by_the_program_of_those_who_wrote_the_algorithm() {
    // NREL's own spa.c of 2014-09-08, with refraction at 1000 hPa and 10 C; kept as tests/data/spa_reference_testdata.csv
    // in the repository klausbrunner/solarpositioning-rs. Zeniths there, elevations here.
    for (latitude_deg, longitude_deg, when, azimuth_deg, zenith_deg) in [
        (-36.840556, 174.74, (2010, 3, 15, 6, 30.0), 268.277401, 88.368814),
        (-36.840556, 174.74, (2010, 6, 15, 0, 30.0), 357.723597, 60.142480),
        (-36.840556, 174.74, (2010, 6, 15, 21, 30.0), 40.949751, 72.439564),
        (-15.793889, -47.882778, (2010, 3, 15, 9, 30.0), 91.385435, 86.910752),
        (-15.793889, -47.882778, (2010, 6, 15, 15, 30.0), 353.486073, 39.348829),
        (78.22, 15.65, (2010, 3, 15, 6, 30.0), 110.910237, 87.669511),
        (78.22, 15.65, (2010, 6, 15, 0, 30.0), 21.613694, 77.537134),
        (78.22, 15.65, (2010, 6, 15, 9, 30.0), 155.483089, 55.833654),
        (1.283333, 103.833333, (2010, 6, 15, 6, 30.0), 318.535156, 30.140031),
        (1.283333, 103.833333, (2010, 3, 15, 18, 30.0), 92.287120, 160.877938),
    ] {
        stands(latitude_deg, longitude_deg, when, azimuth_deg, 90.0 - zenith_deg);
    }
}

#[test]
fn positions_by_the_jet_propulsion_laboratory() {
    // NASA JPL Horizons, ephemeris DE431, with refraction, printed on 2019-04-12 and 13; kept as
    // generate/horizons/Sun.txt and Sun_equinox.txt in the repository cosinekitty/astronomy. They lift the sun below the
    // horizon too, which no eye sees; so only what is above it is compared.
    for (when, azimuth_deg, elevation_deg) in [
        ((2020, 5, 11, 0, 0.0), 290.4130, 0.7905),
        ((2020, 6, 20, 0, 0.0), 294.5493, 4.3532),
        ((2020, 8, 9, 0, 0.0), 287.4423, 1.5026),
        ((2021, 6, 5, 0, 0.0), 294.1390, 3.3245),
        ((2023, 7, 5, 0, 0.0), 293.6859, 4.6273),
        ((2024, 5, 20, 0, 0.0), 292.1998, 1.7729),
        ((2025, 8, 13, 0, 0.0), 286.5351, 0.8906),
    ] {
        stands(29.0, 279.0 - 360.0, when, azimuth_deg, elevation_deg);
    }
    for (hours, minutes, azimuth_deg, elevation_deg) in [
        (6, 6.0, 90.6564, 0.0731),
        (6, 30.0, 90.6528, 5.6643),
        (7, 15.0, 90.6658, 16.8212),
        (9, 0.0, 90.8325, 43.0384),
        (12, 8.0, 183.5641, 89.4420),
        (14, 30.0, 269.1089, 54.4654),
        (17, 29.0, 269.5243, 9.7888),
        (18, 8.0, 269.5418, 0.4356),
    ] {
        stands(0.0, 0.0, (2019, 3, 19, hours, minutes), azimuth_deg, elevation_deg);
    }
}

#[test]
fn sunrise_and_sunset_by_the_naval_observatory() {
    // US Naval Observatory, Astronomical Applications Department, "Rise and Set for the Sun for 2020", UT to the minute;
    // kept as tests/data/usno/raw in the repository klausbrunner/solarpositioning-rs. The middle of the sun is then 16'
    // below the horizon by their convention: 50' without the air, and 34' for the air.
    let (anchorage, auckland, brasilia) = ((61, 13, -149, 52), (-36, 50, 174, 48), (-15, 48, -47, 51));
    let (longyearbyen, mcmurdo, singapore) = ((78, 13, 15, 38), (-77, 51, 166, 40), (1, 17, 103, 50));
    for (place, month, day, rise, set) in [
        (anchorage, 6, 25, 1222, 742),
        (anchorage, 12, 25, 1915, 44),
        (auckland, 1, 1, 1705, 743),
        (auckland, 6, 15, 1932, 511),
        (brasilia, 3, 15, 915, 2125),
        (brasilia, 7, 31, 935, 2100),
        (longyearbyen, 4, 15, 38, 2133),
        (longyearbyen, 9, 25, 453, 1642),
        (mcmurdo, 4, 15, 2213, 342),
        (mcmurdo, 9, 25, 1806, 721),
        (singapore, 3, 15, 2310, 1117),
        (singapore, 11, 25, 2250, 1053),
    ] {
        let (north, north_min, east, east_min) = place;
        let deg = |whole: i32, minutes: i32| f64::from(whole) + f64::from(whole.signum() * minutes) / 60.0;
        let (latitude_deg, longitude_deg) = (deg(north, north_min), deg(east, east_min));
        for (time, way) in [(rise, 1.0), (set, -1.0)] {
            // A time to the minute is half a minute off at most.
            let elevation = |half: f64| {
                let minutes = f64::from(time % 100) + half;
                seen(latitude_deg, longitude_deg, (2020, month, day, time / 100, minutes)).elevation_deg
            };
            let (before, after, middle_deg) = (elevation(-0.5 * way), elevation(0.5 * way), -16.0 / 60.0);
            assert!(before < after, "{place:?}, {month}-{day}, {time}: no rise or set");
            assert!(before - TOLERANCE_DEG <= middle_deg, "{place:?}, {month}-{day}, {time}: {before}");
            assert!(after + TOLERANCE_DEG >= middle_deg, "{place:?}, {month}-{day}, {time}: {after}");
        }
    }
}

#[test]
fn the_sun_stands_overhead_where_its_coordinates_say() {
    // Meeus, Astronomical Algorithms, 2nd edition, examples 25.b and 28.b, as quoted in the tests of several public
    // libraries: 1992 October 13 at 0h TD its apparent declination is -7.783871 degrees and the equation of time +13 min
    // 42.6 s. With both it stands overhead at that latitude; at 0h UT that would be 13 min 42.6 s west of the meridian of
    // 180 degrees, but TD is 59 s ahead of UT that year (value from memory), and the earth has not yet turned so far.
    let longitude_deg = 180.0 - (13.0 * 60.0 + 42.6) / 240.0 + 59.0 / 240.0;
    let overhead = seen(-7.783871, longitude_deg, (1992, 10, 12, 23, 59.0 + 1.0 / 60.0));
    assert!(overhead.elevation_deg >= 90.0 - TOLERANCE_DEG, "{overhead:?}");
}

#[test]
fn another_library_says_the_same() {
    // astropy 8.0.2 with pyerfa 2.0.1.5: get_body("sun", ephemeris="builtin") seen through AltAz(pressure=1010 hPa,
    // temperature=10 deg_C, relative_humidity=0, obswl=0.55 micron). Its air holds only from 5 degrees up.
    for (latitude_deg, longitude_deg, when, azimuth_deg, elevation_deg) in [
        (44.1, -29.6, (2026, 6, 21, 20, 10.0), 288.8340, 14.4710),
        (44.0, -30.0, (2026, 3, 5, 9, 25.0), 107.2392, 8.9098),
        (-33.6, 18.4, (2025, 12, 20, 17, 0.0), 248.1915, 9.7252),
        (-54.8, -68.3, (2026, 6, 21, 15, 30.0), 15.1489, 10.6078),
        (69.6, 18.9, (2026, 6, 21, 20, 0.0), 322.0973, 7.7826),
        (-77.8, 166.7, (2025, 11, 15, 12, 0.0), 189.0166, 6.6967),
        (1.3, 103.8, (2026, 9, 23, 23, 40.0), 90.6358, 10.8171),
        (35.7, 139.7, (2027, 2, 11, 2, 45.0), 176.7033, 40.1258),
        (-41.3, 174.8, (2028, 4, 9, 19, 30.0), 72.6919, 7.3108),
        (21.3, -157.9, (2026, 7, 15, 22, 30.0), 86.3777, 88.2146),
    ] {
        stands(latitude_deg, longitude_deg, when, azimuth_deg, elevation_deg);
    }
}

#[test]
fn the_earth_lags_as_observed() {
    // TT less UT1 by the IERS, from the US Naval Observatory's deltat.data.
    for (year, month, lag) in [(2018, 12, 69.1964), (2020, 6, 69.4386), (2022, 1, 69.2945)] {
        let found = lag_s(date(year, month, 1)).unwrap();
        assert!((found - lag).abs() < 0.5, "{year}-{month}: {found}");
    }
}

#[test]
fn a_day_goes_on_before_and_after_itself() {
    let place = (-41.3, 174.8);
    let same = |one: Moment, other: Moment| {
        let (one, other) = (seen(place.0, place.1, one), seen(place.0, place.1, other));
        assert!(off_deg(one, other.azimuth_deg, other.elevation_deg) < 1e-4, "{one:?} {other:?}");
    };
    same((2026, 3, 1, 0, -90.0), (2026, 2, 28, 22, 30.0));
    same((2026, 12, 31, 24, 75.0), (2027, 1, 1, 1, 15.0));
}

#[test]
fn where_and_when_there_is_none() {
    let (place, day) = (Place { latitude_deg: 44.0, longitude_deg: -30.0 }, date(2026, 6, 21));
    assert!(sun_at(place, day, 720.0).is_some());
    for place in [Place { latitude_deg: 91.0, ..place }, Place { longitude_deg: f64::NAN, ..place }] {
        assert_eq!(sun_at(place, day, 720.0), None);
    }
    for day in [date(3001, 6, 21), date(-501, 6, 21)] {
        assert_eq!(sun_at(place, day, 720.0), None);
    }
    assert_eq!(sun_at(place, day, f64::INFINITY), None);
}
