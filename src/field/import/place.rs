//! How a shape goes into a field.

use super::shape::open;
use super::{Form, Role, Shape};
use crate::error::Fault;
use crate::field::{AreaFile, BoundaryFile, CircuitFile, FieldFile, ObstacleFile, RuleName, RunwayFile};
use crate::units::{Length, Speed};

/// Height of an obstacle until somebody has measured it.
const OBSTACLE_HEIGHT: Length = Length::new(10.0);
/// Height to keep over an area until somebody has said otherwise (handbook 11: animals take notice below 60 m).
const AREA_HEIGHT: Length = Length::new(60.0);
/// Width of a runway until somebody has paced it.
const RUNWAY_WIDTH: Length = Length::new(10.0);

/// Airspeeds on a circuit until somebody has measured them.
const CIRCUIT_SPEEDS: [Speed; 2] = [Speed::new(20.0), Speed::new(35.0)];

/// Puts a shape into a field about the same datum.
///
/// What there is one of is replaced; an area or an obstacle is added, with a number after a name that is taken already.
/// Without a height of its own an obstacle gets 10 m and an area of the rule `above` 60 m, and the first runway is 10 m
/// wide: a person must enter the true ones. Of a line with more than two places flight line and runway take the ends.
/// An obstacle is all of its ring, holes included.
///
/// # Errors
///
/// Where the form does not fit the role, or a line ends where it begins; the field is left as it was.
pub fn place(field: &mut FieldFile, shape: &Shape, role: Role) -> Result<(), Fault> {
    let refused = |problem: String, way_out: String| Err(Fault::error(&*shape.name, problem, way_out));
    let (first, last) = match (shape.points_m.first(), shape.points_m.last()) {
        (Some(&first), Some(&last)) if role.fits(shape.form) => (first, last),
        _ => {
            let problem = format!("a {} can't be {}", shape.form.name(), with_article(role.name()));
            let fitting: Vec<_> = Role::ALL.iter().filter(|role| role.fits(shape.form)).map(|r| r.name()).collect();
            return refused(problem, format!("Choose one of: {}", fitting.join(", ")));
        }
    };
    if shape.form == Form::Line && first == last && role != Role::Circuit {
        let problem = "the line ends where it begins".to_owned();
        return refused(problem, "Draw it from one end to the other, or close it to a ring".to_owned());
    }
    let ring_m = || shape.points_m.clone();
    match role {
        Role::Boundary => field.boundary = BoundaryFile { ring_m: ring_m(), holes_m: shape.holes_m.clone() },
        Role::Area(rule) => {
            let name = unused(&shape.name, "area", field.areas.iter().map(|area| &*area.name));
            let height = (rule == RuleName::Above).then(|| shape.height.unwrap_or(AREA_HEIGHT));
            let (ring_m, holes_m) = (ring_m(), shape.holes_m.clone());
            field.areas.push(AreaFile { name, rule, height, months: vec![], otherwise: None, ring_m, holes_m });
        }
        Role::Obstacle => {
            let name = unused(&shape.name, "obstacle", field.obstacles.iter().map(|obstacle| &*obstacle.name));
            let height = shape.height.unwrap_or(OBSTACLE_HEIGHT);
            let (at_m, ring_m) = if shape.form == Form::Point { (Some(first), vec![]) } else { (None, ring_m()) };
            field.obstacles.push(ObstacleFile { name, height, at_m, ring_m });
        }
        Role::FlightLine => field.flight_line_m = Some([first, last]),
        Role::Runway => {
            let width = field.runway.map_or(RUNWAY_WIDTH, |runway| runway.width);
            field.runway = Some(RunwayFile { from_m: first, to_m: last, width });
        }
        Role::Pilot => field.pilot_m = first,
        Role::Home => field.home_m = first,
        Role::Centre => field.centre_m = Some(first),
        Role::Circuit => {
            field.circuit =
                Some(CircuitFile { line_m: open(&shape.points_m).to_vec(), area_m: vec![], ..flown(field) });
        }
        Role::CircuitArea => field.circuit = Some(CircuitFile { line_m: vec![], area_m: ring_m(), ..flown(field) }),
    }
    Ok(())
}

/// How the circuit of the field is flown, or how one is until somebody has said otherwise (judgement).
fn flown(field: &FieldFile) -> CircuitFile {
    let otherwise = || CircuitFile::of_line(vec![], CIRCUIT_SPEEDS);
    field.circuit.clone().unwrap_or_else(otherwise)
}

fn with_article(name: &str) -> String {
    format!("{} {name}", if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" })
}

/// The name, or the same with the first number that makes it one of its own.
fn unused<'a>(name: &str, otherwise: &str, taken: impl Iterator<Item = &'a str>) -> String {
    let taken: Vec<&str> = taken.map(str::trim).collect();
    let name = if name.trim().is_empty() { otherwise } else { name.trim() };
    let free = |name: &String| !taken.contains(&name.as_str());
    let numbered = std::iter::once(name.to_owned()).chain((2..).map(|number| format!("{name} {number}")));
    numbered.take(taken.len() + 1).find(free).unwrap_or_else(|| name.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::field::Datum;

    fn field() -> FieldFile {
        FieldFile {
            magnetic_declination: None,
            datum: Datum { latitude_deg: 44.0, longitude_deg: -30.0 },
            boundary: BoundaryFile { ring_m: vec![[-9.0, -9.0], [9.0, -9.0], [0.0, 9.0]], holes_m: vec![] },
            areas: vec![],
            obstacles: vec![],
            flight_line_m: None,
            runway: None,
            pilot_m: [0.0, 0.0],
            facing: None,
            home_m: [1.0, 0.0],
            centre_m: None,
            circuit: None,
            ground: vec![],
        }
    }

    fn shape(form: Form) -> Shape {
        let points_m = match form {
            Form::Point => vec![[5.0, 6.0]],
            Form::Line => vec![[0.0, 0.0], [40.0, 1.0], [80.0, 0.0]],
            Form::Ring => vec![[0.0, 0.0], [40.0, 0.0], [40.0, 30.0]],
        };
        Shape { name: " Wood ".into(), form, points_m, holes_m: vec![], role: None, height: None }
    }

    /// What a role does to the field, as the only thing that differs; none where the form is refused.
    #[track_caller]
    fn check(role: Role, form: Form, change: Option<fn(&mut FieldFile)>) {
        let (mut placed, mut wanted) = (field(), field());
        let answer = place(&mut placed, &shape(form), role);
        assert_eq!(answer.is_ok(), change.is_some(), "{role:?} {form:?}");
        assert_eq!(role.fits(form), change.is_some(), "{role:?} {form:?}");
        if let Some(change) = change {
            change(&mut wanted);
        }
        assert_eq!(placed, wanted, "{role:?} {form:?}");
        if let Err(fault) = answer {
            assert!(fault.problem.contains(role.name()) && fault.way_out.contains("Choose one of: "), "{fault}");
        }
    }

    const RING: [[f64; 2]; 3] = [[0.0, 0.0], [40.0, 0.0], [40.0, 30.0]];

    fn area(rule: RuleName, height: Option<f64>) -> AreaFile {
        let (name, height, ring_m) = ("Wood".into(), height.map(Length::new), RING.to_vec());
        AreaFile { name, rule, height, months: vec![], otherwise: None, ring_m, holes_m: vec![] }
    }

    fn obstacle(at_m: Option<[f64; 2]>, ring_m: &[[f64; 2]]) -> ObstacleFile {
        ObstacleFile { name: "Wood".into(), height: Length::new(10.0), at_m, ring_m: ring_m.to_vec() }
    }

    #[test]
    fn each_role_changes_its_own_part_and_takes_only_what_fits() {
        use Form::{Line, Point, Ring};
        use RuleName::{Above, Caution, NoFly, People};
        check(Role::Boundary, Ring, Some(|f| f.boundary.ring_m = RING.to_vec()));
        check(Role::Area(NoFly), Ring, Some(|f| f.areas.push(area(NoFly, None))));
        check(Role::Area(Above), Ring, Some(|f| f.areas.push(area(Above, Some(60.0)))));
        check(Role::Area(People), Ring, Some(|f| f.areas.push(area(People, None))));
        check(Role::Area(Caution), Ring, Some(|f| f.areas.push(area(Caution, None))));
        check(Role::Obstacle, Ring, Some(|f| f.obstacles.push(obstacle(None, &RING))));
        check(Role::Obstacle, Point, Some(|f| f.obstacles.push(obstacle(Some([5.0, 6.0]), &[]))));
        check(Role::FlightLine, Line, Some(|f| f.flight_line_m = Some([[0.0, 0.0], [80.0, 0.0]])));
        let strip: fn(&mut FieldFile) = |f| {
            f.runway = Some(RunwayFile { from_m: [0.0, 0.0], to_m: [80.0, 0.0], width: Length::new(10.0) });
        };
        check(Role::Runway, Line, Some(strip));
        check(Role::Pilot, Point, Some(|f| f.pilot_m = [5.0, 6.0]));
        check(Role::Home, Point, Some(|f| f.home_m = [5.0, 6.0]));
        check(Role::Centre, Point, Some(|f| f.centre_m = Some([5.0, 6.0])));
        let circuit: fn(&mut FieldFile) = |f| f.circuit = Some(CircuitFile::of_line(RING.to_vec(), CIRCUIT_SPEEDS));
        check(Role::Circuit, Ring, Some(circuit));
        let line: fn(&mut FieldFile) = |f| {
            let line_m = vec![[0.0, 0.0], [40.0, 1.0], [80.0, 0.0]];
            f.circuit = Some(CircuitFile::of_line(line_m, CIRCUIT_SPEEDS));
        };
        check(Role::Circuit, Line, Some(line));
        let area: fn(&mut FieldFile) = |f| {
            let line = CircuitFile::of_line(vec![], CIRCUIT_SPEEDS);
            f.circuit = Some(CircuitFile { area_m: RING.to_vec(), ..line });
        };
        check(Role::CircuitArea, Ring, Some(area));
        for role in Role::ALL {
            for form in [Point, Line, Ring].into_iter().filter(|&form| !role.fits(form)) {
                check(role, form, None);
            }
        }
    }

    #[test]
    fn names_are_made_their_own_and_a_line_back_to_its_start_is_refused() {
        let mut field = field();
        for _ in 0..3 {
            place(&mut field, &shape(Form::Ring), Role::Obstacle).unwrap();
        }
        place(&mut field, &Shape { name: "  ".into(), ..shape(Form::Ring) }, Role::Obstacle).unwrap();
        let names: Vec<_> = field.obstacles.iter().map(|obstacle| &*obstacle.name).collect();
        assert_eq!(names, ["Wood", "Wood 2", "Wood 3", "obstacle"]);
        let there_and_back = Shape { points_m: vec![[0.0, 0.0], [9.0, 9.0], [0.0, 0.0]], ..shape(Form::Line) };
        let before = field.clone();
        let fault = place(&mut field, &there_and_back, Role::Runway).unwrap_err();
        assert!(fault.problem.contains("ends where it begins"), "{fault}");
        assert_eq!(field, before);
    }
}
