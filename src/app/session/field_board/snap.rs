//! To what does a place on the map cling: a corner, an edge, a round angle, the grid?

use glam::DVec2;

use super::Part;
use crate::run::ScenarioFile;

/// The grids to choose from, metres.
pub const GRIDS: [f64; 4] = [1.0, 5.0, 10.0, 50.0];
/// Directions are round in steps of this, degrees: every right angle is one.
const ROUND_DEG: f64 = 15.0;
/// How far a direction may be from a round one to be taken for it, degrees.
const NEARLY_DEG: f64 = 4.0;

/// To what places cling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Snap {
    /// The distance between lines of the grid, metres; none for no grid.
    pub grid_m: Option<f64>,
    /// Corners, ends and points.
    pub corners: bool,
    /// Edges.
    pub edges: bool,
    /// Right angles to the edge before, and every 15 degrees from it; from north where there is none.
    pub angles: bool,
}

impl Default for Snap {
    fn default() -> Self {
        Self { grid_m: Some(1.0), corners: true, edges: false, angles: false }
    }
}

/// To what a place has clung.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Clung {
    /// To nothing.
    Free,
    /// To a corner.
    Corner,
    /// To an edge.
    Edge,
    /// To a round angle.
    Angle,
    /// To the grid.
    Grid,
}

impl Clung {
    /// In words; empty where it clings to nothing worth a word.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Corner => "on a corner",
            Self::Edge => "on an edge",
            Self::Angle => "at a round angle",
            Self::Free | Self::Grid => "",
        }
    }
}

/// What is around the place.
#[derive(Debug, Clone, Copy)]
pub struct SnapAround<'a> {
    /// The scenario.
    pub file: &'a ScenarioFile,
    /// Corners placed so far, the last of them the one that the edge starts from.
    pub before: &'a [DVec2],
    /// What is being moved, and which corner of it: nothing clings to itself. Without a corner all of the part moves.
    pub moving: Option<(Part, Option<usize>)>,
    /// How near counts as on it, metres.
    pub reach_m: f64,
}

impl Snap {
    /// One press of an arrow key, metres.
    pub fn step_m(self) -> f64 {
        self.grid_m.unwrap_or(GRIDS[0])
    }

    /// Where a place comes to lie, and to what it clings.
    pub fn place(self, at: DVec2, around: &SnapAround<'_>) -> (DVec2, Clung) {
        if self.corners
            && let Some(corner) = nearest(at, around.reach_m, corners(around))
        {
            return (corner, Clung::Corner);
        }
        if self.edges
            && let Some(place) = nearest(at, around.reach_m, edges(around).map(|ends| on_edge(at, ends)))
        {
            return (place, Clung::Edge);
        }
        if self.angles
            && let Some(place) = self.round_angle(at, around.before)
        {
            return (place, Clung::Angle);
        }
        match self.grid_m {
            Some(grid) if grid > 0.0 => ((at / grid).round() * grid, Clung::Grid),
            _ => (at, Clung::Free),
        }
    }

    /// The place in the nearest round direction from the last corner, a whole number of steps of the grid away.
    fn round_angle(self, at: DVec2, before: &[DVec2]) -> Option<DVec2> {
        let from = *before.last()?;
        let away = at - from;
        let start = before.len().checked_sub(2).map_or(DVec2::Y, |last| from - before[last]);
        let start = start.try_normalize().unwrap_or(DVec2::Y);
        let turned = start.angle_to(away).to_degrees();
        let round = (turned / ROUND_DEG).round() * ROUND_DEG;
        if away == DVec2::ZERO || (turned - round).abs() > NEARLY_DEG {
            return None;
        }
        let length = self.grid_m.map_or(away.length(), |grid| (away.length() / grid).round() * grid);
        Some(from + DVec2::from_angle(round.to_radians()).rotate(start) * length)
    }
}

fn nearest(at: DVec2, reach_m: f64, places: impl Iterator<Item = DVec2>) -> Option<DVec2> {
    let nearest = places.min_by(|a, b| a.distance_squared(at).total_cmp(&b.distance_squared(at)))?;
    (nearest.distance(at) <= reach_m).then_some(nearest)
}

fn parts(around: &SnapAround<'_>) -> impl Iterator<Item = (Part, Vec<DVec2>)> {
    let whole = around.moving.filter(|(_, corner)| corner.is_none()).map(|(part, _)| part);
    let parts = Part::all(around.file).into_iter().filter(move |part| Some(*part) != whole);
    parts.map(|part| (part, part.points(around.file)))
}

fn corners(around: &SnapAround<'_>) -> impl Iterator<Item = DVec2> {
    let moving = around.moving;
    let known = parts(around).flat_map(move |(part, points)| {
        let still = move |(corner, _): &(usize, DVec2)| moving != Some((part, Some(*corner)));
        points.into_iter().enumerate().filter(still).map(|(_, at)| at)
    });
    // The datum is as good a place as any corner.
    known.chain(around.before.iter().copied()).chain([DVec2::ZERO])
}

fn edges(around: &SnapAround<'_>) -> impl Iterator<Item = [DVec2; 2]> {
    let moving = around.moving;
    parts(around).flat_map(move |(part, points)| {
        let count = points.len();
        let open = matches!(part, Part::FlightLine | Part::Runway);
        let edges = if count < 2 { 0 } else { count - usize::from(open) };
        let still = move |from: &usize| {
            let touches = |corner: usize| *from == corner || (from + 1) % count == corner;
            !moving.is_some_and(|(moved, corner)| moved == part && corner.is_some_and(touches))
        };
        (0..edges).filter(still).map(move |from| [points[from], points[(from + 1) % count]])
    })
}

/// The place of an edge nearest to a place.
pub fn on_edge(at: DVec2, [from, to]: [DVec2; 2]) -> DVec2 {
    crate::geometry::Edge { from, to }.nearest_to(at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[track_caller]
    fn check(snap: Snap, before: &[(f64, f64)], at: (f64, f64), expected: (f64, f64), clung: Clung) {
        let file = Scenario::tight_strip().file;
        let before: Vec<DVec2> = before.iter().map(|&(x, y)| DVec2::new(x, y)).collect();
        let around = SnapAround { file: &file, before: &before, moving: None, reach_m: 4.0 };
        let (found, to) = snap.place(DVec2::new(at.0, at.1), &around);
        assert!(found.distance(DVec2::new(expected.0, expected.1)) < 1e-9, "{found}");
        assert_eq!(to, clung);
    }

    const NOTHING: Snap = Snap { grid_m: None, corners: false, edges: false, angles: false };

    #[test]
    fn places_cling_to_what_is_asked_for() {
        let grid = Snap { grid_m: Some(10.0), ..NOTHING };
        check(NOTHING, &[], (13.3, 7.9), (13.3, 7.9), Clung::Free);
        check(grid, &[], (113.3, -57.9), (110.0, -60.0), Clung::Grid);
        // The demo's boundary runs from (-260, -260) to (260, 200) with right angles.
        check(Snap { corners: true, ..grid }, &[], (258.0, 197.5), (260.0, 200.0), Clung::Corner);
        check(Snap { edges: true, ..grid }, &[], (258.0, -103.3), (260.0, -103.3), Clung::Edge);
        check(Snap { edges: true, ..grid }, &[], (250.0, -103.3), (250.0, -100.0), Clung::Grid);
    }

    #[test]
    fn round_angles_are_taken_from_the_edge_before_and_from_north_at_first() {
        let angles = Snap { angles: true, ..NOTHING };
        check(angles, &[(100.0, -100.0)], (101.0, -60.0), (100.0, -100.0 + 1_601_f64.sqrt()), Clung::Angle);
        // An edge along 030 degrees, and a right angle to it.
        let along = (100.0 + 20.0, -100.0 + 20.0 * 3.0_f64.sqrt());
        let (found, length) = ((along.0 + 26.0, along.1 - 15.5), 26.0_f64.hypot(15.5));
        let expected = (along.0 + length * 0.75_f64.sqrt(), along.1 - length * 0.5);
        check(angles, &[(100.0, -100.0), along], found, expected, Clung::Angle);
        let steps = Snap { grid_m: Some(5.0), ..angles };
        check(steps, &[(100.0, -100.0)], (141.5, -100.9), (140.0, -100.0), Clung::Angle);
        check(angles, &[(100.0, -100.0)], (120.0, -53.0), (120.0, -53.0), Clung::Free);
    }

    #[test]
    fn nothing_clings_to_itself() {
        let file = Scenario::tight_strip().file;
        let from = Part::Boundary.points(&file)[2];
        let around = SnapAround { file: &file, before: &[], moving: Some((Part::Boundary, Some(2))), reach_m: 4.0 };
        let all = Snap { corners: true, edges: true, ..NOTHING };
        let to = from - DVec2::new(2.0, 1.0);
        assert_eq!(all.place(to, &around), (to, Clung::Free));
    }
}
