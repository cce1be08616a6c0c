//! Points, lines and polygons of degrees to metres about the datum.

use ::geojson::{GeometryValue, Position};
use glam::DVec2;

use super::read::{Item, Reader};
use crate::error::json::join;
use crate::field::Metres;
use crate::field::rings::FURTHEST;
use crate::geometry::ring_area_m2;

impl Reader {
    pub(super) fn wrong_geometry(&mut self, item: &Item<'_>, wanted: &str) {
        if let Some(GeometryValue::MultiPolygon { coordinates }) = &item.geometry {
            let pieces = coordinates.iter().enumerate().map(|(index, rings)| {
                let corners = rings.first().map_or(0, |ring| ring.len().saturating_sub(1));
                format!("coordinates/{index} of {corners} corners")
            });
            let problem = format!(
                "{} is one piece of ground, and this MultiPolygon has {}: {}",
                article(item.role.name()),
                coordinates.len(),
                pieces.collect::<Vec<_>>().join(", ")
            );
            let way_out = "Keep the piece that is meant, or make each a feature of its own; one boundary goes round all that \
                           may be flown over";
            self.fault(format!("{}/geometry", item.place), problem, way_out);
            return;
        }
        // A geometry that can't be read has its fault already.
        if let Some(found) = &item.geometry {
            let problem = format!("{} can't be a {}", article(item.role.name()), found.type_name());
            self.fault(format!("{}/geometry", item.place), problem, format!("Make it a {wanted}"));
        }
    }

    pub(super) fn point<'a>(&mut self, item: &'a Item<'_>) -> Option<&'a Position> {
        if let Some(GeometryValue::Point { coordinates }) = &item.geometry {
            return Some(coordinates);
        }
        self.wrong_geometry(item, "Point");
        None
    }

    pub(super) fn place(&mut self, item: &Item<'_>) -> Option<Metres> {
        let position = self.point(item)?;
        self.metres(position, &format!("{}/geometry/coordinates", item.place))
    }

    pub(super) fn line(&mut self, item: &Item<'_>) -> Option<[Metres; 2]> {
        let place = format!("{}/geometry/coordinates", item.place);
        match &item.geometry {
            Some(GeometryValue::LineString { coordinates }) => match coordinates.as_slice() {
                [from, to] => {
                    let ends = (self.metres(from, &join(&place, "0")), self.metres(to, &join(&place, "1")));
                    Some([ends.0?, ends.1?])
                }
                more => {
                    self.fault(place, format!("{} positions where two are wanted", more.len()), "Keep its two ends");
                    None
                }
            },
            _ => {
                self.wrong_geometry(item, "LineString");
                None
            }
        }
    }

    /// A line whose last position may repeat its first or not: it is closed either way.
    pub(super) fn closed_line(&mut self, line: &[Position], place: &str) -> Option<Vec<Metres>> {
        let closed = line.len() > 1 && line.first().map(Position::as_slice) == line.last().map(Position::as_slice);
        let corners = line[..line.len() - usize::from(closed)].iter().enumerate();
        corners.map(|(index, position)| self.metres(position, &format!("{place}/{index}"))).collect()
    }

    pub(super) fn polygon(&mut self, item: &Item<'_>) -> Option<(Vec<Metres>, Vec<Vec<Metres>>)> {
        let Some(GeometryValue::Polygon { coordinates }) = &item.geometry else {
            self.wrong_geometry(item, "Polygon");
            return None;
        };
        let place = |index: usize| format!("{}/{index}", item.rings);
        let rings = coordinates.iter().enumerate().map(|(index, ring)| self.ring(ring, &place(index)));
        let rings: Vec<_> = rings.collect();
        if rings.is_empty() {
            self.fault(format!("{}/geometry", item.place), "the Polygon has no ring", "Add its outer ring");
        }
        let mut rings = rings.into_iter().collect::<Option<Vec<_>>>()?.into_iter();
        Some((rings.next()?, rings.collect()))
    }

    /// Tells that every ring runs the wrong way round: exchanging longitude and latitude throughout mirrors the field, and
    /// that is the one trace it leaves.
    pub(super) fn winding(&mut self, items: &[Item<'_>]) {
        let outer = |item: &Item<'_>| match &item.geometry {
            Some(GeometryValue::Polygon { coordinates }) => coordinates.first().map(|ring| turns_left(ring)),
            _ => None,
        };
        let mut ways = items.iter().filter_map(outer).peekable();
        if ways.peek().is_some() && ways.all(|left| !left) {
            let problem = "every ring runs clockwise, where RFC 7946 has them anticlockwise: longitude and latitude may be \
                           exchanged throughout, which mirrors the field";
            self.warn(
                "/features",
                problem,
                "Compare the datum with the map; write longitude first, and turn the rings",
            );
        }
    }

    fn ring(&mut self, ring: &[Position], place: &str) -> Option<Vec<Metres>> {
        let (first, last) = (ring.first(), ring.last());
        let closed = ring.len() > 1 && first.map(Position::as_slice) == last.map(Position::as_slice);
        if !closed {
            self.fault(place, "the ring is open", "Repeat its first position at the end, as RFC 7946 wants");
        }
        let corners = &ring[..ring.len() - usize::from(closed)];
        let mut whole = Vec::with_capacity(corners.len());
        for (index, position) in corners.iter().enumerate() {
            // One bad corner is enough to say of a ring.
            whole.push(self.metres(position, &format!("{place}/{index}"))?);
        }
        closed.then_some(whole)
    }

    /// Longitude and latitude that are on the globe.
    pub(super) fn degrees(&mut self, position: &Position, place: &str) -> Option<Metres> {
        let &[longitude, latitude, ..] = position.as_slice() else {
            let problem = format!("a position of {} numbers", position.len());
            self.fault(place, problem, "Write [longitude, latitude], degrees");
            return None;
        };
        let fits = |longitude: f64, latitude: f64| longitude.abs() <= 180.0 && latitude.abs() <= 90.0;
        if fits(longitude, latitude) {
            return Some([longitude, latitude]);
        }
        let problem = format!("[{longitude}, {latitude}] is not a longitude and a latitude");
        if fits(latitude, longitude) {
            self.fault(place, format!("{problem}: they look swapped"), "Write longitude first, then latitude");
        } else {
            self.fault(place, problem, "Write degrees east, -180 to 180, then degrees north, -90 to 90");
        }
        None
    }

    fn metres(&mut self, position: &Position, place: &str) -> Option<Metres> {
        let [longitude, latitude] = self.degrees(position, place)?;
        let plane = self.plane?;
        let away = plane.distance_m(latitude, longitude);
        if away > FURTHEST {
            let problem = format!("[{longitude}, {latitude}] is {:.0} km from the datum", away / 1000.0);
            if plane.distance_m(longitude, latitude) <= FURTHEST {
                let problem = format!("{problem}, and near it with longitude and latitude swapped");
                self.fault(place, problem, "Write longitude first, then latitude");
            } else {
                self.fault(place, problem, "Check it and the datum; a field lies within 20 km of its datum");
            }
            return None;
        }
        // A tenth of a millimetre, so that what was tidy in metres is tidy again.
        Some(plane.to_metres(latitude, longitude).to_array().map(|metres| (metres * 1e4).round() / 1e4 + 0.0))
    }
}

/// Whether a ring runs anticlockwise, seen from above with longitude to the right and latitude up.
fn turns_left(ring: &[Position]) -> bool {
    let corner =
        |at: &Position| DVec2::from_array([0, 1].map(|index| at.as_slice().get(index).copied().unwrap_or_default()));
    ring_area_m2(ring.iter().map(corner)) > 0.0
}

fn article(name: &str) -> String {
    let vowel = name.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {name}", if vowel { "an" } else { "a" })
}
