//! From a field as written to one that answers questions: indexed rings, and the rules of the month.

use super::check::check;
use super::corners::{point, region};
use super::facing::facing;
use super::{
    Circuit, Field, FieldFile, Ground, Month, Obstacle, ObstacleFile, Patch, PatchFile, Rule, RuleName, Runway,
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
    let stand = point(file.stand_m);
    let home = point(file.home_m);
    let line = file.flight_line_m.map(|ends| ends.map(point));
    let (facing, facing_from) = facing(file);
    Field {
        plane: TangentPlane::new(file.datum.latitude_deg, file.datum.longitude_deg),
        outline: region(&file.outline.ring_m, &file.outline.holes_m),
        patches: file.patches.iter().map(|patch| built_patch(patch, month)).collect(),
        obstacles: file.obstacles.iter().map(|obstacle| built_obstacle(obstacle, &ground)).collect(),
        flight_line: line.and_then(|[a, b]| HalfPlane::away_from(a, b, stand)),
        flight_line_ends: line,
        runway: file.runway.map(|strip| Runway {
            from: point(strip.from_m),
            to: point(strip.to_m),
            width_m: strip.width.m(),
        }),
        stand,
        facing,
        facing_from,
        home,
        hub: file.hub_m.map_or(home, point),
        circuit: file.circuit.as_ref().map(Circuit::new),
        ground,
    }
}

fn built_patch(patch: &PatchFile, month: Month) -> Patch {
    let holds = patch.months.is_empty() || patch.months.contains(&month);
    let rule = match if holds { Some(patch.rule) } else { patch.otherwise } {
        Some(RuleName::Never) => Rule::Never,
        Some(RuleName::Above) => Rule::Above(patch.height.map_or(0.0, |height| height.m())),
        Some(RuleName::Avoid) => Rule::Avoid,
        None => Rule::Idle,
    };
    Patch { name: patch.name.clone(), rule, region: region(&patch.ring_m, &patch.holes_m) }
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
