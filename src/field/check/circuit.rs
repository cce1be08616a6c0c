//! Everything wrong with a circuit, and the ground it leads over that it had better not.

use glam::DVec2;

use super::super::corners::{point, region};
use super::super::rings::{MOST_CORNERS, polygon, position};
use super::super::{AreaFile, CircuitFile, FieldFile, Loop, Metres, RuleName};
use crate::error::Fault;
use crate::error::json::join;
use crate::geometry::{HalfPlane, Region};
use crate::units::Quantity;

/// A circuit shorter than this is no way that a jet flies, metres.
const SHORTEST: f64 = 50.0;
/// How finely a line is looked at, metres, where it is not a very long one.
const STEP: f64 = 2.0;
/// Most places of a line, and most along each side of an area, that are looked at: a line of 4 km every 2 m, and an area by
/// as many; of what is longer they lie further apart (judgement: it is a warning, and work has an end).
const MOST_PLACES: (u32, u32) = (2_000, 40);

pub(super) fn check(circuit: &CircuitFile, file: &FieldFile, land: bool, place: &str, faults: &mut Vec<Fault>) {
    numbers(circuit, place, faults);
    let before = faults.len();
    let way_out = "Keep one of \"line_m\", the closed line flown, and \"area_m\", the ground flown over";
    match (circuit.line_m.as_slice(), circuit.area_m.as_slice()) {
        ([], []) => faults.push(Fault::error(place, "the circuit is nowhere", way_out)),
        ([_, ..], [_, ..]) => faults.push(Fault::error(place, "the circuit is both a line and an area", way_out)),
        (line, []) => self::line(line, &join(place, "line_m"), faults),
        ([], area) => {
            polygon((area, &join(place, "area_m")), (&[], place), faults);
        }
    }
    if faults.len() == before {
        over(circuit, file, land, place, faults);
    }
}

fn numbers(circuit: &CircuitFile, place: &str, faults: &mut Vec<Fault>) {
    within("width", circuit.width, [0.0, 500.0], place, faults);
    range(["lowest", "highest"], [circuit.lowest, circuit.highest], [0.1, 3000.0], place, faults);
    range(["slowest", "fastest"], [circuit.slowest, circuit.fastest], [1.0, 200.0], place, faults);
    range(["charge_low", "charge_high"], [circuit.charge_low, circuit.charge_high], [0.001, 1.0], place, faults);
}

fn within<Q: Quantity>(key: &str, value: Q, [low, high]: [f64; 2], place: &str, faults: &mut Vec<Fault>) -> bool {
    let sound = (low..=high).contains(&value.si());
    if !sound {
        let way_out = format!("Write {} between {} and {}", Q::KIND, Q::from_si(low), Q::from_si(high));
        faults.push(Fault::error(join(place, key), format!("{value} makes no sense here"), way_out));
    }
    sound
}

fn range<Q: Quantity>(keys: [&str; 2], ends: [Q; 2], bounds: [f64; 2], place: &str, faults: &mut Vec<Fault>) {
    let sound = [0, 1].map(|end| within(keys[end], ends[end], bounds, place, faults));
    if sound == [true; 2] && ends[0].si() > ends[1].si() {
        let problem = format!("`{}`, {}, is above `{}`, {}", keys[0], ends[0], keys[1], ends[1]);
        faults.push(Fault::error(join(place, keys[0]), problem, "Exchange the two"));
    }
}

fn line(line: &[Metres], place: &str, faults: &mut Vec<Fault>) {
    if line.len() > MOST_CORNERS {
        let problem = format!("{} corners are more than {MOST_CORNERS}", line.len());
        faults.push(Fault::error(place, problem, "Thin the line out; a corner every few metres is plenty"));
        return;
    }
    if !line.iter().enumerate().all(|(index, &at)| position(at, &format!("{place}/{index}"), faults)) {
        return;
    }
    let flown = Loop::new(&line.iter().copied().map(point).collect::<Vec<_>>());
    let (corners, length) = (flown.corners.len(), flown.length_m());
    if corners < 3 {
        let problem = format!("the circuit has {corners} different corners");
        faults.push(Fault::error(place, problem, "A closed line needs three or more"));
    } else if length < SHORTEST {
        let way_out = "Draw it as it is flown; positions are metres, not degrees";
        faults.push(Fault::error(place, format!("the circuit is {length:.1} m long"), way_out));
    }
}

/// What of it lies where it had better not, in metres of the line or in hectares of the area.
fn over(circuit: &CircuitFile, file: &FieldFile, land: bool, place: &str, faults: &mut Vec<Fault>) {
    let (places, each, unit, key) = looked_at(circuit);
    let share = |wrong: &dyn Fn(DVec2) -> bool| {
        #[allow(clippy::cast_precision_loss, reason = "few places")]
        let count = places.iter().filter(|&&at| wrong(at)).count() as f64;
        (count > 0.0).then_some(count * each)
    };
    let mut warn = |amount: Option<f64>, what: String, way_out: &str| {
        if let Some(amount) = amount {
            let amount = if unit == "m" { format!("{amount:.0} m") } else { format!("{amount:.2} {unit}") };
            faults.push(Fault::warning(join(place, key), format!("{amount} of the circuit {what}"), way_out));
        }
    };
    let way_out = "Draw it where it is flown; a loss there starts with the limit crossed";
    if land {
        let land = region(&file.boundary.ring_m, &file.boundary.holes_m);
        warn(share(&|at| !land.contains(at)), "lies outside the boundary".into(), way_out);
    }
    let barred = |area: &AreaFile| match area.rule {
        RuleName::NoFly => Some("is no-fly"),
        RuleName::People => Some("is people's"),
        RuleName::Above | RuleName::Caution => None,
    };
    let drawn = file.areas.iter().filter(|area| area.ring_m.len() > 2);
    for (area, rule) in drawn.filter_map(|area| Some((area, barred(area)?))) {
        let ground: Region = region(&area.ring_m, &area.holes_m);
        warn(share(&|at| ground.contains(at)), format!("lies over \"{}\", which {rule}", area.name), way_out);
    }
    let side = file.flight_line_m.and_then(|[a, b]| HalfPlane::away_from(point(a), point(b), point(file.pilot_m)));
    if let Some(side) = side {
        warn(share(&|at| side.signed_distance(at) < 0.0), "lies behind the flight line".into(), way_out);
    }
}

/// Places spread evenly over the circuit, how much each stands for, in which unit, and the key that says where it is.
fn looked_at(circuit: &CircuitFile) -> (Vec<DVec2>, f64, &'static str, &'static str) {
    let (most_along, most_across) = MOST_PLACES;
    if circuit.area_m.is_empty() {
        let line = Loop::new(&circuit.line_m.iter().copied().map(point).collect::<Vec<_>>());
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "cut to a small positive count")]
        let count = (line.length_m() / STEP).ceil().clamp(1.0, f64::from(most_along)) as u32;
        let each = line.length_m() / f64::from(count);
        return ((0..count).map(|index| line.place((f64::from(index) + 0.5) * each)).collect(), each, "m", "line_m");
    }
    let area = region(&circuit.area_m, &[]);
    let (low, high) = area.bounds();
    let cell = (high - low) / f64::from(most_across);
    let rows = (0..most_across).flat_map(|x| (0..most_across).map(move |y| DVec2::new(x.into(), y.into())));
    let places = rows.map(|index| low + (index + 0.5) * cell).filter(|&at| area.contains(at));
    (places.collect(), cell.x * cell.y / 10_000.0, "ha", "area_m")
}
