//! From degrees as drawn to shapes in metres: about which datum, and what of it can't be used.

use geo::{LineString, Simplify as _};

use super::found::{At, Degrees, Drawn, Found};
use super::shape::{area_m2, gap_m, open, turned};
use super::{Form, Import, Role, Shape};
use crate::error::Fault;
use crate::field::rings::{FURTHEST, MOST_CORNERS, polygon};
use crate::field::{Datum, Metres};
use crate::geometry::TangentPlane;

/// Lines and rings of more places than this are thinned.
const THICK: usize = 1000;
/// How far a thinned line may be from the one drawn, metres: far less than a phone's position is off.
const TOLERANCE: f64 = 0.5;
/// Least area of a ring, m^2.
const LEAST_AREA: f64 = 0.01;

pub(super) fn import(found: Found, datum: Option<Datum>) -> Import {
    let Found { drawn, mut faults, datum: marked, .. } = found;
    let mut drawn = drawn;
    drawn.retain(|drawn| on_globe(drawn, &mut faults));
    let datum = datum.or(marked).or_else(|| middle(&drawn));
    let datum = datum.unwrap_or(Datum { latitude_deg: 0.0, longitude_deg: 0.0 });
    let plane = TangentPlane::new(datum.latitude_deg, datum.longitude_deg);
    if drawn.iter().any(across_the_date_line) {
        let problem = "shapes lie across the meridian of 180 degrees, and are joined up there";
        faults.push(Fault::warning("", problem, "Check that they are whole"));
    }
    let shapes: Vec<_> = drawn.into_iter().filter_map(|drawn| shape(drawn, plane, &mut faults)).collect();
    if shapes.is_empty() && !Found::failed(&faults) {
        let problem = "there is no point, line or ring in the file that can be used";
        faults.push(Fault::error("", problem, "Draw them again, or export them as GeoJSON, KML or GPX"));
    }
    faults.sort_by_key(|fault| fault.line.unwrap_or_default());
    Import { datum, shapes, faults }
}

fn fits([longitude, latitude]: Degrees) -> bool {
    longitude.abs() <= 180.0 && latitude.abs() <= 90.0
}

fn swapped([longitude, latitude]: Degrees) -> Degrees {
    [latitude, longitude]
}

fn on_globe(drawn: &Drawn, faults: &mut Vec<Fault>) -> bool {
    let Some(&off) = drawn.rings.iter().flatten().find(|&&at| !fits(at)) else { return true };
    let problem = format!("longitude {}, latitude {} is no place on the globe", off[0], off[1]);
    faults.push(if drawn.rings.iter().flatten().all(|&at| fits(swapped(at))) {
        drawn.at.warning(format!("{problem}: the two look swapped"), SWAP)
    } else {
        drawn.at.warning(problem, "Export it as WGS84, degrees east -180 to 180, degrees north -90 to 90")
    });
    false
}

const SWAP: &str = "Export it again with longitude and latitude in the right order";

fn across_the_date_line(drawn: &Drawn) -> bool {
    let longitudes = || drawn.rings.iter().flatten().map(|at| at[0]);
    longitudes().fold(f64::NEG_INFINITY, f64::max) - longitudes().fold(f64::INFINITY, f64::min) > 180.0
}

/// The middle of all places; where some are far from most, the middle of those near the middlemost.
fn middle(drawn: &[Drawn]) -> Option<Datum> {
    let all = || drawn.iter().flat_map(|drawn| drawn.rings.iter().flatten());
    let first = all().next()?[0];
    // Longitudes near the first, so that a field across the date line has its middle there.
    let places: Vec<Degrees> = all().map(|&[lon, lat]| [lon - 360.0 * ((lon - first) / 360.0).round(), lat]).collect();
    let whole = box_middle(&places);
    let near = |datum: Datum| {
        let plane = TangentPlane::new(datum.latitude_deg, datum.longitude_deg);
        move |at: &&Degrees| plane.distance_m(at[1], at[0]) <= FURTHEST
    };
    if places.iter().all(|at| near(whole)(&at)) {
        return Some(whole);
    }
    let [longitude, latitude] = [0, 1].map(|axis| {
        let mut along: Vec<f64> = places.iter().map(|at| at[axis]).collect();
        along.sort_by(f64::total_cmp);
        along[along.len() / 2]
    });
    let most: Vec<Degrees> = places.iter().filter(near(tidy(longitude, latitude))).copied().collect();
    Some(box_middle(if most.is_empty() { &places[..1] } else { &most }))
}

fn box_middle(places: &[Degrees]) -> Datum {
    let [longitude, latitude] = [0, 1].map(|axis| {
        let along = || places.iter().map(|at| at[axis]);
        (along().fold(f64::INFINITY, f64::min) + along().fold(f64::NEG_INFINITY, f64::max)) / 2.0
    });
    tidy(longitude, latitude)
}

/// To seven decimals, a centimetre.
fn tidy(longitude: f64, latitude: f64) -> Datum {
    let round = |degrees: f64| (degrees * 1e7).round() / 1e7;
    Datum { latitude_deg: round(latitude), longitude_deg: round((longitude + 180.0).rem_euclid(360.0) - 180.0) }
}

fn shape(drawn: Drawn, plane: TangentPlane, faults: &mut Vec<Fault>) -> Option<Shape> {
    let Drawn { at, form, rings, role, height } = drawn;
    let role = role.or_else(|| Role::guessed(&at.name, form));
    let rings: Result<Vec<Vec<Metres>>, Fault> = rings.iter().map(|ring| metres(ring, plane, &at)).collect();
    let mut rings = match rings {
        Ok(rings) => rings.into_iter(),
        Err(fault) => {
            faults.push(fault);
            return None;
        }
    };
    let points = rings.next().unwrap_or_default();
    let named = |form, points_m, holes_m| Shape { name: at.name.clone(), form, points_m, holes_m, role, height };
    match form {
        Form::Point => Some(named(form, points, vec![])),
        Form::Line => {
            if points.len() < 2 {
                faults.push(at.warning("the line has no two different places", "Draw or log it again"));
                return None;
            }
            let line = named(form, thinned(points, &at, faults), vec![]);
            // The way round is part of what a circuit says, so that it stays a line.
            if role == Some(Role::Circuit) {
                return Some(line);
            }
            let Some((gap, ring)) = gap_m(&line.points_m).zip(line.closed()) else { return Some(line) };
            let problem = format!("the ends of the line are {gap:.1} m apart, so it is taken as a ring");
            faults.push(at.warning(problem, "Open it again if it is no edge"));
            around(ring, &at, faults)
        }
        Form::Ring => {
            let holes: Vec<_> = rings.map(|hole| thinned(hole, &at, faults)).collect();
            around(named(form, thinned(points, &at, faults), holes), &at, faults)
        }
    }
}

/// Metres to a tenth of a millimetre, so that what was tidy is tidy again; without places that repeat the one before.
fn metres(ring: &[Degrees], plane: TangentPlane, at: &At) -> Result<Vec<Metres>, Fault> {
    let mut metres = Vec::with_capacity(ring.len());
    for &[longitude, latitude] in ring {
        let away = plane.distance_m(latitude, longitude);
        if away > FURTHEST || away.is_nan() {
            let problem = format!("longitude {longitude}, latitude {latitude} is {:.0} km from the datum", away / 1e3);
            return Err(if fits([latitude, longitude]) && plane.distance_m(longitude, latitude) <= FURTHEST {
                at.warning(format!("{problem}, and near it with the two swapped"), SWAP)
            } else {
                at.warning(problem, "Check it and the datum; a field lies within 20 km of its datum")
            });
        }
        metres.push(plane.to_metres(latitude, longitude).to_array().map(|m| (m * 1e4).round() / 1e4 + 0.0));
    }
    metres.dedup();
    Ok(metres)
}

/// In pieces, because the library calls itself once a place at worst.
fn thinned(points: Vec<Metres>, at: &At, faults: &mut Vec<Fault>) -> Vec<Metres> {
    if points.len() <= THICK {
        return points;
    }
    let mut thin: Vec<Metres> = Vec::new();
    let mut from = 0;
    while from + 1 < points.len() {
        let to = (from + THICK).min(points.len() - 1);
        let piece: LineString = points[from..=to].iter().map(|&[x, y]| (x, y)).collect();
        thin.pop();
        thin.extend(piece.simplify(TOLERANCE).into_iter().map(|at| [at.x, at.y]));
        from = to;
    }
    let problem = format!(
        "{} places are thinned out to {}, which moves the line by {TOLERANCE} m at most",
        points.len(),
        thin.len()
    );
    faults.push(at.warning(problem, "Nothing, unless the line must be truer than that"));
    thin
}

/// Turned the right way round, with everything odd about its corners; none where there is no ground inside.
fn around(shape: Shape, at: &At, faults: &mut Vec<Fault>) -> Option<Shape> {
    let ground = |ring: &[Metres]| ring.len() >= 3 && area_m2(ring).abs() >= LEAST_AREA;
    let corners = open(&shape.points_m);
    if corners.len() > MOST_CORNERS {
        let problem = format!("{} corners are more than {MOST_CORNERS}", corners.len());
        faults.push(at.warning(problem, "Draw it with fewer; a corner every few metres is plenty"));
        return None;
    }
    if !ground(corners) {
        faults.push(at.warning("the ring has no ground inside", "Draw three corners or more around it"));
        return None;
    }
    let holes: Vec<Vec<Metres>> = shape.holes_m.iter().map(|hole| turned(open(hole), false)).collect();
    let all = holes.len();
    let holes_m: Vec<_> = holes.into_iter().filter(|hole| ground(hole)).collect();
    if holes_m.len() < all {
        faults.push(at.warning("a hole with no ground inside is left out", "Nothing, unless it ought to be one"));
    }
    let shape = Shape { points_m: turned(corners, true), holes_m, ..shape };
    let mut odd = Vec::new();
    polygon((&shape.points_m, ""), (&shape.holes_m, ""), &mut odd);
    faults.extend(odd.into_iter().map(|fault| at.warning(fault.problem, fault.way_out)));
    Some(shape)
}
