//! The path written in each open format and read back by that format's own library is the path that was flown.

use std::str::FromStr as _;

use peewit::brief::{Recovery, samples};
use peewit::field::RuleName;
use peewit::field::import::{Role, log};
use peewit::margins::{judge, judge_track};
use peewit::report::Format;
use peewit::run::{Run, Track, WindChoice, fly};

/// Degrees; a tenth of a microdegree is about a centimetre.
const TOLERANCE: f64 = 1e-7;

/// What a format must give back: seconds, latitude, longitude, height.
type Point = [f64; 4];

fn with_demo(check: impl FnOnce(&Recovery, &[Point])) {
    let scenario = crate::support::tight_strip();
    let run: Run = fly(&scenario, 0, WindChoice::Mean);
    let margins = judge(&scenario, &run);
    let recovery = Recovery {
        scenario: &scenario,
        run: &run,
        wind: WindChoice::Mean,
        margins: &margins,
        trials: None,
        remedy: None,
        warnings: &[],
        changes: &[],
    };
    let flown: Vec<Point> =
        samples(&recovery).map(|s| [s.time_s, s.latitude_deg, s.longitude_deg, s.height_m]).collect();
    assert!(flown.len() > 100);
    let travelled = flown.iter().map(|point| point[1]).fold(f64::MIN, f64::max) - flown[0][1];
    assert!(travelled.abs() > 100.0 * TOLERANCE, "a path that goes nowhere compares equal to anything");
    check(&recovery, &flown);
}

#[track_caller]
fn same(read: &[Point], flown: &[Point]) {
    assert_eq!(read.len(), flown.len());
    for (read, flown) in read.iter().zip(flown) {
        let near = |part: usize, tolerance: f64| (read[part] - flown[part]).abs() <= tolerance;
        assert!(near(0, 1e-3) && near(1, TOLERANCE) && near(2, TOLERANCE) && near(3, 1e-3), "{read:?} {flown:?}");
    }
}

#[test]
fn csv_comes_back() {
    with_demo(|recovery, flown| {
        let text = String::from_utf8(recovery.render(Format::Csv).unwrap()).unwrap();
        assert_eq!(text.matches("\r\n").count(), flown.len() + 1, "RFC 4180 ends lines with CR LF");
        let mut table = csv::Reader::from_reader(text.as_bytes());
        let heads = table.headers().unwrap().clone();
        let column = |name: &str| heads.iter().position(|head| head == name).unwrap();
        let columns = ["time_s", "latitude_deg", "longitude_deg", "height_m"].map(column);
        let rows = table.records().map(|row| {
            let row = row.unwrap();
            columns.map(|column| row[column].parse().unwrap())
        });
        same(&rows.collect::<Vec<Point>>(), flown);
    });
}

#[test]
fn the_log_reader_takes_the_table_and_the_gpx_for_the_flight_they_are_of() {
    with_demo(|recovery, flown| {
        let run = recovery.run.track();
        for (name, format) in [("path.csv", Format::Csv), ("path.gpx", Format::Gpx)] {
            let read = peewit::log::read(name, &recovery.render(format).unwrap(), recovery.scenario, None).unwrap();
            let track = read.track;
            assert_eq!(track.time_s().len(), flown.len(), "{name}: {:#?}", read.repairs);
            // Milliseconds, tenths of a microdegree and millimetres are what the formats are written to.
            for (index, place) in run.place().iter().enumerate() {
                assert!((track.time_s()[index] - run.time_s()[index]).abs() < 1e-3, "{name}, sample {index}");
                assert!(track.place()[index].distance(*place) < 0.02, "{name}, sample {index}");
            }
            if format == Format::Csv {
                let near = |read: &Option<Vec<f64>>, flown: &Option<Vec<f64>>, tolerance: f64| {
                    let pairs = read.as_ref().unwrap().iter().zip(flown.as_ref().unwrap());
                    pairs.into_iter().all(|(read, flown)| (read - flown).abs() <= tolerance)
                };
                let (read, flown) = (track.channels(), run.channels());
                assert!(near(&read.airspeed_mps, &flown.airspeed_mps, 1e-3));
                assert!(near(&read.bank_rad, &flown.bank_rad, 1e-4));
                assert!(near(&read.energy_left_j, &flown.energy_left_j, 0.1));
                assert_eq!(read.stretch, flown.stretch);
                assert!(track.height_m().iter().zip(run.height_m()).all(|(read, flown)| (read - flown).abs() < 1e-3));
            }
        }
    });
}

#[test]
fn gpx_comes_back_with_its_times() {
    with_demo(|recovery, flown| {
        let gpx = gpx::read(recovery.render(Format::Gpx).unwrap().as_slice()).unwrap();
        assert_eq!(gpx.version, gpx::GpxVersion::Gpx11);
        assert_eq!(gpx.waypoints.len(), recovery.margins.rows.len());
        let points = &gpx.tracks[0].segments[0].points;
        let time = |point: &gpx::Waypoint| time::OffsetDateTime::from(point.time.unwrap());
        assert_eq!(time(&points[0]).to_string(), format!("{} 12:00:00.0 +00:00:00", recovery.scenario.file.date));
        let read = points.iter().map(|point| {
            let place = point.point();
            [(time(point) - time(&points[0])).as_seconds_f64(), place.y(), place.x(), point.elevation.unwrap()]
        });
        same(&read.collect::<Vec<Point>>(), flown);
    });
}

#[test]
fn gpx_comes_back_as_the_log_of_a_flight_that_is_judged_alike() {
    with_demo(|recovery, flown| {
        let scenario = recovery.scenario;
        let datum = scenario.file.field.as_ref().unwrap().datum;
        let log = log(&recovery.render(Format::Gpx).unwrap(), datum).unwrap();
        assert_eq!(log.began.to_string(), format!("{} 12:00:00.0 +00:00:00", scenario.file.date));
        let read = log.time_s.iter().zip(&log.place).zip(&log.above_sea_m).map(|((time_s, place), height_m)| {
            let (latitude, longitude) = scenario.field.plane.to_degrees(*place);
            [*time_s, latitude, longitude, *height_m]
        });
        same(&read.collect::<Vec<Point>>(), flown);
        // Its heights are above home already.
        let judged = judge_track(scenario, &Track::logged(log, 0.0).unwrap());
        for row in &judged.rows {
            let expected = recovery.margins.rows.iter().find(|expected| expected.limit == row.limit).unwrap();
            assert!((row.margin - expected.margin).abs() < 0.02, "{row:?} {expected:?}");
            assert_eq!(row.verdict, expected.verdict, "{}", row.name);
        }
        assert!(judged.rows.len() >= 6, "{:?}", judged.rows);
    });
}

#[test]
fn geojson_comes_back_stretch_by_stretch() {
    with_demo(|recovery, flown| {
        let text = String::from_utf8(recovery.render(Format::GeoJson).unwrap()).unwrap();
        let collection = geojson::FeatureCollection::try_from(geojson::GeoJson::from_str(&text).unwrap()).unwrap();
        let mut read: Vec<Point> = Vec::new();
        let mut margins = 0;
        for feature in &collection.features {
            let properties = feature.properties.as_ref().unwrap();
            margins += usize::from(properties["role"] == "margin");
            let geojson::GeometryValue::LineString { coordinates } = &feature.geometry.as_ref().unwrap().value else {
                continue;
            };
            let heights = properties["height_above_home_m"].as_array().unwrap();
            assert_eq!(heights.len(), coordinates.len());
            assert!(coordinates.len() >= 2, "RFC 7946, 3.1.4: two or more positions");
            // Each stretch begins where the one before ended.
            read.pop();
            for (position, height) in coordinates.iter().zip(heights) {
                let time = recovery.run.trace.time_s(read.len());
                read.push([time, position[1], position[0], height.as_f64().unwrap()]);
            }
        }
        assert_eq!(margins, recovery.margins.rows.len());
        same(&read, flown);
    });
}

/// Every placemark, however deep.
fn placemarks(kml: &kml::Kml, found: &mut Vec<kml::types::Placemark>) {
    let inside = match kml {
        kml::Kml::KmlDocument(document) => &document.elements,
        kml::Kml::Document { elements, .. } => elements,
        kml::Kml::Folder(folder) => &folder.elements,
        kml::Kml::Placemark(placemark) => {
            found.push(placemark.clone());
            return;
        }
        _ => return,
    };
    inside.iter().for_each(|inner| placemarks(inner, found));
}

#[test]
fn kml_comes_back_stretch_by_stretch_with_the_field() {
    use kml::types::{AltitudeMode, Geometry};
    with_demo(|recovery, flown| {
        let text = String::from_utf8(recovery.render(Format::Kml).unwrap()).unwrap();
        let file = text.parse::<kml::Kml>().unwrap();
        let kml::Kml::KmlDocument(document) = &file else { panic!("no document") };
        assert_eq!(document.version, kml::KmlVersion::V22);
        let mut found = Vec::new();
        placemarks(&file, &mut found);
        let field = &recovery.scenario.field;
        let mut read: Vec<Point> = Vec::new();
        let (mut polygons, mut circles) = (0, 0);
        for placemark in &found {
            match placemark.geometry.as_ref().unwrap() {
                Geometry::LineString(line) if line.altitude_mode == AltitudeMode::RelativeToGround => {
                    if placemark.name.as_deref() == Some("Commanded circle") {
                        circles += 1;
                        for at in &line.coords {
                            let off = field.plane.to_metres(at.y, at.x).distance(field.centre);
                            assert!((off - recovery.scenario.file.recovery.radius.m()).abs() < 1e-3, "{off}");
                        }
                        continue;
                    }
                    // Each stretch begins where the one before ended.
                    read.pop();
                    for at in &line.coords {
                        let place = field.plane.to_metres(at.y, at.x);
                        let height = at.z.unwrap() + peewit::run::Floor::of(recovery.scenario).height_m(place);
                        read.push([recovery.run.trace.time_s(read.len()), at.y, at.x, height]);
                    }
                }
                Geometry::Polygon(polygon) => {
                    polygons += 1;
                    let ring: Vec<_> =
                        polygon.outer.coords.iter().map(|at| field.plane.to_metres(at.y, at.x)).collect();
                    assert_eq!(ring.first(), ring.last());
                    let area: f64 = ring.windows(2).map(|pair| pair[0].perp_dot(pair[1])).sum();
                    assert!(area > 0.0, "anticlockwise outside");
                }
                _ => {}
            }
        }
        let rings = field.obstacles.iter().filter(|obstacle| obstacle.region.rings()[0].len() > 1).count();
        assert_eq!((circles, polygons), (1, 1 + field.areas.len() + rings));
        for name in ["Datum", "Pilot position", "Home", "Centre", "Loss", "End"] {
            assert!(found.iter().any(|placemark| placemark.name.as_deref() == Some(name)), "{name}");
        }
        assert!(recovery.margins.rows.iter().all(|row| found.iter().any(|mark| mark.name.as_ref() == Some(&row.name))));
        assert!(text.contains("relativeToGround") && text.contains(peewit::words::cautions::ALL[2]));
        same(&read, flown);
    });
}

#[test]
fn a_field_as_kml_is_a_field_again() {
    let mut file = crate::support::tight_strip().file.field.unwrap();
    let odd = "Wood & <b>\"meadow\"</b>";
    file.areas[0].name = odd.into();
    file.areas[1].rule = RuleName::People;
    file.boundary.holes_m = vec![
        vec![[-20.0, -20.0], [-10.0, -20.0], [-10.0, -10.0]],
        vec![[20.0, 20.0], [30.0, 20.0], [30.0, 30.0], [20.0, 30.0]],
    ];
    let (field, faults) = peewit::field::Field::build(&file, "", peewit::field::Month::May);
    let text = peewit::report::field_kml("Our field", &field.unwrap_or_else(|| panic!("{faults:?}"))).unwrap();
    let found = peewit::field::import::shapes("field.kml", text.as_bytes(), Some(file.datum));
    let shape = |name: &str| found.shapes.iter().find(|shape| shape.name == name).unwrap();
    let same = |found: &[[f64; 2]], wanted: &[[f64; 2]]| {
        let near = |at: &[f64; 2]| wanted.iter().any(|w| (at[0] - w[0]).hypot(at[1] - w[1]) < 1e-3);
        assert!(found.len() == wanted.len() && found.iter().all(near), "{found:?} {wanted:?}");
    };
    same(&shape("Boundary").points_m, &file.boundary.ring_m);
    assert_eq!(shape("Boundary").holes_m.len(), 2);
    shape("Boundary").holes_m.iter().zip(&file.boundary.holes_m).for_each(|(found, wanted)| same(found, wanted));
    same(&shape(odd).points_m, &file.areas[0].ring_m);
    // The name says who is there, and the file how it is drawn.
    assert_eq!(shape("pits and cars").role, Some(Role::Area(RuleName::People)));
    assert!(text.contains("#people"), "{text}");
    same(&shape("Home").points_m, &[file.home_m]);
}
