//! Features of GeoJSON (RFC 7946), or a bare geometry. Of a field of our own, what each feature stands for comes along
//! as a suggestion.

use ::geojson::{Geometry, GeometryValue, Position};
use serde_json::Value;

use super::found::{At, Drawn, Found, name_or};
use super::{Form, Role};
use crate::error::Fault;
use crate::error::json::{self, Lines};
use crate::field::{Datum, RuleName};
use crate::units::Length;

const KINDS: &str = "Make it a Point, LineString or Polygon, as RFC 7946 has it";

pub(super) fn read(text: &str, found: &mut Found) -> Result<(), Fault> {
    let value = json::parse(text)?;
    let lines = Lines::of(text);
    if value.get("crs").is_some() {
        let problem = "`crs` is not read: GeoJSON is WGS84, longitude then latitude";
        let way_out = "Export it as WGS84 (EPSG:4326) if the shapes come out in the wrong place";
        found.faults.push(Fault { line: lines.line("/crs"), ..Fault::warning("/crs", problem, way_out) });
    }
    let kind = value.get("type").and_then(Value::as_str).unwrap_or_default();
    match (kind, value.get("features").and_then(Value::as_array)) {
        ("FeatureCollection", Some(features)) => {
            for (index, item) in features.iter().enumerate() {
                feature(item, format!("/features/{index}"), index + 1, &lines, found);
                if found.is_full() {
                    break;
                }
            }
        }
        ("Feature", _) => feature(&value, String::new(), 1, &lines, found),
        (kind, _) if value.get("coordinates").is_some() || kind == "GeometryCollection" => {
            let at = At { name: "Shape 1".into(), place: String::new(), line: Some(1) };
            geometry(&value, &at, &Value::Null, found);
        }
        _ => {
            let way_out = "Export the shapes as GeoJSON, KML or GPX";
            return Err(Fault::error("", "this is JSON, but not GeoJSON", way_out));
        }
    }
    Ok(())
}

fn feature(feature: &Value, place: String, number: usize, lines: &Lines, found: &mut Found) {
    let properties = feature.get("properties").unwrap_or(&Value::Null);
    let word = |key: &str| properties.get(key).and_then(Value::as_str).filter(|word| !word.trim().is_empty());
    let role = word("role").map(|role| role.replace('-', " "));
    let name = word("name").or_else(|| word("Name")).or_else(|| word("title")).or(role.as_deref());
    let place = json::join(&place, "geometry");
    let at = At { name: name_or(name, || format!("Shape {number}")), line: lines.line(&place), place };
    match feature.get("geometry") {
        None | Some(Value::Null) => found.skip(&at, "it has no place", "Nothing, unless it ought to have one"),
        Some(value) => geometry(value, &at, properties, found),
    }
}

fn geometry(value: &Value, at: &At, properties: &Value, found: &mut Found) {
    match serde_json::from_value::<Geometry>(value.clone()) {
        Ok(geometry) => add(geometry.value, at, properties, found),
        Err(error) => found.skip(at, format!("the geometry can't be read: {error}"), KINDS),
    }
}

fn add(value: GeometryValue, at: &At, properties: &Value, found: &mut Found) {
    match value {
        GeometryValue::Point { coordinates } => point(&coordinates, at, properties, found),
        GeometryValue::MultiPoint { coordinates } => {
            coordinates.iter().for_each(|one| point(one, at, properties, found));
        }
        GeometryValue::LineString { coordinates } => drawn(Form::Line, &[coordinates], at, properties, found),
        GeometryValue::MultiLineString { coordinates } => {
            coordinates.into_iter().for_each(|one| drawn(Form::Line, &[one], at, properties, found));
        }
        GeometryValue::Polygon { coordinates } => drawn(Form::Ring, &coordinates, at, properties, found),
        GeometryValue::MultiPolygon { coordinates } => {
            coordinates.iter().for_each(|one| drawn(Form::Ring, one, at, properties, found));
        }
        GeometryValue::GeometryCollection { geometries } => {
            geometries.into_iter().for_each(|one| add(one.value, at, properties, found));
        }
    }
}

fn point(at: &Position, spot: &At, properties: &Value, found: &mut Found) {
    if found.is_full() {
        return;
    }
    match (properties.get("role").and_then(Value::as_str), at.as_slice()) {
        (Some("datum"), &[longitude_deg, latitude_deg, ..]) if found.datum.is_none() => {
            found.datum = Some(Datum { latitude_deg, longitude_deg });
        }
        (Some("spot"), _) => found.skip(spot, "spot heights are not taken", "Enter them by hand"),
        _ => drawn(Form::Point, &[vec![at.clone()]], spot, properties, found),
    }
}

fn drawn(form: Form, rings: &[Vec<Position>], at: &At, properties: &Value, found: &mut Found) {
    if found.is_full() {
        return;
    }
    if rings.iter().flatten().any(|position| position.len() > 2) {
        found.has_heights();
    }
    // The library has seen to two numbers or more.
    let degrees = |at: &Position| [0, 1].map(|index| at.as_slice().get(index).copied().unwrap_or(f64::NAN));
    let rings = rings.iter().map(|ring| ring.iter().map(degrees).collect()).collect();
    let (role, height) = (role(properties, form).filter(|role| role.fits(form)), properties.get("height"));
    let height = height.and_then(|height| serde_json::from_value::<Length>(height.clone()).ok());
    found.add(Drawn { role, height, ..Drawn::new(at, form, rings) });
}

/// What a feature of a field of our own stands for.
fn role(properties: &Value, form: Form) -> Option<Role> {
    Some(match properties.get("role")?.as_str()? {
        "boundary" => Role::Boundary,
        "area" => Role::Area(serde_json::from_value::<RuleName>(properties.get("rule")?.clone()).ok()?),
        "obstacle" => Role::Obstacle,
        "flight-line" => Role::FlightLine,
        "runway" => Role::Runway,
        "pilot" => Role::Pilot,
        "home" => Role::Home,
        "centre" => Role::Centre,
        "circuit" if form == Form::Ring => Role::CircuitArea,
        "circuit" => Role::Circuit,
        _ => return None,
    })
}
