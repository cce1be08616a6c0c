//! GeoJSON to a field in metres, with everything wrong in it.

use ::geojson::{Geometry, GeometryValue};
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::places::Places;
use super::{
    AreaProperties, CircuitProperties, DatumProperties, ObstacleProperties, PilotProperties, Role, RunwayProperties,
    SpotProperties,
};
use crate::error::Fault;
use crate::error::json::{self, Lines, did_you_mean, join};
use crate::error::old_words;
use crate::field::{AreaFile, BoundaryFile, CircuitFile, Datum, FieldFile, Metres, ObstacleFile, RunwayFile, SpotFile};
use crate::geometry::TangentPlane;

/// A GeoJSON text, read.
#[derive(Debug, Clone)]
pub struct GeoField {
    /// The field as far as it could be read; without the features that have an error.
    pub file: Option<FieldFile>,
    /// Everything wrong with the text; what is wrong with the field itself, such as a crossing ring, is found when it
    /// is built.
    pub faults: Vec<Fault>,
    /// From places in the field to places in the text.
    pub places: Places,
}

impl GeoField {
    /// Reads the text of a GeoJSON file.
    pub fn read(text: &str) -> Self {
        let value = match json::parse(text) {
            Ok(value) => value,
            Err(fault) => return Self { file: None, faults: vec![fault], places: Places::default() },
        };
        let lines = Lines::of(text);
        let mut reader = Reader { faults: lines.twice().to_vec(), plane: None };
        let (file, features) = reader.collection(&value);
        let mut faults = reader.faults;
        lines.mark(&mut faults);
        faults.sort_by_key(|fault| fault.line.unwrap_or(usize::MAX));
        Self { file, faults, places: Places { features, lines } }
    }
}

/// One feature whose role is known and whose geometry is GeoJSON.
pub(super) struct Item<'a> {
    pub(super) place: String,
    pub(super) role: Role,
    pub(super) properties: &'a Value,
    /// None where the properties lack something.
    sound: bool,
    /// Where the rings of a polygon stand.
    pub(super) rings: String,
    /// None where it can't be read.
    pub(super) geometry: Option<GeometryValue>,
}

impl Item<'_> {
    fn properties<T: DeserializeOwned>(&self) -> Option<T> {
        self.sound.then(|| serde_json::from_value(self.properties.clone()).ok()).flatten()
    }
}

pub(super) struct Reader {
    faults: Vec<Fault>,
    pub(super) plane: Option<TangentPlane>,
}

impl Reader {
    pub(super) fn fault(&mut self, place: impl Into<String>, problem: impl Into<String>, way_out: impl Into<String>) {
        self.faults.push(Fault::error(place, problem, way_out));
    }

    pub(super) fn warn(&mut self, place: &str, problem: &str, way_out: &str) {
        self.faults.push(Fault::warning(place, problem, way_out));
    }

    fn collection(&mut self, value: &Value) -> (Option<FieldFile>, Vec<(String, String)>) {
        let features = value.get("features").and_then(Value::as_array);
        let (Some("FeatureCollection"), Some(features)) = (value.get("type").and_then(Value::as_str), features) else {
            if value.get("peewit").is_some() {
                let way_out =
                    "Name the GeoJSON file of a field here, or copy the `field` of that scenario into this one";
                self.fault("", "this is a scenario, not a field in GeoJSON", way_out);
                return (None, vec![]);
            }
            let problem = "this is not a GeoJSON FeatureCollection";
            let way_out = "Write { \"type\": \"FeatureCollection\", \"features\": [...] }, as RFC 7946 has it";
            self.fault("", problem, way_out);
            return (None, vec![]);
        };
        if value.get("crs").is_some() {
            let problem = "`crs` is not read: GeoJSON is WGS84, longitude then latitude";
            self.faults.push(Fault::warning("/crs", problem, "Export it as WGS84 (EPSG:4326) and delete `crs`"));
        }
        let items = features.iter().enumerate();
        let items: Vec<_> =
            items.filter_map(|(index, feature)| self.item(feature, format!("/features/{index}"))).collect();
        self.winding(&items);
        let datum = self.the_only(&items, Role::Datum).and_then(|item| {
            let coordinates = self.point(item)?;
            self.degrees(coordinates, &format!("{}/geometry/coordinates", item.place))
        });
        self.plane = datum.map(|[longitude, latitude]| TangentPlane::new(latitude, longitude));
        let mut features = Vec::new();
        let file = self.field(&items, datum, &mut features);
        (file, features)
    }

    fn item<'a>(&mut self, feature: &'a Value, place: String) -> Option<Item<'a>> {
        if feature.get("type").and_then(Value::as_str) != Some("Feature") {
            self.fault(place, "this is not a GeoJSON Feature", "Write { \"type\": \"Feature\", ... }");
            return None;
        }
        let properties = feature.get("properties").unwrap_or(&Value::Null);
        let geometry = match serde_json::from_value::<Geometry>(feature.get("geometry").cloned().unwrap_or_default()) {
            Ok(geometry) => Some(only_piece(geometry.value)),
            Err(error) => {
                let problem = format!("the geometry can't be read: {error}");
                let way_out = "Write a Point, LineString or Polygon as RFC 7946 has it";
                self.fault(join(&place, "geometry"), problem, way_out);
                None
            }
        };
        let (geometry, piece) = geometry.map_or((None, ""), |(geometry, piece)| (Some(geometry), piece));
        let rings = format!("{place}/geometry/coordinates{piece}");
        let at = join(&place, "properties");
        let names = || Role::ALL.iter().map(|role| role.name());
        let listed = names().collect::<Vec<_>>().join(", ");
        let Some(name) = properties.get("role").and_then(Value::as_str) else {
            self.fault(at, "the feature has no role", format!("Add \"role\", one of: {listed}"));
            return None;
        };
        let Some(&role) = Role::ALL.iter().find(|role| role.name() == name) else {
            if let Some(new) = old_words::value(name, names()) {
                self.fault(join(&at, "role"), old_words::renamed(name, new), format!("Write \"{new}\" instead"));
                return None;
            }
            let way_out = format!("{}Write one of: {listed}", did_you_mean(name, names()));
            self.fault(join(&at, "role"), format!("\"{name}\" is not a role"), way_out);
            return None;
        };
        let found = role.shape().faults(properties, &at);
        let sound = found.is_empty();
        self.faults.extend(found);
        Some(Item { place, role, properties, sound, rings, geometry })
    }

    /// The only feature of a role that there must be one of.
    fn the_only<'a, 'b>(&mut self, items: &'a [Item<'b>], role: Role) -> Option<&'a Item<'b>> {
        let found = self.at_most_one(items, role);
        if found.is_none() {
            let problem = format!("no feature has the role \"{}\"", role.name());
            self.fault("/features", problem, "Add one; a field needs datum, boundary, pilot and home");
        }
        found
    }

    fn at_most_one<'a, 'b>(&mut self, items: &'a [Item<'b>], role: Role) -> Option<&'a Item<'b>> {
        let mut found = items.iter().filter(|item| item.role == role);
        let first = found.next();
        for more in found {
            let problem = format!("there is already a feature with the role \"{}\"", role.name());
            self.fault(&*more.place, problem, "Keep one of the two");
        }
        first
    }

    fn field(
        &mut self,
        items: &[Item<'_>],
        datum: Option<Metres>,
        places: &mut Vec<(String, String)>,
    ) -> Option<FieldFile> {
        let mut note = |part: &str, item: &Item<'_>| places.push((part.to_owned(), item.place.clone()));
        let boundary = self.the_only(items, Role::Boundary).and_then(|item| {
            note("/boundary", item);
            let (ring_m, holes_m) = self.polygon(item)?;
            Some(BoundaryFile { ring_m, holes_m })
        });
        let magnetic_declination = items.iter().find(|item| item.role == Role::Datum).and_then(|item| {
            note("/datum", item);
            note("/magnetic_declination", item);
            item.properties::<DatumProperties>().and_then(|datum| datum.magnetic_declination)
        });
        let (mut areas, mut obstacles, mut ground) = (vec![], vec![], vec![]);
        for item in items {
            match item.role {
                Role::Area => areas.extend(self.area(item).map(|area| (item, area))),
                Role::Obstacle => obstacles.extend(self.obstacle(item).map(|obstacle| (item, obstacle))),
                Role::Spot => ground.extend(self.spot(item).map(|spot| (item, spot))),
                _ => {}
            }
        }
        let areas = listed("/areas", areas, &mut note);
        let obstacles = listed("/obstacles", obstacles, &mut note);
        let ground = listed("/ground", ground, &mut note);
        let flight_line_m = self.at_most_one(items, Role::FlightLine).and_then(|item| {
            note("/flight_line_m", item);
            self.line(item)
        });
        let runway = self.at_most_one(items, Role::Runway).and_then(|item| {
            note("/runway", item);
            let (ends, properties) = (self.line(item), item.properties::<RunwayProperties>());
            let [from_m, to_m] = ends?;
            Some(RunwayFile { from_m, to_m, width: properties?.width })
        });
        let centre_m = self.at_most_one(items, Role::Centre).and_then(|item| {
            note("/centre_m", item);
            self.place(item)
        });
        let circuit = self.at_most_one(items, Role::Circuit).and_then(|item| {
            note("/circuit", item);
            self.circuit(item)
        });
        let pilot = self.the_only(items, Role::Pilot).and_then(|item| {
            note("/pilot_m", item);
            let facing = item.properties::<PilotProperties>().and_then(|pilot| pilot.facing);
            Some((self.place(item)?, facing))
        });
        let home_m = self.the_only(items, Role::Home).and_then(|item| {
            note("/home_m", item);
            self.place(item)
        });
        let [longitude_deg, latitude_deg] = datum?;
        let datum = Datum { latitude_deg, longitude_deg };
        let (boundary, (pilot_m, facing), home_m) = (boundary?, pilot?, home_m?);
        Some(FieldFile {
            datum,
            magnetic_declination,
            boundary,
            areas,
            obstacles,
            flight_line_m,
            runway,
            pilot_m,
            facing,
            home_m,
            centre_m,
            circuit,
            ground,
        })
    }

    fn area(&mut self, item: &Item<'_>) -> Option<AreaFile> {
        let polygon = self.polygon(item);
        let AreaProperties { name, rule, height, months, otherwise, .. } = item.properties()?;
        let (ring_m, holes_m) = polygon?;
        Some(AreaFile { name, rule, height, months, otherwise, ring_m, holes_m })
    }

    fn obstacle(&mut self, item: &Item<'_>) -> Option<ObstacleFile> {
        let (at_m, ring_m) = match &item.geometry {
            Some(GeometryValue::Point { .. }) => (Some(self.place(item)), Some(vec![])),
            Some(GeometryValue::Polygon { coordinates }) if coordinates.len() > 1 => {
                let way_out = "Leave the holes out; an obstacle is all of its ring";
                self.fault(format!("{}/geometry", item.place), "an obstacle has no holes", way_out);
                return None;
            }
            Some(GeometryValue::Polygon { .. }) => (None, self.polygon(item).map(|(ring, _)| ring)),
            _ => {
                self.wrong_geometry(item, "Point or a Polygon");
                return None;
            }
        };
        let ObstacleProperties { name, height, .. } = item.properties()?;
        let ring_m = ring_m?;
        match at_m {
            Some(at_m) => Some(ObstacleFile { name, height, at_m: Some(at_m?), ring_m }),
            None => Some(ObstacleFile { name, height, at_m: None, ring_m }),
        }
    }

    fn circuit(&mut self, item: &Item<'_>) -> Option<CircuitFile> {
        let (line_m, area_m) = match &item.geometry {
            Some(GeometryValue::LineString { coordinates }) => {
                let place = format!("{}/geometry/coordinates", item.place);
                (self.closed_line(coordinates, &place), Some(vec![]))
            }
            Some(GeometryValue::Polygon { coordinates }) if coordinates.len() > 1 => {
                let way_out = "Leave the holes out; a circuit is all of its ring";
                self.fault(format!("{}/geometry", item.place), "a circuit has no holes", way_out);
                return None;
            }
            Some(GeometryValue::Polygon { .. }) => (Some(vec![]), self.polygon(item).map(|(ring, _)| ring)),
            _ => {
                self.wrong_geometry(item, "closed LineString or a Polygon");
                return None;
            }
        };
        let CircuitProperties { way, width, lowest, highest, slowest, fastest, charge_low, charge_high, .. } =
            item.properties()?;
        let (line_m, area_m) = (line_m?, area_m?);
        Some(CircuitFile { line_m, area_m, way, width, lowest, highest, slowest, fastest, charge_low, charge_high })
    }

    fn spot(&mut self, item: &Item<'_>) -> Option<SpotFile> {
        let at_m = self.place(item);
        let SpotProperties { height, .. } = item.properties()?;
        Some(SpotFile { at_m: at_m?, height })
    }
}

/// A geometry, and where its rings stand below its coordinates: a MultiPolygon of one piece is a Polygon in other words.
fn only_piece(geometry: GeometryValue) -> (GeometryValue, &'static str) {
    match geometry {
        GeometryValue::MultiPolygon { mut coordinates } if coordinates.len() == 1 => {
            (GeometryValue::Polygon { coordinates: coordinates.remove(0) }, "/0")
        }
        other => (other, ""),
    }
}

/// The things of a list, each with a note of the feature it came from.
fn listed<'a, T>(list: &str, found: Vec<(&Item<'a>, T)>, note: &mut impl FnMut(&str, &Item<'a>)) -> Vec<T> {
    let noted = found.into_iter().enumerate().map(|(index, (item, thing))| {
        note(&format!("{list}/{index}"), item);
        thing
    });
    noted.collect()
}
