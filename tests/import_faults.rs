//! Whatever a file holds, the import answers: what it leaves out with the place and the way out, and never a panic.

use peewit::error::Severity;
use peewit::field::Datum;
use peewit::field::import::{Import, shapes};
use rand::{RngExt as _, SeedableRng as _};
use rand_xoshiro::Xoshiro256PlusPlus;

const DATUM: Datum = Datum { latitude_deg: 44.0, longitude_deg: -30.0 };

const KML: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<kml xmlns="http://www.opengis.net/kml/2.2" xmlns:gx="http://www.google.com/kml/ext/2.2"><Document>
<NetworkLink><name>More</name><Link><href>http://localhost/more.kml</href></Link></NetworkLink>
<Placemark><name>Wood</name><Polygon><outerBoundaryIs><LinearRing><coordinates>
-30.001,44,12 -30.001,44.002,12 -30.003,44.002,12 -30.003,44,12 -30.001,44,12
</coordinates></LinearRing></outerBoundaryIs><innerBoundaryIs><LinearRing><coordinates>
-30.0015,44.0005 -30.0015,44.0010 -30.0020,44.0010 -30.0015,44.0005
</coordinates></LinearRing></innerBoundaryIs></Polygon></Placemark>
<Placemark><name>Mast &amp; stay</name><Point><coordinates>-30.0005,44.0001</coordinates></Point></Placemark>
<Folder><Placemark><LineString><coordinates>-30,44 -30.001,44.001</coordinates></LineString></Placemark></Folder>
</Document></kml>"#;

const GPX: &str = r#"<?xml version="1.0"?>
<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">
<wpt lat="44.001" lon="-30.001"><ele>12</ele><name>Gate</name></wpt>
<rte><rtept lat="44" lon="-30"/><rtept lat="44.001" lon="-30.002"/></rte>
<trk><name>Walk</name><trkseg><trkpt lat="44" lon="-30"/><trkpt lat="44.001" lon="-30"/></trkseg>
<trkseg><trkpt lat="44.002" lon="-30"/><trkpt lat="44.003" lon="-30"/></trkseg></trk>
</gpx>"#;

const GEOJSON: &str = include_str!("../scenarios/cotterfold-elbow.geojson");

fn read(name: &str, text: &str) -> Import {
    shapes(name, text.as_bytes(), Some(DATUM))
}

/// How many shapes come out, and where something is said, with which words.
#[track_caller]
fn check(name: &str, text: &str, count: usize, said: &[(&str, &str)]) {
    let found = read(name, text);
    assert_eq!(found.shapes.len(), count, "{:?}", found.faults);
    for (place, words) in said {
        let fits = |fault: &&peewit::error::Fault| fault.place == *place && fault.to_string().contains(words);
        let fault = found.faults.iter().find(fits);
        assert!(fault.is_some(), "nothing at {place:?} says {words:?}: {:#?}", found.faults);
    }
    let errors = found.faults.iter().filter(|fault| fault.severity == Severity::Error).count();
    assert_eq!(errors, usize::from(count == 0), "an error where nothing can be used: {:?}", found.faults);
}

/// One feature with this geometry.
fn feature(geometry: &str) -> String {
    format!(
        r#"{{"type":"FeatureCollection","features":[{{"type":"Feature","properties":{{}},"geometry":{geometry}}}]}}"#
    )
}

fn placemark(inside: &str) -> String {
    format!("<kml>\n<Placemark><name>Wood</name>{inside}</Placemark></kml>")
}

#[test]
fn what_is_left_out_or_changed_is_said() {
    check("a.kml", KML, 3, &[("NetworkLink \"More\"", "not followed"), ("", "heights in the file are not taken")]);
    let found = read("a.kml", KML);
    assert_eq!(found.shapes[0].holes_m.len(), 1, "inner boundaries are kept");
    assert_eq!(found.shapes.iter().map(|s| &*s.name).collect::<Vec<_>>(), ["Wood", "Mast & stay", "Placemark 3"]);
    check("a.gpx", GPX, 4, &[("", "heights in the file are not taken")]);
    let found = read("a.gpx", GPX);
    let names: Vec<_> = found.shapes.iter().map(|shape| &*shape.name).collect();
    assert_eq!(names, ["Gate", "Route 1", "Walk, part 1", "Walk, part 2"]);
}

#[test]
fn files_that_cant_be_used_at_all() {
    check("a.kmz", "PK\u{3}\u{4}", 0, &[("", "doc.kml")]);
    check("a.kml", "", 0, &[("", "empty")]);
    check("a.shp", "xyz", 0, &[("", "neither GeoJSON, KML nor GPX")]);
    check("a.gpx", "xyz", 0, &[("", "not XML")]);
    check("a.kml", "<svg/>", 0, &[("", "another kind, <svg>")]);
    check("a.json", "{", 0, &[("", "breaks off")]);
    check("a.json", "{}", 0, &[("", "not GeoJSON")]);
    check("a.json", r#"{"type":"FeatureCollection","features":[]}"#, 0, &[("", "no point, line or ring")]);
    check("a.kml", "<kml/>", 0, &[("", "no point, line or ring")]);
    check("a.gpx", "<gpx><trk><trkseg/></trk></gpx>", 0, &[("Track 1", "no two different places")]);
    check("a.kml", &KML[..700], 0, &[("", "breaks off before its end")]);
    check("a.gpx", "<gpx>\n<wpt></gpx>", 0, &[("", "line 2")]);
    let found = shapes("a.kml", b"<kml>\xff\xfe</kml>", None);
    assert!(found.faults[0].problem.contains("not UTF-8"), "{:?}", found.faults);
    let huge = shapes("a.kml", &vec![b' '; (32 << 20) + 1], None);
    assert!(huge.faults[0].problem.contains("more than 32 MB"));
    check("a.kml", &format!("\u{feff}{KML}"), 3, &[]);
}

#[test]
fn nothing_outside_the_text_is_read() {
    let entity =
        |declared: &str| format!("<!DOCTYPE kml [{declared}]><kml><Placemark><name>&e;</name></Placemark></kml>");
    for declared in [
        r#"<!ENTITY e SYSTEM "file:///etc/hostname">"#,
        r#"<!ENTITY e SYSTEM "http://localhost/">"#,
        r#"<!ENTITY a "xxxxxxxxxx"><!ENTITY b "&a;&a;&a;&a;"><!ENTITY e "&b;&b;&b;&b;">"#,
        r#"<!ENTITY e "&e;">"#,
    ] {
        check("a.kml", &entity(declared), 0, &[("", "DOCTYPE")]);
    }
    check("a.kml", "<kml><Placemark><name>&e;</name></Placemark></kml>", 0, &[("", "unknown entity")]);
}

#[test]
fn shapes_that_cant_be_used() {
    let point = |at: &str| feature(&format!(r#"{{"type":"Point","coordinates":{at}}}"#));
    let at = "/features/0/geometry";
    check("a.json", &point("[44.0, -130.0]"), 0, &[(at, "look swapped")]);
    check("a.json", &point("[44.0, -30.0]"), 0, &[(at, "near it with the two swapped")]);
    check("a.json", &point("[444, 0]"), 0, &[(at, "no place on the globe")]);
    check("a.json", &point("[-30, 46]"), 0, &[(at, "222 km from the datum")]);
    check("a.json", &point("[-30]"), 0, &[(at, "can't be read")]);
    check("a.json", &point("[-30, 44, 7]"), 1, &[("", "heights")]);
    check("a.json", &feature("null"), 0, &[(at, "no place")]);
    check("a.json", r#"{"type":"Point","coordinates":[-30,44]}"#, 1, &[]);
    let ring = |corners: &str| feature(&format!(r#"{{"type":"Polygon","coordinates":[[{corners}]]}}"#));
    check("a.json", &ring("[-30,44],[-30,44.001],[-30,44]"), 0, &[(at, "no ground inside")]);
    let bow = "[-30,44],[-30.001,44.001],[-30,44.001],[-30.001,44.0005],[-30,44]";
    check("a.json", &ring(bow), 1, &[(at, "meets the edge")]);

    let line =
        |coordinates: &str| placemark(&format!("<LineString><coordinates>{coordinates}</coordinates></LineString>"));
    let at = "Placemark \"Wood\"";
    check("a.kml", &line("-30, 44 -30.1, 44"), 0, &[(at, "line 2"), (at, "\"-30,\" is not longitude,latitude")]);
    check("a.kml", &line("-30,44"), 0, &[(at, "no two different places")]);
    check("a.kml", &line("-30,44 nan,44"), 0, &[(at, "no place on the globe")]);
    check("a.kml", &line("-30,44 inf,44"), 0, &[(at, "no place on the globe")]);
    check("a.kml", &line("-30,44,1,2 -30,44"), 0, &[(at, "not longitude,latitude")]);
    check("a.kml", &placemark("<Point><coordinates/></Point>"), 0, &[(at, "0 positions")]);
    check("a.kml", &placemark("<Point/>"), 0, &[(at, "0 positions")]);
    check("a.kml", &placemark("<Polygon/>"), 0, &[(at, "no outer boundary")]);
    check("a.kml", &placemark("<Model/>"), 0, &[(at, "a Model is none")]);
    check("a.kml", &placemark(""), 0, &[(at, "no place")]);
    check("a.gpx", r#"<gpx><wpt lat="44"/></gpx>"#, 0, &[("Waypoint 1", "has no lon")]);
    check("a.gpx", r#"<gpx><wpt lat="44,5" lon="1"/></gpx>"#, 0, &[("Waypoint 1", "\"44,5\" is not a number")]);
}

#[test]
fn every_fault_is_listed_at_once() {
    let bad = r#"<wpt lat="x" lon="0"/><wpt lat="44" lon="-30"/>"#.repeat(3);
    let found = read("a.gpx", &format!("<gpx>{bad}</gpx>"));
    let places: Vec<_> = found.faults.iter().map(|fault| &*fault.place).collect();
    assert_eq!((found.shapes.len(), places), (3, vec!["Waypoint 1", "Waypoint 3", "Waypoint 5"]));
}

#[test]
fn large_and_deep_files_are_answered() {
    let many = read("a.gpx", &format!("<gpx>{}</gpx>", r#"<wpt lat="44" lon="-30"/>"#.repeat(50_000)));
    assert!(many.shapes.len() == 1000 && many.faults.len() == 1, "{}", many.faults.len());
    let many = read("a.gpx", &format!("<gpx>{}</gpx>", r#"<wpt lat="x" lon="-30"/>"#.repeat(50_000)));
    assert!(many.faults.len() < 1100);
    let deep = read("a.kml", &format!("<kml>{}{}</kml>", "<Folder>".repeat(50_000), "</Folder>".repeat(50_000)));
    assert!(deep.shapes.is_empty());
    let deep = read("a.json", &format!("{}{}", "[".repeat(50_000), "]".repeat(50_000)));
    assert!(deep.shapes.is_empty());
    let points = |count: usize, far: f64| {
        // A spiral, of which the thinning can never take much at once.
        let point = |i: usize| {
            let (sin, cos) = (i as f64 * 0.05).sin_cos();
            let out = far * i as f64 / count as f64;
            format!(r#"<trkpt lat="{}" lon="{}"/>"#, 44.0 + sin * out, -30.0 + cos * out)
        };
        format!("<gpx><trk><trkseg>{}</trkseg></trk></gpx>", (0..count).map(point).collect::<String>())
    };
    assert_eq!(read("a.gpx", &points(100_000, 0.1)).shapes.len(), 1);
    let over = read("a.gpx", &points(200_001, 0.1));
    assert!(over.faults.iter().any(|fault| fault.problem.contains("more than 200000 positions")));
}

#[test]
fn damaged_files_are_answered() {
    let mut random = Xoshiro256PlusPlus::seed_from_u64(20_260_521);
    let (mut used, mut refused) = (0, 0);
    for round in 0..3000 {
        let (name, text) = [("a.kml", KML), ("a.gpx", GPX), ("a.geojson", GEOJSON)][round % 3];
        let mut bytes = text.as_bytes().to_vec();
        for _ in 0..random.random_range(1..5) {
            let at = random.random_range(0..bytes.len().max(2) - 1);
            match random.random_range(0..7) {
                0 => bytes[at] ^= 1 << random.random_range(0..8),
                1 => drop(bytes.remove(at)),
                2 => bytes.insert(at, bytes[at]),
                3 => bytes[at] = b"<>/\"&;=,. 0e-"[random.random_range(0..13)],
                4 => bytes.truncate(at.max(1)),
                5 => drop(bytes.splice(at..at, *b"1e308")),
                _ => bytes[at] = random.random_range(0..=255),
            }
        }
        let datum = [None, Some(DATUM)][random.random_range(0..2)];
        let found = shapes(name, &bytes, datum);
        let errors = found.faults.iter().filter(|fault| fault.severity == Severity::Error).count();
        assert_eq!(errors > 0, found.shapes.is_empty(), "{:?}", found.faults);
        assert!(found.faults.iter().all(|fault| !fault.problem.is_empty() && !fault.way_out.is_empty()));
        assert!(found.shapes.iter().flat_map(|shape| &shape.points_m).flatten().all(|metres| metres.is_finite()));
        used += usize::from(errors == 0);
        refused += errors;
    }
    assert!(used > 100 && refused > 100, "{used} used, {refused} refused");
}
