//! The field of a draft as it is drawn on the map, whatever is wrong with it.

use glam::DVec2;

use crate::field::{
    Field, FieldFile, Ground, Metres, Month, Obstacle, Patch, PatchFile, Rule, RuleName, Runway, facing,
};
use crate::geometry::{HalfPlane, Region, TangentPlane};
use crate::run::ScenarioFile;

const MONTHS: [Month; 12] = [
    Month::Jan,
    Month::Feb,
    Month::Mar,
    Month::Apr,
    Month::May,
    Month::Jun,
    Month::Jul,
    Month::Aug,
    Month::Sep,
    Month::Oct,
    Month::Nov,
    Month::Dec,
];

/// What can be drawn of a draft's field: every part in its order, even one without corners. Only to be looked at; a
/// flight takes the field that has passed every check.
pub fn as_drawn(file: &ScenarioFile) -> Option<Field> {
    let field = file.field.as_ref()?;
    let month = file.date.get(5..7).and_then(|month| month.parse::<usize>().ok());
    let month = month.and_then(|month| MONTHS.get(month.checked_sub(1)?)).copied().unwrap_or(Month::Jan);
    let [stand, home] = [field.stand_m, field.home_m].map(DVec2::from_array);
    let line = field.flight_line_m.map(|ends| ends.map(DVec2::from_array));
    let (facing, facing_from) = facing(field);
    Some(Field {
        plane: TangentPlane::new(field.datum.latitude_deg, field.datum.longitude_deg),
        outline: region(&field.outline.ring_m, &field.outline.holes_m),
        patches: field.patches.iter().map(|patch| drawn_patch(patch, month)).collect(),
        obstacles: obstacles(field),
        flight_line: line.and_then(|[a, b]| HalfPlane::away_from(a, b, stand)),
        flight_line_ends: line,
        runway: field.runway.map(|strip| Runway {
            from: DVec2::from_array(strip.from_m),
            to: DVec2::from_array(strip.to_m),
            width_m: strip.width.m().max(0.0),
        }),
        stand,
        facing,
        facing_from,
        home,
        hub: field.hub_m.map_or(home, DVec2::from_array),
        circuit: None,
        ground: Ground::default(),
    })
}

fn drawn_patch(patch: &PatchFile, month: Month) -> Patch {
    let holds = patch.months.is_empty() || patch.months.contains(&month);
    let rule = match if holds { Some(patch.rule) } else { patch.otherwise } {
        Some(RuleName::Never) => Rule::Never,
        Some(RuleName::Above) => Rule::Above(patch.height.map_or(0.0, |height| height.m())),
        Some(RuleName::Avoid) => Rule::Avoid,
        None => Rule::Idle,
    };
    Patch { name: patch.name.clone(), rule, region: region(&patch.ring_m, &patch.holes_m) }
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
        assert_eq!(drawn.outline.rings(), field.outline.rings());
        let rules = |field: &Field| field.patches.iter().map(|patch| patch.rule).collect::<Vec<_>>();
        assert_eq!(rules(&drawn), rules(&field));
        assert_eq!((drawn.stand, drawn.home, drawn.hub), (field.stand, field.home, field.hub));
        assert_eq!((drawn.facing, drawn.facing_from), (field.facing, field.facing_from));
    }

    #[test]
    fn parts_without_corners_keep_their_place() {
        let mut file = Scenario::tight_strip().file;
        let field = file.field.as_mut().unwrap();
        field.outline.ring_m.clear();
        field.patches[0].ring_m.clear();
        field.obstacles[1].ring_m.truncate(2);
        file.date = "soon".into();
        let drawn = as_drawn(&file).unwrap();
        assert!(drawn.patches[0].region.edges().is_empty());
        assert_eq!(drawn.patches.len(), file.field.unwrap().patches.len());
    }
}
