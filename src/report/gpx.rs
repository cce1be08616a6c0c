//! The path as GPX 1.1, one segment for the whole run, and the places of the least margins as waypoints.
//!
//! GPX wants a time of day, and a run has none: its beginning is put at noon UTC on the scenario's date.

use geo::Point;
use gpx::{Gpx, GpxVersion, Metadata, Track, TrackSegment, Waypoint};
use time::format_description::well_known::Iso8601;
use time::{Date, Duration, OffsetDateTime, Time};

use crate::brief::{FlownPath, samples_of};
use crate::error::letters::on_one_line;
use crate::run::{Scenario, Track as Flown};
use crate::words::cautions;
use crate::{Error, Result, VERSION, words};

/// The path as GPX.
pub(super) fn track(path: &FlownPath) -> Result<String> {
    let file = &path.scenario.file;
    let noon = noon_of(&file.date)?;
    let moment = |seconds: f64| Some((noon + Duration::seconds_f64(seconds)).into());
    let points = samples_of(path.scenario, path.trace).map(|sample| {
        let mut point = Waypoint::new(Point::new(sample.longitude_deg, sample.latitude_deg));
        point.elevation = Some(sample.height_m);
        point.time = moment(sample.time_s);
        point
    });
    let waypoints = path.rows.iter().map(|row| {
        let (latitude, longitude) = path.scenario.field.plane.to_degrees(row.at);
        let mut point = Waypoint::new(Point::new(longitude, latitude));
        point.elevation = Some(row.height_m);
        point.time = moment(row.at_s);
        point.name = Some(plain(&row.name));
        point.description = Some(plain(&words::margin(row)));
        point
    });
    let mut track = Track::new();
    track.name = Some(plain(&file.name));
    track.description = Some(plain(&path.headline));
    track.segments = vec![TrackSegment { points: points.collect() }];
    let gpx = Gpx {
        version: GpxVersion::Gpx11,
        creator: Some(format!("peewit {VERSION}")),
        metadata: Some(Metadata {
            name: Some(plain(&file.name)),
            description: Some(plain(&format!(
                "{}. Elevations are heights above home. Times count from the {}, put at noon. {}",
                path.stamp,
                path.since,
                cautions::FOOT
            ))),
            ..Metadata::default()
        }),
        waypoints: waypoints.collect(),
        tracks: vec![track],
        routes: Vec::new(),
    };
    let mut bytes = Vec::new();
    gpx::write(&gpx, &mut bytes).map_err(refused)?;
    bytes.push(b'\n');
    String::from_utf8(bytes).map_err(refused)
}

/// Logged tracks, one each, with the day they were flown on where that is known, and else the scenario's.
pub(super) fn written(scenario: &Scenario, logs: &[(&str, Option<&str>, &Flown)]) -> Result<String> {
    let file = &scenario.file;
    let tracks = logs.iter().map(|(name, day, flown)| {
        let noon = noon_of(day.unwrap_or(&file.date))?;
        let points = (0..flown.time_s().len()).map(|index| {
            let (latitude, longitude) = scenario.field.plane.to_degrees(flown.place()[index]);
            let mut point = Waypoint::new(Point::new(longitude, latitude));
            point.elevation = Some(flown.height_m()[index]);
            point.time = Some((noon + Duration::seconds_f64(flown.time_s()[index])).into());
            point
        });
        let mut track = Track::new();
        track.name = Some(plain(name));
        track.segments = vec![TrackSegment { points: points.collect() }];
        Ok(track)
    });
    let about = format!("Heights are above home. Times count from the first fix, put at noon. {}", cautions::FOOT);
    let gpx = Gpx {
        version: GpxVersion::Gpx11,
        creator: Some(format!("peewit {VERSION}")),
        metadata: Some(Metadata {
            name: Some(plain(&file.name)),
            description: Some(plain(&about)),
            ..Metadata::default()
        }),
        waypoints: Vec::new(),
        tracks: tracks.collect::<Result<_>>()?,
        routes: Vec::new(),
    };
    let mut bytes = Vec::new();
    gpx::write(&gpx, &mut bytes).map_err(refused)?;
    bytes.push(b'\n');
    String::from_utf8(bytes).map_err(refused)
}

fn noon_of(date: &str) -> Result<OffsetDateTime> {
    let day = Date::parse(date, &Iso8601::DATE).map_err(|why| {
        Error::Asked(format!("can't date the path: \"{date}\" is no day of the calendar ({why}); write 2026-05-24"))
    })?;
    Ok(day.with_time(Time::MIDNIGHT + Duration::hours(12)).assume_utc())
}

/// Without what XML can't hold.
fn plain(text: &str) -> String {
    on_one_line(text).into_owned()
}

fn refused(why: impl std::fmt::Display) -> Error {
    Error::Asked(format!("can't write the path as GPX: {why}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_starts_the_clock_at_noon_and_nonsense_is_refused_with_the_way_out() {
        assert_eq!(noon_of("2026-05-24").unwrap().to_string(), "2026-05-24 12:00:00.0 +00:00:00");
        for wrong in ["2026-02-30", "24.5.2026", ""] {
            assert!(noon_of(wrong).unwrap_err().to_string().contains("write 2026-05-24"), "{wrong}");
        }
    }
}
