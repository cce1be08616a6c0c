//! Fields as GeoJSON: what comes back, and what is said about a file that has something wrong with it.

use approx::assert_abs_diff_eq;
use geographiclib_rs::{Geodesic, InverseGeodesic as _};
use peewit::error::{Fault, Severity};
use peewit::field::{CircuitFile, FieldFile, GeoField, Way, geojson, geojson_text};
use peewit::run::read_text;
use peewit::units::Speed;
use serde_json::{Value, json};

const ELBOW: &str = include_str!("fixtures/cotterfold-elbow.geojson");

/// Numbers of the features in that file.
const BOUNDARY: usize = 1;
const ROAD: usize = 2;
const TREES: usize = 4;
const RUNWAY: usize = 5;
const PILOT: usize = 6;
const HOME: usize = 7;

/// Reads a scenario whose field stands in a file of this text.
fn faults(text: &str) -> Vec<Fault> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("cotterfold-elbow.geojson"), text).unwrap();
    let reading = read_text(include_str!("fixtures/cotterfold-elbow.json"), Some(folder.path()));
    let errors = reading.faults.iter().any(|fault| fault.severity == Severity::Error);
    assert_eq!(reading.scenario.is_none(), errors, "{:?}", reading.faults);
    reading.faults
}

#[track_caller]
fn check(edit: impl FnOnce(&mut Value), place: &str, says: &str) {
    let mut value: Value = serde_json::from_str(ELBOW).unwrap();
    edit(&mut value);
    let found = faults(&serde_json::to_string_pretty(&value).unwrap());
    let place = format!("cotterfold-elbow.geojson#{place}");
    assert!(
        !place.contains("geometry") || !found.iter().any(|fault| fault.problem.contains("no feature")),
        "{found:#?}"
    );
    let Some(fault) = found.iter().find(|fault| fault.place == place) else { panic!("no {place} in {found:#?}") };
    assert!(fault.to_string().contains(says), "\"{says}\" is not in: {fault}");
    assert!(fault.line.is_some() || fault.place.ends_with('#'), "{fault}");
}

/// Replaces the coordinates of a feature.
fn coordinates(feature: usize, coordinates: Value) -> impl FnOnce(&mut Value) {
    move |value| value["features"][feature]["geometry"]["coordinates"] = coordinates
}

fn property(feature: usize, key: &str, value: Value) -> impl FnOnce(&mut Value) {
    move |root| root["features"][feature]["properties"][key] = value
}

fn elbow() -> FieldFile {
    GeoField::read(ELBOW).file.unwrap()
}

#[test]
fn metres_come_back_as_they_went() {
    // V21, and the shipped file holds the corners it was drawn with.
    let field = elbow();
    assert_eq!(field.boundary.ring_m[2], [300.0, 60.0]);
    let again = GeoField::read(&geojson_text(&field));
    assert_eq!(again.faults, []);
    assert_eq!(again.file.unwrap(), field);
    let mut demo = crate::support::tight_strip().file.field.unwrap();
    demo.flight_line_m = Some([[-50.5, 12.25], [50.0, 12.25]]);
    demo.boundary.holes_m = vec![vec![[100.0, 0.0], [100.0, 9.0], [109.0, 9.0]]];
    demo.facing = Some("NNE".parse().unwrap());
    demo.magnetic_declination = Some("-1.5 deg".parse().unwrap());
    demo.ground = vec![peewit::field::SpotFile { at_m: [3.0, 4.0], height: peewit::units::Length::new(-2.5) }];
    assert_eq!(GeoField::read(&geojson_text(&demo)).file.unwrap(), demo);
    // A circuit keeps its way round, clockwise here; an area is a ring like any other.
    let line = vec![[-100.0, 0.0], [-100.0, 50.25], [100.0, 50.0], [100.0, 0.0]];
    let flown = CircuitFile { way: Way::Reversed, ..CircuitFile::of_line(line, [20.0, 33.5].map(Speed::new)) };
    demo.circuit = Some(flown.clone());
    assert_eq!(GeoField::read(&geojson_text(&demo)).file.unwrap(), demo);
    let area_m = vec![[-100.0, 0.0], [100.0, 0.0], [100.0, 50.25]];
    demo.circuit = Some(CircuitFile { line_m: vec![], area_m, ..flown });
    assert_eq!(GeoField::read(&geojson_text(&demo)).file.unwrap(), demo);
}

#[test]
fn degrees_come_back_to_a_ten_millionth() {
    let first = geojson(&elbow()).to_string();
    let second = geojson(&GeoField::read(&first).file.unwrap()).to_string();
    let numbers = |text: &str| -> Vec<f64> {
        text.split(|c: char| !"-.0123456789".contains(c)).filter_map(|part| part.parse().ok()).collect()
    };
    let (first, second) = (numbers(&first), numbers(&second));
    assert!(first.len() > 50);
    for (a, b) in first.iter().zip(&second) {
        assert_abs_diff_eq!(a, b, epsilon = 1e-7);
    }
}

#[test]
fn distances_on_the_globe_are_those_of_the_field() {
    // V12 on a file: the geodesic library is another implementation.
    let value: Value = serde_json::from_str(ELBOW).unwrap();
    let corner = |index: usize| {
        let at = &value["features"][BOUNDARY]["geometry"]["coordinates"][0][index];
        (at[1].as_f64().unwrap(), at[0].as_f64().unwrap())
    };
    let ((lat0, lon0), (lat1, lon1)) = (corner(0), corner(4));
    let geodesic: f64 = Geodesic::wgs84().inverse(lat0, lon0, lat1, lon1);
    assert_abs_diff_eq!(geodesic, 340.0_f64.hypot(480.0), epsilon = 0.01);
}

#[test]
fn rings_are_written_the_way_round_the_standard_asks() {
    // RFC 7946, 3.1.6: exterior rings are counterclockwise and interior rings clockwise; first and last are the same.
    let mut field = elbow();
    field.boundary.ring_m.reverse();
    field.boundary.holes_m = vec![vec![[-100.0, 0.0], [-90.0, 0.0], [-90.0, 10.0]]];
    let value: Value = serde_json::from_str(&geojson_text(&field)).unwrap();
    let area = |ring: &Value| {
        let at = |i: usize| (ring[i][0].as_f64().unwrap() + 30.2, ring[i][1].as_f64().unwrap() - 44.1);
        let count = ring.as_array().unwrap().len();
        assert_eq!(ring[0], ring[count - 1]);
        (1..count).map(|i| at(i - 1).0 * at(i).1 - at(i).0 * at(i - 1).1).sum::<f64>()
    };
    let rings = &value["features"][BOUNDARY]["geometry"]["coordinates"];
    assert!(area(&rings[0]) > 0.0 && area(&rings[1]) < 0.0);
}

#[test]
fn a_file_that_is_no_field() {
    for (text, says) in [
        ("{", "breaks off"),
        ("", "the file is empty"),
        ("{\"peewit\": 1}", "this is a scenario, not a field"),
        ("[]", "not a GeoJSON FeatureCollection"),
        ("{\"type\": \"Feature\"}", "not a GeoJSON FeatureCollection"),
        ("{\"type\": \"FeatureCollection\", \"features\": []}", "no feature has the role"),
    ] {
        let found = faults(text);
        assert!(found.iter().any(|fault| fault.problem.contains(says)), "{found:?}");
    }
}

#[test]
fn features_that_are_not_known() {
    check(property(ROAD, "role", json!("ares")), "/features/2/properties/role", "Did you mean \"area\"?");
    check(property(ROAD, "role", json!(null)), "/features/2/properties", "has no role");
    check(property(ROAD, "colour", json!("red")), "/features/2/properties/colour", "not a key");
    check(property(ROAD, "nmae", json!("road")), "/features/2/properties/nmae", "Did you mean \"name\"?");
    check(property(ROAD, "rule", json!("no-flu")), "/features/2/properties/rule", "Did you mean \"no-fly\"?");
    check(property(TREES, "height", json!(18)), "/features/4/properties/height", "Length takes m, ft");
    check(property(TREES, "height", json!("-1 m")), "/features/4/properties/height", "not above the ground");
    check(property(RUNWAY, "width", json!("0 m")), "/features/5/properties/width", "0 m wide");
    check(property(HOME, "role", json!("pilot")), "/features/7", "already a feature");
    check(property(PILOT, "role", json!("centre")), "/features", "no feature has the role \"pilot\"");
    check(|value| value["features"][ROAD] = json!(7), "/features/2", "not a GeoJSON Feature");
    check(|value| value["crs"] = json!({}), "/crs", "WGS84");
}

#[test]
fn geometry_that_does_not_fit() {
    check(|value| value["features"][ROAD]["geometry"] = json!(null), "/features/2/geometry", "can't be read");
    check(|value| value["features"][ROAD]["geometry"]["type"] = json!("Blob"), "/features/2/geometry", "can't be read");
    check(coordinates(ROAD, json!([["a"]])), "/features/2/geometry", "can't be read");
    check(coordinates(ROAD, json!([])), "/features/2/geometry", "no ring");
    let point = json!({ "type": "Point", "coordinates": [-30.2, 44.1] });
    check(|value| value["features"][ROAD]["geometry"] = point.clone(), "/features/2/geometry", "can't be a Point");
    check(|value| value["features"][RUNWAY]["geometry"] = point, "/features/5/geometry", "Make it a LineString");
    let line = json!({ "type": "LineString", "coordinates": [[-30.2, 44.1], [-30.2, 44.11], [-30.21, 44.1]] });
    check(|value| value["features"][HOME]["geometry"] = line.clone(), "/features/7/geometry", "Make it a Point");
    check(|value| value["features"][TREES]["geometry"] = line.clone(), "/features/4/geometry", "Point or a Polygon");
    check(|value| value["features"][RUNWAY]["geometry"] = line, "/features/5/geometry/coordinates", "3 positions");
    let ring = [[-30.2, 44.1], [-30.201, 44.1], [-30.2, 44.101], [-30.2, 44.1]];
    check(coordinates(ROAD, json!([&ring[..3]])), "/features/2/geometry/coordinates/0", "the ring is open");
    check(coordinates(TREES, json!([ring, ring])), "/features/4/geometry", "no holes");
    let pieces = json!({ "type": "MultiPolygon", "coordinates": [[ring], [ring]] });
    check(
        |value| value["features"][ROAD]["geometry"] = pieces,
        "/features/2/geometry",
        "has 2: coordinates/0 of 3 corners, coordinates/1 of 3 corners. Keep the piece",
    );
    let (a, b, c) = ([-30.2, 44.1], [-30.199, 44.101], [-30.2, 44.101]);
    check(
        coordinates(ROAD, json!([[a, b, c, [-30.199, 44.1], a]])),
        "/features/2/geometry/coordinates/0/0",
        "meets the edge",
    );
    check(
        coordinates(ROAD, json!([[a, b, c, a], [a, b, a]])),
        "/features/2/geometry/coordinates/1",
        "2 different corners",
    );
}

#[test]
fn a_multipolygon_of_one_piece_is_a_polygon() {
    let mut value: Value = serde_json::from_str(ELBOW).unwrap();
    for feature in [BOUNDARY, ROAD] {
        let geometry = &mut value["features"][feature]["geometry"];
        *geometry = json!({ "type": "MultiPolygon", "coordinates": [geometry["coordinates"]] });
    }
    let read = GeoField::read(&value.to_string());
    assert_eq!((read.file, read.faults), (Some(elbow()), vec![]));
}

#[test]
fn positions_that_are_swapped_or_far() {
    check(coordinates(HOME, json!([44.1, -30.2])), "/features/7/geometry/coordinates", "latitude swapped");
    check(coordinates(HOME, json!([-30.2, 45.1])), "/features/7/geometry/coordinates", "111 km from the datum");
    check(coordinates(HOME, json!([44.1, -130.2])), "/features/7/geometry/coordinates", "they look swapped");
    check(coordinates(HOME, json!([400.0, 44.1])), "/features/7/geometry/coordinates", "degrees east");
    check(coordinates(HOME, json!([149.8, -44.1])), "/features/7/geometry/coordinates", "km from the datum");
    check(coordinates(HOME, json!([-30.2])), "/features/7/geometry", "two or more elements");
    check(coordinates(HOME, json!([-30.2, 44.11])), "/features/7/geometry", "home lies outside");
    check(coordinates(0, json!([-30.2, 95.0])), "/features/0/geometry/coordinates", "longitude and a latitude");
    let mut value: Value = serde_json::from_str(ELBOW).unwrap();
    value["features"][HOME]["geometry"]["coordinates"] = json!([-30.2, 44.1, 12.5]);
    let mut found = faults(&value.to_string());
    found.retain(|fault| fault.severity == Severity::Error);
    assert_eq!(found, [], "a third number is a height, and does no harm");
}

#[test]
fn longitude_and_latitude_exchanged_throughout_leave_a_trace() {
    let swap = |at: &mut Value| {
        fn exchange(value: &mut Value) {
            let Some(list) = value.as_array_mut() else { return };
            match list.as_slice() {
                [Value::Number(_), Value::Number(_)] => list.swap(0, 1),
                _ => list.iter_mut().for_each(exchange),
            }
        }
        at["features"].as_array_mut().unwrap().iter_mut().for_each(|one| exchange(&mut one["geometry"]["coordinates"]));
    };
    let mut value: Value = serde_json::from_str(ELBOW).unwrap();
    let said = |value: &Value| GeoField::read(&value.to_string()).faults;
    assert_eq!(said(&value), []);
    swap(&mut value);
    let faults = said(&value);
    assert!(
        faults.len() == 1 && faults[0].place == "/features" && faults[0].problem.contains("exchanged"),
        "{faults:?}"
    );
    // One ring the other way round is somebody's drawing, not an exchange.
    let mut value: Value = serde_json::from_str(ELBOW).unwrap();
    let boundary = value["features"].as_array_mut().unwrap().iter_mut();
    let ring = boundary.filter(|one| one["properties"]["role"] == "boundary").last().unwrap();
    ring["geometry"]["coordinates"][0].as_array_mut().unwrap().reverse();
    assert_eq!(said(&value), []);
}
