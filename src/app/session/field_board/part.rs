//! What of a field can be pointed at: its rings, lines and points, each with its name and its corners.

use glam::DVec2;

use super::circuit::is_area;
use crate::field::{FieldFile, Metres, ObstacleFile};
use crate::run::ScenarioFile;

/// Something that can be chosen and moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// Land whose overflight is allowed.
    Boundary,
    /// Land inside the boundary that is not ours.
    BoundaryHole(usize),
    /// Ground with a rule.
    Area(usize),
    /// Ground inside an area that its rule leaves out: the area, then the hole.
    AreaHole(usize, usize),
    /// Something tall.
    Obstacle(usize),
    /// The line the jet stays in front of.
    FlightLine,
    /// The strip.
    Runway,
    /// Where the jet is flown.
    Circuit,
    /// Where pilot and spotter stand.
    Pilot,
    /// Where the jet captured its home.
    Home,
    /// Centre of the circle.
    Centre,
    /// Where the loss is.
    Loss,
    /// A spot height of the ground.
    Spot(usize),
}

/// What is chosen: a part, or one corner of it, counted from 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Chosen {
    /// The part.
    pub part: Part,
    /// The corner.
    pub corner: Option<usize>,
}

impl Part {
    /// Every part that a scenario has, in the order that the keyboard walks through them.
    pub fn all(file: &ScenarioFile) -> Vec<Self> {
        let mut parts = vec![Self::Pilot, Self::Home, Self::Centre, Self::Loss, Self::Boundary];
        let Some(field) = &file.field else { return vec![Self::Loss] };
        parts.extend((0..field.boundary.holes_m.len()).map(Self::BoundaryHole));
        parts.extend(field.flight_line_m.map(|_| Self::FlightLine));
        parts.extend(field.runway.map(|_| Self::Runway));
        parts.extend(field.circuit.as_ref().map(|_| Self::Circuit));
        for (index, area) in field.areas.iter().enumerate() {
            parts.push(Self::Area(index));
            parts.extend((0..area.holes_m.len()).map(|hole| Self::AreaHole(index, hole)));
        }
        parts.extend((0..field.obstacles.len()).map(Self::Obstacle));
        parts.extend((0..field.ground.len()).map(Self::Spot));
        parts
    }

    /// What it is called in a sentence, such as "the boundary" or "goat paddock".
    pub fn name(&self, file: &ScenarioFile) -> String {
        let field = file.field.as_ref();
        let area = |index: usize| field.and_then(|field| field.areas.get(index)).map(|area| area.name.as_str());
        let or = |name: Option<&str>, other: &str, index: usize| {
            name.map(str::trim)
                .filter(|name| !name.is_empty())
                .map_or_else(|| format!("{other} {}", index + 1), Into::into)
        };
        match *self {
            Self::Boundary => "the boundary".into(),
            Self::BoundaryHole(hole) => format!("hole {} of the boundary", hole + 1),
            Self::Area(index) => or(area(index), "area", index),
            Self::AreaHole(index, hole) => format!("hole {} of {}", hole + 1, or(area(index), "area", index)),
            Self::Obstacle(index) => {
                or(field.and_then(|field| field.obstacles.get(index)).map(|tall| &*tall.name), "obstacle", index)
            }
            Self::FlightLine => "the flight line".into(),
            Self::Runway => "the runway".into(),
            Self::Circuit => "the circuit".into(),
            Self::Pilot => "the pilot".into(),
            Self::Home => "home".into(),
            Self::Centre => "the centre".into(),
            Self::Loss => "the loss".into(),
            Self::Spot(index) => format!("spot height {}", index + 1),
        }
    }

    /// What one of its corners is called in a sentence, such as "corner 3 of the boundary"; corners count from 1 there.
    pub fn corner_name(&self, file: &ScenarioFile, corner: usize) -> String {
        let name = self.name(file);
        if self.is_ring(file) {
            format!("corner {} of {name}", corner + 1)
        } else if matches!(self, Self::FlightLine | Self::Runway) {
            format!("end {} of {name}", corner + 1)
        } else {
            name
        }
    }

    /// Its ring, where it is one.
    pub fn ring<'a>(&self, field: &'a FieldFile) -> Option<&'a [Metres]> {
        let ring = match *self {
            Self::Boundary => &field.boundary.ring_m,
            Self::BoundaryHole(hole) => field.boundary.holes_m.get(hole)?,
            Self::Area(index) => &field.areas.get(index)?.ring_m,
            Self::AreaHole(index, hole) => field.areas.get(index)?.holes_m.get(hole)?,
            Self::Obstacle(index) => &field.obstacles.get(index).filter(|tall| tall.at_m.is_none())?.ring_m,
            Self::Circuit => {
                let flown = field.circuit.as_ref()?;
                if is_area(flown) { &flown.area_m } else { &flown.line_m }
            }
            _ => return None,
        };
        Some(ring)
    }

    /// Its ring, to be changed.
    pub(super) fn ring_mut<'a>(&self, field: &'a mut FieldFile) -> Option<&'a mut Vec<Metres>> {
        match *self {
            Self::Boundary => Some(&mut field.boundary.ring_m),
            Self::BoundaryHole(hole) => field.boundary.holes_m.get_mut(hole),
            Self::Area(index) => Some(&mut field.areas.get_mut(index)?.ring_m),
            Self::AreaHole(index, hole) => field.areas.get_mut(index)?.holes_m.get_mut(hole),
            Self::Obstacle(index) => field.obstacles.get_mut(index).filter(|tall| tall.at_m.is_none()).map(ring_of),
            Self::Circuit => {
                let flown = field.circuit.as_mut()?;
                Some(if is_area(flown) { &mut flown.area_m } else { &mut flown.line_m })
            }
            _ => None,
        }
    }

    /// Whether it is a ring.
    pub fn is_ring(&self, file: &ScenarioFile) -> bool {
        file.field.as_ref().is_some_and(|field| self.ring(field).is_some())
    }

    /// Its corners, ends or its one place, metres; nothing where there is no such part.
    pub fn points(&self, file: &ScenarioFile) -> Vec<DVec2> {
        let Some(field) = &file.field else { return Vec::new() };
        if let Some(ring) = self.ring(field) {
            return ring.iter().copied().map(DVec2::from_array).collect();
        }
        let points = match *self {
            Self::FlightLine => field.flight_line_m.map_or_else(Vec::new, |ends| ends.to_vec()),
            Self::Runway => field.runway.map_or_else(Vec::new, |strip| vec![strip.from_m, strip.to_m]),
            Self::Pilot => vec![field.pilot_m],
            Self::Home => vec![field.home_m],
            Self::Centre => vec![field.centre_m.unwrap_or(field.home_m)],
            Self::Loss => vec![file.loss.at_m],
            Self::Obstacle(index) => field.obstacles.get(index).and_then(|tall| tall.at_m).into_iter().collect(),
            Self::Spot(index) => field.ground.get(index).map(|spot| spot.at_m).into_iter().collect(),
            _ => Vec::new(),
        };
        points.into_iter().map(DVec2::from_array).collect()
    }

    /// One of its corners, ends or its one place, to be changed. A centre that goes with home gets a place of its own.
    pub(super) fn point_mut<'a>(&self, file: &'a mut ScenarioFile, corner: usize) -> Option<&'a mut Metres> {
        if *self == Self::Loss {
            return (corner == 0).then_some(&mut file.loss.at_m);
        }
        let field = file.field.as_mut()?;
        if self.ring(field).is_some() {
            return self.ring_mut(field)?.get_mut(corner);
        }
        match (*self, corner) {
            (Self::FlightLine, _) => field.flight_line_m.as_mut()?.get_mut(corner),
            (Self::Runway, 0) => Some(&mut field.runway.as_mut()?.from_m),
            (Self::Runway, 1) => Some(&mut field.runway.as_mut()?.to_m),
            (Self::Pilot, 0) => Some(&mut field.pilot_m),
            (Self::Home, 0) => Some(&mut field.home_m),
            (Self::Centre, 0) => Some(field.centre_m.get_or_insert(field.home_m)),
            (Self::Obstacle(index), 0) => field.obstacles.get_mut(index)?.at_m.as_mut(),
            (Self::Spot(index), 0) => Some(&mut field.ground.get_mut(index)?.at_m),
            _ => None,
        }
    }

    /// The part that a JSON pointer leads to, such as `/field/areas/0/ring_m/3`, and its corner where it names one.
    pub fn of_place(place: &str) -> Option<Chosen> {
        let words: Vec<&str> = place.split('/').skip(1).collect();
        let number = |at: usize| words.get(at).and_then(|word| word.parse::<usize>().ok());
        let part = |part: Self, corner: Option<usize>| Some(Chosen { part, corner });
        match *words.as_slice() {
            ["field", "boundary", "holes_m", _, ..] => part(Self::BoundaryHole(number(3)?), number(4)),
            ["field", "boundary", ..] => part(Self::Boundary, number(3)),
            ["field", "areas", _, "holes_m", _, ..] => part(Self::AreaHole(number(2)?, number(4)?), number(5)),
            ["field", "areas", _, ..] => part(Self::Area(number(2)?), number(4)),
            ["field", "obstacles", _, ..] => part(Self::Obstacle(number(2)?), number(4)),
            ["field", "flight_line_m", ..] => part(Self::FlightLine, number(2)),
            ["field", "runway", "from_m"] => part(Self::Runway, Some(0)),
            ["field", "runway", "to_m"] => part(Self::Runway, Some(1)),
            ["field", "runway", ..] => part(Self::Runway, None),
            ["field", "circuit", "line_m" | "area_m", ..] => part(Self::Circuit, number(3)),
            ["field", "circuit", ..] => part(Self::Circuit, None),
            ["field", "pilot_m" | "facing"] => part(Self::Pilot, None),
            ["field", "home_m"] => part(Self::Home, None),
            ["field", "centre_m"] => part(Self::Centre, None),
            ["field", "ground", _, ..] => part(Self::Spot(number(2)?), None),
            ["loss", "at_m"] => part(Self::Loss, None),
            _ => None,
        }
    }
}

const fn ring_of(tall: &mut ObstacleFile) -> &mut Vec<Metres> {
    &mut tall.ring_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[track_caller]
    fn check(place: &str, expected: Option<(Part, Option<usize>)>) {
        assert_eq!(Part::of_place(place), expected.map(|(part, corner)| Chosen { part, corner }), "{place}");
    }

    #[test]
    fn a_json_pointer_leads_to_its_part_and_corner() {
        check("/field/boundary/ring_m", Some((Part::Boundary, None)));
        check("/field/boundary/ring_m/4", Some((Part::Boundary, Some(4))));
        check("/field/boundary/holes_m/1/2", Some((Part::BoundaryHole(1), Some(2))));
        check("/field/areas/0/ring_m/3", Some((Part::Area(0), Some(3))));
        check("/field/areas/2/holes_m/1", Some((Part::AreaHole(2, 1), None)));
        check("/field/areas/2/name", Some((Part::Area(2), None)));
        check("/field/obstacles/5/at_m", Some((Part::Obstacle(5), None)));
        check("/field/flight_line_m/1", Some((Part::FlightLine, Some(1))));
        check("/field/runway/to_m", Some((Part::Runway, Some(1))));
        check("/field/circuit/line_m/2", Some((Part::Circuit, Some(2))));
        check("/field/circuit/area_m", Some((Part::Circuit, None)));
        check("/field/circuit/slowest", Some((Part::Circuit, None)));
        check("/field/facing", Some((Part::Pilot, None)));
        check("/field/ground/7/height", Some((Part::Spot(7), None)));
        check("/loss/at_m", Some((Part::Loss, None)));
        check("/loss/height", None);
        check("/field/datum/latitude_deg", None);
        check("", None);
    }

    #[test]
    fn every_part_of_the_demo_has_a_name_of_its_own_and_a_place() {
        let file = Scenario::tight_strip().file;
        let parts = Part::all(&file);
        let mut names: Vec<String> = parts.iter().map(|part| part.name(&file)).collect();
        assert!(parts.iter().all(|part| !part.points(&file).is_empty()));
        names.sort();
        names.dedup();
        assert_eq!(names.len(), parts.len());
        assert_eq!(Part::Boundary.corner_name(&file, 2), "corner 3 of the boundary");
    }
}
