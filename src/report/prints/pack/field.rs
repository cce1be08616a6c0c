//! The field in numbers: the points, the boundary, the areas with their rules and months, the tall things, the ground.

use glam::DVec2;

use super::Flow;
use super::inputs::explained;
use super::table::{Cell, digits, text};
use crate::brief::Plan;
use crate::field::{AreaFile, FieldFile, Metres, Month, Rule, RuleName};
use crate::geometry::Region;
use crate::units::Bearing;
use crate::words::number;

/// Corners a row of a compact table.
const A_ROW: usize = 6;

impl Plan<'_> {
    pub(super) fn field_tables(&self, flow: &mut Flow<'_>) {
        let Some(file) = &self.scenario.file.field else { return };
        flow.part("Field: the points");
        let datum = file.datum;
        explained(
            flow,
            &format!(
                "Metres east (x) and north (y) of the datum at latitude {} deg, longitude {} deg, WGS84. {}",
                datum.latitude_deg,
                datum.longitude_deg,
                self.survey().told
            ),
        );
        self.point_table(flow, file);
        self.boundary_table(flow, file);
        self.area_table(flow, file);
        self.obstacle_table(flow, file);
        circuit_table(flow, file);
        let spots: Vec<String> =
            file.ground.iter().map(|spot| format!("{}: {}", place(spot.at_m), spot.height)).collect();
        if !spots.is_empty() {
            flow.part("Ground, above the ground at the datum");
            compact(flow, &spots);
        }
    }

    fn point_table(&self, flow: &mut Flow<'_>, file: &FieldFile) {
        let field = &self.scenario.field;
        let columns = [
            text("point", 70.0),
            digits("x, y", 52.0),
            digits("from the centre", 26.0),
            digits("bearing from the pilot position", 34.0),
        ];
        let mut points: Vec<(String, Metres)> = vec![
            ("datum".into(), [0.0, 0.0]),
            ("pilot position".into(), file.pilot_m),
            ("home as captured".into(), file.home_m),
            ("centre of the circle".into(), file.centre_m.unwrap_or(file.home_m)),
            ("loss".into(), self.scenario.file.loss.at_m),
        ];
        if let Some(strip) = &file.runway {
            points.push((format!("strip, one end, {} wide", strip.width), strip.from_m));
            points.push(("strip, the other end".into(), strip.to_m));
        }
        if let Some([from, to]) = file.flight_line_m {
            points.push(("flight line, one end".into(), from));
            points.push(("flight line, the other end".into(), to));
        }
        points.extend(
            self.scenario.file.brief.landmarks.iter().map(|mark| (format!("landmark: {}", mark.name), mark.at_m)),
        );
        let row = |(name, at): (String, Metres)| -> Vec<Cell> {
            let there = DVec2::from_array(at);
            let seen = there - field.pilot;
            let bearing = if seen.length() < 0.5 { "-".into() } else { format!("{:.0} deg", Bearing::of(seen).deg()) };
            vec![name.into(), place(at).into(), format!("{:.0} m", there.distance(field.centre)).into(), bearing.into()]
        };
        flow.table(&columns, &points.into_iter().map(row).collect::<Vec<_>>());
        let said =
            file.facing.map_or(field.facing_from.to_owned(), |facing| format!("{facing}, {}", field.facing_from));
        explained(
            flow,
            &format!("12 o'clock from the pilot position is towards {:.0} deg ({said}).", field.facing.deg()),
        );
    }

    fn boundary_table(&self, flow: &mut Flow<'_>, file: &FieldFile) {
        let field = &self.scenario.field;
        flow.part("Boundary, the land that may be flown over");
        let hectares = field.boundary.area_m2() / 10_000.0;
        let near = field.boundary.nearest(field.centre).distance;
        explained(
            flow,
            &format!("{hectares:.1} ha; its nearest edge is {near:.0} m from the centre. Corners in order:"),
        );
        compact(flow, &corners(&file.boundary.ring_m));
        for hole in &file.boundary.holes_m {
            explained(flow, "Land inside that is not ours:");
            compact(flow, &corners(hole));
        }
    }

    fn area_table(&self, flow: &mut Flow<'_>, file: &FieldFile) {
        flow.part("Areas, the ground with a rule");
        if file.areas.is_empty() {
            flow.paragraph("None are drawn.");
            return;
        }
        let field = &self.scenario.field;
        let columns = [
            digits("no.", 8.0),
            text("name", 64.0),
            text("rule", 44.0),
            text("on the day", 26.0),
            digits("area", 18.0),
            digits("from the centre", 22.0),
        ];
        let rows: Vec<Vec<Cell>> = (1..)
            .zip(file.areas.iter().zip(&field.areas))
            .map(|(index, (written, built))| {
                vec![
                    format!("{index}").into(),
                    written.name.as_str().into(),
                    rule(written).into(),
                    Cell::loud(today(built.rule), matches!(built.rule, Rule::NoFly | Rule::People)),
                    format!("{:.0} m2", built.region.area_m2()).into(),
                    away(&built.region, field.centre).into(),
                ]
            })
            .collect();
        flow.table(&columns, &rows);
        explained(flow, "Corners of the areas, by their numbers:");
        let rings = (1..).zip(&file.areas).flat_map(|(index, area)| {
            let holes = area.holes_m.iter().map(|hole| ("less ", hole));
            let rings = std::iter::once(("", &area.ring_m)).chain(holes);
            rings.flat_map(move |(kind, ring)| {
                corners(ring).into_iter().map(move |corner| format!("{kind}no. {index}: {corner}"))
            })
        });
        compact(flow, &rings.collect::<Vec<_>>());
    }

    fn obstacle_table(&self, flow: &mut Flow<'_>, file: &FieldFile) {
        flow.part("Tall things");
        if file.obstacles.is_empty() {
            flow.paragraph("None are drawn.");
            return;
        }
        let field = &self.scenario.field;
        let columns = [
            text("name", 56.0),
            digits("height", 18.0),
            digits("top over the datum", 24.0),
            digits("from the centre", 22.0),
            text("where, corners in order", 62.0),
        ];
        let rows: Vec<Vec<Cell>> = file
            .obstacles
            .iter()
            .zip(&field.obstacles)
            .map(|(written, built)| {
                let at = match written.at_m {
                    Some(at) => place(at),
                    None => corners(&written.ring_m).join("  "),
                };
                vec![
                    written.name.as_str().into(),
                    written.height.to_string().into(),
                    format!("{} m", number(built.top_m)).into(),
                    away(&built.region, field.centre).into(),
                    at.into(),
                ]
            })
            .collect();
        flow.table(&columns, &rows);
    }
}

/// Where the jet is flown, and so where losses are drawn from.
fn circuit_table(flow: &mut Flow<'_>, file: &FieldFile) {
    let Some(circuit) = &file.circuit else { return };
    flow.part("Circuit, from which losses are drawn");
    let (what, ring) = if circuit.line_m.is_empty() {
        ("Any heading over an area", &circuit.area_m)
    } else {
        ("A closed line", &circuit.line_m)
    };
    explained(
        flow,
        &format!(
            "{what}, flown {}, {} to either side (one standard deviation), {} to {} above home, {} to {}, with {} to {} of the \
             pack. Corners in order:",
            circuit.way.name(),
            circuit.width,
            circuit.lowest,
            circuit.highest,
            circuit.slowest,
            circuit.fastest,
            circuit.charge_low,
            circuit.charge_high
        ),
    );
    compact(flow, &corners(ring));
}

/// A place as entered.
fn place([x, y]: Metres) -> String {
    format!("({x}, {y})")
}

/// Corners of a ring, numbered, to the decimetre.
fn corners(ring: &[Metres]) -> Vec<String> {
    (1..).zip(ring).map(|(index, [x, y])| format!("{index} ({},{})", number(*x), number(*y))).collect()
}

/// Short entries, several a row.
fn compact(flow: &mut Flow<'_>, entries: &[String]) {
    let columns = [text("", 1.0); A_ROW];
    let row = |chunk: &[String]| {
        let filled = chunk.iter().map(|entry| Cell::from(entry.as_str()));
        filled.chain(std::iter::repeat_with(Cell::default)).take(A_ROW).collect::<Vec<_>>()
    };
    flow.table(&columns, &entries.chunks(A_ROW).map(row).collect::<Vec<_>>());
}

/// How far from the centre the nearest of it lies.
pub(super) fn away(region: &Region, centre: DVec2) -> String {
    if region.contains(centre) { "centre inside".into() } else { format!("{:.0} m", region.nearest(centre).distance) }
}

/// The rule of an area round the year.
pub(super) fn rule(area: &AreaFile) -> String {
    let name = |rule: RuleName| match (rule, area.height) {
        (RuleName::NoFly, _) => "no-fly".to_owned(),
        (RuleName::Above, Some(height)) => format!("only above {height}"),
        (RuleName::Above, None) => "only above a height".into(),
        (RuleName::People, _) => "people".into(),
        (RuleName::Caution, _) => "caution".into(),
    };
    if area.months.is_empty() {
        return format!("{}, all year", name(area.rule));
    }
    let months: Vec<&str> = area.months.iter().map(|month| short(*month)).collect();
    let otherwise = area.otherwise.map_or_else(|| "no rule".into(), name);
    format!("{} in {}; else {otherwise}", name(area.rule), months.join(", "))
}

fn short(month: Month) -> &'static str {
    match month {
        Month::Jan => "Jan",
        Month::Feb => "Feb",
        Month::Mar => "Mar",
        Month::Apr => "Apr",
        Month::May => "May",
        Month::Jun => "Jun",
        Month::Jul => "Jul",
        Month::Aug => "Aug",
        Month::Sep => "Sep",
        Month::Oct => "Oct",
        Month::Nov => "Nov",
        Month::Dec => "Dec",
    }
}

/// The rule of an area on the day of the flight.
pub(in crate::report::prints) fn today(rule: Rule) -> String {
    match rule {
        Rule::NoFly => "no-fly".into(),
        Rule::Above(height) => format!("only above {} m", number(height)),
        Rule::People => "people".into(),
        Rule::Caution => "caution".into(),
        Rule::Idle => "no rule".into(),
    }
}
