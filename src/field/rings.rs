//! What can be wrong with a ring of corners, and with holes in it.

use geo::line_intersection::{LineIntersection, line_intersection};
use geo::validation::{InvalidPolygon, RingRole, Validation as _};
use geo::{Coord, Line, LineString, Polygon};
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use super::Metres;
use crate::error::Fault;
use crate::units::{decimals, typed};

/// Furthest a place may be from the datum, metres. The plane of the field is good to centimetres within it.
pub(super) const FURTHEST: f64 = 20_000.0;
/// Most corners of one ring. More make every redraw slow and show nothing.
pub(super) const MOST_CORNERS: usize = 10_000;
/// Most holes of one ring.
const MOST_HOLES: usize = 50;
/// Most corners of a ring with its holes, which are all compared with one another.
const MOST_AROUND_HOLES: usize = 2_000;
/// Most pairs of edges with overlapping frames that are looked at in one ring.
const MOST_PAIRS: usize = 1_000_000;
/// Most crossings listed of one ring.
const MOST_CROSSINGS: usize = 5;
/// A ring narrower than this has no area, metres.
const NARROWEST: f64 = 0.01;

/// Whether a position can be used; says why not.
pub(super) fn position(at: Metres, place: &str, faults: &mut Vec<Fault>) -> bool {
    let [x, y] = at;
    if !(x.is_finite() && y.is_finite()) {
        faults.push(Fault::error(place, "the position is not a finite number", "Write metres east and north"));
        return false;
    }
    let away = x.hypot(y);
    if away > FURTHEST {
        let away = decimals(away / 1000.0, 0);
        let problem = format!("({}, {}) is {away} km from the datum", typed(x), typed(y));
        let way_out = format!(
            "A field lies within {:.0} km of its datum: positions are metres east and north of it, not degrees",
            FURTHEST / 1000.0
        );
        faults.push(Fault::error(place, problem, way_out));
        return false;
    }
    true
}

/// Whether a ring with holes can be used; says why not.
pub(super) fn polygon(
    (ring, place): (&[Metres], &str),
    (holes, holes_place): (&[Vec<Metres>], &str),
    faults: &mut Vec<Fault>,
) -> Option<Polygon> {
    let outer = self::ring(ring, place, faults);
    if holes.len() > MOST_HOLES {
        let problem = format!("{} holes are more than {MOST_HOLES}", holes.len());
        faults.push(Fault::error(holes_place, problem, "Leave out the smallest ones"));
        return None;
    }
    let holes =
        holes.iter().enumerate().map(|(index, hole)| self::ring(hole, &format!("{holes_place}/{index}"), faults));
    let holes: Vec<_> = holes.collect();
    let (outer, holes) = (outer?, holes.into_iter().collect::<Option<Vec<_>>>()?);
    // A ring by itself has been checked.
    if holes.is_empty() {
        return Some(Polygon::new(outer, holes));
    }
    let corners = outer.0.len() + holes.iter().map(|hole| hole.0.len()).sum::<usize>();
    if corners > MOST_AROUND_HOLES {
        let problem = format!("a ring with holes has {corners} corners, more than {MOST_AROUND_HOLES}");
        faults.push(Fault::error(holes_place, problem, "Thin the rings out; a corner every few metres is plenty"));
        return None;
    }
    let polygon = Polygon::new(outer, holes);
    let before = faults.len();
    faults.extend(polygon.validation_errors().into_iter().filter_map(|error| hole_fault(&error, holes_place)));
    (faults.len() == before).then_some(polygon)
}

fn hole_fault(error: &InvalidPolygon, place: &str) -> Option<Fault> {
    let index = |role: &RingRole| match role {
        RingRole::Interior(index) => *index,
        RingRole::Exterior => 0,
    };
    let (index, problem, way_out) = match error {
        InvalidPolygon::InteriorRingNotContainedInExteriorRing(hole) => (
            index(hole),
            "the hole is not wholly inside its ring".to_owned(),
            "Move its corners inside, or notch the ring",
        ),
        InvalidPolygon::IntersectingRingsOnALine(RingRole::Exterior, hole) => {
            (index(hole), "the hole runs along the edge of its ring".to_owned(), "Make it a notch of the ring instead")
        }
        InvalidPolygon::IntersectingRingsOnALine(a, b) | InvalidPolygon::IntersectingRingsOnAnArea(a, b) => {
            (index(b), format!("the hole overlaps hole {}, counted from 0", index(a)), "Join the two into one")
        }
        // Each ring has been checked by itself, with the place of every fault.
        _ => return None,
    };
    Some(Fault::error(format!("{place}/{index}"), problem, way_out))
}

/// Whether a ring can be used; says why not.
pub(super) fn ring(ring: &[Metres], place: &str, faults: &mut Vec<Fault>) -> Option<LineString> {
    if ring.len() > MOST_CORNERS {
        let problem = format!("{} corners are more than {MOST_CORNERS}", ring.len());
        faults.push(Fault::error(place, problem, "Thin the ring out; a corner every few metres is plenty"));
        return None;
    }
    if !ring.iter().enumerate().all(|(index, &at)| position(at, &format!("{place}/{index}"), faults)) {
        return None;
    }
    let corners = corners(ring);
    let mut places: Vec<_> = corners.iter().map(|(_, at)| [at.x, at.y]).collect();
    places.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    places.dedup();
    if places.len() < 3 {
        let problem = format!("the ring has {} different corners", places.len());
        faults.push(Fault::error(place, problem, "A ring needs three or more"));
        return None;
    }
    if width(&corners) < NARROWEST {
        let problem = "the corners lie on one line, so the ring has no area";
        faults.push(Fault::error(place, problem, "Move a corner off the line"));
        return None;
    }
    let before = faults.len();
    crossings(&corners, place, faults);
    (faults.len() == before).then(|| corners.into_iter().map(|(_, at)| at).collect())
}

/// Corners with their numbers in the file, without those that repeat the one before.
fn corners(ring: &[Metres]) -> Vec<(usize, Coord)> {
    let mut corners: Vec<_> = ring.iter().map(|&[x, y]| Coord { x, y }).enumerate().collect();
    corners.dedup_by(|b, a| a.1 == b.1);
    while corners.len() > 1 && corners.first().map(|c| c.1) == corners.last().map(|c| c.1) {
        corners.pop();
    }
    corners
}

/// How far the corners spread to the sides of the line from the first to the one furthest from it.
fn width(corners: &[(usize, Coord)]) -> f64 {
    let Some(&(_, first)) = corners.first() else { return 0.0 };
    let offsets = || corners.iter().map(|&(_, at)| at - first);
    let along = offsets().max_by(|a, b| a.x.hypot(a.y).total_cmp(&b.x.hypot(b.y))).unwrap_or_default();
    offsets().map(|o| (o.x * along.y - o.y * along.x).abs() / along.x.hypot(along.y)).fold(0.0, f64::max)
}

/// Where edges cross or touch that have no corner in common, and where one folds back on the one before.
fn crossings(corners: &[(usize, Coord)], place: &str, faults: &mut Vec<Fault>) {
    let count = corners.len();
    let edge = |index: usize| Line::new(corners[index].1, corners[(index + 1) % count].1);
    let frame = |index: usize| {
        let Line { start, end } = edge(index);
        AABB::from_corners([start.x, start.y], [end.x, end.y])
    };
    let frames = (0..count).map(|index| GeomWithData::new(Rectangle::from_aabb(frame(index)), index));
    let frames = RTree::bulk_load(frames.collect::<Vec<_>>());
    let (mut found, mut pairs) = (0, 0);
    for a in 0..count {
        let mut beside: Vec<usize> =
            frames.locate_in_envelope_intersecting(&frame(a)).map(|other| other.data).collect();
        beside.retain(|&b| b > a);
        beside.sort_unstable();
        pairs += beside.len();
        if pairs > MOST_PAIRS {
            let problem = "the edges of the ring lie side by side in too many places to be looked at";
            faults.push(Fault::error(place, problem, "Thin the ring out; a corner every few metres is plenty"));
            return;
        }
        for b in beside {
            let neighbours = (a + 1) % count == b || (b + 1) % count == a;
            let at = match line_intersection(edge(a), edge(b)) {
                Some(LineIntersection::SinglePoint { intersection, .. }) if !neighbours => intersection,
                Some(LineIntersection::Collinear { intersection }) if intersection.start != intersection.end => {
                    intersection.start
                }
                _ => continue,
            };
            let ends = |index: usize| (corners[index].0, corners[(index + 1) % count].0);
            let ((a0, a1), (b0, b1)) = (ends(a), ends(b));
            let problem = format!(
                "the edge from corner {a0} to {a1} meets the edge from corner {b0} to {b1} at ({:.1}, {:.1}) m",
                at.x, at.y
            );
            let way_out =
                "Move or reorder those corners (counted from 0) so that the ring never crosses or touches itself";
            faults.push(Fault::error(format!("{place}/{a0}"), problem, way_out));
            found += 1;
            if found == MOST_CROSSINGS {
                return;
            }
        }
    }
}
