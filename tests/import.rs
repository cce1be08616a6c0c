//! Shapes written by the formats' own libraries come in where the geodesic says they are, as what they are.

use geographiclib_rs::{DirectGeodesic as _, Geodesic};
use peewit::error::Severity;
use peewit::field::import::{Form, Import, Role, place, shapes};
use peewit::field::{Datum, GeoField, RuleName, geojson_text};

const DATUM: Datum = Datum { latitude_deg: 44.0, longitude_deg: -30.0 };

/// Longitude and latitude so far from the datum in that direction, by another implementation.
fn degrees(datum: Datum, azimuth: f64, distance: f64) -> [f64; 2] {
    let (latitude, longitude): (f64, f64) =
        Geodesic::wgs84().direct(datum.latitude_deg, datum.longitude_deg, azimuth, distance);
    [longitude, latitude]
}

fn metres(azimuth: f64, distance: f64) -> [f64; 2] {
    let (sin, cos) = azimuth.to_radians().sin_cos();
    [sin * distance, cos * distance]
}

fn gpx_of(routes: &[Vec<[f64; 2]>], waypoint: [f64; 2]) -> Vec<u8> {
    let point = |[longitude, latitude]: [f64; 2]| gpx::Waypoint::new(geo::Point::new(longitude, latitude));
    let routes = routes.iter().map(|route| {
        let points = route.iter().copied().map(point).collect();
        gpx::Route { name: Some("Edge & hedge".into()), points, ..gpx::Route::default() }
    });
    let mut peg = point(waypoint);
    peg.name = Some("Peg".into());
    let version = gpx::GpxVersion::Gpx11;
    let file = gpx::Gpx { version, routes: routes.collect(), waypoints: vec![peg], ..gpx::Gpx::default() };
    let mut bytes = Vec::new();
    gpx::write(&file, &mut bytes).unwrap();
    bytes
}

fn kml_of(ring: &[[f64; 2]], hole: &[[f64; 2]], point: [f64; 2]) -> Vec<u8> {
    use kml::types::{Coord, Geometry, LinearRing, Placemark, Point, Polygon};
    let coord = |at: &[f64; 2]| Coord::new(at[0], at[1], None);
    let closed = |ring: &[[f64; 2]]| LinearRing::from(ring.iter().chain(&ring[..1]).map(coord).collect::<Vec<_>>());
    let placemark = |name: &str, geometry| {
        kml::Kml::Placemark(Placemark { name: Some(name.into()), geometry: Some(geometry), ..Placemark::default() })
    };
    let elements = vec![
        placemark("Edge & hedge", Geometry::Polygon(Polygon::new(closed(ring), vec![closed(hole)]))),
        placemark("Peg", Geometry::Point(Point::from(coord(&point)))),
    ];
    let file = kml::Kml::KmlDocument(kml::KmlDocument { elements, ..kml::KmlDocument::default() });
    let mut bytes = Vec::new();
    kml::KmlWriter::from_writer(&mut bytes).write(&file).unwrap();
    bytes
}

fn geojson_of(ring: &[[f64; 2]], hole: &[[f64; 2]], point: [f64; 2]) -> Vec<u8> {
    use geojson::{Feature, FeatureCollection, GeometryValue};
    let closed = |ring: &[[f64; 2]]| ring.iter().chain(&ring[..1]).copied().collect::<Vec<_>>();
    let feature = |name: &str, geometry: GeometryValue| {
        let mut feature = Feature::from(geometry);
        feature.set_property("name", name);
        feature
    };
    let features = vec![
        feature("Edge & hedge", GeometryValue::new_polygon([closed(ring), closed(hole)])),
        feature("Peg", GeometryValue::new_point(point)),
    ];
    FeatureCollection { bbox: None, features, foreign_members: None }.to_string().into_bytes()
}

#[track_caller]
fn near(found: &[[f64; 2]], wanted: &[[f64; 2]]) {
    assert_eq!(found.len(), wanted.len());
    for (found, wanted) in found.iter().zip(wanted) {
        let off = (found[0] - wanted[0]).hypot(found[1] - wanted[1]);
        assert!(off < 0.1, "{found:?} is {off} m from {wanted:?}");
    }
}

/// A ring anticlockwise at 3 km, a hole and a peg inside, in every format and at several places.
#[test]
fn places_are_those_of_the_geodesic_to_a_decimetre_over_three_kilometres() {
    // Clockwise in the file: azimuths grow clockwise.
    let (ring, hole) = ([10.0, 100.0, 190.0, 280.0], [0.0, 120.0, 240.0]);
    let anticlockwise = [10.0, 280.0, 190.0, 100.0].map(|azimuth| metres(azimuth, 3000.0));
    for datum in [DATUM, Datum { latitude_deg: -67.0, longitude_deg: 179.99 }] {
        let at = |azimuths: &[f64], far: f64| azimuths.iter().map(|&a| degrees(datum, a, far)).collect::<Vec<_>>();
        let (ring, hole, peg) = (at(&ring, 3000.0), at(&hole, 500.0), degrees(datum, 77.0, 40.0));
        let closed = ring.iter().chain(&ring[..1]).copied().collect();
        for (name, bytes) in [
            ("a.kml", kml_of(&ring, &hole, peg)),
            ("a.GEOJSON", geojson_of(&ring, &hole, peg)),
            ("a.json", geojson_of(&ring, &hole, peg)),
            ("a", kml_of(&ring, &hole, peg)),
            ("a.gpx", gpx_of(&[closed], peg)),
        ] {
            let Import { datum: about, shapes, faults } = shapes(name, &bytes, Some(datum));
            assert_eq!((about, shapes.len()), (datum, 2), "{name}: {faults:?}");
            let [edge, peg] = ["Edge & hedge", "Peg"].map(|name| shapes.iter().find(|s| s.name == name).unwrap());
            assert_eq!((edge.form, peg.form), (Form::Ring, Form::Point), "{name}");
            near(&edge.points_m, &anticlockwise);
            near(&peg.points_m, &[metres(77.0, 40.0)]);
            if name != "a.gpx" {
                // Clockwise already, as holes are.
                near(&edge.holes_m[0], &[0.0, 120.0, 240.0].map(|azimuth| metres(azimuth, 500.0)));
            }
            assert!(faults.iter().all(|fault| fault.severity == Severity::Warning), "{name}: {faults:?}");
        }
    }
}

#[test]
fn without_a_datum_the_middle_of_everything_is_one() {
    let corner = |lon: f64, lat: f64| format!("{},{}", -30.0 + lon, 44.0 + lat);
    let ring = [corner(-0.01, -0.02), corner(0.01, -0.02), corner(0.0, 0.02)].join(" ");
    let stray = "<Placemark><Point><coordinates>12,51</coordinates></Point></Placemark>";
    let ring = format!(
        "<Placemark><Polygon><outerBoundaryIs><LinearRing><coordinates>{ring}</coordinates></LinearRing>\
         </outerBoundaryIs></Polygon></Placemark>"
    );
    let found = shapes("a.kml", format!("<kml>{ring}</kml>").as_bytes(), None);
    assert_eq!((found.datum, found.shapes.len()), (DATUM, 1));
    let found = shapes("a.kml", format!("<kml>{stray}{ring}</kml>").as_bytes(), None);
    assert_eq!((found.datum, found.shapes.len()), (DATUM, 1), "a stray point far off does not move it");
    assert!(found.faults[0].problem.contains("km from the datum"), "{:?}", found.faults);
}

#[test]
fn a_field_of_our_own_comes_back_part_by_part() {
    let text = include_str!("../scenarios/cotterfold-elbow.geojson");
    let wanted = GeoField::read(text).file.unwrap();
    let found = shapes("elbow.geojson", text.as_bytes(), None);
    assert_eq!(found.datum, wanted.datum);
    let mut field = wanted.clone();
    (field.areas, field.obstacles, field.pilot_m) = (vec![], vec![], [1.0, 1.0]);
    field.boundary.ring_m = vec![];
    for shape in &found.shapes {
        place(&mut field, shape, shape.role.expect("every feature has one")).unwrap();
    }
    let same = |a: &[[f64; 2]], b: &[[f64; 2]]| a.len() == b.len() && b.iter().all(|at| a.contains(at));
    assert!(same(&field.boundary.ring_m, &wanted.boundary.ring_m));
    assert_eq!(field.areas.len(), wanted.areas.len());
    for (found, wanted) in field.areas.iter().zip(&wanted.areas) {
        assert_eq!((&found.name, found.rule), (&wanted.name, wanted.rule));
        assert_eq!(found.height.is_some(), found.rule == RuleName::Above);
        assert!(same(&found.ring_m, &wanted.ring_m));
    }
    for (found, wanted) in field.obstacles.iter().zip(&wanted.obstacles) {
        assert_eq!((&found.name, found.height, found.at_m), (&wanted.name, wanted.height, wanted.at_m));
    }
    assert_eq!((field.pilot_m, field.home_m, field.centre_m), (wanted.pilot_m, wanted.home_m, wanted.centre_m));
    assert_eq!(field.flight_line_m, wanted.flight_line_m);
    assert!(GeoField::read(&geojson_text(&field)).faults.is_empty());
}

fn track(points: impl Iterator<Item = [f64; 2]>) -> Vec<u8> {
    let points = points.map(|[longitude, latitude]| format!("<trkpt lat=\"{latitude}\" lon=\"{longitude}\"/>"));
    format!("<gpx><trk><name>Walk</name><trkseg>{}</trkseg></trk></gpx>", points.collect::<String>()).into_bytes()
}

/// A walk round a circle of 200 m, a step of some 40 cm at a time.
#[test]
fn a_long_walk_round_a_field_is_a_thin_ring_within_half_a_metre() {
    let walk = (0..=3140).map(|i| degrees(DATUM, 0.114 * f64::from(i), 200.0));
    let found = shapes("walk.gpx", &track(walk), Some(DATUM));
    let [shape] = found.shapes.as_slice() else { panic!("{:?}", found.faults) };
    assert_eq!((shape.form, &*shape.name, shape.role), (Form::Ring, "Walk", None));
    assert!((20..400).contains(&shape.points_m.len()), "{}", shape.points_m.len());
    let said = |words: &str| found.faults.iter().any(|fault| fault.problem.contains(words));
    assert!(said("thinned out") && said("taken as a ring"), "{:?}", found.faults);
    let next = shape.points_m.iter().cycle().skip(1);
    for (a, b) in shape.points_m.iter().zip(next) {
        // The chord of a circle is furthest from it at its middle.
        let middle = f64::midpoint(a[0], b[0]).hypot(f64::midpoint(a[1], b[1]));
        assert!((199.4..200.1).contains(&middle), "{middle}");
    }
    let line = shape.opened().unwrap();
    assert!(Role::FlightLine.fits(line.form) && line.closed().unwrap().points_m == shape.points_m);
}

#[test]
fn a_walk_along_a_strip_stays_a_line() {
    let walk = (0..200).map(|i| degrees(DATUM, 90.0, f64::from(i)));
    let found = shapes("walk.gpx", &track(walk), Some(DATUM));
    assert_eq!((found.shapes[0].form, found.faults.len()), (Form::Line, 0));
}

#[test]
fn a_field_across_the_date_line_is_whole() {
    let corners = [[179.999, -17.0], [-179.999, -17.0], [-179.999, -16.998], [179.999, -16.998]];
    let found = shapes("a.geojson", &geojson_of(&corners, &corners[..3], [179.9995, -16.999]), None);
    assert_eq!(found.datum, Datum { latitude_deg: -16.999, longitude_deg: -180.0 });
    assert!(found.shapes[0].points_m.iter().all(|at| at[0].abs() < 110.0 && at[0].abs() > 100.0));
    assert!(found.faults.iter().any(|fault| fault.problem.contains("180 degrees")));
}
