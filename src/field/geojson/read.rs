//! GeoJSON to a field in metres, with everything wrong in it.

use ::geojson::{Geometry, GeometryValue, Position};
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::super::{Datum, FieldFile, Metres, ObstacleFile, OutlineFile, PatchFile, RunwayFile, SpotFile};
use super::{ObstacleProperties, PatchProperties, Role, RunwayProperties, SpotProperties};
use crate::error::Fault;
use crate::error::json::{self, Lines, did_you_mean, join};
use crate::geometry::TangentPlane;

/// Furthest a place may be from the datum, metres.
const FURTHEST: f64 = 20_000.0;

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

/// Where in the GeoJSON each part of the field stands.
#[derive(Debug, Clone, Default)]
pub struct Places {
    features: Vec<(String, String)>,
    lines: Lines,
}

impl Places {
    /// The same fault with its place and line in the GeoJSON text.
    pub fn translate(&self, fault: Fault) -> Fault {
        let inside = |part: &str| {
            fault.place.strip_prefix(part).filter(|rest| rest.is_empty() || rest.starts_with('/')).map(str::to_owned)
        };
        let found = self.features.iter().find_map(|(part, feature)| Some((feature, inside(part)?)));
        let place = found.map_or(String::new(), |(feature, rest)| format!("{feature}{}", within(&rest)));
        Fault { line: self.lines.line(&place), place, ..fault }
    }
}

/// The place inside a feature of a place inside a part of the field.
fn within(rest: &str) -> String {
    let parts: Vec<&str> = rest.split('/').skip(1).collect();
    let corner = |index: Option<&&str>| index.map_or(String::new(), |index| format!("/{index}"));
    match parts.first() {
        Some(&"ring_m") => format!("/geometry/coordinates/0{}", corner(parts.get(1))),
        Some(&"holes_m") => {
            let ring = parts.get(1).and_then(|index| index.parse::<usize>().ok()).unwrap_or_default() + 1;
            format!("/geometry/coordinates/{ring}{}", corner(parts.get(2)))
        }
        Some(&("at_m" | "from_m" | "to_m")) => "/geometry/coordinates".into(),
        Some(index) if index.bytes().all(|byte| byte.is_ascii_digit()) => format!("/geometry/coordinates/{index}"),
        Some(&("latitude_deg" | "longitude_deg")) | None => "/geometry".into(),
        Some(key) => format!("/properties/{key}"),
    }
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
struct Item<'a> {
    place: String,
    role: Role,
    properties: &'a Value,
    /// None where the properties lack something.
    sound: bool,
    geometry: GeometryValue,
}

impl Item<'_> {
    fn properties<T: DeserializeOwned>(&self) -> Option<T> {
        self.sound.then(|| serde_json::from_value(self.properties.clone()).ok()).flatten()
    }
}

struct Reader {
    faults: Vec<Fault>,
    plane: Option<TangentPlane>,
}

impl Reader {
    fn fault(&mut self, place: impl Into<String>, problem: impl Into<String>, way_out: impl Into<String>) {
        self.faults.push(Fault::error(place, problem, way_out));
    }

    fn collection(&mut self, value: &Value) -> (Option<FieldFile>, Vec<(String, String)>) {
        let features = value.get("features").and_then(Value::as_array);
        let (Some("FeatureCollection"), Some(features)) = (value.get("type").and_then(Value::as_str), features) else {
            let problem = "this is not a GeoJSON FeatureCollection";
            let way_out = "Write { \"type\": \"FeatureCollection\", \"features\": [...] }, as RFC 7946 has it";
            self.fault("", problem, way_out);
            return (None, vec![]);
        };
        if value.get("crs").is_some() {
            let problem = "`crs` is not looked at: GeoJSON is WGS84, longitude then latitude";
            self.faults.push(Fault::warning("/crs", problem, "Export it as WGS84 (EPSG:4326) and delete `crs`"));
        }
        let items = features.iter().enumerate();
        let items: Vec<_> =
            items.filter_map(|(index, feature)| self.item(feature, format!("/features/{index}"))).collect();
        let datum = self.one(&items, Role::Datum).and_then(|item| {
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
            Ok(geometry) => Some(geometry.value),
            Err(error) => {
                let problem = format!("the geometry can't be read: {error}");
                let way_out = "Write a Point, LineString or Polygon as RFC 7946 has it";
                self.fault(join(&place, "geometry"), problem, way_out);
                None
            }
        };
        let at = join(&place, "properties");
        let names = || Role::ALL.iter().map(|role| role.name());
        let listed = names().collect::<Vec<_>>().join(", ");
        let Some(name) = properties.get("role").and_then(Value::as_str) else {
            self.fault(at, "the feature has no role", format!("Add \"role\", one of: {listed}"));
            return None;
        };
        let Some(&role) = Role::ALL.iter().find(|role| role.name() == name) else {
            let way_out = format!("{}Write one of: {listed}", did_you_mean(name, names()));
            self.fault(join(&at, "role"), format!("\"{name}\" is not a role"), way_out);
            return None;
        };
        let found = role.shape().faults(properties, &at);
        let sound = found.is_empty();
        self.faults.extend(found);
        Some(Item { place, role, properties, sound, geometry: geometry? })
    }

    /// The only feature of a role that there must be one of.
    fn one<'a, 'b>(&mut self, items: &'a [Item<'b>], role: Role) -> Option<&'a Item<'b>> {
        let found = self.at_most_one(items, role);
        if found.is_none() {
            let problem = format!("no feature has the role \"{}\"", role.name());
            self.fault("/features", problem, "Add one; a field needs datum, outline, stand and home");
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
        let outline = self.one(items, Role::Outline).and_then(|item| {
            note("/outline", item);
            let (ring_m, holes_m) = self.polygon(item)?;
            Some(OutlineFile { ring_m, holes_m })
        });
        if let Some(item) = items.iter().find(|item| item.role == Role::Datum) {
            note("/datum", item);
        }
        let (mut patches, mut obstacles, mut ground) = (vec![], vec![], vec![]);
        for item in items {
            match item.role {
                Role::Patch => {
                    patches.extend(self.patch(item).inspect(|_| note(&format!("/patches/{}", patches.len()), item)))
                }
                Role::Obstacle => obstacles
                    .extend(self.obstacle(item).inspect(|_| note(&format!("/obstacles/{}", obstacles.len()), item))),
                Role::Spot => {
                    ground.extend(self.spot(item).inspect(|_| note(&format!("/ground/{}", ground.len()), item)))
                }
                _ => {}
            }
        }
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
        let hub_m = self.at_most_one(items, Role::Hub).and_then(|item| {
            note("/hub_m", item);
            self.place(item)
        });
        let stand_m = self.one(items, Role::Stand).and_then(|item| {
            note("/stand_m", item);
            self.place(item)
        });
        let home_m = self.one(items, Role::Home).and_then(|item| {
            note("/home_m", item);
            self.place(item)
        });
        let [longitude_deg, latitude_deg] = datum?;
        let datum = Datum { latitude_deg, longitude_deg };
        let (outline, stand_m, home_m) = (outline?, stand_m?, home_m?);
        Some(FieldFile { datum, outline, patches, obstacles, flight_line_m, runway, stand_m, home_m, hub_m, ground })
    }

    fn patch(&mut self, item: &Item<'_>) -> Option<PatchFile> {
        let polygon = self.polygon(item);
        let PatchProperties { name, rule, height, months, otherwise, .. } = item.properties()?;
        let (ring_m, holes_m) = polygon?;
        Some(PatchFile { name, rule, height, months, otherwise, ring_m, holes_m })
    }

    fn obstacle(&mut self, item: &Item<'_>) -> Option<ObstacleFile> {
        let (at_m, ring_m) = match &item.geometry {
            GeometryValue::Point { .. } => (Some(self.place(item)), Some(vec![])),
            GeometryValue::Polygon { coordinates } if coordinates.len() > 1 => {
                let way_out = "Leave the holes out; an obstacle is all of its ring";
                self.fault(format!("{}/geometry", item.place), "an obstacle has no holes", way_out);
                return None;
            }
            GeometryValue::Polygon { .. } => (None, self.polygon(item).map(|(ring, _)| ring)),
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

    fn spot(&mut self, item: &Item<'_>) -> Option<SpotFile> {
        let at_m = self.place(item);
        let SpotProperties { height, .. } = item.properties()?;
        Some(SpotFile { at_m: at_m?, height })
    }

    fn wrong_geometry(&mut self, item: &Item<'_>, wanted: &str) {
        let problem = format!("{} can't be a {}", article(item.role.name()), item.geometry.type_name());
        self.fault(format!("{}/geometry", item.place), problem, format!("Make it a {wanted}"));
    }

    fn point<'a>(&mut self, item: &'a Item<'_>) -> Option<&'a Position> {
        if let GeometryValue::Point { coordinates } = &item.geometry {
            return Some(coordinates);
        }
        self.wrong_geometry(item, "Point");
        None
    }

    fn place(&mut self, item: &Item<'_>) -> Option<Metres> {
        let position = self.point(item)?;
        self.metres(position, &format!("{}/geometry/coordinates", item.place))
    }

    fn line(&mut self, item: &Item<'_>) -> Option<[Metres; 2]> {
        let place = format!("{}/geometry/coordinates", item.place);
        match &item.geometry {
            GeometryValue::LineString { coordinates } => match coordinates.as_slice() {
                [from, to] => {
                    let ends = (self.metres(from, &join(&place, "0")), self.metres(to, &join(&place, "1")));
                    Some([ends.0?, ends.1?])
                }
                more => {
                    self.fault(place, format!("{} positions where two are wanted", more.len()), "Keep its two ends");
                    None
                }
            },
            _ => {
                self.wrong_geometry(item, "LineString");
                None
            }
        }
    }

    fn polygon(&mut self, item: &Item<'_>) -> Option<(Vec<Metres>, Vec<Vec<Metres>>)> {
        let GeometryValue::Polygon { coordinates } = &item.geometry else {
            self.wrong_geometry(item, "Polygon");
            return None;
        };
        let place = |index: usize| format!("{}/geometry/coordinates/{index}", item.place);
        let rings = coordinates.iter().enumerate().map(|(index, ring)| self.ring(ring, &place(index)));
        let rings: Vec<_> = rings.collect();
        if rings.is_empty() {
            self.fault(format!("{}/geometry", item.place), "the Polygon has no ring", "Add its outer ring");
        }
        let mut rings = rings.into_iter().collect::<Option<Vec<_>>>()?.into_iter();
        Some((rings.next()?, rings.collect()))
    }

    fn ring(&mut self, ring: &[Position], place: &str) -> Option<Vec<Metres>> {
        let (first, last) = (ring.first(), ring.last());
        let closed = ring.len() > 1 && first.map(Position::as_slice) == last.map(Position::as_slice);
        if !closed {
            self.fault(place, "the ring is open", "Repeat its first position at the end, as RFC 7946 wants");
        }
        let corners = &ring[..ring.len() - usize::from(closed)];
        let mut whole = Vec::with_capacity(corners.len());
        for (index, position) in corners.iter().enumerate() {
            // One bad corner is enough to say of a ring.
            whole.push(self.metres(position, &format!("{place}/{index}"))?);
        }
        closed.then_some(whole)
    }

    /// Longitude and latitude that are on the globe.
    fn degrees(&mut self, position: &Position, place: &str) -> Option<Metres> {
        let &[longitude, latitude, ..] = position.as_slice() else {
            let problem = format!("a position of {} numbers", position.len());
            self.fault(place, problem, "Write [longitude, latitude], degrees");
            return None;
        };
        let fits = |longitude: f64, latitude: f64| longitude.abs() <= 180.0 && latitude.abs() <= 90.0;
        if fits(longitude, latitude) {
            return Some([longitude, latitude]);
        }
        let problem = format!("[{longitude}, {latitude}] is not a longitude and a latitude");
        if fits(latitude, longitude) {
            self.fault(place, format!("{problem}: they look swapped"), "Write longitude first, then latitude");
        } else {
            self.fault(place, problem, "Write degrees east, -180 to 180, then degrees north, -90 to 90");
        }
        None
    }

    fn metres(&mut self, position: &Position, place: &str) -> Option<Metres> {
        let [longitude, latitude] = self.degrees(position, place)?;
        let plane = self.plane?;
        let away = plane.distance_m(latitude, longitude);
        if away > FURTHEST {
            let problem = format!("[{longitude}, {latitude}] is {:.0} km from the datum", away / 1000.0);
            if plane.distance_m(longitude, latitude) <= FURTHEST {
                let problem = format!("{problem}, and near it with longitude and latitude swapped");
                self.fault(place, problem, "Write longitude first, then latitude");
            } else {
                self.fault(place, problem, "Check it and the datum; a field lies within 20 km of its datum");
            }
            return None;
        }
        // A tenth of a millimetre, so that what was tidy in metres is tidy again.
        Some(plane.to_metres(latitude, longitude).to_array().map(|metres| (metres * 1e4).round() / 1e4 + 0.0))
    }
}

fn article(name: &str) -> String {
    let vowel = name.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {name}", if vowel { "an" } else { "a" })
}
