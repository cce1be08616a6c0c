//! What an edit makes of a scenario: parts added, moved, taken away. Nothing here knows of a screen.

use glam::DVec2;

use super::circuit::is_area;
use super::{Kind, Part};
use crate::app::session::Change;
use crate::field::{AreaFile, CircuitFile, Metres, ObstacleFile, RuleName, RunwayFile, SpotFile};
use crate::run::{ScenarioFile, circuit_speeds};
use crate::units::Length;

/// Height of a new obstacle until somebody enters it, metres.
const NEW_HEIGHT: f64 = 10.0;
/// Width of a new runway until somebody enters it, metres.
const NEW_WIDTH: f64 = 10.0;

/// A place to the centimetre: more says nothing about a field.
pub fn written(at: DVec2) -> Metres {
    ((at * 100.0).round() / 100.0 + DVec2::ZERO).to_array()
}

/// Adds what was drawn; returns the edit and the new part. None where there are too few corners for it.
pub fn add(file: &ScenarioFile, kind: Kind, corners: &[DVec2]) -> Option<(Change, Part)> {
    if corners.len() < kind.fewest() {
        return None;
    }
    let mut new = file.clone();
    let field = new.field.as_mut()?;
    let ring_m: Vec<Metres> = corners.iter().copied().map(written).collect();
    let first = *ring_m.first()?;
    let last = *ring_m.last()?;
    let part = match kind {
        Kind::Boundary => {
            field.boundary.ring_m = ring_m;
            Part::Boundary
        }
        Kind::BoundaryHole => {
            field.boundary.holes_m.push(ring_m);
            Part::BoundaryHole(field.boundary.holes_m.len() - 1)
        }
        Kind::Area => {
            let name = free_name("area", field.areas.iter().map(|area| &*area.name));
            let (rule, height) = (RuleName::NoFly, None);
            field.areas.push(AreaFile { name, rule, height, months: vec![], otherwise: None, ring_m, holes_m: vec![] });
            Part::Area(field.areas.len() - 1)
        }
        Kind::AreaHole(index) => {
            let holes = &mut field.areas.get_mut(index)?.holes_m;
            holes.push(ring_m);
            Part::AreaHole(index, holes.len() - 1)
        }
        Kind::Obstacle | Kind::Tree => {
            let point = kind == Kind::Tree;
            let word = if point { "tree" } else { "obstacle" };
            let name = free_name(word, field.obstacles.iter().map(|tall| &*tall.name));
            let (at_m, ring_m) = if point { (Some(first), vec![]) } else { (None, ring_m) };
            field.obstacles.push(ObstacleFile { name, height: Length::new(NEW_HEIGHT), at_m, ring_m });
            Part::Obstacle(field.obstacles.len() - 1)
        }
        Kind::FlightLine => {
            field.flight_line_m = Some([first, last]);
            Part::FlightLine
        }
        Kind::Runway => {
            let width = field.runway.map_or(Length::new(NEW_WIDTH), |strip| strip.width);
            field.runway = Some(RunwayFile { from_m: first, to_m: last, width });
            Part::Runway
        }
        Kind::Circuit => {
            match &mut field.circuit {
                Some(flown) if is_area(flown) => flown.area_m = ring_m,
                Some(flown) => flown.line_m = ring_m,
                None => field.circuit = Some(CircuitFile::of_line(ring_m, circuit_speeds(file))),
            }
            Part::Circuit
        }
        Kind::Spot => {
            field.ground.push(SpotFile { at_m: first, height: Length::new(0.0) });
            Part::Spot(field.ground.len() - 1)
        }
    };
    let what = format!("draw {}", part.name(&new));
    Some((Change { what, file: new }, part))
}

/// Moves a corner, an end or a point, metres.
pub fn move_corner(file: &ScenarioFile, part: Part, corner: usize, to: DVec2) -> Option<Change> {
    let mut new = file.clone();
    *part.point_mut(&mut new, corner)? = written(to);
    Some(Change { what: format!("move {}", part.corner_name(file, corner)), file: new })
}

/// Moves a whole part, its holes too, so that its first corner comes to a place.
pub fn move_part(file: &ScenarioFile, part: Part, to: DVec2) -> Option<Change> {
    let points = part.points(file);
    let by = to - *points.first()?;
    let mut new = file.clone();
    let mut shift = |part: Part, points: &[DVec2]| {
        for (corner, &at) in points.iter().enumerate() {
            if let Some(point) = part.point_mut(&mut new, corner) {
                *point = written(at + by);
            }
        }
    };
    shift(part, &points);
    let holes = Part::all(file).into_iter().filter(|hole| match (part, hole) {
        (Part::Boundary, Part::BoundaryHole(_)) => true,
        (Part::Area(index), Part::AreaHole(of, _)) => index == *of,
        _ => false,
    });
    for hole in holes {
        shift(hole, &hole.points(file));
    }
    Some(Change { what: format!("move {}", part.name(file)), file: new })
}

/// Puts a new corner into a ring, after one of its corners.
pub fn insert_corner(file: &ScenarioFile, part: Part, after: usize, at: DVec2) -> Option<Change> {
    let mut new = file.clone();
    let ring = part.ring_mut(new.field.as_mut()?)?;
    if after >= ring.len() {
        return None;
    }
    ring.insert(after + 1, written(at));
    Some(Change { what: added(file, part, after + 1), file: new })
}

/// What the step is called that puts a corner in and moves it.
pub fn added(file: &ScenarioFile, part: Part, corner: usize) -> String {
    format!("add {}", part.corner_name(file, corner))
}

/// Takes a corner away; the last corner of a ring, an end of a line and a point take their part with them.
pub fn delete_corner(file: &ScenarioFile, part: Part, corner: usize) -> Option<Change> {
    let mut new = file.clone();
    match part.ring_mut(new.field.as_mut()?) {
        Some(ring) if ring.len() > 1 => {
            if corner >= ring.len() {
                return None;
            }
            ring.remove(corner);
            Some(Change { what: format!("delete {}", part.corner_name(file, corner)), file: new })
        }
        _ => delete_part(file, part),
    }
}

/// Takes a part away. The boundary is emptied, the centre goes back to home; pilot, home and loss have to be somewhere.
pub fn delete_part(file: &ScenarioFile, part: Part) -> Option<Change> {
    if part.points(file).is_empty() && part != Part::Boundary {
        return None;
    }
    let mut new = file.clone();
    let field = new.field.as_mut()?;
    match part {
        Part::Boundary => {
            field.boundary.ring_m.clear();
            field.boundary.holes_m.clear();
        }
        Part::BoundaryHole(hole) => drop(field.boundary.holes_m.remove(hole)),
        Part::Area(index) => drop(field.areas.remove(index)),
        Part::AreaHole(index, hole) => drop(field.areas.get_mut(index)?.holes_m.remove(hole)),
        Part::Obstacle(index) => drop(field.obstacles.remove(index)),
        Part::FlightLine => field.flight_line_m = None,
        Part::Runway => field.runway = None,
        Part::Circuit => field.circuit = None,
        Part::Spot(index) => drop(field.ground.remove(index)),
        Part::Centre => field.centre_m = None,
        Part::Pilot | Part::Home | Part::Loss => return None,
    }
    let what = match part {
        Part::Centre => "put the centre back to home".into(),
        _ => format!("delete {}", part.name(file)),
    };
    Some(Change { what, file: new })
}

/// The first name of "area 1", "area 2" ... that nobody has, from the number of names on.
fn free_name<'a>(word: &str, taken: impl Iterator<Item = &'a str>) -> String {
    let taken: Vec<&str> = taken.map(str::trim).collect();
    let names = (taken.len() + 1..).map(|number| format!("{word} {number}"));
    names.into_iter().find(|name| !taken.contains(&name.as_str())).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    fn demo() -> ScenarioFile {
        Scenario::tight_strip().file
    }

    fn corners(corners: &[(f64, f64)]) -> Vec<DVec2> {
        corners.iter().map(|&(x, y)| DVec2::new(x, y)).collect()
    }

    #[test]
    fn every_kind_can_be_drawn_and_is_found_as_drawn() {
        let triangle = corners(&[(-10.0, -60.0), (20.0, -60.0), (5.0, -40.0)]);
        for kind in Kind::ALL.into_iter().chain([Kind::AreaHole(0)]) {
            let drawn = &triangle[..kind.most().unwrap_or(3)];
            let (change, part) = add(&demo(), kind, drawn).unwrap();
            assert_eq!(part.points(&change.file), drawn, "{kind:?}");
            assert!(change.what.starts_with("draw "), "{}", change.what);
            assert!(add(&demo(), kind, &triangle[..kind.fewest() - 1]).is_none());
        }
    }

    #[test]
    fn new_names_are_free_and_a_new_area_is_no_fly() {
        let ring = corners(&[(0.0, 0.0), (9.0, 0.0), (9.0, 9.0)]);
        let mut file = demo();
        let count = file.field.as_ref().unwrap().areas.len();
        file.field.as_mut().unwrap().areas[0].name = format!("area {}", count + 1);
        let (change, part) = add(&file, Kind::Area, &ring).unwrap();
        assert_eq!(part.name(&change.file), format!("area {}", count + 2));
        assert_eq!(change.file.field.unwrap().areas[count].rule, RuleName::NoFly);
    }

    #[test]
    fn a_corner_comes_and_goes() {
        let file = demo();
        let before = Part::Boundary.points(&file);
        let change = insert_corner(&file, Part::Boundary, 1, DVec2::new(1.0, 2.004)).unwrap();
        let after = Part::Boundary.points(&change.file);
        assert_eq!((after.len(), after[2]), (before.len() + 1, DVec2::new(1.0, 2.0)));
        let back = delete_corner(&change.file, Part::Boundary, 2).unwrap();
        assert_eq!(Part::Boundary.points(&back.file), before);
        assert!(insert_corner(&file, Part::Pilot, 0, DVec2::ZERO).is_none());
        assert!(insert_corner(&file, Part::Boundary, 99, DVec2::ZERO).is_none());
        assert!(delete_corner(&file, Part::Boundary, 99).is_none());
    }

    #[test]
    fn every_part_can_be_moved_by_its_first_corner_and_moves_nothing_else() {
        let file = demo();
        for part in Part::all(&file) {
            let from = part.points(&file);
            let moved = move_part(&file, part, from[0] + DVec2::new(7.0, -3.0)).unwrap().file;
            for other in Part::all(&file) {
                let by = if other == part { DVec2::new(7.0, -3.0) } else { DVec2::ZERO };
                // A centre without a place of its own goes where home goes.
                let follows =
                    part == Part::Home && other == Part::Centre && file.field.as_ref().unwrap().centre_m.is_none();
                let pairs = other.points(&file).into_iter().zip(other.points(&moved));
                for (from, to) in pairs.filter(|_| !follows) {
                    assert!((to - from - by).length() < 1e-9, "{part:?} moves {other:?}");
                }
            }
        }
    }

    #[test]
    fn a_part_takes_its_holes_along() {
        let hole = corners(&[(-10.0, -60.0), (20.0, -60.0), (5.0, -40.0)]);
        let (change, part) = add(&demo(), Kind::BoundaryHole, &hole).unwrap();
        let to = Part::Boundary.points(&change.file)[0] + DVec2::X;
        let moved = move_part(&change.file, Part::Boundary, to).unwrap().file;
        assert_eq!(part.points(&moved)[0], hole[0] + DVec2::X);
    }

    #[test]
    fn everything_but_stand_home_and_loss_can_be_deleted() {
        let mut file = demo();
        file.field.as_mut().unwrap().centre_m = Some([5.0, 5.0]);
        for part in Part::all(&file) {
            let kept = matches!(part, Part::Pilot | Part::Home | Part::Loss);
            assert_eq!(delete_part(&file, part).is_none(), kept, "{part:?}");
        }
        assert!(delete_part(&file, Part::Area(99)).is_none());
    }
}
