//! A field to GeoJSON.

use ::geojson::{Feature, FeatureCollection, Geometry, GeometryValue, JsonObject, Position};
use glam::DVec2;
use serde::Serialize;

use super::{
    AreaProperties, CircuitProperties, DatumProperties, ObstacleProperties, PilotProperties, Role, RoleOnly,
    RunwayProperties, SpotProperties,
};
use crate::error::json;
use crate::field::{CircuitFile, FieldFile, Metres};
use crate::geometry::TangentPlane;

/// The field as one collection: WGS84 longitude and latitude, exteriors anticlockwise, holes clockwise, rings closed.
pub fn geojson(file: &FieldFile) -> FeatureCollection {
    let globe = Globe(TangentPlane::new(file.datum.latitude_deg, file.datum.longitude_deg));
    let (role, magnetic_declination) = (Role::Datum.name().into(), file.magnetic_declination);
    let datum = DatumProperties { role, magnetic_declination };
    let mut features = vec![
        feature(datum, GeometryValue::new_point([file.datum.longitude_deg, file.datum.latitude_deg])),
        feature(role_only(Role::Boundary), globe.polygon(&file.boundary.ring_m, &file.boundary.holes_m)),
    ];
    features.extend(file.areas.iter().map(|area| {
        let properties = AreaProperties {
            role: Role::Area.name().into(),
            name: area.name.clone(),
            rule: area.rule,
            height: area.height,
            months: area.months.clone(),
            otherwise: area.otherwise,
        };
        feature(properties, globe.polygon(&area.ring_m, &area.holes_m))
    }));
    features.extend(file.obstacles.iter().map(|obstacle| {
        let (role, name) = (Role::Obstacle.name().into(), obstacle.name.clone());
        let geometry = obstacle.at_m.map_or_else(|| globe.polygon(&obstacle.ring_m, &[]), |at| globe.point(at));
        feature(ObstacleProperties { role, name, height: obstacle.height }, geometry)
    }));
    features.extend(file.flight_line_m.map(|ends| feature(role_only(Role::FlightLine), globe.line(ends))));
    features.extend(file.runway.map(|strip| {
        let properties = RunwayProperties { role: Role::Runway.name().into(), width: strip.width };
        feature(properties, globe.line([strip.from_m, strip.to_m]))
    }));
    let pilot = PilotProperties { role: Role::Pilot.name().into(), facing: file.facing };
    features.push(feature(pilot, globe.point(file.pilot_m)));
    features.push(feature(role_only(Role::Home), globe.point(file.home_m)));
    features.extend(file.centre_m.map(|at| feature(role_only(Role::Centre), globe.point(at))));
    features.extend(file.circuit.as_ref().map(|circuit| globe.circuit(circuit)));
    features.extend(file.ground.iter().map(|spot| {
        let properties = SpotProperties { role: Role::Spot.name().into(), height: spot.height };
        feature(properties, globe.point(spot.at_m))
    }));
    FeatureCollection { bbox: None, features, foreign_members: None }
}

/// The same as text, laid out for people.
pub fn geojson_text(file: &FieldFile) -> String {
    json::print(&serde_json::to_value(geojson(file)).unwrap_or_default())
}

fn role_only(role: Role) -> RoleOnly {
    RoleOnly { role: role.name().into() }
}

fn feature(properties: impl Serialize, geometry: GeometryValue) -> Feature {
    let properties = match serde_json::to_value(properties) {
        Ok(serde_json::Value::Object(properties)) => properties,
        _ => JsonObject::new(),
    };
    Feature {
        bbox: None,
        geometry: Some(Geometry { bbox: None, value: geometry, foreign_members: None }),
        id: None,
        properties: Some(properties),
        foreign_members: None,
    }
}

struct Globe(TangentPlane);

impl Globe {
    fn position(&self, at: Metres) -> Position {
        let (latitude, longitude) = self.0.to_degrees(DVec2::from_array(at));
        // Ten decimals are a hundredth of a millimetre, so that tidy metres come back tidy.
        let round = |degrees: f64| (degrees * 1e10).round() / 1e10;
        Position::from([round(longitude), round(latitude)])
    }

    fn point(&self, at: Metres) -> GeometryValue {
        GeometryValue::Point { coordinates: self.position(at) }
    }

    fn line(&self, ends: [Metres; 2]) -> GeometryValue {
        GeometryValue::LineString { coordinates: ends.map(|at| self.position(at)).to_vec() }
    }

    /// Without the line turned about: the way round is part of what it says.
    fn circuit(&self, circuit: &CircuitFile) -> Feature {
        let closed = circuit.line_m.iter().chain(circuit.line_m.first());
        let line = || GeometryValue::LineString { coordinates: closed.map(|&at| self.position(at)).collect() };
        let geometry = if circuit.line_m.is_empty() { self.polygon(&circuit.area_m, &[]) } else { line() };
        let properties = CircuitProperties {
            role: Role::Circuit.name().into(),
            way: circuit.way,
            width: circuit.width,
            lowest: circuit.lowest,
            highest: circuit.highest,
            slowest: circuit.slowest,
            fastest: circuit.fastest,
            charge_low: circuit.charge_low,
            charge_high: circuit.charge_high,
        };
        feature(properties, geometry)
    }

    fn polygon(&self, ring: &[Metres], holes: &[Vec<Metres>]) -> GeometryValue {
        let holes = holes.iter().map(|hole| self.ring(hole, false));
        GeometryValue::Polygon { coordinates: std::iter::once(self.ring(ring, true)).chain(holes).collect() }
    }

    fn ring(&self, ring: &[Metres], anticlockwise: bool) -> Vec<Position> {
        let corners = match ring {
            [first, rest @ .., last] if first == last => &ring[..=rest.len()],
            _ => ring,
        };
        let next = corners.iter().cycle().skip(1);
        let area: f64 = corners.iter().zip(next).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum();
        let mut positions: Vec<_> = corners.iter().map(|&at| self.position(at)).collect();
        if (area > 0.0) != anticlockwise {
            positions.reverse();
        }
        positions.extend(positions.first().cloned());
        positions
    }
}
