//! From a field as entered to one that answers questions: indexed rings, and the rules of the month.

use super::check::check;
use super::corners::{point, region};
use super::facing::facing;
use super::{
    AreaFile, Circuit, Field, FieldArea, FieldFile, Ground, Month, Obstacle, ObstacleFile, Rule, RuleName, Runway,
};
use crate::error::{Fault, Severity};
use crate::geometry::{HalfPlane, Region, TangentPlane};

impl Field {
    /// Builds the field for a month and lists everything wrong with it, each with its place below `place`.
    ///
    /// The field is there where nothing worse than a warning was found.
    pub fn build(file: &FieldFile, place: &str, month: Month) -> (Option<Self>, Vec<Fault>) {
        let faults = check(file, place);
        let sound = faults.iter().all(|fault| fault.severity < Severity::Error);
        (sound.then(|| built(file, month)), faults)
    }
}

fn built(file: &FieldFile, month: Month) -> Field {
    let spots: Vec<_> = file.ground.iter().map(|spot| (point(spot.at_m), spot.height.m())).collect();
    let ground = Ground::new(&spots);
    let pilot = point(file.pilot_m);
    let home = point(file.home_m);
    let line = file.flight_line_m.map(|ends| ends.map(point));
    let (facing, facing_from) = facing(file);
    Field {
        plane: TangentPlane::new(file.datum.latitude_deg, file.datum.longitude_deg),
        boundary: region(&file.boundary.ring_m, &file.boundary.holes_m),
        areas: file.areas.iter().map(|area| built_area(area, month)).collect(),
        obstacles: file.obstacles.iter().map(|obstacle| built_obstacle(obstacle, &ground)).collect(),
        flight_line: line.and_then(|[a, b]| HalfPlane::away_from(a, b, pilot)),
        flight_line_ends: line,
        runway: file.runway.map(|strip| Runway {
            from: point(strip.from_m),
            to: point(strip.to_m),
            width_m: strip.width.m(),
        }),
        pilot,
        facing,
        facing_from,
        home,
        centre: file.centre_m.map_or(home, point),
        circuit: file.circuit.as_ref().map(Circuit::new),
        ground,
    }
}

/// An area as it counts in a month.
pub fn built_area(area: &AreaFile, month: Month) -> FieldArea {
    let holds = area.months.is_empty() || area.months.contains(&month);
    let rule = match if holds { Some(area.rule) } else { area.otherwise } {
        Some(RuleName::NoFly) => Rule::NoFly,
        Some(RuleName::Above) => Rule::Above(area.height.map_or(0.0, |height| height.m())),
        Some(RuleName::People) => Rule::People,
        Some(RuleName::Caution) => Rule::Caution,
        None => Rule::Idle,
    };
    FieldArea { name: area.name.clone(), rule, region: region(&area.ring_m, &area.holes_m) }
}

/// A ring stands as high as the highest ground under its corners carries it.
fn built_obstacle(obstacle: &ObstacleFile, ground: &Ground) -> Obstacle {
    let foot = obstacle.at_m.iter().chain(&obstacle.ring_m).map(|&at| ground.height_m(point(at)));
    let foot = foot.fold(f64::NEG_INFINITY, f64::max);
    let region = match obstacle.at_m {
        Some(at) => Region::point(point(at)),
        None => region(&obstacle.ring_m, &[]),
    };
    Obstacle { name: obstacle.name.clone(), top_m: foot + obstacle.height.m(), region }
}
