//! The field, and the path flown over it, as KML 2.2 for people who look at the Earth.
//!
//! KML knows heights above the ground below and above the sea. Nobody has measured the sea, so heights are written above
//! the ground of the scenario's own survey, which the viewer puts on the ground that it knows.

mod tree;

use glam::DVec2;
use kml::types::Element;

use self::tree::{Heights, Position, branch, document, folder, leaf, line, placemark, point, polygon};
use crate::brief::{FlownPath, samples_of, spans};
use crate::field::{Circuit, Field, Rule, Where};
use crate::geometry::{Region, ring_area_m2};
use crate::run::{Floor, Scenario};
use crate::words::cautions;
use crate::{Result, words};

/// Corners of the commanded circle as drawn.
const CORNERS: u32 = 72;
/// Said wherever a path is drawn.
const HEIGHTS: &str = "Heights are drawn above the ground below (relativeToGround): the viewer's ground, which may \
                       differ from the ground surveyed. Descriptions give heights above home.";

/// The field and the path as KML.
pub(super) fn track(flown: &FlownPath) -> Result<String> {
    let (file, field) = (&flown.scenario.file, &flown.scenario.field);
    let about = format!("{}\n{}.\n{HEIGHTS}\n{}", flown.headline, flown.stamp, cautions::ALL.join("\n"));
    let inside = vec![folder("Field", places(field)), folder("Circle", vec![circle(flown.scenario)]), path(flown)];
    document(&file.name, &about, inside)
}

/// A field as KML, with the rules that hold in its month.
///
/// # Errors
///
/// Where the library that writes it refuses.
pub fn field_kml(name: &str, field: &Field) -> Result<String> {
    document(name, &format!("A field as drawn in Peewit {}. {}", crate::VERSION, cautions::FOOT), places(field))
}

fn place(field: &Field, at: DVec2, height_m: f64) -> Position {
    let (latitude, longitude) = field.plane.to_degrees(at);
    [longitude, latitude, height_m]
}

fn places(field: &Field) -> Vec<Element> {
    let on_ground = |at: DVec2| place(field, at, 0.0);
    let spot =
        |name: &str, about: &str, at: DVec2| placemark(name, about, "line", point(on_ground(at), Heights::Ground));
    let ends = |[a, b]: [DVec2; 2]| line(&[on_ground(a), on_ground(b)], Heights::Ground);
    let boundary =
        placemark("Boundary", "Land whose overflight is allowed", "boundary", ground(field, &field.boundary));
    let areas = field.areas.iter().map(|area| {
        let rule = match area.rule {
            Rule::NoFly => "No-fly area, at any height".into(),
            Rule::Above(height_m) => format!("Area: only above {height_m:.1} m over its ground"),
            Rule::People => "People: kept off at any height".into(),
            Rule::Caution => "Caution area: seconds over it are counted".into(),
            Rule::Idle => "Area without a rule in this month".to_owned(),
        };
        let style = if area.rule == Rule::People { "people" } else { "area" };
        placemark(&area.name, &rule, style, ground(field, &area.region))
    });
    let obstacles = field.obstacles.iter().map(|obstacle| {
        let about = format!("Obstacle, top {:.1} m above the ground at the datum", obstacle.top_m);
        let shape = match obstacle.region.rings() {
            [ring] if ring.len() == 1 => point(on_ground(ring[0]), Heights::Ground),
            _ => ground(field, &obstacle.region),
        };
        placemark(&obstacle.name, &about, "obstacle", shape)
    });
    let flight_line = field.flight_line_ends.map(|line| {
        placemark("Flight line", "The jet stays on the other side of it than the pilot position", "line", ends(line))
    });
    let runway = field.runway.map(|strip| {
        let about = format!("Runway, {:.1} m wide", strip.width_m);
        placemark("Runway", &about, "line", ends([strip.from, strip.to]))
    });
    let circuit = field.circuit.as_ref().map(|flown| circuit_flown(field, flown));
    let four = [
        spot("Datum", "Origin of the metres", DVec2::ZERO),
        spot("Pilot position", "Where pilot and spotter stand", field.pilot),
        spot("Home", "What the jet took for home", field.home),
        spot("Centre", "Centre of the circle", field.centre),
    ];
    std::iter::once(boundary)
        .chain(areas)
        .chain(obstacles)
        .chain(flight_line)
        .chain(runway)
        .chain(circuit)
        .chain(four)
        .collect()
}

fn circuit_flown(field: &Field, circuit: &Circuit) -> Element {
    let ([lowest, highest], [slowest, fastest]) = (circuit.heights_m, circuit.speeds_mps);
    let about = format!("Circuit, {lowest:.0} to {highest:.0} m above home, {slowest:.0} to {fastest:.0} m/s");
    match &circuit.place {
        Where::Area(area) => placemark("Circuit", &format!("{about}, any heading"), "circuit", ground(field, area)),
        Where::Line(flown) => {
            let closed = flown.corners.iter().chain(flown.corners.first());
            let places: Vec<Position> = closed.map(|&at| place(field, at, 0.0)).collect();
            let about = format!("{about}, {}", circuit.way.name());
            placemark("Circuit", &about, "circuit", line(&places, Heights::Ground))
        }
    }
}

fn ground(field: &Field, region: &Region) -> Element {
    let rings = region.rings().iter().enumerate().map(|(index, ring)| {
        let area = ring_area_m2(ring.iter().copied());
        let mut places: Vec<Position> = ring.iter().map(|&at| place(field, at, 0.0)).collect();
        // Anticlockwise outside, clockwise inside.
        if (area > 0.0) != (index == 0) {
            places.reverse();
        }
        places.extend(places.first().copied());
        places
    });
    polygon(&rings.collect::<Vec<_>>())
}

/// A height above home as one above the ground at a place.
fn above_ground(scenario: &Scenario, at: DVec2, height_m: f64) -> Position {
    place(&scenario.field, at, height_m - Floor::of(scenario).height_m(at))
}

fn circle(scenario: &Scenario) -> Element {
    let (plan, centre) = (&scenario.file.recovery, scenario.field.centre);
    let corner = |index: u32| {
        let angle = std::f64::consts::TAU * f64::from(index % CORNERS) / f64::from(CORNERS);
        above_ground(scenario, centre + DVec2::from_angle(angle) * plan.radius.m(), plan.height.m())
    };
    let places: Vec<Position> = (0..=CORNERS).map(corner).collect();
    let about = format!(
        "Commanded circle, radius {:.1} m, {}, {:.1} m above home. The path flown is another.",
        plan.radius.m(),
        words::turn(plan.turn),
        plan.height.m()
    );
    placemark("Commanded circle", &about, "circle", line(&places, Heights::AboveGround))
}

fn path(flown: &FlownPath) -> Element {
    let since = flown.since;
    let path: Vec<_> = samples_of(flown.scenario, flown.trace).collect();
    let stretches = spans(flown.trace).into_iter().filter(|span| span.to > span.from).map(|span| {
        let part = &path[span.from..=span.to];
        let places: Vec<Position> =
            part.iter().map(|sample| above_ground(flown.scenario, sample.at, sample.height_m)).collect();
        let about = format!(
            "From {:.1} to {:.1} s after the {since}, {:.1} to {:.1} m above home",
            path[span.from].time_s, path[span.to].time_s, path[span.from].height_m, path[span.to].height_m
        );
        placemark(span.stretch.name(), &about, "path", line(&places, Heights::AboveGround))
    });
    let marks = flown.marks.iter().filter_map(|(name, index)| {
        let sample = path.get(*index)?;
        let about = format!("{:.1} s after the {since}, {:.1} m above home", sample.time_s, sample.height_m);
        let at = above_ground(flown.scenario, sample.at, sample.height_m);
        Some(placemark(&words::capital(name), &about, "path", point(at, Heights::AboveGround)))
    });
    let margins = flown.rows.iter().map(|row| {
        let at = above_ground(flown.scenario, row.at, row.height_m);
        placemark(&row.name, &words::margin(row), "line", point(at, Heights::AboveGround))
    });
    let margins = folder("Least margins", margins.collect());
    branch(
        "Folder",
        std::iter::once(leaf("name", "Path flown")).chain(stretches).chain(marks).chain([margins]).collect(),
    )
}
