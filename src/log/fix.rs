//! What does a file say before anything is repaired: rows of time, place, height and what else was logged?

use glam::DVec2;
use time::Date;

use super::notes::{Kind, Notes};
use crate::geometry::TangentPlane;
use crate::run::Stretch;

/// Furthest that a place may be from the datum, metres: the plane's places are no longer those on the ground.
const FURTHEST_M: f64 = 20_000.0;

pub(super) const FAR: Kind = Kind {
    many: "places too far from the field",
    way_out: "Open the log beside the field it was flown at; what is that far away is left out",
};
const NO_FIX: Kind = Kind {
    many: "samples without a fix",
    way_out: "Nothing to do: latitude and longitude 0 are what a receiver writes before it knows; they are left out",
};
const NO_PLACE: Kind = Kind {
    many: "positions that are none",
    way_out: "Latitudes go to 90 degrees and longitudes to 180; they are left out",
};

/// What else a sample may hold; the index into [`Fix::extra`].
pub(super) const AIRSPEED: usize = 0;
pub(super) const LOAD: usize = 1;
pub(super) const BANK: usize = 2;
pub(super) const ENERGY: usize = 3;
/// What these are called.
pub(super) const EXTRAS: [&str; 4] = ["airspeed", "load", "bank", "energy"];

/// One sample of a file.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fix {
    /// Line of the file, from 1.
    pub(super) line: usize,
    /// Seconds, from wherever the file counts.
    pub(super) time_s: f64,
    /// Metres about the datum.
    pub(super) place: Option<DVec2>,
    /// Metres, above what [`Raw::heights`] says.
    pub(super) height_m: Option<f64>,
    /// Airspeed in m/s, load, bank in radians, energy left in joules; not a number where it is missing.
    pub(super) extra: [f64; 4],
    /// Stretch of the recovery.
    pub(super) stretch: Option<Stretch>,
}

impl Fix {
    /// One with time, place and height alone.
    pub(super) fn new(line: usize, time_s: f64, place: Option<DVec2>, height_m: Option<f64>) -> Self {
        Self { line, time_s, place, height_m, extra: [f64::NAN; 4], stretch: None }
    }
}

/// What the times of a file count from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Clock {
    /// Seconds since 1970 began.
    Unix,
    /// Seconds since midnight.
    Midnight,
    /// Seconds since a moment that the file doesn't tell.
    Start,
}

/// What the heights of a file are above.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Heights {
    /// Mean sea level, the ellipsoid, or a pressure: one and the same all along.
    Sea,
    /// Home's ground.
    Home,
}

/// A file as read.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Raw {
    pub(super) fixes: Vec<Fix>,
    pub(super) clock: Clock,
    /// The day that the first midnight began, where the file tells it.
    pub(super) day: Option<Date>,
    pub(super) heights: Heights,
    /// Longest gap, seconds, across which heights are interpolated.
    pub(super) height_gap_s: f64,
    /// Whether a clock that jumps back may be set right: not where parts of several clocks stand in one file.
    pub(super) one_clock: bool,
    /// Which of the rest the file has.
    pub(super) extras: [bool; 4],
    /// Whether it has the stretches.
    pub(super) stretch: bool,
}

/// The place of a latitude and longitude in degrees, if it is one near the field.
pub(super) fn place(plane: TangentPlane, degrees: [f64; 2], line: usize, notes: &mut Notes) -> Option<DVec2> {
    let [latitude, longitude] = degrees;
    if latitude == 0.0 && longitude == 0.0 {
        notes.warn(&NO_FIX, Some(line), || "latitude and longitude are 0".into());
        return None;
    }
    // Also where one is not a number.
    if !(latitude.abs() <= 90.0 && longitude.abs() <= 180.0) {
        notes.warn(&NO_PLACE, Some(line), || format!("{latitude}, {longitude} is no place on the Earth"));
        return None;
    }
    let away_m = plane.distance_m(latitude, longitude);
    if away_m > FURTHEST_M {
        notes.warn(&FAR, Some(line), || format!("the place is {:.0} km from the field's datum", away_m / 1e3));
        return None;
    }
    Some(plane.to_metres(latitude, longitude))
}

/// A place already in metres, if it is near the field.
pub(super) fn near(place: DVec2, line: usize, notes: &mut Notes) -> Option<DVec2> {
    let near = place.length() <= FURTHEST_M;
    if !near {
        notes.warn(&FAR, Some(line), || format!("the place is {:.0} km from the field's datum", place.length() / 1e3));
    }
    near.then_some(place)
}
