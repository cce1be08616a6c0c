//! The path as GeoJSON (RFC 7946): a line for each stretch, and points for what has a name, such as the loss and the end, and
//! for the least margins.

use geojson::{Feature, FeatureCollection, Geometry, GeometryValue, JsonObject};
use glam::DVec2;
use serde_json::json;

use crate::VERSION;
use crate::brief::{FlownPath, Sample, samples_of, spans};
use crate::report::json::amounts;
use crate::report::values::tidied;
use crate::run::Stretch;
use crate::words::cautions;

/// The path as GeoJSON: longitude, latitude, degrees to 9 decimals.
///
/// The standard keeps the third number of a position for the height above the ellipsoid, which nobody has measured at
/// home; heights above home are properties instead.
pub(super) fn track(flown: &FlownPath) -> String {
    let path: Vec<Sample> = samples_of(flown.scenario, flown.trace).collect();
    let place = |at: DVec2| {
        let (latitude, longitude) = flown.scenario.field.plane.to_degrees(at);
        GeometryValue::new_point(position(longitude, latitude))
    };
    let marks = flown.marks.iter().filter_map(|(role, index)| path.get(*index).map(|sample| (role, sample)));
    let features = spans(flown.trace)
        .into_iter()
        // A line takes two positions; a stretch that begins with the last sample has only that one.
        .filter(|span| span.to > span.from)
        .map(|span| {
            let part = &path[span.from..=span.to];
            let line = part.iter().map(|sample| position(sample.longitude_deg, sample.latitude_deg));
            let heights: Vec<f64> = part.iter().map(|sample| sample.height_m).collect();
            let properties = json!({
                "role": "stretch",
                "stretch": span.stretch.name(),
                "from_s": path[span.from].time_s,
                "to_s": path[span.to].time_s,
                "along_m": span.along_m(flown.trace),
                "height_above_home_m": heights,
            });
            feature(GeometryValue::new_line_string(line), properties)
        })
        .chain(marks.map(|(role, sample)| {
            let height_m = sample.height_m;
            let about = json!({ "role": role, "at_s": sample.time_s, "height_above_home_m": height_m });
            feature(place(sample.at), about)
        }))
        .chain([feature(
            place(flown.scenario.field.centre),
            json!({
                "role": "centre",
                "radius_m": flown.scenario.file.recovery.radius.m(),
                "height_above_home_m": flown.scenario.file.recovery.height.m(),
            }),
        )])
        .chain(flown.rows.iter().map(|row| {
            let mut properties = json!({
                "role": "margin",
                "limit": row.name,
                "verdict": row.verdict.name(),
                "at_s": row.at_s,
                "stretch": row.stretch.map(Stretch::name),
                "height_above_home_m": row.height_m,
            });
            if let Some(properties) = properties.as_object_mut() {
                properties.extend(amounts(row.unit, row.verdict, [row.margin, row.buffer]));
            }
            feature(place(row.at), properties)
        }));
    let about = json!({
        "peewit": VERSION,
        "scenario": flown.scenario.file.name,
        "hash": flown.scenario.hash(),
        "seed": flown.scenario.file.seed,
        "trial": flown.trial,
        "times_count_from_the": flown.since,
        "headline": flown.headline,
        "cautions": cautions::ALL,
    });
    let collection =
        FeatureCollection { bbox: None, features: features.collect(), foreign_members: about.as_object().cloned() };
    format!("{collection}\n")
}

pub(super) fn feature(geometry: GeometryValue, properties: serde_json::Value) -> Feature {
    let properties: Option<JsonObject> = tidied(properties).as_object().cloned();
    Feature { geometry: Some(Geometry::new(geometry)), properties, ..Feature::default() }
}

pub(super) fn position(longitude_deg: f64, latitude_deg: f64) -> [f64; 2] {
    [longitude_deg, latitude_deg].map(|degrees| (degrees * 1e9).round() / 1e9)
}
