//! Everything wrong with a field, each with its place.

mod circuit;
mod spots;

use std::collections::HashMap;

use geo::{Distance as _, Euclidean, Intersects as _, Polygon};

use super::corners::{point, region};
use super::rings::{polygon, position, ring};
use super::size;
use super::{AreaFile, Datum, FieldFile, Metres, ObstacleFile, RuleName};
use crate::error::Fault;
use crate::error::json::join;
use crate::geometry::HalfPlane;
use crate::units::{Angle, Length, typed};

/// Highest latitude at which east and north still mean something over a field, degrees.
const HIGHEST_LATITUDE: f64 = 85.0;
/// Latitude of the polar circles, degrees: few fly beyond.
const POLAR_CIRCLE: f64 = 66.56;
/// Largest magnetic declination, degrees: near the magnetic poles, beyond which nobody flies by a compass. Judgement.
const MOST_DECLINATION_DEG: f64 = 60.0;
/// Ground this near outside the boundary is worth naming, metres.
const NEIGHBOURHOOD: f64 = 300.0;
/// Most corners and other things of a whole field.
const MOST_CORNERS: usize = 20_000;
/// Most areas, and most obstacles: every flight of a study is held against each of them, and nobody tells more apart on a map.
const MOST_THINGS: usize = 500;
/// Highest obstacle, metres: no building and no mast is higher (value from memory: 828 m).
const HIGHEST_OBSTACLE_M: f64 = 1000.0;
/// Highest height that an area may ask for, metres: nobody sees a jet higher up (judgement).
const HIGHEST_AREA_M: f64 = 3000.0;
/// Widest runway, metres: no airfield has one half as wide (judgement).
const WIDEST_RUNWAY_M: f64 = 500.0;
/// As many pairs of corners may be compared to tell how far an area is from the boundary; with more it is not told.
const MOST_PAIRS: usize = 1_000_000;

pub(super) fn check(file: &FieldFile, place: &str) -> Vec<Fault> {
    let mut faults = Vec::new();
    datum(file.datum, &join(place, "datum"), &mut faults);
    if too_many_corners(file, place, &mut faults) {
        return faults;
    }
    let boundary_place = join(place, "boundary");
    let ring = (file.boundary.ring_m.as_slice(), &*join(&boundary_place, "ring_m"));
    let holes = (file.boundary.holes_m.as_slice(), &*join(&boundary_place, "holes_m"));
    let boundary = match size::other_unit(ring.0, file.datum, ring.1) {
        // What else is wrong with its size or shape follows from that.
        Some(fault) => {
            faults.push(fault);
            None
        }
        None => polygon(ring, holes, &mut faults),
    };
    if let Some(boundary) = &boundary {
        size::check(boundary, &boundary_place, &mut faults);
    }
    for (index, area) in file.areas.iter().enumerate() {
        let place = format!("{place}/areas/{index}");
        self::area(area, boundary.as_ref(), &place, &mut faults);
    }
    for (index, obstacle) in file.obstacles.iter().enumerate() {
        self::obstacle(obstacle, &format!("{place}/obstacles/{index}"), &mut faults);
    }
    names("area", "areas", file.areas.iter().map(|area| &*area.name), place, &mut faults);
    names("obstacle", "obstacles", file.obstacles.iter().map(|obstacle| &*obstacle.name), place, &mut faults);
    points(file, boundary.is_some(), place, &mut faults);
    lines(file, place, &mut faults);
    if let Some(flown) = &file.circuit {
        circuit::check(flown, file, boundary.is_some(), &join(place, "circuit"), &mut faults);
    }
    declination(file.magnetic_declination, &join(place, "magnetic_declination"), &mut faults);
    spots::check(&file.ground, &join(place, "ground"), &mut faults);
    people(file, place, &mut faults);
    faults
}

fn declination(declination: Option<Angle>, place: &str, faults: &mut Vec<Fault>) {
    let most = MOST_DECLINATION_DEG.to_radians();
    if let Some(wrong) = declination.filter(|angle| !(-most..=most).contains(&angle.rad())) {
        let problem = format!("{wrong} is no magnetic declination of a place where people fly");
        let way_out =
            format!("Write degrees between -{MOST_DECLINATION_DEG} and {MOST_DECLINATION_DEG}; east is positive");
        faults.push(Fault::error(place, problem, way_out));
    }
}

fn datum(datum: Datum, place: &str, faults: &mut Vec<Fault>) {
    let Datum { latitude_deg: latitude, longitude_deg: longitude } = datum;
    let swapped = latitude.abs() > 90.0 && latitude.abs() <= 180.0 && longitude.abs() <= 90.0;
    if swapped {
        let problem = format!("latitude {} and longitude {} look swapped", typed(latitude), typed(longitude));
        faults.push(Fault::error(place, problem, "Latitude runs from -90 to 90; exchange the two"));
        return;
    }
    if !(-HIGHEST_LATITUDE..=HIGHEST_LATITUDE).contains(&latitude) {
        let problem = format!("latitude {} is out of range", typed(latitude));
        let way_out = format!("Write degrees north, between -{HIGHEST_LATITUDE} and {HIGHEST_LATITUDE}");
        faults.push(Fault::error(join(place, "latitude_deg"), problem, way_out));
    }
    if (POLAR_CIRCLE..=HIGHEST_LATITUDE).contains(&latitude.abs()) {
        let problem = format!(
            "latitude {} lies beyond the polar circle; it may be exchanged with the longitude",
            typed(latitude)
        );
        let way_out = format!("Exchange the two if the field is at {} degrees north", typed(longitude));
        faults.push(Fault::warning(join(place, "latitude_deg"), problem, way_out));
    }
    if !(-180.0..=180.0).contains(&longitude) {
        let problem = format!("longitude {} is out of range", typed(longitude));
        let way_out = "Write degrees east, between -180 and 180; west is negative";
        faults.push(Fault::error(join(place, "longitude_deg"), problem, way_out));
    }
}

fn too_many_corners(file: &FieldFile, place: &str, faults: &mut Vec<Fault>) -> bool {
    let holes = file.boundary.holes_m.iter().chain(file.areas.iter().flat_map(|area| &area.holes_m));
    let rings = file.areas.iter().map(|area| &area.ring_m).chain(file.obstacles.iter().map(|o| &o.ring_m));
    let corners: usize = holes.chain(rings).chain([&file.boundary.ring_m]).map(Vec::len).sum();
    let flown = file.circuit.as_ref().map_or(0, |circuit| circuit.line_m.len() + circuit.area_m.len());
    let count = corners + flown + file.ground.len() + file.areas.len() + file.obstacles.len();
    let mut many = false;
    for (what, things, way_out) in [
        ("areas", file.areas.len(), "Join those that lie side by side under one rule"),
        ("obstacles", file.obstacles.len(), "Draw trees that stand together as one ring, a wood"),
    ] {
        if things > MOST_THINGS {
            let problem = format!("{things} {what} are more than {MOST_THINGS}");
            faults.push(Fault::error(join(place, what), problem, way_out));
            many = true;
        }
    }
    if count > MOST_CORNERS {
        let problem = format!("the field has {count} corners, spot heights and other things, more than {MOST_CORNERS}");
        faults.push(Fault::error(place, problem, "Thin the rings out; a corner every few metres is plenty"));
    }
    many || count > MOST_CORNERS
}

fn area(area: &AreaFile, boundary: Option<&Polygon>, place: &str, faults: &mut Vec<Fault>) {
    let ring = (area.ring_m.as_slice(), &*join(place, "ring_m"));
    let holes = (area.holes_m.as_slice(), &*join(place, "holes_m"));
    let found = polygon(ring, holes, faults);
    if let (Some(boundary), Some(found)) = (boundary, found)
        && boundary.exterior().0.len() * found.exterior().0.len() <= MOST_PAIRS
        && !boundary.intersects(&found)
        && Euclidean.distance(boundary, &found) > NEIGHBOURHOOD
    {
        let problem = format!("area \"{}\" lies wholly outside the boundary, far from it", area.name);
        faults.push(Fault::warning(place, problem, "Check its corners; they may have a wrong sign"));
    }
    let above = area.rule == RuleName::Above || area.otherwise == Some(RuleName::Above);
    match area.height {
        None if above => {
            let problem = "the rule `above` has no height";
            faults.push(Fault::error(place, problem, "Add \"height\": the height that must be kept, such as \"60 m\""));
        }
        Some(height) if above => positive(height, HIGHEST_AREA_M, &join(place, "height"), faults),
        Some(_) => {
            let problem = "the height has no meaning with this rule";
            let way_out = "Leave it out, or make the rule \"above\"";
            faults.push(Fault::warning(join(place, "height"), problem, way_out));
        }
        None => {}
    }
    months(area, place, faults);
}

fn months(area: &AreaFile, place: &str, faults: &mut Vec<Fault>) {
    let seen = |index: usize| area.months[..index].contains(&area.months[index]);
    if (0..area.months.len()).any(seen) {
        faults.push(Fault::warning(join(place, "months"), "a month is listed twice", "List each month once"));
    }
    if area.otherwise.is_some() && area.months.is_empty() {
        let problem = "`otherwise` never holds, because the rule holds all year";
        let way_out = "Add \"months\", or leave `otherwise` out";
        faults.push(Fault::warning(join(place, "otherwise"), problem, way_out));
    }
    if area.otherwise == Some(area.rule) && !area.months.is_empty() {
        let problem = "the months have no meaning, because the rule is the same in the others";
        faults.push(Fault::warning(join(place, "months"), problem, "Leave `months` and `otherwise` out"));
    }
}

fn obstacle(obstacle: &ObstacleFile, place: &str, faults: &mut Vec<Fault>) {
    positive(obstacle.height, HIGHEST_OBSTACLE_M, &join(place, "height"), faults);
    match (obstacle.at_m, obstacle.ring_m.as_slice()) {
        (None, []) => {
            let way_out = "Add \"at_m\" for a single mast or tree, or \"ring_m\" for a wood or a building";
            faults.push(Fault::error(place, "the obstacle is nowhere", way_out));
        }
        (Some(_), [_, ..]) => {
            let way_out = "Keep one of \"at_m\" and \"ring_m\"";
            faults.push(Fault::error(place, "the obstacle is both a point and a ring", way_out));
        }
        (Some(at), []) => {
            position(at, &join(place, "at_m"), faults);
        }
        (None, corners) => {
            ring(corners, &join(place, "ring_m"), faults);
        }
    }
}

/// Whether a length is there and none too large, metres; a millimetre at least, since nobody measures less.
fn is_positive(length: Length, most: f64) -> bool {
    (0.001..=most).contains(&length.m())
}

fn positive(height: Length, most: f64, place: &str, faults: &mut Vec<Fault>) {
    if height.m() > most {
        let problem = format!("the height {height} makes no sense here");
        faults.push(Fault::error(place, problem, format!("Write a height above nothing and up to {most} m")));
    } else if !is_positive(height, most) {
        let problem = format!("the height {height} is not above the ground");
        faults.push(Fault::error(place, problem, "Write a height above nothing"));
    }
}

/// Names are how the margins tell one from another.
fn names<'a>(what: &str, list: &str, names: impl Iterator<Item = &'a str>, place: &str, faults: &mut Vec<Fault>) {
    let mut seen = HashMap::new();
    for (index, name) in names.enumerate() {
        let at = format!("{place}/{list}/{index}/name");
        let first = *seen.entry(name.trim()).or_insert(index);
        if name.trim().is_empty() {
            faults.push(Fault::error(at, format!("the {what} has no name"), "Name it as people at the field do"));
        } else if first != index {
            let problem = format!("\"{name}\" is already the name of {what} {first}, counted from 0");
            faults.push(Fault::error(at, problem, "Give each its own name"));
        }
    }
}

fn points(file: &FieldFile, boundary_sound: bool, place: &str, faults: &mut Vec<Fault>) {
    let boundary = boundary_sound.then(|| region(&file.boundary.ring_m, &file.boundary.holes_m));
    let outside = |at: Metres| boundary.as_ref().is_some_and(|boundary| boundary.signed_distance(point(at)) < 0.0);
    position(file.pilot_m, &join(place, "pilot_m"), faults);
    let home = join(place, "home_m");
    if position(file.home_m, &home, faults) && outside(file.home_m) {
        let way_out = "Check that it is metres east and north; capture home inside the field";
        faults.push(Fault::error(home, "home lies outside the boundary", way_out));
    }
    if let Some(at) = file.centre_m {
        let centre = join(place, "centre_m");
        if position(at, &centre, faults) && outside(at) {
            let problem = "the centre lies outside the boundary";
            faults.push(Fault::warning(centre, problem, "Check that it is metres east and north"));
        }
    }
}

fn lines(file: &FieldFile, place: &str, faults: &mut Vec<Fault>) {
    if let Some([a, b]) = file.flight_line_m {
        let line = join(place, "flight_line_m");
        let sound = [a, b].iter().enumerate().all(|(i, &at)| position(at, &format!("{line}/{i}"), faults));
        let centre = file.centre_m.unwrap_or(file.home_m);
        match HalfPlane::away_from(point(a), point(b), point(file.pilot_m)) {
            _ if !sound => {}
            _ if a == b => {
                faults.push(Fault::error(line, "the flight line has no length", "Give it two different ends"));
            }
            None => {
                let way_out = "Move the pilot position to the side the pilots are on; the jet stays on the other";
                faults.push(Fault::error(line, "the pilot position lies on the flight line", way_out));
            }
            Some(side) if side.signed_distance(point(centre)) < 0.0 => {
                let problem = "the centre lies on the pilots' side of the flight line";
                faults.push(Fault::warning(line, problem, "Move the centre, or check the ends of the line"));
            }
            Some(_) => {}
        }
    }
    if let Some(runway) = file.runway {
        let strip = join(place, "runway");
        let from = position(runway.from_m, &join(&strip, "from_m"), faults);
        let to = position(runway.to_m, &join(&strip, "to_m"), faults);
        if from && to && runway.from_m == runway.to_m {
            faults.push(Fault::error(&*strip, "the runway has no length", "Give it two different ends"));
        }
        if !is_positive(runway.width, WIDEST_RUNWAY_M) {
            let problem = format!("the runway is {} wide", runway.width);
            let way_out = format!("Write a width above nothing and up to {WIDEST_RUNWAY_M} m");
            faults.push(Fault::error(join(&strip, "width"), problem, way_out));
        }
    }
}

/// Nobody flies at a field without people: a file that has none has forgotten them.
fn people(file: &FieldFile, place: &str, faults: &mut Vec<Fault>) {
    let people = |area: &AreaFile| area.rule == RuleName::People || area.otherwise == Some(RuleName::People);
    if file.flight_line_m.is_none() && !file.areas.iter().any(people) {
        let problem = "nobody is drawn but the pilot: there is no area of people and no flight line";
        let way_out =
            "Draw pits, cars, spectators, road and path as areas with the rule \"people\", or the flight line";
        faults.push(Fault::warning(join(place, "pilot_m"), problem, way_out));
    }
}
