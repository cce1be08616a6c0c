//! The field of a draft as it is drawn on the map, whatever is wrong with it.

use glam::DVec2;

use crate::field::{Field, FieldFile, Ground, Metres, Month, Obstacle, Runway, built_area, facing};
use crate::geometry::{HalfPlane, Region, TangentPlane};
use crate::run::ScenarioFile;

/// What can be drawn of a draft's field: every part in its order, even one without corners. Only to be looked at; a
/// flight takes the field that has passed every check.
pub fn as_drawn(file: &ScenarioFile) -> Option<Field> {
    let field = file.field.as_ref()?;
    let month = file.date.get(5..7).and_then(|month| month.parse::<usize>().ok());
    let month = month.and_then(|month| Month::ALL.get(month.checked_sub(1)?)).copied().unwrap_or(Month::Jan);
    let [pilot, home] = [field.pilot_m, field.home_m].map(DVec2::from_array);
    let line = field.flight_line_m.map(|ends| ends.map(DVec2::from_array));
    let (facing, facing_from) = facing(field);
    Some(Field {
        plane: TangentPlane::new(field.datum.latitude_deg, field.datum.longitude_deg),
        boundary: region(&field.boundary.ring_m, &field.boundary.holes_m),
        areas: field.areas.iter().map(|area| built_area(area, month)).collect(),
        obstacles: obstacles(field),
        flight_line: line.and_then(|[a, b]| HalfPlane::away_from(a, b, pilot)),
        flight_line_ends: line,
        runway: field.runway.map(|strip| Runway {
            from: DVec2::from_array(strip.from_m),
            to: DVec2::from_array(strip.to_m),
            width_m: strip.width.m().max(0.0),
        }),
        pilot,
        facing,
        facing_from,
        home,
        centre: field.centre_m.map_or(home, DVec2::from_array),
        circuit: None,
        ground: Ground::default(),
    })
}

fn obstacles(field: &FieldFile) -> Vec<Obstacle> {
    let drawn = |tall: &crate::field::ObstacleFile| Obstacle {
        name: tall.name.clone(),
        top_m: tall.height.m(),
        region: tall.at_m.map_or_else(|| region(&tall.ring_m, &[]), |at| Region::point(DVec2::from_array(at))),
    };
    field.obstacles.iter().map(drawn).collect()
}

fn region(ring: &[Metres], holes: &[Vec<Metres>]) -> Region {
    let corners = |ring: &[Metres]| ring.iter().copied().map(DVec2::from_array).collect::<Vec<_>>();
    Region::new(&corners(ring), &holes.iter().map(|hole| corners(hole)).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::run::Scenario;

    #[test]
    fn a_sound_field_is_drawn_as_it_is_flown() {
        let Scenario { file, field } = Scenario::tight_strip();
        let drawn = as_drawn(&file).unwrap();
        assert_eq!(drawn.boundary.rings(), field.boundary.rings());
        let rules = |field: &Field| field.areas.iter().map(|area| area.rule).collect::<Vec<_>>();
        assert_eq!(rules(&drawn), rules(&field));
        assert_eq!((drawn.pilot, drawn.home, drawn.centre), (field.pilot, field.home, field.centre));
        assert_eq!((drawn.facing, drawn.facing_from), (field.facing, field.facing_from));
    }

    #[test]
    fn parts_without_corners_keep_their_place() {
        let mut file = Scenario::tight_strip().file;
        let field = file.field.as_mut().unwrap();
        field.boundary.ring_m.clear();
        field.areas[0].ring_m.clear();
        field.obstacles[1].ring_m.truncate(2);
        file.date = "soon".into();
        let drawn = as_drawn(&file).unwrap();
        assert!(drawn.areas[0].region.edges().is_empty());
        assert_eq!(drawn.areas.len(), file.field.unwrap().areas.len());
    }
}
