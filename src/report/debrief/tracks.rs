//! The flown tracks of all logs, beside what was predicted, for other programs.

use geojson::{FeatureCollection, GeometryValue};
use glam::DVec2;
use serde_json::json;

use super::DebriefReport;
use crate::error::letters::cell;
use crate::report::geojson::{feature, position};
use crate::report::gpx::written;
use crate::run::Track;
use crate::words::cautions;
use crate::{Error, Result, VERSION};

/// One sample a row: what the log tells, in degrees and in metres.
pub(super) fn csv(about: &DebriefReport<'_>) -> Result<String> {
    let refused = |why: csv::Error| Error::Asked(format!("the table can't be written: {why}"));
    let mut table = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    table
        .write_record(["log", "time_s", "latitude_deg", "longitude_deg", "east_m", "north_m", "height_above_home_m"])
        .map_err(refused)?;
    for log in about.logs {
        let track = &log.log.track;
        for (index, place) in track.place().iter().enumerate() {
            let (latitude, longitude) = about.scenario.field.plane.to_degrees(*place);
            let cells = [
                cell(&log.log.name),
                format!("{:.3}", track.time_s()[index]),
                format!("{latitude:.9}"),
                format!("{longitude:.9}"),
                format!("{:.3}", place.x),
                format!("{:.3}", place.y),
                format!("{:.2}", track.height_m()[index]),
            ];
            table.write_record(cells).map_err(refused)?;
        }
    }
    let bytes = table.into_inner().map_err(|why| Error::Asked(why.to_string()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Flown and predicted paths as lines, with the marks as points.
pub(super) fn geojson(about: &DebriefReport<'_>) -> String {
    let degrees = |at: DVec2| {
        let (latitude, longitude) = about.scenario.field.plane.to_degrees(at);
        position(longitude, latitude)
    };
    let line = |places: Vec<DVec2>| GeometryValue::new_line_string(places.into_iter().map(degrees).collect::<Vec<_>>());
    let mut features = Vec::new();
    for log in about.logs {
        let track = &log.log.track;
        features.push(feature(line(track.place().to_vec()), json!({ "role": "flown", "log": log.log.name })));
        for one in &log.recoveries {
            if let Some(predicted) = &one.predicted {
                let trace = &predicted.run.trace;
                let places = (0..trace.len()).map(|index| trace.point(index)).collect();
                features.push(feature(line(places), json!({ "role": "predicted", "log": log.log.name })));
            }
            let marks = &one.marks;
            let named = [("lost", Some(marks.lost)), ("joining", marks.joined), ("taken over", Some(marks.taken_over))];
            for (name, sample) in named.into_iter().filter_map(|(name, sample)| Some((name, sample?))) {
                let at = GeometryValue::new_point(degrees(track.place()[sample]));
                let about = json!({ "role": name, "at_s": track.time_s()[sample], "log": log.log.name });
                features.push(feature(at, about));
            }
        }
    }
    let file = &about.scenario.file;
    let told = json!({
        "peewit": VERSION, "scenario": file.name, "hash": about.scenario.hash(), "cautions": cautions::ALL,
    });
    let collection = FeatureCollection { bbox: None, features, foreign_members: told.as_object().cloned() };
    format!("{collection}\n")
}

/// The flown tracks, a track a log.
pub(super) fn gpx(about: &DebriefReport<'_>) -> Result<String> {
    let tracks: Vec<(&str, Option<&str>, &Track)> =
        about.logs.iter().map(|log| (log.log.name.as_str(), log.log.day.as_deref(), &log.log.track)).collect();
    written(about.scenario, &tracks)
}
